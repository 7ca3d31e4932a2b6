package report

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/plan"
)

// do names what a proposal does.
func (a Answer) do(p plan.Proposal) string {
	switch {
	case p.Kind == plan.Service:
		return "hand it to someone with the means to go further"
	case p.Kind == plan.Repair:
		return "put right on suspicion: " + a.named(p.Cause)
	case p.Check != "" && !a.done(p):
		return a.Catalog.NameOf(p.Check)
	}
	return "look for " + a.named(p.Cause) + " and put it right"
}

// done reports whether a proposal would look for a cause with a check that was
// made already: then what is left is to put it right.
func (a Answer) done(p plan.Proposal) bool {
	if p.Kind == plan.Ask || a.Case == nil {
		return false
	}
	for _, d := range a.Case.Done {
		if d.Check == p.Check {
			return true
		}
	}
	return false
}

// effort is the minutes and the stage of a proposal.
func (a Answer) effort(p plan.Proposal) string {
	if p.Kind == plan.Service {
		return ""
	}
	s := Minutes(p.Minutes) + ", " + a.stageName(p.Stage)
	if len(p.Opens) > 0 && a.pays(p.Opens) > 0 {
		s += ", opening included"
	}
	return s
}

func (a Answer) pays(stages []string) float64 {
	sum := 0.0
	for _, id := range stages {
		s, _ := a.Catalog.Stage(id)
		sum += s.Minutes
	}
	return sum
}

// nextShort is what to do next, on one page with the rest of the answer.
func (a Answer) nextShort() []document.Block {
	if a.Course == nil || len(a.Evidence) == 0 && len(a.Explanation.Causes) == 0 {
		return nil
	}
	n := a.Course.Next
	blocks := []document.Block{
		heading("What to do next"),
		document.Paragraph(document.Strong(capital(a.do(n))), plain(bracketed(a.effort(n))+". "+a.purpose(n))),
	}
	if items := a.prospects(n, 3); len(items) > 0 {
		blocks = append(blocks, document.List(items...))
	}
	if len(a.Course.Together) > 0 {
		var names []string
		for _, p := range a.Course.Together[:min(3, len(a.Course.Together))] {
			names = append(names, a.do(p))
		}
		blocks = append(blocks, document.Paragraph(plain("At the same depth, also: "+Join(names)+".")))
	}
	return blocks
}

func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

// purpose says why this comes next.
func (a Answer) purpose(n plan.Proposal) string {
	switch {
	case n.Kind == plan.Service:
		return "Nothing left here is worth its minutes."
	case a.Course.Instead != nil:
		return fmt.Sprintf("It is quick and shuts nothing out; by minutes alone the next step would be to %s (%s), which has to be opened for.",
			a.do(*a.Course.Instead), Minutes(a.Course.Instead.Minutes))
	case n.Kind == plan.Look:
		if a.done(n) {
			return a.cause(n.Cause).Remedy.Do
		}
		return fmt.Sprintf("It shows whether it is %s (%s). If so: %s", a.named(n.Cause), Percent(a.probability(n.Cause)), a.cause(n.Cause).Remedy.Do)
	case n.Saved >= 0.5:
		return fmt.Sprintf("On average it saves %s on the way to a cured machine.", Minutes(n.Saved))
	}
	return fmt.Sprintf("It tells most for its minutes (%.1f%sbits).", n.Bits, nbsp)
}

func (a Answer) probability(cause string) float64 {
	c, _ := a.Explanation.Find(cause)
	return c.Probability
}

// prospects words what each result would leave as the likeliest, at most n.
func (a Answer) prospects(p plan.Proposal, n int) []document.Item {
	var items []document.Item
	for _, r := range p.Results[:min(n, len(p.Results))] {
		if r.Probability < 0.01 {
			break
		}
		then := "nothing in this book is left"
		if r.Top != "" {
			then = fmt.Sprintf("then %s leads (%s)", a.named(r.Top), Percent(r.TopProbability))
		}
		items = append(items, item(document.Strong(capital(a.answers(r))), plain(fmt.Sprintf(" (%s): %s.", Percent(r.Probability), then))))
	}
	return items
}

func (a Answer) answers(r plan.Prospect) string {
	var words []string
	for _, s := range r.Answers {
		answer := "no"
		if s.Yes {
			answer = "yes"
		}
		words = append(words, a.seen(s.Sign, answer))
	}
	return Join(words)
}

// Next is the page of what to do next, in steps.
func (a Answer) Next() document.Document {
	n := a.Course.Next
	page := document.New("Next: "+a.do(n), document.Paragraph(plain("For \""+a.heading()+"\". "+a.purpose(n))))
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(cautionNotes(a.Catalog, a.Cautions, danger)...)
	add(a.figures(n))
	if c, ok := a.Catalog.Check(n.Check); ok && !a.done(n) {
		add(a.steps(c)...)
	} else if n.Cause != "" {
		c := a.cause(n.Cause)
		add(heading("What to look for"), document.Paragraph(plain(c.What)), heading("If it is so"), document.Paragraph(plain(c.Remedy.Do)))
	}
	if items := a.prospects(n, 8); len(items) > 0 {
		add(heading("What the results would mean"), document.List(items...))
	}
	add(a.list("Worth doing at the same depth", a.Course.Together)...)
	add(a.list("Else", a.Course.Others)...)
	add(a.notWorth()...)
	add(a.doors()...)
	add(document.Note(document.Doubt, plain(decides)))
	return page
}

func (a Answer) figures(n plan.Proposal) document.Block {
	facts := appendFact(nil, "effort", a.effort(n))
	if len(n.Opens) > 0 && a.pays(n.Opens) > 0 {
		var names []string
		for _, id := range n.Opens {
			names = append(names, a.stageName(id))
		}
		facts = appendFact(facts, "opens", strings.Join(names, ", then "))
	}
	if n.Bits > 0 {
		facts = appendFact(facts, "tells", fmt.Sprintf("%.2f%sbits, %.3f%sbits a minute", n.Bits, nbsp, n.BitsPerMinute, nbsp))
	}
	if n.Saved >= 0.5 {
		facts = appendFact(facts, "saves", Minutes(n.Saved)+" on average")
	}
	return document.Facts(appendFact(facts, "all the way",
		fmt.Sprintf("between %s and %s until it is cured", Minutes(a.Course.AtLeast), Minutes(a.Course.Minutes)))...)
}

// steps is how a check is done.
func (a Answer) steps(c catalog.Check) []document.Block {
	blocks := cautionNotes(a.Catalog, c.Cautions, func(k catalog.Caution) bool { return !a.shown(k.ID) })
	var how []document.Item
	for _, s := range c.How {
		how = append(how, item(plain(s)))
	}
	if len(c.Tools) > 0 {
		blocks = append(blocks, document.Facts(document.NewFact("tools", plain(strings.Join(c.Tools, ", ")))))
	}
	blocks = append(blocks, heading("How"), document.Numbered(how...))
	if len(c.Watch) > 0 {
		var watch []document.Item
		for _, s := range c.Watch {
			watch = append(watch, item(plain(s)))
		}
		blocks = append(blocks, heading("Watch out for"), document.List(watch...))
	}
	return blocks
}

// shown reports whether a caution is on the page already.
func (a Answer) shown(id string) bool {
	for _, c := range a.Cautions {
		if k, _ := a.Catalog.Caution(id); c == id && danger(k) {
			return true
		}
	}
	return false
}

func (a Answer) list(name string, ps []plan.Proposal) []document.Block {
	var items []document.Item
	for _, p := range ps {
		if p.Kind != plan.Service {
			items = append(items, item(plain(capital(a.do(p))+bracketed(a.effort(p)))))
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading(name), document.List(items...)}
}

func (a Answer) notWorth() []document.Block {
	var items []document.Item
	for _, r := range a.Course.Not {
		name := a.do(plan.Proposal{Kind: plan.Look, Check: r.Check, Cause: r.Cause})
		why := fmt.Sprintf("costs %s and could save %s at most", Minutes(r.Costs), Minutes(r.Saves))
		if r.Reason == plan.ChangesNothing {
			why = "no result would change what is done next"
		}
		items = append(items, item(plain(capital(name)+": "+why+".")))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("Not worth it yet"), document.List(items...)}
}

func (a Answer) doors() []document.Block {
	var items []document.Item
	for _, d := range a.Course.Doors {
		if d.Minutes <= 0 {
			continue
		}
		verdict := "leave it shut for now"
		if d.Now {
			verdict = "open it now"
		} else if d.Saved > 0 {
			verdict = "worth opening later"
		}
		items = append(items, item(plain(fmt.Sprintf("%s (%s there and back): %s.", capital(a.stageName(d.Stage)), Minutes(d.Minutes), verdict))))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("When to open"), document.List(items...)}
}
