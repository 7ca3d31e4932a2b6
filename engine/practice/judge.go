package practice

import (
	"errors"
	"math"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/plan"
)

// Judgement is what can be learnt from a finished exercise.
type Judgement struct {
	Scenario *Scenario `json:"scenario"`
	Forecast Forecast  `json:"forecast"`
	Reason   string    `json:"reason,omitempty"`
	Score    Score     `json:"score"`

	Steps    []Step    `json:"steps"` // one for each move, what was told unasked first
	Mistakes []Mistake `json:"mistakes"`
	End      *View     `json:"-"` // what was known when the cause was named
	// Explanation is the account of what was known then; nil when that is too dear
	// to work out.
	Explanation *explain.Explanation `json:"-"`

	InPlay  []Candidate `json:"in_play"`  // then
	Grounds float64     `json:"grounds"`  // probability of the first cause named, by what was known then
	TruthAt float64     `json:"truth_at"` // the same of the likeliest fault that is there
	Carried float64     `json:"carried"`  // Grounds as a share beside the other causes named, which confidence is held against

	Minutes float64 `json:"minutes"` // spent until a cause was named
	ToCure  float64 `json:"to_cure"` // until the machine works: repairs in vain and the rest of the search included
	Planner Par     `json:"planner"`
	Mark    Mark    `json:"mark"`
}

// Mark sums an exercise up: 100 at best.
type Mark struct {
	Way     float64 `json:"way"`     // 40: the planner's minutes to a cured machine over the student's
	Naming  float64 `json:"naming"`  // 40: Brier score of the forecast
	Grounds float64 `json:"grounds"` // 20: how far the confidence was what the findings carried
	Total   float64 `json:"total"`
}

// Weights of the mark's parts.
const (
	WayMark     = 40.0
	NamingMark  = 40.0
	GroundsMark = 20.0
)

// serviceMinutes is a day of work elsewhere, the last resort (common practice).
const serviceMinutes = 480.0

// Judge looks back at an exercise that is over. The error is belief's, or
// ErrNothingNamed.
func (t *Session) Judge() (*Judgement, error) {
	if len(t.Forecast) == 0 {
		return nil, ErrNothingNamed
	}
	j := &Judgement{Mistakes: []Mistake{}, Scenario: t.Scenario, Forecast: t.Forecast, Reason: t.Reason, Minutes: t.Now.Minutes, Score: t.Forecast.Score(t.Scenario.Truth)}
	for i := range t.Moves {
		s, err := t.Step(i)
		if err != nil {
			return nil, err
		}
		j.Steps = append(j.Steps, s)
	}
	v, err := t.Book.View(t.Now)
	if err != nil {
		return nil, err
	}
	j.End, j.InPlay, j.Grounds = v, slices.Clone(v.InPlay()), v.Of(t.Forecast[0].Cause)
	for _, id := range t.Scenario.Truth {
		j.TruthAt = max(j.TruthAt, v.Of(id))
	}
	j.Carried = t.Forecast.carried(v)
	if j.Explanation, err = t.explain(v); err != nil {
		return nil, err
	}
	if j.Planner, err = t.Book.Walk(t.Scenario); err != nil {
		return nil, err
	}
	if j.Planner.Gave {
		j.Planner.ToCure += serviceMinutes
	}
	if j.ToCure, err = t.toCure(); err != nil {
		return nil, err
	}
	if err := j.findMistakes(t, v); err != nil {
		return nil, err
	}
	j.mark()
	return j, nil
}

// toCure is the whole way of this student: what was named is put right in turn,
// and where that leaves a fault the planner finishes the job from there.
func (t *Session) toCure() (float64, error) {
	rest := &Session{Book: t.Book, Scenario: t.Scenario, Now: t.Now.clone(), Moves: slices.Clone(t.Moves)}
	w := walker{Session: rest, from: len(rest.Moves)}
	v, err := t.Book.View(t.Now)
	if err != nil {
		return 0, err
	}
	// Only what was named with some confidence is put right before more is asked.
	for i, x := range t.Forecast {
		if i > 0 && x.Probability < 0.25 {
			break
		}
		if w.repair(x.Cause, v) {
			return rest.Now.Minutes, nil
		}
	}
	p, err := rest.walkOn(thorough)
	if p.Gave {
		return rest.Now.Minutes + serviceMinutes, err
	}
	return rest.Now.Minutes, err
}

func (j *Judgement) mark() {
	way := 1.0
	if j.ToCure > 0 {
		way = min(1, j.Planner.ToCure/j.ToCure)
	}
	j.Mark.Way = WayMark * way
	j.Mark.Naming = NamingMark * (1 - j.Score.Brier/2)
	j.Mark.Grounds = GroundsMark * (1 - math.Abs(j.Forecast[0].Probability-j.Carried))
	j.Mark.Total = j.Mark.Way + j.Mark.Naming + j.Mark.Grounds
}

// MistakeKind is what was done wrong.
type MistakeKind string

// The mistakes, gravest first.
const (
	WrongCause  MistakeKind = "wrong cause"  // named what is not there
	OnlyDamage  MistakeKind = "only damage"  // named what the fault had led to
	SecondFault MistakeKind = "second fault" // one of several faults was not named
	NamedEarly  MistakeKind = "named early"  // named on too little
	LookAlike   MistakeKind = "look-alike"   // a cause of the same looks was not set apart
	TooSure     MistakeKind = "too sure"     // more confidence than the findings carry
	TooUnsure   MistakeKind = "too unsure"   // less
	OpenedEarly MistakeKind = "opened early" // opened with shorter looks still undone
	Idle        MistakeKind = "redundant"    // no result could have told anything
	NoHistory   MistakeKind = "not asked"    // history that would have helped
	TookHints   MistakeKind = "hints"        // the planner was asked
)

// Mistake is one of them with what it is about.
type Mistake struct {
	Kind    MistakeKind `json:"kind"`
	Step    int         `json:"step,omitempty"`  // the move it was made in; 0 for none
	Cause   string      `json:"cause,omitempty"` // the cause in question
	Other   string      `json:"other,omitempty"` // what it was or could be taken for
	Check   string      `json:"check,omitempty"` // what would have served
	Tells   *Telling    `json:"tells,omitempty"` // how it tells Other from Cause, or the fault left out from the one named
	Facts   []string    `json:"facts,omitempty"`
	Minutes float64     `json:"minutes,omitempty"` // of the check, or lost
	Stated  float64     `json:"stated,omitempty"`  // probability
	Held    float64     `json:"held,omitempty"`    // probability by the findings
	Count   int         `json:"count,omitempty"`
}

// Bounds of the mistakes.
const (
	groundsAt  = 0.6 // a cause less likely than this is named on too little
	offBy      = 0.2 // confidence may differ from the findings by this much
	settledAt  = 0.9 // a cause this likely has no look-alikes left
	likeWithin = 0.1 // a look-alike this likely is still one
	tellsAt    = 0.3 // a check tells two causes apart when its answers differ by this much
	historyAt  = 3.0 // decibans that history has to move the truth by
)

func (j *Judgement) findMistakes(t *Session, v *View) error {
	j.wrongNaming(v, t)
	j.unready(t, v)
	j.lookAlikes(t, v)
	j.confidence()
	j.openings(t)
	j.idle()
	if err := j.history(t); err != nil {
		return err
	}
	hints := 0
	for _, s := range j.Steps {
		if s.Move.Kind == Hint {
			hints++
		}
	}
	if hints > 0 {
		j.Mistakes = append(j.Mistakes, Mistake{Kind: TookHints, Count: hints})
	}
	return nil
}

// wrongNaming is about what was named.
func (j *Judgement) wrongNaming(v *View, t *Session) {
	first := j.Forecast[0]
	truth := j.Scenario.Truth[0]
	switch {
	case j.Scenario.Fault(first.Cause):
		for _, id := range j.Scenario.Truth {
			if !slices.ContainsFunc(j.Forecast, func(x Share) bool { return x.Cause == id }) {
				j.Mistakes = append(j.Mistakes, Mistake{Kind: SecondFault, Cause: id}.by(t.Book.telling(v, t.Now, id, first.Cause)))
			}
		}
	case j.Scenario.Damage(first.Cause):
		j.Mistakes = append(j.Mistakes, Mistake{Kind: OnlyDamage, Cause: first.Cause, Other: truth}.by(t.Book.telling(v, t.Now, truth, first.Cause)))
	default:
		lost := j.ToCure - j.Minutes
		m := Mistake{Kind: WrongCause, Cause: first.Cause, Other: truth, Minutes: lost, Held: j.Grounds}
		j.Mistakes = append(j.Mistakes, m.by(t.Book.telling(v, t.Now, truth, first.Cause)))
	}
}

// unready finds a cause named while the findings did not yet carry it and a
// check was still to be had.
func (j *Judgement) unready(t *Session, v *View) {
	if j.Grounds >= groundsAt {
		return
	}
	a, err := t.Book.advise(t.Now, v)
	if err != nil || a.Proposal.Kind == plan.Service {
		return
	}
	m := Mistake{Kind: NamedEarly, Cause: j.Forecast[0].Cause, Held: j.Grounds, Stated: j.Forecast[0].Probability, Count: len(j.InPlay)}
	if a.Check != "" {
		m.Check, m.Minutes = a.Check, a.Minutes
	}
	j.Mistakes = append(j.Mistakes, m)
}

// lookAlikes finds causes that look like the one named, are still likely, and
// that a check not done would have set apart. The fault itself is no look-alike
// of what was named in its place: that is the wrong cause, and told.
func (j *Judgement) lookAlikes(t *Session, v *View) {
	if j.Grounds >= settledAt {
		return // what is left standing beside it is a further fault at most
	}
	named, _ := t.Book.Catalog.Cause(j.Forecast[0].Cause)
	found := 0
	for _, c := range j.InPlay {
		other, _ := t.Book.Catalog.Cause(c.Cause)
		alike := has(named.ConfusedWith, c.Cause) || has(other.ConfusedWith, named.ID) || c.Probability >= j.Grounds/4
		truth := j.Scenario.Fault(c.Cause) || j.Scenario.Damage(c.Cause)
		told := truth && j.Scenario.Fault(named.ID) || c.Cause == j.Scenario.Truth[0]
		if c.Cause == named.ID || !alike || c.Probability < likeWithin || told {
			continue
		}
		tells := t.Book.telling(v, t.Now, c.Cause, named.ID)
		if tells == nil || found == 2 {
			continue
		}
		found++
		j.Mistakes = append(j.Mistakes, Mistake{Kind: LookAlike, Cause: named.ID, Other: c.Cause, Held: c.Probability}.by(tells))
	}
}

// confidence holds what was said against what the findings carry.
func (j *Judgement) confidence() {
	first := j.Forecast[0]
	m := Mistake{Cause: first.Cause, Stated: first.Probability, Held: j.Carried}
	switch {
	case first.Probability > j.Carried+offBy:
		m.Kind = TooSure
	case first.Probability < j.Carried-offBy:
		m.Kind = TooUnsure
	default:
		return
	}
	j.Mistakes = append(j.Mistakes, m)
}

// openings finds what was opened while the planner would have done something
// shallower first.
func (j *Judgement) openings(t *Session) {
	for i, s := range j.Steps {
		deeper := i > 0 && j.Steps[i-1].Move.Kind == Open // one decision, and named once
		if s.Move.Kind != Open || deeper || s.Planner == nil || s.Checked == "" || s.Same {
			continue
		}
		paid := 0.0
		for _, id := range s.Planner.Opens {
			g, _ := t.Book.Catalog.Stage(id)
			paid += g.Minutes
		}
		if s.Move.Minutes > ShortOpening && paid < s.Move.Minutes {
			j.Mistakes = append(j.Mistakes, Mistake{Kind: OpenedEarly, Step: i, Other: s.Move.ID, Check: s.Checked, Minutes: s.Move.Minutes, Stated: s.Takes})
		}
	}
}

// idle finds checks and questions that could not have told anything.
func (j *Judgement) idle() {
	for i, s := range j.Steps {
		if s.Move.Kind == Do && s.Worth.Idle() && !s.Same {
			j.Mistakes = append(j.Mistakes, Mistake{Kind: Idle, Step: i, Check: s.Move.ID, Minutes: s.Move.Minutes})
		}
	}
}

// history finds what the customer could have told and was not asked, when it
// would have moved the truth.
func (j *Judgement) history(t *Session) error {
	s := t.Now.clone()
	var facts []string
	truth := j.Scenario.Truth[0]
	first, err := t.Book.View(s)
	if err != nil {
		return err
	}
	at := belief.Decibans(first.Of(truth))
	for _, id := range j.Scenario.Known.IDs() {
		v, _ := j.Scenario.Known.Get(id)
		if s.Known.Known(id) || has(j.Scenario.Vague, id) || !t.Book.matters(id, truth) {
			continue
		}
		one := s.clone()
		one.Known.Put(id, v)
		w, err := t.Book.View(one)
		if err != nil {
			return err
		}
		if moved := belief.Decibans(w.Of(truth)) - at; moved >= historyAt {
			facts = append(facts, id)
		}
	}
	if len(facts) > 0 {
		j.Mistakes = append(j.Mistakes, Mistake{Kind: NoHistory, Cause: truth, Facts: facts})
	}
	return nil
}

// matters reports whether a rule about a cause asks for a fact.
func (b Book) matters(id, cause string) bool {
	for _, r := range b.Rules.Rules {
		if r.When != nil && has(r.Touches(), cause) && has(r.When.Words(), id) {
			return true
		}
	}
	return false
}

// explain is the full account of what was known when the cause was named. A
// balance runs over every beginning of the evidence, so that it can be too dear
// where one view is not.
func (t *Session) explain(v *View) (*explain.Explanation, error) {
	ex, err := explain.New(explain.Input{
		Catalog: t.Book.Catalog, Rules: t.Book.Rules, Firings: v.Firings, Network: v.Network, Evidence: v.Evidence,
		Words: t.Book.Words, Known: t.Now.Known, Belief: v.belief,
	})
	var much *belief.TooHardError
	if errors.As(err, &much) {
		return nil, nil
	}
	return ex, err
}
