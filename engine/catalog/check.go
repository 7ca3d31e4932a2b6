package catalog

import (
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// checker collects the problems of one catalog.
type checker struct {
	cat *Catalog
	ps  *source.Problems
}

func (c *Catalog) check(ps *source.Problems) {
	k := checker{c, ps}
	k.ids()
	k.facts()
	k.signs()
	k.numbers()
	k.causes()
	k.severities()
	k.checks()
	k.stages()
	k.readings()
	k.stack()
	k.steps()
	k.tightenings()
	k.derived()
}

func (k checker) errorf(pos source.Pos, code, hint, format string, args ...any) {
	k.ps.Errorf(code, pos, 1, format, args...)
	(*k.ps)[len(*k.ps)-1].Hint = hint
}

// refers complains when id is not one of the known ids.
func (k checker) refers(pos source.Pos, owner, field, id string, known []string) {
	for _, x := range known {
		if x == id {
			return
		}
	}
	k.errorf(pos, "K101", source.DidYouMean(id, known), "%s: %s names %q, which does not exist", owner, field, id)
}

func (k checker) ids() {
	seen := map[string]source.Pos{}
	once := func(space, id string, pos source.Pos) {
		for _, part := range strings.Split(strings.TrimPrefix(id, "machine."), ".") {
			if !fact.IsID(part) {
				k.errorf(pos, "K102", "ids are lower case letters, digits and underscores", "id %q is not in snake_case", id)
				break
			}
		}
		if first, taken := seen[space+id]; taken {
			k.errorf(pos, "K103", "", "id %q is taken", id)
			last := &(*k.ps)[len(*k.ps)-1]
			last.Related = append(last.Related, source.Related{Pos: first, Message: "first used here"})
			return
		}
		seen[space+id] = pos
	}
	k.cat.each(func(_ fact.Role, id string, _ int, pos source.Pos) { once("", id, pos) })
	for _, s := range k.cat.Stages {
		once("stage:", s.ID, s.Pos)
	}
	for _, s := range k.cat.Sources {
		once("source:", s.ID, s.Pos)
	}
	for _, s := range k.cat.Gauges {
		once("gauge:", s.ID, s.Pos)
	}
	for _, p := range k.cat.Parts {
		once("part:", p.ID, p.Pos)
	}
	for _, a := range k.cat.Attributes {
		once("attribute:", a.ID, a.Pos)
	}
	for _, s := range k.cat.Phases {
		once("phase:", s.ID, s.Pos)
	}
	for _, s := range k.cat.Steps {
		once("step:", s.ID, s.Pos)
	}
	for _, s := range k.cat.Tightenings {
		once("tightening:", s.ID, s.Pos)
	}
}

func (k checker) facts() {
	for _, list := range [][]Fact{k.cat.Facts, k.cat.Machine} {
		for _, f := range list {
			k.fact(f)
		}
	}
}

func (k checker) fact(f Fact) {
	kinds := []string{string(fact.YesNo), string(fact.Choice), string(fact.Choices), string(fact.Quantity), string(fact.Count), string(fact.Sizes)}
	k.refers(f.Pos, f.ID, "kind", f.Kind, kinds)
	listed := f.Kind == string(fact.Choice) || f.Kind == string(fact.Choices)
	if listed != (len(f.Choices) > 0) {
		k.errorf(f.Pos, "K104", "choices belong to kind choice and kind set, and only to them", "%s: kind %s and its choices do not fit", f.ID, f.Kind)
	}
	measured := f.Kind == string(fact.Quantity) || f.Kind == string(fact.Sizes)
	if measured != (f.Unit != "") {
		k.errorf(f.Pos, "K105", "a unit belongs to kind quantity and kind sizes, and only to them", "%s: kind %s and its unit do not fit", f.ID, f.Kind)
	}
	k.unit(f.Pos, f.ID, f.Unit)
	k.shares(f)
	k.span(f)
	k.bounds(f.Pos, f.ID, f.Unit, f.Possible)
}

// shares wants how often a fact is so where that means something, as a
// probability. One that is not given is left to whoever draws machines.
func (k checker) shares(f Fact) {
	if f.Share != 0 && f.Kind != string(fact.YesNo) {
		k.errorf(f.Pos, "K111", "give each option its own share", "%s: share belongs to kind yesno, not to kind %s", f.ID, f.Kind)
	}
	all := []float64{f.Share}
	for _, o := range f.Choices {
		all = append(all, o.Share)
	}
	for _, x := range all {
		if x != 0 && !(x > 0 && x < 1) {
			k.errorf(f.Pos, "K107", "", "%s: share is %v, expected a probability between 0 and 1, both excluded", f.ID, x)
		}
	}
}

// span wants both ends of a usual range, in the unit's dimension, the lower first.
func (k checker) span(f Fact) {
	if f.Usual == (Span{}) {
		return
	}
	low, high, err := f.Range()
	switch {
	case f.Kind != string(fact.Quantity) && f.Kind != string(fact.Count):
		k.errorf(f.Pos, "K112", "", "%s: usual belongs to kinds quantity and count, not to kind %s", f.ID, f.Kind)
	case err != nil:
		k.errorf(f.Pos, "K112", "", "%s: usual: %s", f.ID, err)
	case !(low < high):
		k.errorf(f.Pos, "K112", "", "%s: usual goes from %s to %s, expected the lower end first", f.ID, f.Usual.Low, f.Usual.High)
	}
}

func (k checker) unit(pos source.Pos, owner, symbol string) {
	if symbol == "" {
		return
	}
	if _, ok := unit.Find(symbol); !ok {
		k.errorf(pos, "K106", "", "%s: unknown unit %q", owner, symbol)
	}
}

func (k checker) signs() {
	families, signs := k.families(), k.signIDs()
	for _, s := range k.cat.Signs {
		k.refers(s.Pos, s.ID, "family", s.Family, families)
		k.refers(s.Pos, s.ID, "kind", s.Kind, []string{"complaint", "road", "bench", "found"})
		k.basis(s.Pos, s.ID, s.Basis)
		for _, x := range s.Excludes {
			k.refers(s.Pos, s.ID, "excludes", x, signs)
		}
	}
	for _, q := range k.cat.Questions {
		for _, s := range q.Signs {
			k.refers(q.Pos, q.ID, "signs", s, signs)
		}
	}
}

func (k checker) families() (ids []string) {
	for _, f := range k.cat.Families {
		ids = append(ids, f.ID)
	}
	return ids
}

func (k checker) signIDs() (ids []string) {
	for _, s := range k.cat.Signs {
		ids = append(ids, s.ID)
	}
	return ids
}

// numbers wants probabilities strictly between 0 and 1: a certain statement
// cannot be overruled by any evidence, and no workshop estimate is certain.
func (k checker) numbers() {
	p := func(pos source.Pos, owner, field string, x float64) {
		if !(x > 0 && x < 1) {
			k.errorf(pos, "K107", "", "%s: %s is %v, expected a probability between 0 and 1, both excluded", owner, field, x)
		}
	}
	for _, s := range k.cat.Signs {
		p(s.Pos, s.ID, "leak", s.Leak)
	}
	for _, e := range k.cat.Effects {
		p(e.Pos, e.ID, "leak", e.Leak)
	}
	for _, c := range k.cat.Causes {
		p(c.Pos, c.ID, "prior", c.Prior)
	}
	for _, s := range k.cat.Strengths {
		p(s.Pos, s.ID, "value", s.Value)
	}
}

func (k checker) minutes(pos source.Pos, owner, field string, x float64) {
	if !(x >= 0 && x < 10000) {
		k.errorf(pos, "K108", "", "%s: %s is %v, expected minutes from 0 up", owner, field, x)
	}
}

func (k checker) basis(pos source.Pos, owner, basis string) {
	if basis == fact.CommonPractice {
		return
	}
	known := []string{fact.CommonPractice}
	for _, s := range k.cat.Sources {
		known = append(known, s.ID)
	}
	k.refers(pos, owner, "basis", basis, known)
}

func (k checker) causes() {
	var ids []string
	for _, c := range k.cat.Causes {
		ids = append(ids, c.ID)
	}
	for _, c := range k.cat.Causes {
		k.refers(c.Pos, c.ID, "stage", c.Stage, k.stageIDs())
		k.basis(c.Pos, c.ID, c.Basis)
		k.minutes(c.Pos, c.ID, "look_minutes", c.LookMinutes)
		k.minutes(c.Pos, c.ID, "remedy.minutes", c.Remedy.Minutes)
		k.cautions(c.Pos, c.ID, c.Cautions)
		for _, x := range c.ConfusedWith {
			k.refers(c.Pos, c.ID, "confused_with", x, ids)
		}
	}
}

func (k checker) cautions(pos source.Pos, owner string, ids []string) {
	var known []string
	for _, c := range k.cat.Cautions {
		known = append(known, c.ID)
	}
	for _, id := range ids {
		k.refers(pos, owner, "cautions", id, known)
	}
}

func (k checker) severities() {
	for _, c := range k.cat.Cautions {
		k.refers(c.Pos, c.ID, "severity", c.Severity, []string{"care", "danger"})
	}
}

func (k checker) checks() {
	signs := k.signIDs()
	var readings, facts []string
	for _, r := range k.cat.Readings {
		readings = append(readings, r.ID)
	}
	for _, f := range k.cat.Facts {
		facts = append(facts, f.ID)
	}
	for _, c := range k.cat.Checks {
		k.refers(c.Pos, c.ID, "stage", c.Stage, k.stageIDs())
		k.basis(c.Pos, c.ID, c.Basis)
		k.minutes(c.Pos, c.ID, "minutes", c.Minutes)
		k.cautions(c.Pos, c.ID, c.Cautions)
		k.all(c.Pos, c.ID, "settles", c.Settles, signs)
		k.all(c.Pos, c.ID, "gives", c.Gives, readings)
		k.all(c.Pos, c.ID, "asks", c.Asks, facts)
		for _, r := range c.Results {
			k.refers(c.Pos, c.ID, "results", r.Sign, c.Settles)
		}
		if len(c.Settles)+len(c.Gives)+len(c.Asks) == 0 {
			k.errorf(c.Pos, "K109", "", "%s settles no sign, gives no reading and asks for no fact", c.ID)
		}
	}
}

func (k checker) all(pos source.Pos, owner, field string, ids, known []string) {
	for _, id := range ids {
		k.refers(pos, owner, field, id, known)
	}
}

func (k checker) stageIDs() (ids []string) {
	for _, s := range k.cat.Stages {
		ids = append(ids, s.ID)
	}
	return ids
}

func (k checker) stages() {
	for _, s := range k.cat.Stages {
		k.minutes(s.Pos, s.ID, "minutes", s.Minutes)
		if s.Parent == "" {
			continue
		}
		k.refers(s.Pos, s.ID, "parent", s.Parent, k.stageIDs())
		if len(k.cat.StagePath(s.ID)) > len(k.cat.Stages) {
			k.errorf(s.Pos, "K110", "", "stage %s lies inside itself", s.ID)
		}
	}
}

func (k checker) readings() {
	var machine, gauges []string
	for _, f := range k.cat.Machine {
		machine = append(machine, f.ID)
	}
	for _, g := range k.cat.Gauges {
		gauges = append(gauges, g.ID)
	}
	for _, r := range k.cat.Readings {
		k.unit(r.Pos, r.ID, r.Unit)
		k.refers(r.Pos, r.ID, "gauge", r.Gauge, gauges)
		k.refers(r.Pos, r.ID, "sense", r.Sense, []string{"min", "max", "range", "none"})
		for _, l := range []string{r.Limit, r.LimitMin, r.LimitMax, r.New} {
			if _, derived := k.cat.DerivedOf(l); l != "" && !derived {
				k.refers(r.Pos, r.ID, "limit", l, machine)
			}
		}
		k.bounds(r.Pos, r.ID, r.Unit, r.Possible)
		k.listed(r)
		for _, m := range r.HowWrong {
			k.refers(r.Pos, r.ID, "reads", m.Reads, []string{"high", "low", "either", "apart"})
		}
	}
}
