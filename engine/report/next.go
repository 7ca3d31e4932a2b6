package report

import (
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/plan"
)

// listShown is how many things to do one list of the page shows; they come
// sorted, the most worthwhile first.
const listShown = 6

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
	if a.done(p) {
		return "look for " + a.named(p.Cause) + " and put it right"
	}
	return "look for " + a.named(p.Cause)
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
	if items := a.prospects(n, 2); len(items) > 0 {
		blocks = append(blocks, document.List(items...))
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
	page := document.New("Next: "+a.do(n), document.Paragraph(plain(capital(a.heading())+". "+a.purpose(n))))
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(a.warnings(n)...)
	add(a.figures(n))
	if c, ok := a.Catalog.Check(n.Check); ok && !a.done(n) {
		add(steps(c)...)
	}
	if n.Cause != "" {
		add(heading("What to look for"), document.Paragraph(plain(a.cause(n.Cause).What)))
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

// warnings are the dangers of the case and all cautions of the step, each once.
func (a Answer) warnings(n plan.Proposal) []document.Block {
	var ids []string
	for _, id := range a.Cautions {
		if c, ok := a.Catalog.Caution(id); ok && danger(c) {
			ids = append(ids, id)
		}
	}
	check, _ := a.Catalog.Check(n.Check)
	for _, id := range append(append([]string(nil), check.Cautions...), a.cause(n.Cause).Cautions...) {
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return append(cautionNotes(a.Catalog, ids, danger), cautionNotes(a.Catalog, ids, care)...)
}

func (a Answer) figures(n plan.Proposal) document.Block {
	facts := appendFact(nil, "effort", a.effort(n))
	if len(n.Opens) > 0 && a.pays(n.Opens) > 0 {
		var names []string
		for _, id := range n.Opens {
			if a.pays([]string{id}) > 0 {
				names = append(names, a.stageName(id))
			}
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
func steps(c catalog.Check) []document.Block {
	var blocks []document.Block
	if len(c.Tools) > 0 {
		blocks = append(blocks, document.Facts(document.NewFact("tools", plain(strings.Join(c.Tools, ", ")))))
	}
	blocks = append(blocks, heading("How"), document.Numbered(items(c.How)...))
	if len(c.Watch) > 0 {
		blocks = append(blocks, heading("Watch out for"), document.List(items(c.Watch)...))
	}
	return blocks
}

// items makes one plain item of every sentence.
func items(list []string) []document.Item {
	var out []document.Item
	for _, s := range list {
		out = append(out, item(plain(s)))
	}
	return out
}

func (a Answer) list(name string, ps []plan.Proposal) []document.Block {
	var items []document.Item
	said := map[string]bool{capital(a.do(a.Course.Next)): true}
	for _, p := range ps {
		// A look and a question may both be the same check.
		what := capital(a.do(p))
		if p.Kind == plan.Service || said[what] || len(items) == listShown {
			continue
		}
		said[what] = true
		items = append(items, item(plain(what+bracketed(a.effort(p)))))
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
