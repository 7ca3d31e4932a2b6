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
	Looked   []string // ids of causes looked for or put right in vain: tried again only while still likely
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
// where there is one, else of all its parts that have one. What opening used up
// already is left out.
func (p Prices) Parts(c catalog.Cause, opened []catalog.Stage) float64 {
	if own, ok := p.Of[c.ID]; ok {
		return own
	}
	sum := 0.0
	for _, part := range c.Remedy.Parts {
		if !slices.ContainsFunc(opened, func(s catalog.Stage) bool { return slices.Contains(s.Uses, part) }) {
			sum += p.Of[part]
		}
	}
	return sum
}

// Opening returns what the parts cost that are used up each time a stage is opened.
func (p Prices) Opening(s catalog.Stage) float64 {
	sum := 0.0
	for _, part := range s.Uses {
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
	mostFaults     = 20
	closely        = 8    // the likeliest faults for which the evidence's other effects are solved exactly
	nearly         = 0.03 // and of these only the ones at least so likely
	tellsApart     = 0.05 // a check whose answers differ less between the faults is not weighed
	jointSigns     = 3    // signs of one check taken jointly
	mostAsks       = 30   // the most telling checks: weighing more takes time and changes nothing
	Found          = 0.98 // probability that a look at a bad part finds it and the remedy cures
	lookAgain      = 0.25 // a cause looked for in vain that is still so likely is looked for again
	testMinutes    = 8.0
	serviceMinutes = 480.0
)

// Job is a case laid out as a problem, with the names behind its numbers. Steps
// of its problem are named by [Job.Proposal].
type Job struct {
	Situation
	belief  *belief.Conditioned
	problem Problem
	faults  []string // cause of each fault
	looks   []look   // of each action
	stages  []string
	asks    []question
	proofs  [][]int           // of each question, the faults that it shows as surely as a look would nearly
	besides []float64         // P(cause | evidence) of each variable that is no fault of the problem
	needs   map[string]bool   // conditions asked so far
	finders map[string]finder // by cause
}

// question is a check with the signs it would settle.
type question struct {
	check string
	signs []string
}

// look is what one action looks at: the faults, likeliest first, that one check
// shows at one stage. Whoever measures the oil level sees too much and too little.
type look struct {
	check, stage string
	faults       []int
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
	var err error
	if b.belief, err = b.Belief(); err != nil {
		return err
	}
	places, err := b.likely(b.belief)
	if err != nil {
		return err
	}
	b.layStages()
	b.layActions()
	if b.NoChecks {
		return nil
	}
	return b.layQuestions(b.belief, places)
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
		b.problem.Stages = append(b.problem.Stages, Stage{Parent: parent, Minutes: s.Minutes + b.Prices.Minutes(b.Prices.Opening(s))})
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

// layActions makes one action of every look. A cause whose check has been made is
// an action of its own: what is left of it is to put it right.
func (b *Job) layActions() {
	b.problem.TestMinutes, b.problem.ServiceMinutes = testMinutes, serviceMinutes
	for i, id := range b.faults {
		c, _ := b.Catalog.Cause(id)
		own := look{b.finders[id].check, c.Stage, []int{i}}
		tried := slices.Contains(b.Looked, id) && b.problem.Faults[i] < lookAgain
		if k := b.shared(own); k >= 0 && !tried {
			b.looks[k].faults = append(b.looks[k].faults, i)
			continue
		}
		b.looks, b.problem.Done = append(b.looks, own), append(b.problem.Done, tried)
	}
	for _, l := range b.looks {
		b.problem.Actions = append(b.problem.Actions, b.layLook(l))
	}
}

// shared finds the look that shows what another one shows, or -1.
func (b *Job) shared(own look) int {
	if slices.Contains(b.Done, own.check) {
		return -1
	}
	for k, l := range b.looks {
		if l.check == own.check && l.stage == own.stage && !b.problem.Done[k] {
			return k
		}
	}
	return -1
}

// layLook lays one look out. Its faults take different times to put right; only
// one of them is there, so their mean by probability is right on average.
func (b *Job) layLook(l look) Action {
	a := Action{Stage: b.stage(l.stage), Observable: true}
	sum := 0.0
	for _, i := range l.faults {
		c, _ := b.Catalog.Cause(b.faults[i])
		p := b.problem.Faults[i]
		a.LookMinutes = max(a.LookMinutes, c.LookMinutes)
		a.RepairMinutes += p * (c.Remedy.Minutes + b.Prices.Minutes(b.Prices.Parts(c, b.Catalog.StagePath(c.Stage))))
		sum += p
		a.Cures = append(a.Cures, Cure{Fault: i, Probability: Found})
	}
	if sum > 0 {
		a.RepairMinutes /= sum
	}
	return a
}
