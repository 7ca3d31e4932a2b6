package interview

import (
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// What an answer costs in minutes (common practice): to remember one thing, and
// each further one asked along with it; and how much opening is still asking and
// not work.
const (
	recall    = 0.5
	alongside = 0.1
	reach     = 5.0
)

// complaint is the kind of sign that an owner tells of without doing anything.
const complaint = "complaint"

const machinePrefix = "machine."

// desk is a situation with what every question needs looked up once.
type desk struct {
	Situation
	known    fact.Set
	answered map[string]bool // signs
	needs    map[string]rule.Verdict
	firings  []rule.Firing
	open     map[string]bool
	done     map[string]bool
}

func newDesk(s Situation) *desk {
	d := &desk{Situation: s, known: s.Case.Known, answered: map[string]bool{}, needs: map[string]rule.Verdict{}, open: map[string]bool{}, done: map[string]bool{}}
	d.firings = s.fire(d.known)
	for _, o := range s.Case.Observations {
		d.answered[o.Sign] = true
	}
	for i, r := range s.Rules.Rules { // what a measurement has settled
		if r.Action == rule.Shows && d.firings[i].Verdict != rule.Unknown {
			d.answered[r.To] = true
		}
	}
	for _, stage := range s.Catalog.StagePath(s.Open) {
		d.open[stage.ID] = true
	}
	for _, c := range s.Case.Done {
		d.done[c.Check] = true
	}
	return d
}

// All lists every question that can be asked, as the knowledge lists them: facts
// of the history, words of the machine sheet, signs that are remembered, then
// checks.
func All(s Situation) []Question { return newDesk(s).all() }

func (d *desk) all() []Question {
	return slices.Concat(d.facts(), d.remembered(), d.checks())
}

// verdict answers a `needs` condition; many share one.
func (d *desk) verdict(needs string) rule.Verdict {
	if needs == "" {
		return rule.Yes
	}
	v, asked := d.needs[needs]
	if !asked {
		v = d.Rules.Needs(needs, d.Words, d.known)
		d.needs[needs] = v
	}
	return v
}

// facts lists what rules about causes wait for.
func (d *desk) facts() []Question {
	waited := map[string]bool{}
	for i, f := range d.firings {
		if a := d.Rules.Rules[i].Action; a != rule.Cautions && a != rule.Shows {
			for _, id := range f.Waits {
				waited[id] = true
			}
		}
	}
	// A fact that only lets another be asked is waited for with it.
	for _, f := range d.Catalog.Facts {
		if waited[f.ID] && d.verdict(f.Needs) == rule.Unknown {
			if c, err := d.Rules.Parse(f.Needs, d.Words); err == nil {
				for _, id := range c.Words() {
					waited[id] = true
				}
			}
		}
	}
	var out []Question
	add := func(id string, f catalog.Fact) {
		if waited[id] && !d.known.Known(id) && !d.Skipped[id] && f.Question != "" && d.verdict(f.Needs) == rule.Yes && len(answersTo(d, f)) > 1 {
			out = append(out, Question{Kind: Fact, ID: id, Minutes: recall})
		}
	}
	for _, f := range d.Catalog.Facts {
		add(f.ID, f)
	}
	if !d.SheetElsewhere {
		for _, f := range d.Catalog.Machine {
			if k := fact.Kind(f.Kind); k == fact.YesNo || k == fact.Choice {
				add(machinePrefix+f.ID, f)
			}
		}
	}
	return out
}

// wanted reports whether a sign is open and makes sense on this machine.
func (d *desk) wanted(id string) bool {
	s, ok := d.Catalog.Sign(id)
	return ok && !d.answered[id] && !d.Skipped[id] && d.verdict(s.Needs) != rule.No && !d.excluded(s)
}

// excluded reports whether a sign that is there leaves no room for this one.
func (d *desk) excluded(s catalog.Sign) bool {
	for _, o := range d.Case.Observations {
		if other, _ := d.Catalog.Sign(o.Sign); o.Answer == "yes" && (slices.Contains(other.Excludes, s.ID) || slices.Contains(s.Excludes, o.Sign)) {
			return true
		}
	}
	return false
}

// remembered lists the signs that an owner can tell of, grouped as the knowledge
// groups them.
func (d *desk) remembered() []Question {
	grouped := map[string]bool{}
	var out []Question
	for _, q := range d.Catalog.Questions {
		var open []string
		for _, id := range q.Signs {
			if grouped[id] = true; d.wanted(id) {
				open = append(open, id)
			}
		}
		out = append(out, asked(q.ID, open)...)
	}
	for _, s := range d.Catalog.Signs {
		if s.Kind == complaint && !grouped[s.ID] && d.wanted(s.ID) {
			out = append(out, asked(s.ID, []string{s.ID})...)
		}
	}
	return out
}

// asked is the question for the signs that are left of a group.
func asked(id string, signs []string) []Question {
	switch len(signs) {
	case 0:
		return nil
	case 1:
		return []Question{{Kind: Sign, ID: signs[0], Signs: signs, Minutes: recall}}
	}
	return []Question{{Kind: Signs, ID: id, Signs: signs, Minutes: recall + alongside*float64(len(signs)-1)}}
}

// checks lists what has to be looked at, tried or measured, as far as it can be
// without much opening.
func (d *desk) checks() []Question {
	var out []Question
	for _, c := range d.Catalog.Checks {
		minutes, ok := d.effort(c)
		if !ok {
			continue
		}
		from := len(out)
		place := func(q Question) {
			q.Check, q.Stage, q.Minutes = c.ID, c.Stage, minutes
			out = append(out, q)
		}
		read := map[string]bool{}
		for _, id := range c.Gives {
			if signs := d.readable(id); len(signs) > 0 {
				place(Question{Kind: Reading, ID: id, Signs: signs})
				for _, s := range signs {
					read[s] = true
				}
			}
		}
		var open []string
		for _, id := range c.Settles {
			if s, _ := d.Catalog.Sign(id); s.Kind != complaint && !read[id] && d.wanted(id) {
				open = append(open, id)
			}
		}
		for _, q := range asked(c.ID, open) {
			place(q)
		}
		if len(out) == from+1 {
			out[from].Completes = true
		}
	}
	return out
}

// effort is the minutes of a check with its openings, and whether it can be asked
// for here and now.
func (d *desk) effort(c catalog.Check) (float64, bool) {
	missing := slices.ContainsFunc(c.Tools, func(tool string) bool { return slices.Contains(d.Without, tool) })
	if missing || d.done[c.ID] || d.verdict(c.Needs) == rule.No {
		return 0, false
	}
	opening := 0.0
	for _, s := range d.Catalog.StagePath(c.Stage) {
		if !d.open[s.ID] {
			opening += s.Minutes
		}
	}
	return recall + c.Minutes + opening, opening <= reach
}

// readable lists the open signs that a figure for the reading would settle: all
// else that their rules need is known.
func (d *desk) readable(id string) []string {
	if d.known.Known(id) || d.Skipped[id] {
		return nil
	}
	var signs []string
	for i, r := range d.Rules.Rules {
		if f := d.firings[i]; r.Action == rule.Shows && slices.Equal(f.Waits, []string{id}) && d.wanted(r.To) && !slices.Contains(signs, r.To) {
			signs = append(signs, r.To)
		}
	}
	return signs
}

// choices lists what can be answered, for Question.Options.
func (d *desk) choices(q Question) []string {
	switch q.Kind {
	case Sign:
		return slices.Clone(onSign)
	case Signs:
		return q.Signs
	case Fact:
		f, _ := d.Catalog.Fact(q.ID)
		if fact.Kind(f.Kind) == fact.YesNo {
			return []string{"yes", "no"}
		}
		var ids []string
		for _, o := range d.options(f) {
			ids = append(ids, o.ID)
		}
		return ids
	}
	return nil
}

// inFamilies reports whether a sign of the question belongs to one of them.
func (d *desk) inFamilies(q Question) bool {
	return q.Check == "" && slices.ContainsFunc(q.Signs, func(id string) bool {
		s, _ := d.Catalog.Sign(id)
		return slices.Contains(d.Families, s.Family)
	})
}

// sheetWord is a machine word's id without its prefix, and whether it is one.
func sheetWord(id string) (string, bool) { return strings.CutPrefix(id, machinePrefix) }
