package plan

import (
	"math"
	"slices"
	"sort"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/network"
)

// Answer is a sign with its result.
type Answer struct {
	Sign string `json:"sign"`
	Yes  bool   `json:"yes"`
}

// Prospect is one result of a check: how likely it is and what it would leave
// as the most probable fault.
type Prospect struct {
	Answers        []Answer `json:"answers"`
	Probability    float64  `json:"probability"`
	Top            string   `json:"top"`
	TopProbability float64  `json:"top_probability"`
}

// Proposal is one thing to do. A look names its cause and, where there is one,
// the check that does the looking; a question names its check.
type Proposal struct {
	Kind          Kind       `json:"kind"`
	Check         string     `json:"check,omitempty"`
	Cause         string     `json:"cause,omitempty"`     // the likeliest of Causes
	Causes        []string   `json:"causes,omitempty"`    // all that a look would show
	Made          bool       `json:"made,omitempty"`      // its check has been made: what is left is to put it right
	Confirmed     bool       `json:"confirmed,omitempty"` // its check has been done, and found it
	Stage         string     `json:"stage,omitempty"`
	Opens         []string   `json:"opens,omitempty"`
	Minutes       float64    `json:"minutes"`         // openings included, money left out
	Money         float64    `json:"money,omitempty"` // for what the openings use up
	Parts         float64    `json:"parts,omitempty"` // money for the parts of its likeliest cause, if it is that
	Bits          float64    `json:"bits"`
	BitsPerMinute float64    `json:"bits_per_minute"`
	Saved         float64    `json:"expected_minutes_saved"`
	Results       []Prospect `json:"results,omitempty"`
}

// Refusal is something not worth doing as things stand.
type Refusal struct {
	Check  string  `json:"check,omitempty"`
	Cause  string  `json:"cause,omitempty"`
	Reason Reason  `json:"reason"`
	Saves  float64 `json:"saves"`
	Costs  float64 `json:"costs"`
}

// Door is the decision about one shut stage: what opening it costs and saves.
type Door struct {
	Stage   string  `json:"stage"`
	Minutes float64 `json:"minutes"`
	Money   float64 `json:"money,omitempty"` // for what opening it uses up
	Saved   float64 `json:"saved"`
	Now     bool    `json:"now"`
}

// Course is the advice on a case.
type Course struct {
	Next     Proposal   `json:"next"`
	Together []Proposal `json:"together,omitempty"` // worth doing at the same depth
	Others   []Proposal `json:"others,omitempty"`
	Not      []Refusal  `json:"not,omitempty"`
	Doors    []Door     `json:"doors,omitempty"`
	Rate     float64    `json:"rate,omitempty"` // money for an hour: with it, prices count as minutes
	AtLeast  float64    `json:"at_least_minutes"`
	Minutes  float64    `json:"at_most_minutes"`
	// Closing is what else to look at before the machine is closed, if Next finds
	// its cause: what often comes with it.
	Closing []Proposal `json:"closing,omitempty"`
	// Instead is what minutes alone would have put first, when a cheap look at
	// the outside came before an opening.
	Instead *Proposal `json:"instead,omitempty"`
}

// All lists everything advised: the next step, what to look at before closing, what
// else is worth doing at that depth, and the runners-up.
func (c *Course) All() []Proposal {
	return slices.Concat([]Proposal{c.Next}, c.Closing, c.Together, c.Others)
}

// Opening anything that takes longer than this waits until every fault that a
// short look at what is open already would show has been looked at, unless such
// a fault is fainter than the share below. Adjustment comes before removal.
const (
	longOpening  = 15.0
	shortLook    = 12.0
	worthALook   = 0.05
	worthAsking  = 0.001 // bits a minute
	surely       = 0.85  // strength of a link whose sign identifies its cause
	shows        = 0.6   // and of one whose sign shows it well enough to be looked at before an opening
	mostOthers   = 4
	mostTogether = 7
	mostRefusals = 5
	mostBesides  = 3
)

// Propose returns what to do next on a case. The error is belief's or the
// planner's.
func Propose(s Situation) (*Course, error) {
	b, err := Lay(s)
	if err != nil {
		return nil, err
	}
	a, err := Advise(b.problem)
	if err != nil {
		return nil, err
	}
	c := &Course{Rate: s.Prices.Rate, AtLeast: a.AtLeast, Minutes: a.Minutes, Next: b.proposal(a.Next, a.Saved)}
	step := a.Next
	if first, ok := b.lookFirst(b.problem, a.Next); ok {
		instead := c.Next
		step, c.Instead, c.Next = first, &instead, b.proposal(first, 0)
	}
	if first, ok := b.upstream(b.problem, step); ok {
		step, c.Next = first, b.proposal(first, 0)
	}
	if c.Closing, err = b.closing(step); err != nil {
		return nil, err
	}
	named := map[string]bool{c.Next.key(): true}
	for _, p := range c.Closing {
		named[p.key()] = true
	}
	once := func(list *[]Proposal, most int, step Step) {
		if p := b.proposal(step, 0); len(*list) < most && !named[p.key()] {
			named[p.key()] = true
			*list = append(*list, p)
		}
	}
	for _, step := range a.Together {
		once(&c.Together, mostTogether, step)
	}
	for _, o := range a.Others {
		once(&c.Others, mostOthers, o.Step)
	}
	b.refusals(c, a)
	for _, o := range a.Openings {
		stage, _ := b.Catalog.Stage(b.stages[o.Stage])
		c.Doors = append(c.Doors, Door{stage.ID, stage.Minutes, b.Prices.Opening(stage), o.Saved, o.Now})
	}
	return c, nil
}

// key is the same for a check and for the look that it does.
func (p Proposal) key() string {
	if p.Check != "" {
		return p.Check
	}
	return string(p.Kind) + " " + p.Cause
}

// Best is the policy of [Propose]: the step that the look-ahead finds best,
// with adjustment before removal. The problem is that of the job, at any state.
func (b *Job) Best(p Problem) Step {
	s := Next(p)
	if first, ok := b.lookFirst(p, s); ok {
		s = first
	}
	if first, ok := b.upstream(p, s); ok {
		return first
	}
	return s
}

// lookFirst finds the short outside step that has to come before the opening, or
// the giving up, that the minutes alone would put first: a look that may well find
// it, a check that shows from outside what lies behind the opening, or, as long as
// nothing but hearsay is known, whatever tells most for its minutes.
func (b *Job) lookFirst(p Problem, next Step) (Step, bool) {
	opening := 0.0
	for _, s := range next.Opens {
		opening += p.Stages[s].Minutes
	}
	if opening <= longOpening && next.Kind != Service {
		return Step{}, false
	}
	best, ratio := Step{}, 0.0
	for i, l := range b.looks {
		chance := p.chance(l.faults)
		if at(p.Done, i) || chance < worthALook || slices.Contains(b.Done, l.check) {
			continue
		}
		if s := p.action(i); s.Minutes <= shortLook && chance/s.Minutes > ratio {
			best, ratio = s, chance/s.Minutes
		}
	}
	for i, faults := range b.proofs {
		chance := p.chance(b.shut(p, next, faults))
		if at(p.Asked, i) || chance < worthALook {
			continue
		}
		if s := p.question(i); s.Minutes <= shortLook && chance/s.Minutes > ratio {
			best, ratio = s, chance/s.Minutes
		}
	}
	if ratio == 0 && b.hearsay(p) {
		return b.telling(p)
	}
	return best, ratio > 0
}

// shut keeps of some faults those behind the long opening that a step is about to
// make; all that lie behind one if it looks for none in particular.
func (b *Job) shut(p Problem, next Step, faults []int) []int {
	var out []int
	for k, l := range b.looks {
		if _, minutes := p.opens(p.Actions[k].Stage); at(p.Done, k) || minutes <= longOpening || next.Kind == Look && k != next.Index {
			continue
		}
		for _, i := range l.faults {
			if slices.Contains(faults, i) {
				out = append(out, i)
			}
		}
	}
	return out
}

// hearsay reports whether nobody has laid a hand on the machine yet.
func (b *Job) hearsay(p Problem) bool {
	if len(b.Done)+len(b.Looked) > 0 || slices.Contains(p.Asked, true) || slices.Contains(p.Done, true) {
		return false
	}
	return !slices.ContainsFunc(b.Evidence, func(e network.Evidence) bool {
		s, _ := b.Catalog.Sign(e.Sign)
		return s.Kind != "complaint"
	})
}

// telling is the short step without a long opening that tells most for its
// minutes, if one tells anything.
func (b *Job) telling(p Problem) (Step, bool) {
	best, most := Step{}, worthAsking
	try := func(s Step) {
		if x := BitsPerMinute(p, s); s.Minutes <= shortLook && x > most {
			best, most = s, x
		}
	}
	for i := range p.Questions {
		try(p.question(i))
	}
	for i := range p.Actions {
		try(p.action(i))
	}
	return best, most > worthAsking
}

// chance is the probability that one of some faults is there.
func (p Problem) chance(faults []int) float64 {
	sum := 0.0
	for _, i := range faults {
		sum += p.Faults[i]
	}
	return sum
}

// findFinders picks the check that best shows each cause: one settling the sign
// that the cause's own rules bring most surely. A check that can be made where the
// cause is put right comes before one further in, however sure. One pass serves
// all causes.
func (b *Job) findFinders() {
	b.finders = map[string]finder{}
	best := map[string]float64{}
	for _, r := range b.Rules.Rules {
		s, isSign := b.Catalog.Sign(r.To)
		if r.From == "" || !isSign || s.Kind == "complaint" {
			continue
		}
		cause, _ := b.Catalog.Cause(r.From)
		for _, c := range b.Catalog.ChecksFor(r.To) {
			worth := r.Strength
			if b.onTheWay(c.Stage, cause.Stage) {
				worth++
			}
			if worth > best[r.From] && b.sensible(c.Needs) {
				b.finders[r.From], best[r.From] = finder{c.ID, r.To}, worth
			}
		}
	}
}

// onTheWay reports whether one stage is open whenever another is.
func (b *Job) onTheWay(stage, to string) bool {
	return slices.ContainsFunc(b.Catalog.StagePath(to), func(s catalog.Stage) bool { return s.ID == stage })
}

func (b *Job) proposal(s Step, saved float64) Proposal {
	p := Proposal{Kind: s.Kind, Saved: max(0, saved)}
	for _, o := range s.Opens {
		stage, _ := b.Catalog.Stage(b.stages[o])
		p.Opens = append(p.Opens, stage.ID)
		p.Money += b.Prices.Opening(stage)
	}
	p.Minutes = s.Minutes - b.Prices.Minutes(p.Money)
	if s.Kind == Service {
		return p
	}
	if p.Bits = Bits(b.problem, s); s.Minutes > 0 {
		p.BitsPerMinute = p.Bits / s.Minutes
	}
	if s.Kind == Ask {
		p.Check = b.asks[s.Index].check
		c, _ := b.Catalog.Check(p.Check)
		p.Stage, p.Results = c.Stage, b.prospects(s)
		return p
	}
	l := b.looks[s.Index]
	p.Check, p.Stage, p.Causes = l.check, l.stage, b.causes(s)
	p.Cause = p.Causes[0]
	c, _ := b.Catalog.Cause(p.Cause)
	p.Parts = b.Prices.Parts(c, b.Catalog.StagePath(c.Stage))
	p.Confirmed = b.confirmed(p.Cause)
	return p
}

// causes are those that a look can show, as things stand the likeliest first.
func (b *Job) causes(s Step) []string {
	faults := slices.Clone(b.looks[s.Index].faults)
	sort.SliceStable(faults, func(i, j int) bool { return b.problem.Faults[faults[i]] > b.problem.Faults[faults[j]] })
	var out []string
	for _, i := range faults {
		out = append(out, b.faults[i])
	}
	return out
}

// confirmed reports whether a sign that the cause's own rules bring almost
// surely has been seen by a check.
func (b *Job) confirmed(cause string) bool {
	for _, e := range b.Evidence {
		s, _ := b.Catalog.Sign(e.Sign)
		if !e.Yes() || s.Kind == "complaint" {
			continue
		}
		for _, l := range b.Network.Links {
			if b.Network.Variables[l.From].ID == cause && b.Network.Variables[l.To].ID == e.Sign && l.Strength >= surely {
				return true
			}
		}
	}
	return false
}

// prospects lists the results of a check, most likely first.
func (b *Job) prospects(s Step) []Prospect {
	q := b.asks[s.Index]
	var out []Prospect
	for _, o := range b.problem.Outcomes(s) {
		r := Prospect{Probability: o.Probability}
		for k, id := range q.signs {
			r.Answers = append(r.Answers, Answer{id, o.Result>>k&1 == 1})
		}
		if o.Next != nil {
			for i, p := range o.Next.Faults {
				if p > r.TopProbability {
					r.Top, r.TopProbability = b.faults[i], p
				}
			}
		}
		out = append(out, r)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Probability > out[j].Probability })
	return out
}

// refusals keeps those that look most tempting: the ones that would save most.
func (b *Job) refusals(c *Course, a Advice) {
	for _, l := range a.Left {
		r := Refusal{Reason: l.Reason, Saves: l.Saves, Costs: l.Costs}
		if l.Kind == Ask {
			r.Check = b.asks[l.Index].check
		} else {
			r.Cause, r.Check = b.faults[b.looks[l.Index].faults[0]], b.looks[l.Index].check
		}
		if !math.IsInf(l.Costs, 0) && l.Reason != CannotCure {
			c.Not = append(c.Not, r)
		}
	}
	sort.SliceStable(c.Not, func(i, j int) bool { return c.Not[i].Saves > c.Not[j].Saves })
	c.Not = c.Not[:min(len(c.Not), mostRefusals)]
}

// Target is what a step of a job is about: of a question its check, of a look the
// check that does the looking and the causes it would show.
type Target struct {
	Check  string
	Causes []string
}

// Target returns what a step of the job's problem is about; nothing for a
// service.
func (b *Job) Target(s Step) Target {
	switch s.Kind {
	case Service:
		return Target{}
	case Ask:
		return Target{Check: b.asks[s.Index].check}
	}
	l := b.looks[s.Index]
	return Target{l.check, append(b.causes(s), b.faint(l)...)}
}

// faint lists the causes that a look shows too, though they are too faint to be
// planned for: whoever looks at the linings sees all there is to be seen.
func (b *Job) faint(l look) (causes []string) {
	if slices.Contains(b.Done, l.check) {
		return nil
	}
	for _, c := range b.Catalog.Causes {
		if b.finders[c.ID].check == l.check && c.Stage == l.stage && !slices.Contains(b.faults, c.ID) && !slices.Contains(b.Looked, c.ID) {
			causes = append(causes, c.ID)
		}
	}
	return causes
}

// ShownBy returns the sign that shows a cause best, and the check that settles
// it; neither for a cause that nothing but its effects can show.
func (b *Job) ShownBy(cause string) (sign, check string) {
	f := b.finders[cause]
	return f.sign, f.check
}

// StageIDs returns the ids of stages given by their numbers, such as those that
// a step opens.
func (b *Job) StageIDs(stages []int) []string {
	var out []string
	for _, s := range stages {
		out = append(out, b.stages[s])
	}
	return out
}
