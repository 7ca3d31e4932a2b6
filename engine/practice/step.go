package practice

import (
	"errors"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/plan"
)

// Step is one move with what it did to the beliefs.
type Step struct {
	Move Move `json:"move"`

	Before []Candidate `json:"before"` // in play before it
	After  []Candidate `json:"after"`
	Out    []string    `json:"out,omitempty"`   // out of play by it, those that were likeliest first
	In     []string    `json:"in,omitempty"`    // brought into play by it
	Apart  *Pair       `json:"apart,omitempty"` // the two leading causes that it set apart most, nil for none
	Tied   *Pair       `json:"tied,omitempty"`  // two leading causes that look alike and that it left as they were to each other
	Parts  *Telling    `json:"parts,omitempty"` // what could set these two apart

	Told    float64        `json:"told_bits"`         // the fall in entropy that came of it; below 0 when it left more open than before
	Worth   Worth          `json:"worth"`             // what it could have told
	Planner *plan.Proposal `json:"planner,omitempty"` // what the planner would have done instead; nil for questions, and where it would have done the same
	Same    bool           `json:"same"`              // it is what the planner would have done
	Checked string         `json:"checked,omitempty"` // the check of that proposal; "" when it would have put the cause right
	Takes   float64        `json:"takes,omitempty"`   // minutes of that check, openings included
	Tells   *Telling       `json:"tells,omitempty"`   // which two leading causes it could have set apart, nil for none

	Network *network.Network `json:"-"` // after it
}

// Pair is two causes and by how much the balance between them moved.
type Pair struct {
	A        string  `json:"a"` // the one that gained
	B        string  `json:"b"`
	Decibans float64 `json:"decibans"`
	// The result that did most of it, and how often each cause shows its sign.
	Sign  string  `json:"sign,omitempty"`
	There bool    `json:"there,omitempty"` // whether the sign is there
	ByA   float64 `json:"by_a,omitempty"`
	ByB   float64 `json:"by_b,omitempty"`
}

// Bounds of what is said to have been set apart: a balance between two causes
// that moved by a factor of two, or by less than a tenth.
const (
	apartAt = 3.0 // dB
	tiedAt  = 0.4 // dB
	saysAt  = 1.2 // times: a result that says less does not part two causes
	faint   = 0.01
	leading = 4 // causes that are looked at
)

// Step looks back at one move of the session.
func (t *Session) Step(i int) (Step, error) {
	m := t.Moves[i]
	s := Step{Move: m}
	before, err := t.Book.View(m.Before)
	if err != nil {
		return s, err
	}
	after := before
	if len(m.Results) > 0 {
		if after, err = t.Book.View(m.After); err != nil {
			return s, err
		}
	}
	s.Before, s.After = slices.Clone(before.InPlay()), slices.Clone(after.InPlay())
	s.Told = entropy(before.Causes) - entropy(after.Causes)
	s.moved()
	s.Network = after.Network
	t.pairs(&s, before, after)
	if err := t.weigh(&s, before); err != nil {
		return s, err
	}
	return s, t.compare(&s, before)
}

// moved lists what left the field and what came into it.
func (s *Step) moved() {
	in := func(list []Candidate, id string) bool {
		return slices.ContainsFunc(list, func(c Candidate) bool { return c.Cause == id })
	}
	for _, c := range s.Before {
		if !in(s.After, c.Cause) {
			s.Out = append(s.Out, c.Cause)
		}
	}
	for _, c := range s.After {
		if !in(s.Before, c.Cause) {
			s.In = append(s.In, c.Cause)
		}
	}
}

// pairs finds, among the leading causes before the move, the two it set apart
// most and two of the same looks that it could not tell apart.
func (t *Session) pairs(s *Step, before, after *View) {
	lead := s.Before[:min(len(s.Before), leading)]
	for i, a := range lead {
		for _, b := range lead[i+1:] {
			x, y := after.Of(a.Cause), after.Of(b.Cause)
			if x <= 0 || y <= 0 {
				continue
			}
			moved := belief.LikelihoodWeight(x / y * b.Probability / a.Probability)
			pair := Pair{A: a.Cause, B: b.Cause, Decibans: moved}
			if moved < 0 {
				pair = Pair{A: b.Cause, B: a.Cause, Decibans: -moved}
			}
			if pair.Decibans >= apartAt && (s.Apart == nil || pair.Decibans > s.Apart.Decibans) {
				s.Apart = &pair
			}
			if pair.Decibans < tiedAt && s.Tied == nil && min(x, y) >= InPlay && t.Book.alike(a.Cause, b.Cause) {
				s.Tied = &pair
			}
		}
	}
	if s.Apart != nil {
		s.Apart.by(before, after)
	}
	if s.Tied != nil {
		s.Parts = t.Book.telling(after, s.Move.After, s.Tied.A, s.Tied.B)
	}
}

// by names the result that speaks most for the first of a pair.
func (p *Pair) by(before, after *View) {
	a, b := after.Network.Brings(after.Network.Index(p.A)), after.Network.Brings(after.Network.Index(p.B))
	best := saysAt
	for _, e := range after.Evidence {
		i := after.Network.Index(e.Sign)
		if before.settles(e.Sign) || i < 0 {
			continue
		}
		x, y := a[i], b[i]
		if !e.Yes() {
			x, y = 1-x, 1-y
		}
		if ratio := (x + faint) / (y + faint); ratio > best {
			best, p.Sign, p.There, p.ByA, p.ByB = ratio, e.Sign, e.Yes(), a[i], b[i]
		}
	}
}

// weigh works out what the move could have told.
func (t *Session) weigh(s *Step, before *View) error {
	var signs []string
	switch s.Move.Kind {
	case Ask:
		signs = []string{s.Move.ID}
	case Do:
		c, _ := t.Book.Catalog.Check(s.Move.ID)
		signs = t.Book.signsOf(c, t.Scenario)
	default:
		return nil
	}
	var err error
	s.Worth, err = t.Book.worth(s.Move.Before, before, signs)
	var much *belief.TooHardError
	if errors.As(err, &much) {
		// Too dear to say: then it is not called idle.
		s.Worth, err = Worth{Moves: 1}, nil
	}
	return err
}

// compare asks the planner what it would have done.
func (t *Session) compare(s *Step, before *View) error {
	if s.Move.Kind != Do && s.Move.Kind != Open {
		return nil
	}
	a, err := t.Book.advise(s.Move.Before, before)
	if err != nil {
		return err
	}
	s.Planner, s.Checked, s.Takes, s.Tells = &a.Proposal, a.Check, a.Minutes, a.Tells
	s.Same = s.Move.Kind == Do && s.Move.ID == s.Checked || s.Move.Kind == Open && has(a.Proposal.Opens, s.Move.ID)
	return nil
}
