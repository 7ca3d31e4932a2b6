package catalog

import (
	"slices"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// entry is where an id stands: which list and which place.
type entry struct {
	role  fact.Role
	place int
}

func (c *Catalog) lookup(id string, role fact.Role) (int, bool) {
	e, ok := c.index[id]
	return e.place, ok && e.role == role
}

// Cause finds a cause by id.
func (c *Catalog) Cause(id string) (Cause, bool) {
	i, ok := c.lookup(id, fact.RoleCause)
	if !ok {
		return Cause{}, false
	}
	return c.Causes[i], true
}

// Effect finds an effect by id.
func (c *Catalog) Effect(id string) (Effect, bool) {
	i, ok := c.lookup(id, fact.RoleEffect)
	if !ok {
		return Effect{}, false
	}
	return c.Effects[i], true
}

// Sign finds a sign by id.
func (c *Catalog) Sign(id string) (Sign, bool) {
	i, ok := c.lookup(id, fact.RoleSign)
	if !ok {
		return Sign{}, false
	}
	return c.Signs[i], true
}

// Check finds a check by id.
func (c *Catalog) Check(id string) (Check, bool) {
	i, ok := c.lookup(id, fact.RoleCheck)
	if !ok {
		return Check{}, false
	}
	return c.Checks[i], true
}

// Reading finds a reading by id.
func (c *Catalog) Reading(id string) (Reading, bool) {
	i, ok := c.lookup(id, fact.RoleReading)
	if !ok {
		return Reading{}, false
	}
	return c.Readings[i], true
}

// DerivedOf finds a derived quantity by id.
func (c *Catalog) DerivedOf(id string) (Derived, bool) {
	i, ok := c.lookup(id, fact.RoleDerived)
	if !ok {
		return Derived{}, false
	}
	return c.Derived[i], true
}

// Fact finds a fact of the history or, as "machine.x", of the machine sheet.
func (c *Catalog) Fact(id string) (Fact, bool) {
	if i, ok := c.lookup(id, fact.RoleFact); ok {
		return c.Facts[i], true
	}
	if i, ok := c.lookup(id, fact.RoleMachine); ok {
		return c.Machine[i], true
	}
	return Fact{}, false
}

// Caution finds a caution by id.
func (c *Catalog) Caution(id string) (Caution, bool) {
	i, ok := c.lookup(id, fact.RoleCaution)
	if !ok {
		return Caution{}, false
	}
	return c.Cautions[i], true
}

// Stage finds a stage by id.
func (c *Catalog) Stage(id string) (Stage, bool) {
	for _, s := range c.Stages {
		if s.ID == id {
			return s, true
		}
	}
	return Stage{}, false
}

// Priced lists what can have a price: the ids of causes, the parts of their
// remedies, and the parts that stages use up, sorted, each once.
func (c *Catalog) Priced() []string {
	var all []string
	for _, x := range c.Causes {
		all = append(append(all, x.ID), x.Remedy.Parts...)
	}
	for _, s := range c.Stages {
		all = append(all, s.Uses...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// Gauge finds a gauge by id.
func (c *Catalog) Gauge(id string) (Gauge, bool) {
	for _, g := range c.Gauges {
		if g.ID == id {
			return g, true
		}
	}
	return Gauge{}, false
}

// Source finds a source by id.
func (c *Catalog) Source(id string) (Source, bool) {
	for _, s := range c.Sources {
		if s.ID == id {
			return s, true
		}
	}
	return Source{}, false
}

// Step finds a step of the build sheet by id.
func (c *Catalog) Step(id string) (Step, bool) {
	for _, s := range c.Steps {
		if s.ID == id {
			return s, true
		}
	}
	return Step{}, false
}

// Tightening finds a way of tightening by id.
func (c *Catalog) Tightening(id string) (Tightening, bool) {
	for _, t := range c.Tightenings {
		if t.ID == id {
			return t, true
		}
	}
	return Tightening{}, false
}

// NameOf returns the plain name of a cause, effect, sign, check, reading, fact
// or stage, or the id itself when it has none.
func (c *Catalog) NameOf(id string) string {
	e, ok := c.index[id]
	if !ok {
		if s, found := c.Stage(id); found {
			return s.Name
		}
		if name, found := c.nameInStack(id); found {
			return name
		}
		return id
	}
	switch e.role {
	case fact.RoleCause:
		return c.Causes[e.place].Name
	case fact.RoleEffect:
		return c.Effects[e.place].Name
	case fact.RoleSign:
		return c.Signs[e.place].Name
	case fact.RoleCheck:
		return c.Checks[e.place].Name
	case fact.RoleReading:
		return c.Readings[e.place].Name
	case fact.RoleDerived:
		return c.Derived[e.place].Name
	case fact.RoleFact:
		return c.Facts[e.place].Name
	case fact.RoleMachine:
		return c.Machine[e.place].Name
	}
	return id
}

// ChecksFor lists the checks that settle a sign or give a reading, in the
// order of the files.
func (c *Catalog) ChecksFor(id string) []Check {
	var out []Check
	for _, i := range c.checkOf[id] {
		out = append(out, c.Checks[i])
	}
	return out
}

// StagePath lists the stages from the root down to id, id included.
func (c *Catalog) StagePath(id string) []Stage {
	var path []Stage
	for len(path) <= len(c.Stages) {
		s, ok := c.Stage(id)
		if !ok {
			return path
		}
		path = append([]Stage{s}, path...)
		if s.Parent == "" {
			return path
		}
		id = s.Parent
	}
	return path
}

// Depth returns how many stages lie above id; the root has depth 0.
func (c *Catalog) Depth(id string) int { return len(c.StagePath(id)) - 1 }

// usualWords is about how many ids a pack has, so that lists grow once.
const usualWords = 1024

// Index builds the look-ups. Load calls it; a Catalog put together by hand
// (in a test) needs it once.
func (c *Catalog) Index() {
	c.index = make(map[string]entry, usualWords)
	c.each(func(role fact.Role, id string, place int, _ source.Pos) {
		if _, taken := c.index[id]; !taken {
			c.index[id] = entry{role, place}
		}
	})
	c.checkOf = map[string][]int{}
	for i, k := range c.Checks {
		for _, id := range append(append([]string(nil), k.Settles...), k.Gives...) {
			c.checkOf[id] = append(c.checkOf[id], i)
		}
	}
}

// each visits every entry whose id shares the one namespace of conditions.
func (c *Catalog) each(visit func(fact.Role, string, int, source.Pos)) {
	for i, x := range c.Facts {
		visit(fact.RoleFact, x.ID, i, x.Pos)
	}
	for i, x := range c.Machine {
		visit(fact.RoleMachine, "machine."+x.ID, i, x.Pos)
	}
	for i, x := range c.Signs {
		visit(fact.RoleSign, x.ID, i, x.Pos)
	}
	for i, x := range c.Effects {
		visit(fact.RoleEffect, x.ID, i, x.Pos)
	}
	for i, x := range c.Causes {
		visit(fact.RoleCause, x.ID, i, x.Pos)
	}
	for i, x := range c.Readings {
		visit(fact.RoleReading, x.ID, i, x.Pos)
	}
	for i, x := range c.Derived {
		visit(fact.RoleDerived, x.ID, i, x.Pos)
	}
	for i, x := range c.Checks {
		visit(fact.RoleCheck, x.ID, i, x.Pos)
	}
	for i, x := range c.Cautions {
		visit(fact.RoleCaution, x.ID, i, x.Pos)
	}
}

// Vocabulary returns the words that conditions and rules may use.
func (c *Catalog) Vocabulary() *fact.Vocabulary {
	v := fact.NewVocabulary(usualWords)
	c.each(func(role fact.Role, id string, place int, _ source.Pos) {
		v.Add(c.word(role, id, place))
	})
	for _, s := range c.Sources {
		v.Add(fact.Word{ID: "source:" + s.ID, Role: fact.RoleSource, Kind: fact.Name})
	}
	for _, s := range c.Strengths {
		v.Add(fact.Word{ID: "strength:" + s.ID, Role: fact.RoleStrength, Kind: fact.Name, Number: s.Value})
	}
	c.stackWords(v)
	return v
}

func (c *Catalog) word(role fact.Role, id string, place int) fact.Word {
	w := fact.Word{ID: id, Role: role, Kind: fact.Name}
	switch role {
	case fact.RoleFact:
		w = describe(w, c.Facts[place])
	case fact.RoleMachine:
		w = describe(w, c.Machine[place])
	case fact.RoleSign:
		w.Kind = fact.YesNo
	case fact.RoleReading:
		r := c.Readings[place]
		w.Kind, w.Unit, w.Dim = fact.Reading, r.Unit, dimension(r.Unit)
	case fact.RoleDerived:
		d := c.Derived[place]
		w.Kind, w.Unit, w.Dim = fact.Quantity, d.Unit, dimension(d.Unit)
	}
	return w
}

func describe(w fact.Word, f Fact) fact.Word {
	w.Kind, w.Unit, w.Dim = fact.Kind(f.Kind), f.Unit, dimension(f.Unit)
	for _, o := range f.Choices {
		w.Choices = append(w.Choices, o.ID)
	}
	return w
}

func dimension(symbol string) unit.Dimension {
	u, _ := unit.Find(symbol)
	return u.Dim
}
