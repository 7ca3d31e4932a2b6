package practice

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// AskMinutes is what one question to the customer takes (common practice).
const AskMinutes = 1.0

// Kind is what a student did.
type Kind string

// The kinds of move.
const (
	Begun  Kind = "begun"  // nothing yet: what was told unasked
	Ask    Kind = "ask"    // the customer, for a sign
	Recall Kind = "recall" // the customer, for a fact of the history
	Open   Kind = "open"   // a stage
	Do     Kind = "do"     // a check
	Hint   Kind = "hint"   // what would the planner do
)

// Result is one thing learnt. Either Sign or Fact is set, or Reading.
type Result struct {
	Sign    string      `json:"sign,omitempty"`
	Answer  string      `json:"answer,omitempty"` // yes, no ...; unknown when it could not be told
	Fact    string      `json:"fact,omitempty"`
	Reading string      `json:"reading,omitempty"`
	Value   *fact.Value `json:"value,omitempty"` // nil when it could not be told
}

// Move is one step of an exercise with what it brought.
type Move struct {
	Kind    Kind     `json:"kind"`
	ID      string   `json:"id,omitempty"`
	Minutes float64  `json:"minutes"`          // openings included
	Opened  []string `json:"opened,omitempty"` // stages opened for it
	Results []Result `json:"results,omitempty"`

	Before, After State `json:"-"`
}

// Session is one student at one machine. The zero value is of no use; Begin
// makes one.
type Session struct {
	Book     Book
	Scenario *Scenario
	Now      State
	Moves    []Move

	Forecast Forecast // what was named, the likeliest first; empty while at work
	Reason   string
}

// MoveError is a move that cannot be made, with one hint at most.
type MoveError struct {
	Reason Refusal
	Kind   Kind
	ID     string
	Stages []string // those to be opened first
}

// Refusal is why a move cannot be made.
type Refusal string

// The refusals.
const (
	Unknown    Refusal = "unknown"    // no such word
	NotHere    Refusal = "not here"   // makes no sense on this machine
	MustCheck  Refusal = "must check" // not a thing a customer could know
	Repeated   Refusal = "repeated"   // done or open already
	Shut       Refusal = "shut"       // stages have to be opened first
	AlreadyOut Refusal = "over"       // a cause has been named
)

// Error names the move and the refusal; report words them for the student.
func (e *MoveError) Error() string {
	s := fmt.Sprintf("%s %s: %s", e.Kind, e.ID, e.Reason)
	if len(e.Stages) > 0 {
		s += ": " + strings.Join(e.Stages, ", ")
	}
	return s
}

// Begin sets a student before the machine: the sheet is known and what the
// customer tells unasked.
func (b Book) Begin(s *Scenario) *Session {
	t := &Session{Book: b, Scenario: s}
	first := Move{Kind: Begun, Before: t.Now.clone()}
	for _, id := range s.Known.IDs() {
		v, _ := s.Known.Get(id)
		if strings.HasPrefix(id, "machine.") {
			t.Now.Known.Put(id, v)
		} else if slices.Contains(s.Recalled, id) {
			t.Now.Known.Put(id, v)
			first.Results = append(first.Results, Result{Fact: id, Value: &v})
		}
	}
	for _, id := range s.Told {
		t.Now.Said = append(t.Now.Said, s.Signs[id])
		first.Results = append(first.Results, Result{Sign: id, Answer: s.Signs[id].Answer})
	}
	for _, g := range b.Catalog.Stages {
		if g.Minutes == 0 {
			t.Now.Paid = append(t.Now.Paid, g.ID)
		}
	}
	first.After = t.Now.clone()
	t.Moves = []Move{first}
	return t
}

// over refuses every move once a cause is named.
func (t *Session) over(kind Kind, id string) error {
	if len(t.Forecast) > 0 {
		return &MoveError{AlreadyOut, kind, id, nil}
	}
	return nil
}

// add makes a move: it runs do on the state and keeps what was before and after.
func (t *Session) add(m Move, do func(*Move)) Move {
	m.Before = t.Now.clone()
	do(&m)
	t.Now.Minutes += m.Minutes
	m.After = t.Now.clone()
	t.Moves = append(t.Moves, m)
	return m
}

// Ask asks the customer for a sign. Only complaints can be asked for; anything
// else has to be looked at.
func (t *Session) Ask(id string) (Move, error) {
	if err := t.over(Ask, id); err != nil {
		return Move{}, err
	}
	s, ok := t.Book.Catalog.Sign(id)
	_, again := t.Now.answered(id)
	switch {
	case !ok:
		return Move{}, &MoveError{Unknown, Ask, id, nil}
	case again || t.made(Ask, id):
		return Move{}, &MoveError{Repeated, Ask, id, nil}
	case s.Kind != complaint:
		return Move{}, &MoveError{MustCheck, Ask, id, nil}
	case !t.Book.Sensible(s.Needs, t.Scenario.Known):
		return Move{}, &MoveError{NotHere, Ask, id, nil}
	}
	return t.add(Move{Kind: Ask, ID: id, Minutes: AskMinutes}, func(m *Move) {
		e, known := t.Scenario.Signs[id]
		if !known || slices.Contains(t.Scenario.Vague, id) {
			m.Results = []Result{{Sign: id, Answer: "unknown"}}
			return
		}
		t.Now.Said = append(t.Now.Said, e)
		m.Results = []Result{{Sign: id, Answer: e.Answer}}
	}), nil
}

// Recall asks the customer for a fact of the history.
func (t *Session) Recall(id string) (Move, error) {
	if err := t.over(Recall, id); err != nil {
		return Move{}, err
	}
	f, ok := t.Book.Catalog.Fact(id)
	switch {
	case !ok || strings.HasPrefix(id, "machine."):
		return Move{}, &MoveError{Unknown, Recall, id, nil}
	case t.Now.Known.Known(id) || t.made(Recall, id):
		return Move{}, &MoveError{Repeated, Recall, id, nil}
	case !t.Book.Sensible(f.Needs, t.Scenario.Known):
		return Move{}, &MoveError{NotHere, Recall, id, nil}
	}
	return t.add(Move{Kind: Recall, ID: id, Minutes: AskMinutes}, func(m *Move) {
		m.Results = append(m.Results, t.recall(id))
	}), nil
}

// recall learns a fact, if the customer knows it.
func (t *Session) recall(id string) Result {
	v, known := t.Scenario.Known.Get(id)
	if !known || slices.Contains(t.Scenario.Vague, id) {
		return Result{Fact: id}
	}
	t.Now.Known.Put(id, v)
	return Result{Fact: id, Value: &v}
}

// Opens lists the stages to be opened to reach one, outermost first, and what
// they take in minutes, there and back.
func (t *Session) Opens(stage string) (ids []string, minutes float64) {
	for _, g := range t.Book.Catalog.StagePath(stage) {
		if !slices.Contains(t.Now.Paid, g.ID) {
			ids, minutes = append(ids, g.ID), minutes+g.Minutes
		}
	}
	return ids, minutes
}

// Open opens a stage and all above it.
func (t *Session) Open(id string) (Move, error) {
	if err := t.over(Open, id); err != nil {
		return Move{}, err
	}
	if _, ok := t.Book.Catalog.Stage(id); !ok {
		return Move{}, &MoveError{Unknown, Open, id, nil}
	}
	stages, minutes := t.Opens(id)
	if len(stages) == 0 {
		return Move{}, &MoveError{Repeated, Open, id, nil}
	}
	return t.add(Move{Kind: Open, ID: id, Minutes: minutes, Opened: stages}, func(*Move) {
		t.Now.Paid = append(t.Now.Paid, stages...)
	}), nil
}

// ShortOpening is what may be opened on the way to a check without a word, in
// minutes: putting the machine on its stand is no decision.
const ShortOpening = 5.0

// Do makes a check. Stages on the way that take longer than a moment have to be
// opened first.
func (t *Session) Do(id string) (Move, error) {
	if err := t.over(Do, id); err != nil {
		return Move{}, err
	}
	c, ok := t.Book.Catalog.Check(id)
	switch {
	case !ok:
		return Move{}, &MoveError{Unknown, Do, id, nil}
	case slices.Contains(t.Now.Done, id):
		return Move{}, &MoveError{Repeated, Do, id, nil}
	case !t.Book.Sensible(c.Needs, t.Scenario.Known):
		return Move{}, &MoveError{NotHere, Do, id, nil}
	}
	stages, minutes := t.Opens(c.Stage)
	if minutes > ShortOpening {
		return Move{}, &MoveError{Shut, Do, id, stages}
	}
	return t.add(Move{Kind: Do, ID: id, Minutes: minutes + c.Minutes, Opened: stages}, func(m *Move) {
		t.Now.Paid = append(t.Now.Paid, stages...)
		t.Now.Done = append(t.Now.Done, id)
		m.Results = t.results(c)
	}), nil
}

// results is what a check shows: facts it asks for, then readings, then signs.
// A sign that a reading settles is left to the reading, or it would count twice.
func (t *Session) results(c catalog.Check) []Result {
	var out []Result
	for _, id := range c.Asks {
		if !t.Now.Known.Known(id) && t.Scenario.Known.Known(id) {
			out = append(out, t.recall(id))
		}
	}
	for _, id := range c.Gives {
		if v, ok := t.Scenario.Readings.Get(id); ok {
			t.Now.Known.Put(id, v)
			out = append(out, Result{Reading: id, Value: &v})
		}
	}
	measured := t.Book.measured(t.Now.Known)
	for _, id := range c.Settles {
		s, _ := t.Book.Catalog.Sign(id)
		e, known := t.Scenario.Signs[id]
		if !known || measured[id] || !t.Book.Sensible(s.Needs, t.Scenario.Known) {
			continue
		}
		if _, again := t.Now.answered(id); !again {
			t.Now.Said = append(t.Now.Said, e)
		}
		out = append(out, Result{Sign: id, Answer: e.Answer})
	}
	return out
}

// measured lists the signs that readings settle.
func (b Book) measured(known fact.Set) map[string]bool {
	out := map[string]bool{}
	for i, f := range b.Fire(known) {
		if r := b.Rules.Rules[i]; r.Action == rule.Shows && f.Verdict != rule.Unknown {
			out[r.To] = true
		}
	}
	return out
}

// made reports whether a move was made before.
func (t *Session) made(kind Kind, id string) bool {
	return slices.ContainsFunc(t.Moves, func(m Move) bool { return m.Kind == kind && m.ID == id })
}

// Hint notes that the student was told what the planner would do.
func (t *Session) Hint() {
	t.add(Move{Kind: Hint}, func(*Move) {})
}

// Errors of Name.
var (
	ErrNothingNamed = errors.New("no cause is named")
	ErrTooSure      = errors.New("the shares add up to more than 100 %")
)

// Name ends the exercise with a forecast, the likeliest cause first, and the
// student's reason in words. The error is a *MoveError for an unknown cause, or
// one of the errors above.
func (t *Session) Name(f Forecast, reason string) error {
	if err := t.over("name", ""); err != nil {
		return err
	}
	if len(f) == 0 {
		return ErrNothingNamed
	}
	if f.Sum() > 1+1e-9 {
		return ErrTooSure
	}
	seen := map[string]bool{}
	for _, x := range f {
		if _, ok := t.Book.Catalog.Cause(x.Cause); !ok {
			return &MoveError{Unknown, "name", x.Cause, nil}
		}
		if seen[x.Cause] {
			return &MoveError{Repeated, "name", x.Cause, nil}
		}
		seen[x.Cause] = true
	}
	t.Forecast, t.Reason = slices.Clone(f), reason
	return nil
}

// Offers reports whether a move can still be made here, so that lists hold
// nothing that would be refused. Causes can always be named.
func (t *Session) Offers(kind Kind, id string) bool {
	switch kind {
	case Ask:
		s, ok := t.Book.Catalog.Sign(id)
		_, again := t.Now.answered(id)
		return ok && !again && s.Kind == complaint && !t.made(Ask, id) && t.Book.Sensible(s.Needs, t.Scenario.Known)
	case Recall:
		f, ok := t.Book.Catalog.Fact(id)
		return ok && !t.Now.Known.Known(id) && !t.made(Recall, id) && t.Book.Sensible(f.Needs, t.Scenario.Known)
	case Do:
		c, ok := t.Book.Catalog.Check(id)
		return ok && !slices.Contains(t.Now.Done, id) && t.Book.Sensible(c.Needs, t.Scenario.Known)
	case Open:
		stages, _ := t.Opens(id)
		return len(stages) > 0
	}
	return true
}
