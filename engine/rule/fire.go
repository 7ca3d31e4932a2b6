package rule

import (
	"slices"
	"strings"

	"example.org/takeup/engine/fact"
)

// Fire asks every rule what it says about the known values. The result has one
// Firing per rule, in the order of the rules.
func (s *Set) Fire(known fact.Set) []Firing {
	look := scene{eval: s.eval, known: &known, env: known.Tree()}
	out := make([]Firing, len(s.Rules))
	for i := range s.Rules {
		out[i] = look.fire(&s.Rules[i])
	}
	return out
}

func (s scene) fire(r *Rule) Firing {
	if s.settled(r.Until) {
		return Firing{Rule: r.ID, Verdict: Unknown}
	}
	if r.When == nil {
		return Firing{Rule: r.ID, Verdict: Yes, Probability: 1}
	}
	if r.Given == nil {
		return s.ask(r.ID, r.When)
	}
	given := s.ask(r.ID, r.Given)
	if given.Verdict != Yes {
		given.Verdict, given.Probability = Unknown, 0
		return given
	}
	f := s.ask(r.ID, r.When)
	f.Clauses = append(given.Clauses, f.Clauses...)
	return f
}

// settled reports whether the word is known that a rule of thumb stands in for.
func (s scene) settled(until string) bool {
	if kind, inStack := strings.CutPrefix(until, sheetKind); inStack {
		sheet := s.known.Stack(strings.TrimSuffix(sheetKind, "."))
		return sheet != nil && sheet.IsWhole(kind)
	}
	return until != "" && s.known.Known(until)
}

func (s scene) ask(id string, c *Condition) Firing {
	f := Firing{Rule: id}
	o := s.truth(c.root, &f.Clauses, &f.Waits)
	f.Verdict, f.Probability = o.verdict(), o.p
	if o.known {
		f.Waits = nil
	}
	slices.Sort(f.Waits)
	f.Waits = slices.Compact(f.Waits)
	return f
}

// Ask evaluates one condition that does not belong to a rule, such as the
// `needs` of a check. Conditions come from Parse.
func (s *Set) Ask(c *Condition, known fact.Set) Firing {
	if c == nil {
		return Firing{Verdict: Yes, Probability: 1}
	}
	return scene{eval: s.eval, known: &known, env: known.TreeOf(c.Words())}.ask("", c)
}
