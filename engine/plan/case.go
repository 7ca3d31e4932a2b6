package plan

import (
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
}

// What enters the planner's problem. Fainter causes cannot change what is done
// next; a service elsewhere is the last resort, at the price of a day's work.
const (
	faintest       = 0.002 // posterior below which a cause is left out
	mostFaults     = 40
	jointSigns     = 3 // signs of one check taken jointly
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
}

// question is a check with the signs it would settle.
type question struct {
	check string
	signs []string
}

// layCase turns a situation into a problem. The error is belief's.
func layCase(s Situation) (*caseBoard, error) {
	b := &caseBoard{Situation: s}
	cond, err := belief.ConditionKeeping(s.Network.Graph, network.Findings(s.Evidence), s.Network.Of(fact.RoleCause), belief.DefaultBudget)
	if err != nil {
		return nil, err
	}
	places, posterior, err := b.likely(cond)
	if err != nil {
		return nil, err
	}
	b.layStages()
	b.layActions()
	return b, b.layQuestions(cond, places, posterior)
}

// likely picks the causes worth planning for and sets the fault probabilities:
// posteriors scaled to one fault, with "something else" keeping its own share.
func (b *caseBoard) likely(cond *belief.Conditioned) ([]int, []float64, error) {
	all := b.Network.Of(fact.RoleCause)
	p, err := cond.Posteriors(all)
	if err != nil {
		return nil, nil, err
	}
	none, err := cond.NoneOf(all)
	if err != nil {
		return nil, nil, err
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
		places, kept = append(places, all[i]), append(kept, p[i])
		b.faults = append(b.faults, b.Network.Variables[all[i]].ID)
		sum += p[i]
	}
	for _, x := range kept {
		b.problem.Faults = append(b.problem.Faults, x/sum*(1-none)*(1-1e-9))
	}
	return places, kept, nil
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
		b.problem.Open = append(b.problem.Open, open[s.ID])
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
func (b *caseBoard) layQuestions(cond *belief.Conditioned, places []int, posterior []float64) error {
	open := b.openChecks()
	var vars []int
	for _, q := range open {
		for _, s := range q.signs {
			vars = append(vars, b.Network.Index(s))
		}
	}
	outcomes, err := cond.Outcomes(vars, places)
	if err != nil {
		return err
	}
	at := 0
	for _, q := range open {
		mine := outcomes[at : at+len(q.signs)]
		at += len(q.signs)
		q.signs, mine = mostOpen(q.signs, mine)
		c, _ := b.Catalog.Check(q.check)
		b.asks = append(b.asks, q)
		b.problem.Questions = append(b.problem.Questions, Question{
			Stage: b.stage(c.Stage), Minutes: c.Minutes, Results: b.results(q.signs, mine, posterior),
		})
	}
	return nil
}

// openChecks lists the checks that are not done, that make sense on this
// machine, whose tools are at hand and that would settle something unanswered.
func (b *caseBoard) openChecks() []question {
	answered, done, missing := map[string]bool{}, set(b.Done), set(b.Without)
	for _, e := range b.Evidence {
		answered[e.Sign] = true
	}
	var out []question
	for _, c := range b.Catalog.Checks {
		if done[c.ID] || !b.sensible(c.Needs) || anyOf(c.Tools, missing) {
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

// sensible reports whether a `needs` condition does not say no.
func (b *caseBoard) sensible(needs string) bool {
	c, err := b.Rules.Parse(needs, b.Words)
	return err == nil && b.Rules.Ask(c, b.Known).Verdict != rule.No
}

func set(list []string) map[string]bool {
	out := map[string]bool{}
	for _, x := range list {
		out[x] = true
	}
	return out
}

func anyOf(list []string, in map[string]bool) bool {
	for _, x := range list {
		if in[x] {
			return true
		}
	}
	return false
}

// mostOpen keeps the signs whose answer is least certain: joint results double
// with every sign, and a sure answer tells nothing.
func mostOpen(signs []string, outcomes []belief.Outcome) ([]string, []belief.Outcome) {
	if len(signs) <= jointSigns {
		return signs, outcomes
	}
	order := make([]int, len(signs))
	for i := range order {
		order[i] = i
	}
	doubt := func(i int) float64 { return outcomes[i].Present * (1 - outcomes[i].Present) }
	sort.SliceStable(order, func(i, j int) bool { return doubt(order[i]) > doubt(order[j]) })
	order = order[:jointSigns]
	sort.Ints(order)
	var s []string
	var o []belief.Outcome
	for _, i := range order {
		s, o = append(s, signs[i]), append(o, outcomes[i])
	}
	return s, o
}

// results tabulates P(joint answer | fault). Signs are taken as independent
// once the fault is known. Bit i of the row is sign i being there.
func (b *caseBoard) results(signs []string, outcomes []belief.Outcome, posterior []float64) [][]float64 {
	n := len(posterior)
	yes := make([][]float64, len(signs))
	for k, id := range signs {
		s, _ := b.Catalog.Sign(id)
		yes[k] = make([]float64, n+1)
		for i := range n {
			yes[k][i] = within(s.Leak)
			if o := outcomes[k]; o.IfPresent != nil && posterior[i] > 0 {
				yes[k][i] = within(o.IfPresent[i] * o.Present / posterior[i])
			}
		}
		yes[k][n] = within(s.Leak)
	}
	rows := make([][]float64, 1<<len(signs))
	for r := range rows {
		rows[r] = make([]float64, n+1)
		for i := range rows[r] {
			p := 1.0
			for k := range signs {
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
