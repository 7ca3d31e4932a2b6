package plan

import (
	"math"
	"slices"
	"sort"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// Situation is a case as the planner sees it: what is believed, what has been
// done, what is open and what is at hand.
type Situation struct {
	Catalog  *catalog.Catalog
	Rules    *rule.Set
	Words    *fact.Vocabulary
	Network  *network.Network
	Evidence []network.Evidence
	Known    fact.Set
	Done     []string // ids of checks
	Without  []string // tools that are missing
	Open     string   // the deepest stage that is open; those above it are too
	// Belief is the network under the evidence with all causes kept; nil has it
	// worked out here. Planning uses it up: hand out a clone.
	Belief func() (*belief.Conditioned, error)
}

// What enters the planner's problem. Fainter causes cannot change what is done
// next; a service elsewhere is the last resort, at the price of a day's work.
const (
	faintest       = 0.002 // posterior below which a cause is left out
	mostFaults     = 16
	closely        = 8    // the likeliest faults for which the evidence's other effects are solved exactly
	tellsApart     = 0.05 // a check whose answers differ less between the faults is not weighed
	jointSigns     = 3    // signs of one check taken jointly
	testMinutes    = 8.0
	serviceMinutes = 480.0
)

// caseBoard is the problem with the names behind its numbers.
type caseBoard struct {
	Situation
	problem Problem
	faults  []string // cause of each fault and action
	stages  []string
	asks    []question
	needs   map[string]bool   // conditions asked so far
	finders map[string]string // cause -> the check that best shows it
}

// question is a check with the signs it would settle.
type question struct {
	check string
	signs []string
}

// layCase turns a situation into a problem. The error is belief's.
func layCase(s Situation) (*caseBoard, error) {
	b := &caseBoard{Situation: s, needs: map[string]bool{}}
	if s.Belief == nil {
		s.Belief = func() (*belief.Conditioned, error) { return s.Network.Condition(s.Evidence) }
	}
	cond, err := s.Belief()
	if err != nil {
		return nil, err
	}
	b.findFinders()
	places, err := b.likely(cond)
	if err != nil {
		return nil, err
	}
	b.layStages()
	b.layActions()
	return b, b.layQuestions(cond, places)
}

// likely picks the causes worth planning for and sets the fault probabilities:
// posteriors scaled to one fault, with "something else" keeping its own share.
func (b *caseBoard) likely(cond *belief.Conditioned) ([]int, error) {
	all := b.Network.Of(fact.RoleCause)
	p, err := cond.Posteriors(all)
	if err != nil {
		return nil, err
	}
	none, err := cond.NoneOf(all)
	if err != nil {
		return nil, err
	}
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return p[order[i]] > p[order[j]] })
	var places []int
	var kept []float64
	sum := 0.0
	for _, i := range order {
		if p[i] < faintest || len(places) == mostFaults {
			break
		}
		// A habit or a history explains a fault and cannot be looked at or put
		// right on the bench: what it did can.
		if b.finders[b.Network.Variables[all[i]].ID] == "" {
			continue
		}
		places, kept = append(places, all[i]), append(kept, p[i])
		b.faults = append(b.faults, b.Network.Variables[all[i]].ID)
		sum += p[i]
	}
	for _, x := range kept {
		b.problem.Faults = append(b.problem.Faults, x/sum*(1-none)*(1-1e-9))
	}
	return places, nil
}

func (b *caseBoard) layStages() {
	at := map[string]int{}
	open := map[string]bool{}
	for _, s := range b.Catalog.StagePath(b.Open) {
		open[s.ID] = true
	}
	// Parents first, as the core wants them; the catalog's order is free.
	sorted := append([]catalog.Stage(nil), b.Catalog.Stages...)
	sort.SliceStable(sorted, func(i, j int) bool { return b.Catalog.Depth(sorted[i].ID) < b.Catalog.Depth(sorted[j].ID) })
	for _, s := range sorted {
		parent := Outside
		if s.Parent != "" {
			parent = at[s.Parent]
		}
		at[s.ID] = len(b.stages)
		b.stages = append(b.stages, s.ID)
		b.problem.Stages = append(b.problem.Stages, Stage{Parent: parent, Minutes: s.Minutes})
		b.problem.Open = append(b.problem.Open, open[s.ID] || s.Minutes == 0)
	}
}

func (b *caseBoard) stage(id string) int {
	for i, s := range b.stages {
		if s == id {
			return i
		}
	}
	return Outside
}

func (b *caseBoard) layActions() {
	b.problem.TestMinutes, b.problem.ServiceMinutes = testMinutes, serviceMinutes
	for i, id := range b.faults {
		c, _ := b.Catalog.Cause(id)
		b.problem.Actions = append(b.problem.Actions, Action{
			Stage: b.stage(c.Stage), LookMinutes: c.LookMinutes, RepairMinutes: c.Remedy.Minutes,
			Observable: true, Cures: []Cure{{Fault: i, Probability: 0.98}},
		})
	}
}

// layQuestions makes one question of every check that could still tell something.
func (b *caseBoard) layQuestions(cond *belief.Conditioned, places []int) error {
	states, err := b.states(cond, places)
	if err != nil {
		return err
	}
	for _, q := range b.openChecks() {
		yes := make([][]float64, len(q.signs))
		for k, id := range q.signs {
			yes[k] = b.answers(id, states)
		}
		q.signs, yes = b.mostTelling(q.signs, yes)
		if len(q.signs) == 0 {
			continue
		}
		c, _ := b.Catalog.Check(q.check)
		b.asks = append(b.asks, q)
		b.problem.Questions = append(b.problem.Questions, Question{
			Stage: b.stage(c.Stage), Minutes: c.Minutes, Results: results(yes),
		})
	}
	return nil
}

// states gives, for each fault, how likely every cause and effect is if that
// fault is there along with the evidence. The last row is "something else".
func (b *caseBoard) states(cond *belief.Conditioned, places []int) ([][]float64, error) {
	var held []int
	for v, x := range b.Network.Variables {
		if x.Role != fact.RoleSign && cond.Holds(v) {
			held = append(held, v)
		}
	}
	rows := make([][]float64, len(places)+1)
	for i := range rows {
		rows[i] = make([]float64, len(b.Network.Variables))
		switch {
		case i == len(places): // something else: no cause is there
		case i >= closely:
			b.onlyFault(rows[i], places[i])
			continue
		default:
			p, err := cond.Given([]belief.Finding{belief.Yes(places[i])}, held)
			if err != nil {
				return nil, err
			}
			for k, v := range held {
				rows[i][v] = p[k]
			}
		}
		b.forward(rows[i], cond)
	}
	return rows, nil
}

// onlyFault fills a row as if that fault were the only one and nothing had been
// seen: near enough for a faint fault, whose answers hardly count.
func (b *caseBoard) onlyFault(p []float64, fault int) {
	p[fault] = 1
	for v, x := range b.Network.Variables {
		if v != fault && x.Role != fact.RoleSign {
			p[v] = b.shows(v, p)
			if x.Role == fact.RoleCause {
				p[v] -= b.Network.Graph.Variables[v].Leak * (1 - p[v])
			}
			p[v] = max(0, p[v])
		}
	}
}

// forward fills in the effects that no evidence reaches, from their causes.
func (b *caseBoard) forward(p []float64, cond *belief.Conditioned) {
	for _, v := range b.Network.Of(fact.RoleEffect) {
		if !cond.Holds(v) {
			p[v] = b.shows(v, p)
		}
	}
}

// shows is P(v | its parents), the parents taken as independent.
func (b *caseBoard) shows(v int, p []float64) float64 {
	x := b.Network.Graph.Variables[v]
	absent := 1 - x.Leak
	for k, parent := range x.Parents {
		absent *= 1 - x.Strengths[k]*p[parent]
	}
	return 1 - absent
}

// answers is P(sign there | fault) for each fault and for "something else",
// with the sign's parents taken as independent once fault and evidence are known.
func (b *caseBoard) answers(sign string, states [][]float64) []float64 {
	v := b.Network.Index(sign)
	out := make([]float64, len(states))
	for i, state := range states {
		out[i] = within(b.shows(v, state))
	}
	return out
}

// openChecks lists the checks that are not done, that make sense on this
// machine, whose tools are at hand and that would settle something unanswered.
func (b *caseBoard) openChecks() []question {
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
func (b *caseBoard) sensible(needs string) bool {
	if needs == "" {
		return true
	}
	yes, asked := b.needs[needs]
	if !asked {
		c, err := b.Rules.Parse(needs, b.Words)
		yes = err == nil && b.Rules.Ask(c, b.Known).Verdict != rule.No
		b.needs[needs] = yes
	}
	return yes
}

// mostTelling keeps the signs whose answers differ most between the faults:
// joint results double with every sign, and an answer that is the same whatever
// is wrong tells nothing.
func (b *caseBoard) mostTelling(signs []string, yes [][]float64) ([]string, [][]float64) {
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
	telling := make([]float64, len(signs))
	for k := range signs {
		if telling[k] = tells(k); telling[k] >= tellsApart {
			order = append(order, k)
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return telling[order[i]] > telling[order[j]] })
	order = order[:min(len(order), jointSigns)]
	sort.Ints(order)
	var s []string
	var y [][]float64
	for _, k := range order {
		s, y = append(s, signs[k]), append(y, yes[k])
	}
	return s, y
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
