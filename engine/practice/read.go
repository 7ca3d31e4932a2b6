package practice

import (
	"math/rand/v2"
	"slices"
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
	"example.org/takeup/engine/source"
)

// Codes of the problems of scenarios and written ways. A code never changes its
// meaning.
const (
	CodeNoTruth  = "L101" // a case to practise on without found
	CodeNotTold  = "L102" // told unasked, but not in the case
	CodeLevel    = "L103" // a level that there is not
	CodeNoFault  = "L104" // a fault that this machine cannot have
	CodeNothing  = "L105" // a case in which nothing is complained of
	CodeMove     = "L121" // a move that is none
	CodeWord     = "L122" // unknown sign, fact, check, stage or cause in a move
	CodeRefused  = "L123" // a move that could not be made (warning)
	CodeSure     = "L124" // a confidence that is no percentage
	CodeNotNamed = "L125" // a way that names no cause
	CodeWhich    = "L126" // a way that does not say which case it belongs to
)

// rawPractice is the block practice of a case file: how it is told. All of it can
// be left out.
type rawPractice struct {
	Pos      source.Pos    `yaml:"-"`
	Level    source.Text   `yaml:"level"`
	Seed     int           `yaml:"seed"`
	Told     []source.Text `yaml:"told"`
	Recalled []source.Text `yaml:"recalled"`
	Vague    []source.Text `yaml:"vague"`
}

// Scenario makes a case with its truth under found into an exercise. Signs and
// readings that the case gives are fixed; what it leaves open is drawn from the
// truth, the same every time. Without a block practice the complaints answered
// yes and the whole history are told unasked.
func (b Book) Scenario(c *intake.Case) (*Scenario, source.Problems) {
	var ps source.Problems
	var raw rawPractice
	source.Decode(c.Practice, &raw, &ps)
	at := source.Pos{File: c.File, Line: 1, Column: 1}
	if c.Practice != nil {
		at = c.Practice.Pos()
	}
	s := &Scenario{
		Title: c.Title, Invented: c.Invented, Machine: c.Machine, Seed: uint64(max(0, raw.Seed)), Level: level(raw.Level, &ps),
		Truth: c.Found, Signs: map[string]network.Evidence{},
	}
	if len(c.Found) == 0 {
		ps.Errorf(CodeNoTruth, source.Pos{File: c.File, Line: 1, Column: 1}, 1, "nothing under found").Hint = "a case to practise on says what it was: found: [cause]"
		return nil, ps
	}
	b.fixed(c, s)
	r := rand.New(rand.NewPCG(s.Seed, 1<<32))
	if !b.complete(s, at, &ps) {
		return nil, ps
	}
	b.readTelling(s, raw, &ps)
	first := slices.IndexFunc(s.Told, func(id string) bool { return s.Signs[id].Yes() })
	if first < 0 && !ps.HasErrors() {
		ps.Errorf(CodeNothing, at, 1, "nothing is complained of: no complaint that is told is yes").Hint = "answer one with yes under signs"
	}
	if ps.HasErrors() {
		return nil, ps
	}
	b.word(s, r)
	x, _ := b.Catalog.Sign(s.Told[first])
	s.Family = x.Family
	return s, ps
}

func level(t source.Text, ps *source.Problems) int {
	switch t.Value {
	case "":
		return 2
	case "1", "2", "3":
		return int(t.Value[0] - '0')
	}
	pos, length := t.Span(0, len(t.Value))
	ps.Errorf(CodeLevel, pos, length, "level: expected 1, 2 or 3, found %q", t.Value)
	return 2
}

// fixed takes over what the case gives.
func (b Book) fixed(c *intake.Case, s *Scenario) {
	for _, id := range c.Known.IDs() {
		v, _ := c.Known.Get(id)
		if _, ok := b.Catalog.Reading(id); ok {
			s.Readings.Put(id, v)
		} else if _, ok := b.Catalog.Fact(id); ok {
			s.Known.Put(id, v)
		}
	}
	for _, o := range c.Observations {
		s.Signs[o.Sign] = network.Evidence{Sign: o.Sign, Answer: o.Answer, Present: o.Present, Absent: o.Absent}
	}
}

// complete draws what is left open. A fixed reading fixes the signs read off it.
func (b Book) complete(s *Scenario, at source.Pos, ps *source.Problems) bool {
	var sheet, past fact.Set
	for _, id := range s.Known.IDs() {
		v, _ := s.Known.Get(id)
		if strings.HasPrefix(id, "machine.") {
			sheet.Put(id, v)
		} else {
			past.Put(id, v)
		}
	}
	known := s.Known.Clone()
	for _, id := range s.Readings.IDs() {
		v, _ := s.Readings.Get(id)
		known.Put(id, v)
	}
	given := map[string]bool{}
	for i, f := range b.Fire(known) {
		if r := b.Rules.Rules[i]; r.Action == rule.Shows && f.Verdict != rule.Unknown {
			given[r.To] = given[r.To] || f.Probability >= 0.5
		}
	}
	for id, e := range s.Signs {
		given[id] = e.Yes()
	}
	sampler, err := sample.New(b.Catalog, b.Rules, b.Words, []fact.Set{sheet}, manners[s.Level].Manner)
	if err != nil {
		ps.Errorf(CodeNoFault, at, 1, "%s", err)
		return false
	}
	m, err := sampler.Given(s.Seed, 0, sheet, past, s.Truth, given)
	if err != nil {
		ps.Errorf(CodeNoFault, at, 1, "%s", err).Hint = "change found, or the machine"
		return false
	}
	b.fill(s, m)
	return true
}

// readTelling reads how the case is told.
func (b Book) readTelling(s *Scenario, raw rawPractice, ps *source.Problems) {
	refuse := func(t source.Text, what string) {
		pos, length := t.Span(0, len(t.Value))
		ps.Errorf(CodeNotTold, pos, length, "%s is not among the case's %s", t.Value, what)
	}
	for _, t := range raw.Told {
		if x, ok := b.Catalog.Sign(t.Value); !ok || x.Kind != complaint || s.Signs[t.Value].Sign == "" {
			refuse(t, "complaints")
		} else {
			s.Told = append(s.Told, t.Value)
		}
	}
	for _, t := range raw.Recalled {
		if !s.Known.Known(t.Value) || strings.HasPrefix(t.Value, "machine.") {
			refuse(t, "history")
		} else {
			s.Recalled = append(s.Recalled, t.Value)
		}
	}
	for _, t := range raw.Vague {
		if _, ok := b.Catalog.Sign(t.Value); !ok && !s.Known.Known(t.Value) {
			refuse(t, "signs or history")
		} else {
			s.Vague = append(s.Vague, t.Value)
		}
	}
	b.tellAll(s, raw)
}

// tellAll stands in for lists that were left out.
func (b Book) tellAll(s *Scenario, raw rawPractice) {
	if raw.Told == nil {
		for _, x := range b.Catalog.Signs {
			if x.Kind == complaint && s.Signs[x.ID].Yes() && len(s.Told) < manners[s.Level].Complaints {
				s.Told = append(s.Told, x.ID)
			}
		}
	}
	if raw.Recalled == nil {
		for _, x := range b.Catalog.Facts {
			if s.Known.Known(x.ID) {
				s.Recalled = append(s.Recalled, x.ID)
			}
		}
	}
}
