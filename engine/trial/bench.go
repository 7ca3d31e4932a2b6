package trial

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// bench is one machine being worked on: what has been seen and done so far.
type bench struct {
	in     Input
	m      *sample.Machine
	net    *network.Network // as far as the history is told
	fired  []rule.Firing    // by the same
	job    *plan.Job        // laid out when something was last learnt
	now    plan.Problem     // the job's, with what was looked for since
	hand   Hand             // at work
	stale  bool             // looks in vain are not in the job yet
	asked  []string         // signs, in the order they were answered
	wrong  []string         // causes looked for or put right in vain
	open   []string         // stages
	done   []string         // checks
	misses map[string]int   // by cause: the looks that would miss it
	record
}

// record is what the work on one machine came to.
type record struct {
	minutes  float64
	steps    int
	wrong    int // parts replaced that were not bad
	needless int // stages opened with nothing bad at or inside
	gaveUp   bool
}

// budget of one judgement: a machine with a dozen signs present may take
// seconds; one case in twenty loses an answer or two to it.
var budget = belief.Budget{MaxCost: 2e7, MaxCells: 4e6}

// mostSteps ends work that goes in circles; none should.
const mostSteps = 200

// newBench lays the machine out as it was brought in.
func (in Input) newBench(m *sample.Machine) (*bench, error) {
	b := &bench{in: in, m: m, fired: in.Rules.Fire(m.Known()), misses: map[string]int{}, hand: Hand{Asks: true}}
	var err error
	if b.net, err = network.Build(in.Catalog, in.Rules, b.fired); err != nil {
		return nil, err
	}
	r := rand.New(rand.NewPCG(in.Seed, m.Luck()))
	for _, c := range in.Catalog.Causes {
		for r.Float64() > plan.Found {
			b.misses[c.ID]++
		}
	}
	for _, a := range m.Complaints() {
		b.asked = append(b.asked, a.Sign)
	}
	return b, b.lay()
}

// hidden lists the causes that are there and that no check shows.
func (b *bench) hidden() (causes []string) {
	for _, id := range b.m.Causes {
		if sign, _ := b.job.ShownBy(id); sign == "" {
			causes = append(causes, id)
		}
	}
	return causes
}

func (b *bench) clone() *bench {
	c := *b
	c.asked = slices.Clone(b.asked)
	return &c
}

// work follows a hand until the machine is cured or given up.
func (b *bench) work(h Hand) (record, error) {
	b.hand = h
	for b.steps < mostSteps {
		s := h.Choose(b.job, b.now)
		if s.Kind == plan.Service && b.stale {
			// before giving up, see what the looks in vain have brought to the fore
			if err := b.lay(); err != nil {
				return b.record, err
			}
			s = h.Choose(b.job, b.now)
		}
		b.steps++
		b.minutes += s.Minutes
		b.enter(s)
		var err error
		over := false
		switch s.Kind {
		case plan.Service:
			b.gaveUp, over = true, true
		case plan.Ask:
			err = b.ask(b.job.Target(s).Check)
		default:
			over, err = b.look(s)
		}
		if over || err != nil {
			return b.record, err
		}
	}
	return b.record, errors.New("the work goes in circles")
}

// enter opens what a step needs.
func (b *bench) enter(s plan.Step) {
	for _, id := range b.job.StageIDs(s.Opens) {
		if !b.within(id) {
			b.needless++
		}
		b.open = append(slices.Clone(b.open), id)
	}
}

// within reports whether something bad is to be put right at a stage or inside.
func (b *bench) within(stage string) bool {
	for _, id := range b.m.Causes {
		c, _ := b.in.Catalog.Cause(id)
		for _, s := range b.in.Catalog.StagePath(c.Stage) {
			if s.ID == stage {
				return true
			}
		}
	}
	return false
}

func (b *bench) ask(check string) error {
	for _, a := range b.m.Answers(check) {
		b.learn(a.Sign)
	}
	b.done = append(slices.Clone(b.done), check)
	return b.lay()
}

// learn notes that a sign has been looked at.
func (b *bench) learn(sign string) {
	if !slices.Contains(b.asked, sign) {
		b.asked = append(b.asked, sign)
	}
}

// look looks for causes, puts right what is found and tries the machine; it
// reports whether the complaint is gone.
func (b *bench) look(s plan.Step) (cured bool, err error) {
	found := b.find(b.job.Target(s).Causes)
	if len(found) == 0 {
		return false, b.pass(s)
	}
	if b.hand.LooksOn {
		if found, err = b.lookOn(found); err != nil {
			return false, err
		}
	}
	for _, cause := range found {
		b.putRight(cause, b.m.Has(cause))
	}
	b.minutes += b.now.TestMinutes
	b.m = b.m.PutRight(found...)
	if b.open = nil; b.m.Cured() {
		return true, nil
	}
	for _, a := range b.m.Complaints() {
		b.learn(a.Sign)
	}
	return false, b.lay()
}

// find looks for causes with one look and returns those found.
func (b *bench) find(causes []string) (found []string) {
	b.wrong = slices.Clone(b.wrong)
	for _, cause := range causes {
		before := count(b.wrong, cause)
		b.wrong = append(b.wrong, cause)
		bad := b.m.Has(cause)
		sign, _ := b.job.ShownBy(cause)
		if bad && before >= b.misses[cause] || !bad && b.m.Has(sign) {
			found = append(found, cause)
		}
	}
	return found
}

// lookOn looks at what else is worth a look before the machine is closed, until
// nothing is.
func (b *bench) lookOn(found []string) ([]string, error) {
	if err := b.lay(); err != nil { // what is open now
		return nil, err
	}
	seen := map[string]bool{}
	for {
		more, err := b.job.Besides(found, nil, func(id string) bool { return seen[id] || slices.Contains(b.wrong, id) })
		if err != nil || len(more) == 0 {
			return found, err
		}
		b.steps++
		b.minutes += more[0].Minutes
		for _, id := range more[0].Causes {
			seen[id] = true
		}
		found = append(found, b.find(more[0].Causes)...)
	}
}

// count is how often id stands in the list.
func count(list []string, id string) (n int) {
	for _, x := range list {
		if x == id {
			n++
		}
	}
	return n
}

// putRight pays for a remedy.
func (b *bench) putRight(cause string, bad bool) {
	c, _ := b.in.Catalog.Cause(cause)
	b.minutes += c.Remedy.Minutes
	if !bad {
		b.record.wrong++
	}
}

// pass takes a cause that was not found off the list. The planner's own sum
// serves until something is learnt that the whole network has to weigh.
func (b *bench) pass(s plan.Step) error {
	for _, o := range b.now.Outcomes(s) {
		if o.Result == plan.NotCured {
			b.now, b.stale = *o.Next, true
			return nil
		}
	}
	return b.lay() // the list held nothing else
}

// lay works out the beliefs and the problem anew. Answers that are too much for
// an exact judgement are left out, as the tool tells its user to.
func (b *bench) lay() error {
	s := plan.Situation{
		Catalog: b.in.Catalog, Rules: b.in.Rules, Words: b.in.Words, Network: b.net, Evidence: b.evidence(),
		Known: b.m.Known(), Done: b.done, Looked: b.wrong, Without: b.in.Without, Open: b.open,
		NoChecks: !b.hand.Asks,
	}
	s.Belief = func() (*belief.Conditioned, error) {
		return belief.ConditionKeeping(b.net.Graph, network.Findings(s.Evidence), b.net.Of(fact.RoleCause), budget)
	}
	again := plan.Lay
	if b.job != nil {
		again = b.job.Again
	}
	job, err := again(s)
	var much *belief.TooHardError
	for errors.As(err, &much) && len(much.Findings) > 0 {
		var kept []network.Evidence
		for i, e := range s.Evidence {
			if !slices.Contains(much.Findings, i) {
				kept = append(kept, e)
			}
		}
		s.Evidence = kept
		job, err = again(s)
	}
	if err != nil {
		return err
	}
	b.job, b.now, b.stale = job, job.Problem(), false
	return nil
}

// evidence is what the machine shows now of all that was asked, and what looks
// in vain say about causes.
func (b *bench) evidence() []network.Evidence {
	var said []network.Evidence
	for _, id := range b.asked {
		e := network.Evidence{Sign: id, Answer: "no", Absent: 1}
		if b.m.Has(id) {
			e = network.Evidence{Sign: id, Answer: "yes", Present: 1}
		}
		said = append(said, e)
	}
	for k, id := range b.wrong {
		if slices.Contains(b.wrong[:k], id) {
			continue
		}
		missed := math.Pow(1-plan.Found, float64(count(b.wrong, id)))
		said = append(said, network.Evidence{Sign: id, Answer: "no", Present: missed, Absent: 1})
	}
	return b.net.Evidence(said, b.in.Rules, b.fired)
}

// told is what the work takes if someone tells what is wrong: the cheapest set of
// causes that ends the complaint, all put right in one go. No hand can do better
// but by luck.
func (b *bench) told() float64 {
	best := b.now.ServiceMinutes
	for set := 1; set < 1<<len(b.m.Causes); set++ {
		var some []string
		for k, id := range b.m.Causes {
			if set>>k&1 == 1 {
				some = append(some, id)
			}
		}
		if minutes := b.costOf(some); minutes < best && b.m.Cured(some...) {
			best = minutes
		}
	}
	return best
}

// costOf is what it takes to open for some causes, look at them, put them right and
// try the machine.
func (b *bench) costOf(causes []string) float64 {
	minutes := b.now.TestMinutes
	opened := map[string]bool{}
	for _, id := range causes {
		c, _ := b.in.Catalog.Cause(id)
		minutes += c.LookMinutes + c.Remedy.Minutes
		for _, s := range b.in.Catalog.StagePath(c.Stage) {
			if !opened[s.ID] {
				opened[s.ID] = true
				minutes += s.Minutes
			}
		}
	}
	return minutes
}
