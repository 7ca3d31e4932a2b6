package practice

import (
	"errors"
	"math"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
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
	Tied   *Pair       `json:"tied,omitempty"`  // the two leading causes that it left as they were to each other

	Told    float64        `json:"told_bits"`         // the fall in entropy that came of it; below 0 when it left more open than before
	Worth   Worth          `json:"worth"`             // what it could have told
	Planner *plan.Proposal `json:"planner,omitempty"` // what the planner would have done instead; nil for questions, and where it would have done the same
	Same    bool           `json:"same"`              // it is what the planner would have done
	Checked string         `json:"checked,omitempty"` // the check of that proposal; "" when it would have put the cause right
}

// Pair is two causes and by how much the balance between them moved.
type Pair struct {
	A        string  `json:"a"` // the one that gained
	B        string  `json:"b"`
	Decibans float64 `json:"decibans"`
}

// Bounds of what is said to have been set apart: a balance between two causes
// that moved by a factor of two, or by less than a tenth.
const (
	apartAt = 3.0 // dB
	tiedAt  = 0.4 // dB
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
	s.pairs(before, after)
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
// most and the two it could not tell apart.
func (s *Step) pairs(before, after *View) {
	lead := s.Before[:min(len(s.Before), 4)]
	for i, a := range lead {
		for _, b := range lead[i+1:] {
			x, y := after.Of(a.Cause), after.Of(b.Cause)
			if x <= 0 || y <= 0 {
				continue
			}
			moved := belief.LikelihoodWeight(x / y * b.Probability / a.Probability)
			pair := Pair{a.Cause, b.Cause, moved}
			if moved < 0 {
				pair = Pair{b.Cause, a.Cause, -moved}
			}
			if pair.Decibans >= apartAt && (s.Apart == nil || pair.Decibans > s.Apart.Decibans) {
				s.Apart = &pair
			}
			if pair.Decibans < tiedAt && s.Tied == nil && min(x, y) >= InPlay {
				s.Tied = &pair
			}
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
	c, err := t.Book.Course(s.Move.Before, before)
	if err != nil {
		return err
	}
	s.Planner, s.Checked = &c.Next, ""
	if !c.Next.Confirmed && !has(s.Move.Before.Done, c.Next.Check) {
		s.Checked = c.Next.Check
	}
	s.Same = s.Move.Kind == Do && s.Move.ID == s.Checked || s.Move.Kind == Open && has(c.Next.Opens, s.Move.ID)
	return nil
}

// tells is by how much the answers of a check's best sign differ between two
// causes, each alone on the machine, 0 to 1.
func (b Book) tells(v *View, c catalog.Check, one, other string) float64 {
	p, q := v.Network.Brings(v.Network.Index(one)), v.Network.Brings(v.Network.Index(other))
	best := 0.0
	for _, id := range append(append([]string(nil), c.Settles...), b.readBy(c.Gives)...) {
		if i := v.Network.Index(id); i >= 0 {
			best = max(best, math.Abs(p[i]-q[i]))
		}
	}
	return best
}
