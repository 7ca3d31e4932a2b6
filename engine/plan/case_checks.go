package plan

import (
	"math"
	"slices"
	"sort"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/rule"
)

// layQuestions makes one question of every check that could still tell something.
func (b *Job) layQuestions(cond *belief.Conditioned, places []int) error {
	states, err := b.states(cond, places)
	if err != nil {
		return err
	}
	var asks []weighed
	showing := b.showing()
	for _, q := range b.openChecks() {
		yes := make([][]float64, len(q.signs))
		for k, id := range q.signs {
			yes[k] = b.answers(id, states)
		}
		w := b.mostTelling(q, yes, showing)
		if len(w.signs) > 0 {
			asks = append(asks, w)
		}
	}
	for _, w := range mostTellingOf(asks) {
		c, _ := b.Catalog.Check(w.check)
		b.asks, b.proofs = append(b.asks, w.question), append(b.proofs, w.shows)
		b.problem.Questions = append(b.problem.Questions, Question{
			Stage: b.stage(c.Stage), Minutes: c.Minutes, Results: results(w.yes),
		})
	}
	return nil
}

// weighed is a question with P(yes) of each sign and fault, and how far the
// answers of its best sign differ between the faults.
type weighed struct {
	question
	yes   [][]float64
	tells float64
	shows []int
}

// showing lists, for each sign that is looked for and not complained of, the faults
// whose own rules bring it often or more. Confirmed faults need no further proof.
func (b *Job) showing() map[string][]int {
	out := map[string][]int{}
	for i, id := range b.faults {
		if b.confirmed(id) {
			continue
		}
		for _, l := range b.Network.Links {
			to := b.Network.Variables[l.To].ID
			if s, isSign := b.Catalog.Sign(to); isSign && b.Network.Variables[l.From].ID == id && l.Strength >= shows && s.Kind != "complaint" {
				out[to] = append(out[to], i)
			}
		}
	}
	return out
}

// mostTellingOf keeps the best questions, in their order.
func mostTellingOf(asks []weighed) []weighed {
	if len(asks) <= mostAsks {
		return asks
	}
	all := make([]float64, len(asks))
	for i, w := range asks {
		all[i] = w.tells
	}
	sort.Float64s(all)
	least := all[len(all)-mostAsks]
	asks = slices.DeleteFunc(asks, func(w weighed) bool { return w.tells < least })
	return asks[:min(len(asks), mostAsks)]
}

// openChecks lists the checks that are not done, that make sense on this
// machine, whose tools are at hand and that would settle something unanswered.
func (b *Job) openChecks() []question {
	answered := map[string]bool{}
	for _, e := range b.Evidence {
		answered[e.Sign] = true
	}
	var out []question
	for _, c := range b.Catalog.Checks {
		missing := slices.ContainsFunc(c.Tools, func(tool string) bool { return slices.Contains(b.Without, tool) })
		if missing || slices.Contains(b.Done, c.ID) || !b.sensible(c.Needs) {
			continue
		}
		q := question{check: c.ID}
		for _, id := range c.Settles {
			s, _ := b.Catalog.Sign(id)
			if !answered[id] && b.sensible(s.Needs) {
				q.signs = append(q.signs, id)
			}
		}
		if len(q.signs) > 0 {
			out = append(out, q)
		}
	}
	return out
}

// sensible reports whether a `needs` condition does not say no. Many checks
// share one, so that each is asked once.
func (b *Job) sensible(needs string) bool {
	if needs == "" {
		return true
	}
	yes, asked := b.needs[needs]
	if !asked {
		yes = b.Rules.Needs(needs, b.Words, b.Known) != rule.No
		b.needs[needs] = yes
	}
	return yes
}

// mostTelling keeps the signs whose answers differ most between the faults:
// joint results double with every sign, and an answer that is the same whatever
// is wrong tells nothing. A sign that shows a fault worth a look stays, though the
// fault may be so likely that the answer is all but known.
func (b *Job) mostTelling(q question, yes [][]float64, showing map[string][]int) weighed {
	tells := func(k int) float64 {
		mean, spread := 0.0, 0.0
		for i, p := range b.problem.Faults {
			mean += p * yes[k][i]
		}
		for i, p := range b.problem.Faults {
			spread += p * math.Abs(yes[k][i]-mean)
		}
		return spread
	}
	var order []int
	telling := make([]float64, len(q.signs))
	for k := range q.signs {
		telling[k] = tells(k)
		if b.problem.chance(showing[q.signs[k]]) >= worthALook {
			telling[k] = max(telling[k], tellsApart)
		}
		if telling[k] >= tellsApart {
			order = append(order, k)
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return telling[order[i]] > telling[order[j]] })
	order = order[:min(len(order), jointSigns)]
	sort.Ints(order)
	w := weighed{question: question{check: q.check}}
	for _, k := range order {
		w.signs, w.yes, w.tells = append(w.signs, q.signs[k]), append(w.yes, yes[k]), max(w.tells, telling[k])
		for _, i := range showing[q.signs[k]] {
			if !slices.Contains(w.shows, i) {
				w.shows = append(w.shows, i)
			}
		}
	}
	return w
}

// results tabulates P(joint answer | fault). Signs are taken as independent
// once the fault is known. Bit k of the row is sign k being there.
func results(yes [][]float64) [][]float64 {
	rows := make([][]float64, 1<<len(yes))
	for r := range rows {
		rows[r] = make([]float64, len(yes[0]))
		for i := range rows[r] {
			p := 1.0
			for k := range yes {
				if r>>k&1 == 1 {
					p *= yes[k][i]
				} else {
					p *= 1 - yes[k][i]
				}
			}
			rows[r][i] = p
		}
	}
	return rows
}

// within keeps a probability off 0 and 1: nobody's answer is that sure.
func within(p float64) float64 { return min(0.999, max(0.001, p)) }
