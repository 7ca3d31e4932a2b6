package engine

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// words is a list of ids with a line about each, which editors show beside it.
type words struct {
	ids   []any
	about []string
}

func (w *words) add(id, about string) {
	w.ids, w.about = append(w.ids, id), append(w.about, about)
}

// define makes a list of words a definition. `enumDescriptions` is no keyword of
// the draft: editors show it and validators pass over it.
func (s *schemas) define(name, says string, w words) {
	if w.ids == nil { // a pack may have none, and an empty enum is not allowed
		s.defs[name] = object{"not": object{}, "description": says}
		return
	}
	s.defs[name] = object{"enum": w.ids, "enumDescriptions": w.about, "description": says}
}

// lists defines every list of ids that a file may refer to.
func (s *schemas) lists() {
	s.named("cause", "a cause", fact.RoleCause)
	s.named("effect", "an effect", fact.RoleEffect)
	s.named("sign", "a sign", fact.RoleSign)
	s.named("target", "what is brought about: an effect, a sign or a further cause", fact.RoleEffect, fact.RoleSign, fact.RoleCause)
	s.named("preventable", "what a step keeps away: a cause or a sign", fact.RoleCause, fact.RoleSign)
	s.named("check", "a check", fact.RoleCheck)
	s.named("reading", "a reading", fact.RoleReading)
	s.named("fact", "a fact of the history", fact.RoleFact)
	s.named("caution", "a caution", fact.RoleCaution)
	s.structure()
	s.fixed()
	s.rules()
}

// named defines the ids of some roles with their names.
func (s *schemas) named(name, says string, roles ...fact.Role) {
	var w words
	for _, r := range roles {
		for _, x := range s.e.Words.Words(r) {
			w.add(x.ID, s.e.about(x))
		}
	}
	s.define(name, says, w)
}

// about says in a line what a word stands for.
func (e *Engine) about(w fact.Word) string {
	if c, ok := e.Catalog.Caution(w.ID); ok {
		return c.Text
	}
	name := e.Catalog.NameOf(w.ID)
	if w.Unit != "" {
		name += " (" + w.Unit + ")"
	}
	return name
}

// structure defines the lists that no condition sees.
func (s *schemas) structure() {
	cat := s.e.Catalog
	var families, stages, gauges, machine, bases, phases, tightenings words
	for _, f := range cat.Families {
		families.add(f.ID, f.Name)
	}
	for _, x := range cat.Stages {
		stages.add(x.ID, x.Name)
	}
	for _, g := range cat.Gauges {
		gauges.add(g.ID, g.Name+", standard uncertainty "+g.Uncertainty)
	}
	for _, m := range cat.Machine {
		machine.add(m.ID, m.Name)
	}
	for _, p := range cat.Phases {
		phases.add(p.ID, p.Name)
	}
	for _, t := range cat.Tightenings {
		tightenings.add(t.ID, t.Name)
	}
	bases.add(fact.CommonPractice, "a trade fact without a published source")
	for _, x := range cat.Sources {
		bases.add(x.ID, x.Title)
	}
	s.define("family", "signs that would be called one complaint", families)
	s.define("stage", "how deep the machine is open", stages)
	s.define("gauge", "what it was measured with", gauges)
	s.define("machine_word", "a word of the machine sheet", machine)
	limit := words{append([]any(nil), machine.ids...), append([]string(nil), machine.about...)}
	for _, d := range s.e.Catalog.Derived {
		limit.add(d.ID, d.Name)
	}
	s.define("limit_word", "a word of the machine sheet, or a derived quantity that rests on the sheet alone", limit)
	var parts, attributes words
	for _, p := range cat.Parts {
		parts.add(p.ID, p.Name)
	}
	for _, a := range cat.Attributes {
		attributes.add(a.ID, a.Name)
	}
	s.define("part", "a kind of part", parts)
	s.define("attribute", "what can be said of a part", attributes)
	s.define("phase", "a part of the work of putting it back together", phases)
	s.define("tightening", "how screws are drawn to their torque", tightenings)
	s.define("basis", "where the statement comes from", bases)
}

// fixed defines what does not depend on the pack. The lists are those that
// catalog.Load accepts.
func (s *schemas) fixed() {
	s.defs["id"] = object{"type": "string", "pattern": "^[a-z][a-z0-9]*(_[a-z0-9]+)*$", "description": "snake_case"}
	s.defs["dotted"] = object{"type": "string", "pattern": "^[a-z][a-z0-9]*([._][a-z0-9]+)*$", "description": "snake_case; the machine sheet may group words with points"}
	s.define("fact_kind", "type of the value", words{
		[]any{string(fact.YesNo), string(fact.Choice), string(fact.Choices), string(fact.Quantity), string(fact.Count), string(fact.Sizes)},
		[]string{"yes or no", "one of its choices", "any number of its choices", "a number with a unit", "a bare number", "a list of quantities"},
	})
	s.define("attribute_kind", "type of the value", words{
		[]any{string(fact.YesNo), string(fact.Choice), string(fact.Count), string(fact.Label), string(fact.Reading)},
		[]string{"yes or no", "one of its choices", "a bare number", "a few words of the user's own", "a measured quantity"},
	})
	var shapes words
	for _, x := range catalog.Shapes {
		shapes.add(x, "")
	}
	s.define("shape", "how it is drawn", shapes)
	s.define("side", "the edge it is held at", words{[]any{"inner", "outer"}, []string{"at its inner edge", "at its outer edge"}})
	s.define("sign_kind", "where it is observed", words{
		[]any{"complaint", "road", "bench", "found"},
		[]string{"what the customer reports", "on a test ride", "at a standstill", "on looking or measuring"},
	})
	s.define("sense", "on which side the limit lies", words{
		[]any{"min", "max", "range", "none"},
		[]string{"bad below the limit", "bad above the limit", "bad outside two limits", "no limit"},
	})
	s.define("severity", "how much can go wrong", words{[]any{"care", "danger"}, []string{"the machine can come to harm", "people can get hurt"}})
}

// rules defines what rule files and their tests speak of.
func (s *schemas) rules() {
	var scale, all words
	for _, x := range s.e.Catalog.Strengths {
		scale.add(x.ID, fmt.Sprint(x.Value))
	}
	// Keys, not a pattern: editors complete keys only when each is named.
	factors := object{}
	for _, c := range s.e.Catalog.Causes {
		factors[c.ID] = object{"type": "number", "exclusiveMinimum": 1, "maximum": 1000, "description": c.Name}
	}
	for _, r := range s.e.Rules.Rules {
		all.add(r.ID, r.Because)
	}
	s.define("word_of_strength", "a word of the published scale", scale)
	s.defs["strength"] = object{
		"description": "probability that this alone, nothing else acting, brings the other",
		"anyOf":       []object{ref("word_of_strength"), chance},
	}
	s.defs["factors"] = closed(factors)
	s.define("rule", "a rule", all)
	s.defs["context"] = s.condition("", rule.Brings, rule.Raises, rule.Lowers, rule.RulesOut)
	s.defs["condition"] = s.condition(s.evidence(), rule.Shows, rule.Cautions)
}

// condition teaches the words of a condition; the examples come from the rules
// with the given actions.
func (s *schemas) condition(more string, actions ...rule.Action) object {
	says := "A condition: words joined by and, or, not, compared by ==, !=, <, <=, >, >=, in. " +
		"Quantities carry a unit, such as km(500) or mm(2.5). What is not known is not false: the condition then cannot tell. " +
		"It may use facts of the history: " + s.sketch(fact.RoleFact) + "; and the machine sheet: " + s.sketch(fact.RoleMachine) + more + "."
	o := object{"type": "string", "description": says}
	var examples []string
	for _, a := range actions {
		for _, r := range s.e.Rules.Rules {
			if r.Action == a && r.When != nil {
				examples = append(examples, r.When.Text)
				break
			}
		}
	}
	if examples != nil {
		o["examples"] = examples
	}
	return o
}

// evidence goes on where context ends: rules that move beliefs may not use these
// words, because the same observation would count twice.
func (s *schemas) evidence() string {
	return ". Rules that show a sign or a caution may also use signs, derived quantities: " + s.sketch(fact.RoleDerived) +
		"; and readings, with below(reading, limit), above(reading, limit), outside(reading, low, high), lowest, highest, mean, spread: " +
		s.sketch(fact.RoleReading) + s.stacking()
}

// sketch lists words with what may be compared with them.
func (s *schemas) sketch(role fact.Role) string {
	var out []string
	for _, w := range s.e.Words.Words(role) {
		switch {
		case len(w.Choices) > 0:
			out = append(out, w.ID+" ("+strings.Join(w.Choices, ", ")+")")
		case w.Unit != "":
			out = append(out, w.ID+" ("+w.Unit+")")
		default:
			out = append(out, w.ID)
		}
	}
	return strings.Join(out, ", ")
}
