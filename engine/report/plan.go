package report

import (
	"fmt"
	"slices"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/figure"
	"example.org/takeup/engine/plan"
)

// habits words the plain habits that a plan is compared with.
var habits = map[string]string{
	plan.HabitOutsideIn:       "working from the outside in",
	plan.HabitMostLikely:      "the likeliest part first",
	plan.HabitMostInformative: "the most telling test first",
}

// Plan is the page of a plan written out: what it takes, then every step with what
// each result leads to. On a hand-out it is drawn as well.
func (a Answer) Plan(o plan.Outlook) document.Document {
	page := document.New("Plan: "+a.heading(), a.takes(o), a.compared(o))
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(a.warnings(o.Plan.Do)...)
	add(heading("Step by step"), document.Numbered(a.along(&o.Plan)...))
	if a.Handout {
		add(heading("The same as a drawing"), a.tree(o))
	}
	add(document.Note(document.Doubt, plain("After a result, enter it in the case and ask again: the answer then rests on all that is known. "+decides)))
	return page
}

// takes says how long it should take, and why it cannot be shorter.
func (a Answer) takes(o plan.Outlook) document.Block {
	s := fmt.Sprintf("By this plan it takes %s on average until it is cured, openings, remedy and trial included%s. "+
		"Even someone who knew the fault would need %s.", Minutes(o.Minutes), a.moneyCounts(), Minutes(o.AtLeast))
	return document.Paragraph(plain(s))
}

// compared sets the plan beside plain habits, the shortest first.
func (a Answer) compared(o plan.Outlook) document.Block {
	sorted := slices.Clone(o.Habits)
	slices.SortStableFunc(sorted, func(x, y plan.Habit) int {
		if x.Minutes < y.Minutes {
			return -1
		}
		return 1
	})
	facts := []document.Fact{document.NewFact("this plan", plain(whole(o.Minutes)))}
	for _, h := range sorted {
		facts = append(facts, document.NewFact(habits[h.ID], plain(whole(h.Minutes))))
	}
	return document.Facts(facts...)
}

// whole is a duration in minutes however long, so that two can be compared.
func whole(minutes float64) string { return fmt.Sprintf("%.0f%smin", minutes, nbsp) }

// along lists the steps along the likeliest way; the other ways stand below the
// step they leave from.
func (a Answer) along(t *plan.Turn) []document.Item {
	var items []document.Item
	for t != nil {
		on := mainWay(t)
		var ways []document.Item
		for k, w := range t.Ways {
			if t.Do.Kind != plan.Service {
				ways = append(ways, a.way(t, w, k == on))
			}
		}
		text := document.Join(document.Strong(capital(a.turnStep(t.Do))), plain(bracketed(a.effort(t.Do))))
		if len(ways) == 0 {
			items = append(items, item(text))
		} else {
			items = append(items, document.NewItem(text, document.List(ways...)))
		}
		if on < 0 {
			break
		}
		t = t.Ways[on].Then
	}
	return items
}

// mainWay is the likeliest way that goes on, or -1 where the plan is cut.
func mainWay(t *plan.Turn) int {
	on := -1
	for k, w := range t.Ways {
		if w.Then != nil && (on < 0 || w.Probability > t.Ways[on].Probability) {
			on = k
		}
	}
	return on
}

// turnStep is what a plan says to do: the check, and what it would show.
func (a Answer) turnStep(p plan.Proposal) string {
	var names []string
	for _, id := range p.Causes {
		names = append(names, a.named(id))
	}
	switch {
	case p.Kind != plan.Look || p.Confirmed || p.Check == "":
		return a.do(p)
	case p.Made:
		return "look closer: " + listed(names, "or") + "?"
	}
	return a.do(p) + ": " + listed(names, "or") + "?"
}

// way words one result and what follows it.
func (a Answer) way(t *plan.Turn, w plan.Way, main bool) document.Item {
	on := document.Join(document.Strong(capital(a.result(t, w))), plain(" ("+Percent(w.Probability)+")"))
	switch {
	case w.Found:
		return item(on, plain(": "+a.remedied(t.Do, w)))
	case main:
		return item(on, plain(": go on."))
	case w.Then == nil:
		return item(on, plain(": "+a.beyond(w)))
	}
	return document.NewItem(document.Join(on, plain(":")), document.Numbered(a.along(w.Then)...))
}

// beyond is what is left where the plan is cut.
func (a Answer) beyond(w plan.Way) string {
	s := fmt.Sprintf("%s more on average", Minutes(w.Minutes))
	if w.Top != "" {
		s += fmt.Sprintf("; %s then leads (%s)", a.named(w.Top), Percent(w.TopProbability))
	}
	return s + "."
}

// remedied is what ends the work.
func (a Answer) remedied(p plan.Proposal, w plan.Way) string {
	if len(p.Causes) > 1 {
		return fmt.Sprintf("put right what is found; %s more and it is done.", Minutes(w.Minutes))
	}
	return fmt.Sprintf("%s %s more and it is done.", a.cause(p.Cause).Remedy.Do, Minutes(w.Minutes))
}

// result names a result of a step by what is seen; what no other result says is
// "anything else".
func (a Answer) result(t *plan.Turn, w plan.Way) string {
	switch {
	case t.Do.Kind == plan.Look && w.Found:
		return "yes"
	case t.Do.Kind == plan.Look:
		return "no"
	case w.Else:
		return "anything else"
	}
	var yes, no []string
	for _, s := range w.Answers {
		if s.Yes {
			yes = append(yes, a.seen(s.Sign, "yes"))
		} else {
			no = append(no, a.seen(s.Sign, "no"))
		}
	}
	// what is there says enough, unless another result says it too and more
	if len(yes) > 0 && !a.alsoSaid(t, w) {
		return Join(yes)
	}
	return Join(append(yes, no...))
}

// alsoSaid reports whether the yes answers of a way are among those of another.
func (a Answer) alsoSaid(t *plan.Turn, w plan.Way) bool {
	yes := func(v plan.Way) []string {
		var out []string
		for _, s := range v.Answers {
			if s.Yes {
				out = append(out, s.Sign)
			}
		}
		return out
	}
	own := yes(w)
	for _, v := range t.Ways {
		other := yes(v)
		more := len(other) > len(own)
		for _, id := range own {
			more = more && slices.Contains(other, id)
		}
		if more {
			return true
		}
	}
	return false
}

// tree draws the plan.
func (a Answer) tree(o plan.Outlook) document.Block {
	rows := a.boxes(&o.Plan, 0, "", 1)
	alt := fmt.Sprintf("The plan as a tree of %s, the first step at the top.", counted(len(rows), "box", "boxes"))
	return figure.Tree("The thicker a line, the more often it is taken.", alt, rows)
}

// boxes lays a turn out for drawing: its box, then every way on.
func (a Answer) boxes(t *plan.Turn, depth int, on string, share float64) []figure.Row {
	out := []figure.Row{{Depth: depth, On: on, Share: share, Text: capital(a.turnStep(t.Do)), Note: a.effort(t.Do)}}
	for _, w := range t.Ways {
		if t.Do.Kind == plan.Service {
			break
		}
		label := Percent(w.Probability) + ": " + a.result(t, w)
		switch {
		case w.Then != nil:
			out = append(out, a.boxes(w.Then, depth+1, label, w.Probability)...)
		case w.Found:
			out = append(out, figure.Row{Depth: depth + 1, On: label, Share: w.Probability, End: true, Text: "Put it right: " + Minutes(w.Minutes) + " and it is done"})
		default:
			out = append(out, figure.Row{Depth: depth + 1, On: label, Share: w.Probability, Text: capital(a.beyond(w))})
		}
	}
	return out
}
