package build

import (
	"fmt"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/rule"
)

// probable is the probability from which a cause is taken to be what the job puts
// right although nobody has confirmed it.
const probable = 0.5

// New makes the sheet. The error says that a condition of the knowledge cannot be
// read; a checked pack has none.
func New(j Job) (*Sheet, error) {
	s := &Sheet{Causes: j.causes(), Parts: []Part{}, Steps: []Step{}, Cautions: []string{}}
	s.Stages = j.stages(s.Causes)
	for _, step := range j.Catalog.Steps {
		if !slices.Contains(s.Stages, step.Stage) && !(j.From == "" && s.asksFor(step)) {
			continue
		}
		applies, waits, err := j.applies(step)
		if err != nil {
			return nil, fmt.Errorf("step %s: %w", step.ID, err)
		}
		if applies {
			s.take(j, step, waits)
		}
	}
	s.Parts = j.parts(s)
	s.Packs = append([]Pack{}, j.packs()...)
	return s, nil
}

// causes are those that the list shows, those confirmed and those that are
// probable, in this order.
func (j Job) causes() []Cause {
	out := []Cause{}
	for _, b := range j.Beliefs {
		found := slices.Contains(j.Found, b.Cause)
		if found || b.Probability >= probable {
			out = append(out, Cause{
				ID: b.Cause, Probability: b.Probability, Found: found,
				Listed: append([]string{}, b.Listed...), Seen: append([]string{}, b.Seen...), Steps: []string{},
			})
		}
	}
	for _, id := range j.Found { // whoever found it is right, also where the rules say it cannot be
		if !slices.ContainsFunc(out, func(c Cause) bool { return c.ID == id }) {
			out = append(out, Cause{ID: id, Found: true, Listed: []string{}, Seen: []string{}, Steps: []string{}})
		}
	}
	rank := func(c Cause) int {
		switch {
		case len(c.Listed) > 0:
			return 0
		case c.Found:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(out, func(a, b Cause) int { return rank(a) - rank(b) })
	return out
}

// stages are those on the way to what was opened or has to be, in the order of the
// knowledge.
func (j Job) stages(causes []Cause) []string {
	open := map[string]bool{}
	reach := func(stage string) {
		for _, s := range j.Catalog.StagePath(stage) {
			open[s.ID] = true
		}
	}
	reach(j.From)
	if j.From == "" {
		reach(j.Open)
		for _, c := range causes {
			cause, _ := j.Catalog.Cause(c.ID)
			reach(cause.Stage)
			for _, step := range j.Catalog.Steps {
				if step.Opens && seesTo(step, c) {
					reach(step.Stage)
				}
			}
		}
		for _, id := range j.Done {
			check, _ := j.Catalog.Check(id)
			reach(check.Stage)
		}
	}
	out := []string{}
	for _, s := range j.Catalog.Stages {
		if open[s.ID] {
			out = append(out, s.ID)
		}
	}
	return out
}

// applies asks the condition of a step. What cannot be told applies, with the facts
// that would tell.
func (j Job) applies(step catalog.Step) (bool, []string, error) {
	c, err := j.Rules.Parse(step.When, j.Words)
	if err != nil {
		return false, nil, err
	}
	f := j.Rules.Ask(c, j.Known)
	return f.Verdict != rule.No, f.Waits, nil
}

// asksFor reports whether a step sees to a cause of this job. Such a step is on the
// sheet although its stage was not open: oil is filled without opening anything.
func (s *Sheet) asksFor(step catalog.Step) bool {
	return slices.ContainsFunc(s.Causes, func(c Cause) bool { return seesTo(step, c) })
}

// seesTo reports whether a step keeps a cause away, or a sign that was seen of it.
func seesTo(step catalog.Step, c Cause) bool {
	return slices.ContainsFunc(step.Prevents, func(id string) bool { return id == c.ID || slices.Contains(c.Seen, id) })
}

func (s *Sheet) take(j Job, step catalog.Step, waits []string) {
	s.Steps = append(s.Steps, Step{ID: step.ID, Phase: step.Phase, Waits: waits, Tighten: j.tighten(step.Tighten)})
	for i := range s.Causes {
		c := &s.Causes[i]
		if seesTo(step, *c) {
			c.Steps = append(c.Steps, step.ID)
		}
	}
	for _, id := range step.Cautions {
		if !slices.Contains(s.Cautions, id) {
			s.Cautions = append(s.Cautions, id)
		}
	}
}

// parts are those that the causes ask for, then what is new every time. A part that
// is both stands with its causes.
func (j Job) parts(s *Sheet) []Part {
	parts := []Part{}
	add := func(name string) *Part {
		i := slices.IndexFunc(parts, func(p Part) bool { return p.Name == name })
		if i < 0 {
			i = len(parts)
			parts = append(parts, Part{Name: name})
		}
		return &parts[i]
	}
	for _, c := range s.Causes {
		cause, _ := j.Catalog.Cause(c.ID)
		for _, name := range cause.Remedy.Parts {
			p := add(name)
			p.Causes = append(p.Causes, c.ID)
		}
	}
	for _, taken := range s.Steps {
		step, _ := j.Catalog.Step(taken.ID)
		for _, name := range step.Parts {
			add(name).Always = true
		}
	}
	return parts
}
