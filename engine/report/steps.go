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
	add(a.list("Before you close up and try it, look too", a.Course.Closing)...)
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

// figures are the numbers behind the step: minutes first, since they decide, and
// information second.
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
	if n.Saved >= worthMentioning {
		facts = appendFact(facts, "saves", Minutes(n.Saved)+" on average")
	}
	return document.Facts(appendFact(facts, "all the way",
		fmt.Sprintf("between %s and %s until it is cured", Minutes(a.Course.AtLeast), Minutes(a.Course.Minutes))+a.moneyCounts())...)
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

// list is a heading with the proposals below it, each named once.
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

// notWorth says why tempting things are left alone: a reader who thinks of one
// should find it here.
func (a Answer) notWorth() []document.Block {
	var items []document.Item
	said := map[string]bool{}
	for _, r := range a.Course.Not {
		name := a.do(plan.Proposal{Kind: plan.Look, Check: r.Check, Cause: r.Cause})
		if said[name] { // one check as a look and as a question
			continue
		}
		said[name] = true
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

// doors is the decision about every stage that could be opened next.
func (a Answer) doors() []document.Block {
	var items []document.Item
	for _, d := range a.Course.Doors {
		if d.Minutes <= 0 {
			continue
		}
		verdict := "leave it shut for now"
		if d.Now {
			verdict = "open it now"
			if d.Saved >= worthMentioning {
				verdict += fmt.Sprintf("; shut, it would take %s longer on average", Minutes(d.Saved))
			}
		} else if d.Saved >= worthMentioning {
			verdict = fmt.Sprintf("not yet; if it stayed shut to the end, that would cost %s on average", Minutes(d.Saved))
		}
		items = append(items, item(plain(fmt.Sprintf("%s (%s there and back%s): %s.", capital(a.stageName(d.Stage)), Minutes(d.Minutes), andMoney(d.Money), verdict))))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("When to open"), document.List(items...)}
}
