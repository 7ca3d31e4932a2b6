package intake

import (
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// maxMinutes bounds the time of one check: a week.
const maxMinutes = 7 * 24 * 60

// rawDone is the long form of a check that was made.
type rawDone struct {
	Check   source.Text `yaml:"check,required"`
	Minutes source.Text `yaml:"minutes"`
}

// done reads the checks made, each an id or an id with minutes.
func (r *reader) done(n *source.Node) []Done {
	var items []*source.Node
	source.Decode(n, &items, r.ps)
	var out []Done
	for _, item := range items {
		if item == nil {
			continue // an empty item, reported when it was decoded
		}
		var raw rawDone
		if item.Kind() == source.Map {
			source.Decode(item, &raw, r.ps)
		} else {
			raw.Check, _ = r.text(item)
		}
		if d, ok := r.made(raw); ok {
			out = append(out, d)
		}
	}
	return out
}

// stage reads how deep the machine is open; shut is the empty string.
func (r *reader) stage(n *source.Node) string {
	if n == nil {
		return ""
	}
	t, _ := r.text(n)
	if _, ok := r.cat.Stage(t.Value); ok || t.Value == "" {
		return t.Value
	}
	var ids []string
	for _, s := range r.cat.Stages {
		ids = append(ids, s.ID)
	}
	r.unknown(CodeStage, "stage", t, ids)
	return ""
}

func (r *reader) made(raw rawDone) (Done, bool) {
	d := Done{Check: raw.Check.Value}
	_, ok := r.cat.Check(d.Check)
	if !ok && d.Check != "" {
		r.unknown(CodeCheck, "check", raw.Check, r.checkIDs())
	}
	if raw.Minutes.Value == "" {
		return d, ok
	}
	minutes, fine := r.minutes(raw.Minutes)
	d.Minutes = minutes
	return d, ok && fine
}

// minutes takes a bare number or a time with its unit.
func (r *reader) minutes(t source.Text) (float64, bool) {
	q, err := unit.Parse(t.Value)
	if err == nil && q.Unit != "" {
		q, err = unit.ParseAs(t.Value, unit.Time)
		q.SI /= 60
	}
	if err != nil {
		r.unitError("minutes", t, err)
		return 0, false
	}
	if q.SI < 0 || q.SI > maxMinutes {
		r.errorf(CodeRange, t, "minutes: expected 0 to %d, found %s", maxMinutes, q.Text)
		return 0, false
	}
	return q.SI, true
}

// causes reads a list of cause ids.
func (r *reader) causes(n *source.Node) []string {
	var out []string
	for _, t := range r.texts(n) {
		if r.full(t.Pos) {
			return out
		}
		if r.cause(t) {
			out = append(out, t.Value)
		}
	}
	return out
}

func (r *reader) cause(t source.Text) bool {
	_, ok := r.cat.Cause(t.Value)
	if !ok {
		r.unknown(CodeCause, "cause", t, r.causeIDs())
	}
	return ok
}

type rawExpect struct {
	First source.Text  `yaml:"first"`
	Set   *source.Node `yaml:"set"`
	Why   source.Text  `yaml:"why"`
}

// expect reads what a sample case is meant to show.
func (r *reader) expect(n *source.Node) *Expect {
	if n == nil {
		return nil
	}
	var raw rawExpect
	source.Decode(n, &raw, r.ps)
	e := &Expect{Set: r.causes(raw.Set), Why: raw.Why.Value}
	if raw.First.Value != "" && r.cause(raw.First) {
		e.First = raw.First.Value
	}
	return e
}

func (r *reader) checkIDs() []string {
	out := make([]string, len(r.cat.Checks))
	for i, c := range r.cat.Checks {
		out[i] = c.ID
	}
	return out
}

func (r *reader) causeIDs() []string {
	out := make([]string, len(r.cat.Causes))
	for i, c := range r.cat.Causes {
		out[i] = c.ID
	}
	return out
}
