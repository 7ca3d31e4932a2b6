package plan

import (
	"maps"
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
	Looked   []string // ids of causes looked for or put right in vain: not to be tried again
	Without  []string // tools that are missing
	Open     []string // ids of stages that are open; those above them are too
	Prices   Prices
	NoChecks bool // weigh looks alone, for whoever asks nothing
	// Belief is the network under the evidence with all causes kept; nil has it
	// worked out here. Planning uses it up: hand out a clone.
	Belief func() (*belief.Conditioned, error)
}

// Prices turn money into minutes, so that one sum weighs both.
type Prices struct {
	Rate float64            // money for an hour of work; 0: money is not weighed
	Of   map[string]float64 // money, by the id of a cause or the name of a part
}

// Parts returns what the parts of a cause's remedy cost: the price of the cause
// where there is one, else of all its parts that have one.
func (p Prices) Parts(c catalog.Cause) float64 {
	if own, ok := p.Of[c.ID]; ok {
		return own
	}
	sum := 0.0
	for _, part := range c.Remedy.Parts {
		sum += p.Of[part]
	}
	return sum
}

// Minutes returns how long one works for this money, 0 without a rate.
func (p Prices) Minutes(money float64) float64 {
	if p.Rate <= 0 {
		return 0
	}
	return 60 * money / p.Rate
}

// What enters the planner's problem. Fainter causes cannot change what is done
// next; a service elsewhere is the last resort, at the price of a day's work.
const (
	faintest       = 0.002 // posterior below which a cause is left out
	mostFaults     = 16
	closely        = 8    // the likeliest faults for which the evidence's other effects are solved exactly
	tellsApart     = 0.05 // a check whose answers differ less between the faults is not weighed
	jointSigns     = 3    // signs of one check taken jointly
	mostAsks       = 30   // the most telling checks: weighing more takes time and changes nothing
	Found          = 0.98 // probability that a look at a bad part finds it and the remedy cures
	testMinutes    = 8.0
	serviceMinutes = 480.0
)

// Job is a case laid out as a problem, with the names behind its numbers. Steps
// of its problem are named by [Job.Proposal].
type Job struct {
	Situation
	problem Problem
	faults  []string // cause of each fault and action
	stages  []string
	asks    []question
	needs   map[string]bool   // conditions asked so far
	finders map[string]finder // by cause
}

// question is a check with the signs it would settle.
type question struct {
	check string
	signs []string
}

// finder is the check that best shows a cause, by a sign.
type finder struct{ check, sign string }

// Lay turns a situation into a problem. The error is belief's.
func Lay(s Situation) (*Job, error) {
	b := &Job{Situation: s, needs: map[string]bool{}}
	b.findFinders()
	return b, b.lay()
}

// Again is Lay for the same machine and history further on, where only the
// evidence and what was done and opened differ. It saves asking the knowledge
// anew what makes sense on this machine.
func (b *Job) Again(s Situation) (*Job, error) {
	c := &Job{Situation: s, needs: maps.Clone(b.needs), finders: b.finders}
	return c, c.lay()
}

func (b *Job) lay() error {
	if b.Belief == nil {
		b.Belief = func() (*belief.Conditioned, error) { return b.Network.Condition(b.Evidence) }
	}
	cond, err := b.Belief()
	if err != nil {
		return err
	}
	places, err := b.likely(cond)
	if err != nil {
		return err
	}
	b.layStages()
	b.layActions()
	if b.NoChecks {
		return nil
	}
	return b.layQuestions(cond, places)
}

// Problem returns the case as numbers, as it stands.
func (b *Job) Problem() Problem { return b.problem }

func (b *Job) layStages() {
	at := map[string]int{}
	open := map[string]bool{}
	for _, id := range b.Open {
		for _, s := range b.Catalog.StagePath(id) {
			open[s.ID] = true
		}
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
		free := s.Minutes == 0 && b.problem.opened(parent)
		b.problem.Open = append(b.problem.Open, open[s.ID] || free)
	}
}

func (b *Job) stage(id string) int {
	for i, s := range b.stages {
		if s == id {
			return i
		}
	}
	return Outside
}

func (b *Job) layActions() {
	b.problem.TestMinutes, b.problem.ServiceMinutes = testMinutes, serviceMinutes
	for i, id := range b.faults {
		c, _ := b.Catalog.Cause(id)
		b.problem.Actions = append(b.problem.Actions, Action{
			Stage: b.stage(c.Stage), LookMinutes: c.LookMinutes,
			RepairMinutes: c.Remedy.Minutes + b.Prices.Minutes(b.Prices.Parts(c)),
			Observable:    true, Cures: []Cure{{Fault: i, Probability: Found}},
		})
		b.problem.Done = append(b.problem.Done, slices.Contains(b.Looked, id))
	}
}
