package catalog

import (
	"slices"
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/unit"
)

// The two stacks a condition can speak of: as it is, and as it should be.
const (
	StackID      = "stack"
	SheetStackID = "machine.stack"
)

// Part finds a kind of part by id.
func (c *Catalog) Part(id string) (Part, bool) {
	i := slices.IndexFunc(c.Parts, func(p Part) bool { return p.ID == id })
	if i < 0 {
		return Part{}, false
	}
	return c.Parts[i], true
}

// Attribute finds something that can be said of a part by its id.
func (c *Catalog) Attribute(id string) (Attribute, bool) {
	i := slices.IndexFunc(c.Attributes, func(a Attribute) bool { return a.ID == id })
	if i < 0 {
		return Attribute{}, false
	}
	return c.Attributes[i], true
}

// stackWords adds what conditions on stacks may name. A pack without kinds of
// part has no stack.
func (c *Catalog) stackWords(v *fact.Vocabulary) {
	if len(c.Parts) == 0 {
		return
	}
	v.Add(fact.Word{ID: StackID, Role: fact.RoleStack, Kind: fact.Assembly})
	v.Add(fact.Word{ID: SheetStackID, Role: fact.RoleMachine, Kind: fact.Assembly})
	for _, p := range c.Parts {
		v.Add(fact.Word{ID: "part:" + p.ID, Role: fact.RolePart, Kind: fact.Name, Choices: p.Has})
	}
	for _, a := range c.Attributes {
		w := fact.Word{ID: "attribute:" + a.ID, Role: fact.RoleAttribute, Kind: fact.Kind(a.Kind), Unit: a.Unit, Dim: dimension(a.Unit)}
		for _, o := range a.Choices {
			w.Choices = append(w.Choices, o.ID)
		}
		if w.Kind == fact.YesNo {
			w.Choices = []string{"yes", "no"}
		}
		v.Add(w)
	}
}

// nameInStack reads what a rule waits for: a stack, all parts of a kind in it, or
// what is said of them ("stack.friction.soaked").
func (c *Catalog) nameInStack(id string) (string, bool) {
	in := "the stack"
	rest, ok := strings.CutPrefix(id, SheetStackID)
	if ok {
		in = "the stack as it should be"
	} else if rest, ok = strings.CutPrefix(id, StackID); !ok {
		return "", false
	}
	kind, attribute, _ := strings.Cut(strings.TrimPrefix(rest, "."), ".")
	p, isPart := c.Part(kind)
	a, isAttribute := c.Attribute(attribute)
	switch {
	case rest == "":
		return in, true
	case isAttribute && isPart:
		return p.several() + ": " + a.Name, true
	case isPart && attribute == "":
		return in + " with every " + p.Name + " in it", true
	}
	return "", false
}

// several names a part as if there were more than one of it.
func (p Part) several() string {
	if p.Plural != "" {
		return p.Plural
	}
	return p.Name
}

// stack checks kinds of part and attributes.
func (k checker) stack() {
	var parts, attributes, machine, gauges []string
	for _, p := range k.cat.Parts {
		parts = append(parts, p.ID)
	}
	for _, a := range k.cat.Attributes {
		attributes = append(attributes, a.ID)
	}
	for _, f := range k.cat.Machine {
		machine = append(machine, f.ID)
	}
	for _, g := range k.cat.Gauges {
		gauges = append(gauges, g.ID)
	}
	for _, p := range k.cat.Parts {
		k.refers(p.Pos, p.ID, "shape", p.Shape, Shapes)
		k.all(p.Pos, p.ID, "has", p.Has, attributes)
		k.all(p.Pos, p.ID, "between", p.Between, parts)
		if p.Side != "" {
			k.refers(p.Pos, p.ID, "side", p.Side, []string{"inner", "outer"})
		}
		if p.Sheet != "" {
			k.refers(p.Pos, p.ID, "sheet", p.Sheet, machine)
		}
		if n := len(p.Between); n != 0 && n != 2 {
			k.errorf(p.Pos, "K111", "name the nearest parts that are never left out", "%s lies between %d parts, expected two", p.ID, n)
		}
		if p.Thickness != "" {
			if q, err := unit.ParseAs(p.Thickness, unit.Length); err != nil || q.SI <= 0 {
				k.errorf(p.Pos, "K112", "", "%s: thickness %q is no length", p.ID, p.Thickness)
			}
		}
		if p.ID == fact.UnseenPart || p.ID == "kind" || p.ID == "count" {
			k.errorf(p.Pos, "K102", "", "%q cannot be the id of a part: it has a meaning of its own in a stack", p.ID)
		}
	}
	for _, a := range k.cat.Attributes {
		k.attribute(a, gauges)
	}
}

func (k checker) attribute(a Attribute, gauges []string) {
	kinds := []string{string(fact.YesNo), string(fact.Choice), string(fact.Count), string(fact.Label), string(fact.Reading)}
	k.refers(a.Pos, a.ID, "kind", a.Kind, kinds)
	k.unit(a.Pos, a.ID, a.Unit)
	if (a.Kind == string(fact.Choice)) != (len(a.Choices) > 0) {
		k.errorf(a.Pos, "K104", "choices belong to kind choice, and only to it", "%s: kind %s and its choices do not fit", a.ID, a.Kind)
	}
	if measured := a.Kind == string(fact.Reading); measured != (a.Unit != "") || measured != (a.Gauge != "") {
		k.errorf(a.Pos, "K105", "a unit and a gauge belong to kind reading, and only to it", "%s: kind %s, its unit and its gauge do not fit", a.ID, a.Kind)
	}
	k.bounds(a.Pos, a.ID, a.Unit, a.Possible)
	if a.Gauge != "" {
		k.refers(a.Pos, a.ID, "gauge", a.Gauge, gauges)
	}
	for _, o := range a.Choices {
		if o.Draw != "" {
			k.refers(a.Pos, a.ID, "draw", o.Draw, Draws)
		}
	}
	switch {
	case a.Otherwise == "":
	case a.Kind == string(fact.YesNo):
		k.refers(a.Pos, a.ID, "otherwise", a.Otherwise, []string{"yes", "no"})
	case a.Kind == string(fact.Choice):
		var known []string
		for _, o := range a.Choices {
			known = append(known, o.ID)
		}
		k.refers(a.Pos, a.ID, "otherwise", a.Otherwise, known)
	case a.Kind != string(fact.Label):
		k.errorf(a.Pos, "K113", "", "%s: a number that nobody gave cannot be assumed", a.ID)
	}
}
