package report

import (
	"slices"
	"sort"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// book is the pack without a case.
type book struct {
	cat *catalog.Catalog
	set *rule.Set
}

// entry is the body of a page by the kind of its word.
func (b book) entry(w Word) []document.Block {
	switch w.Kind {
	case "cause":
		c, _ := b.cat.Cause(w.ID)
		return b.cause(c)
	case "sign":
		s, _ := b.cat.Sign(w.ID)
		return b.sign(s)
	case "check":
		c, _ := b.cat.Check(w.ID)
		return b.check(c)
	case "effect":
		e, _ := b.cat.Effect(w.ID)
		return append([]document.Block{document.Paragraph(plain(e.What))}, b.brings(e.ID)...)
	case "fact", "machine":
		f, _ := b.cat.Fact(w.ID)
		return b.fact(f, w.ID)
	case "reading":
		r, _ := b.cat.Reading(w.ID)
		return b.reading(r)
	case "part":
		p, _ := b.cat.Part(strings.TrimPrefix(w.ID, catalog.StackID+"."))
		return b.part(p)
	case "term":
		x, _ := termOf(w.ID)
		return x.page()
	}
	if d, ok := b.cat.DerivedOf(w.ID); ok {
		return b.derived(d)
	}
	s, _ := b.cat.Stage(w.ID)
	return b.stage(s)
}

// derived is how a quantity is worked out and what its results come to.
func (b book) derived(d catalog.Derived) []document.Block {
	facts := []document.Fact{document.NewFact("formula", plain(d.Formula)), document.NewFact("value", document.Code(d.Value))}
	facts = appendFact(facts, "unit", d.Unit)
	facts = appendFact(facts, "from", basisIn(b.cat, d.Basis))
	if d.Needs != "" {
		facts = append(facts, document.NewFact("only where", document.Code(d.Needs)))
	}
	blocks := []document.Block{document.Facts(facts...)}
	var items []document.Item
	for _, o := range d.Means {
		bound := document.Plain("else")
		if o.Below != "" {
			bound = document.Join(plain("below "), document.Code(o.Below))
		}
		items = append(items, item(bound, plain(": "+o.Says)))
	}
	if len(items) > 0 {
		blocks = append(blocks, heading("What it means"), document.List(items...))
	}
	return blocks
}

// cause answers, in this order: what it is, how it shows, how to be sure, what to
// do, what to do afterwards, and what it is taken for.
func (b book) cause(c catalog.Cause) []document.Block {
	blocks := []document.Block{document.Paragraph(plain(c.What))}
	if c.Outside {
		blocks = append(blocks, document.Note(document.Hint, plain("This looks like a fault of "+subject(b.cat)+" and is not one.")))
	}
	blocks = append(blocks, b.brings(c.ID)...)
	blocks = append(blocks, b.confirm(c)...)
	r := c.Remedy
	facts := []document.Fact{document.NewFact("where", plain(stageIn(b.cat, c.Stage))),
		document.NewFact("looking", plain(Minutes(c.LookMinutes))), document.NewFact("putting right", plain(Minutes(r.Minutes)))}
	facts = appendFact(facts, "parts", strings.Join(r.Parts, ", "))
	blocks = append(blocks, heading("What to do"), document.Paragraph(plain(r.Do)), document.Facts(facts...))
	if r.Afterwards != "" {
		blocks = append(blocks, heading("Afterwards"), document.Paragraph(plain(r.Afterwards)))
	}
	if len(c.ConfusedWith) > 0 {
		var items []document.Item
		for _, id := range c.ConfusedWith {
			items = append(items, item(document.Code(id), plain(": "+b.cat.NameOf(id))))
		}
		blocks = append(blocks, heading("Easily confused with"), document.List(items...))
	}
	blocks = append(blocks, cautionNotes(b.cat, c.Cautions, danger)...)
	blocks = append(blocks, cautionNotes(b.cat, c.Cautions, care)...)
	return append(blocks, document.Paragraph(plain("Comes up in "+Percent(c.Prior)+" of the machines brought in. Basis: "+basisIn(b.cat, c.Basis)+".")),
		document.Note(document.Doubt, plain(decides)))
}

// stageIn names a stage, or returns its id when there is none.
func stageIn(cat *catalog.Catalog, id string) string {
	if s, ok := cat.Stage(id); ok {
		return s.Name
	}
	return id
}

// brings lists what a cause or an effect leads to, surest first.
func (b book) brings(id string) []document.Block {
	var rules []rule.Rule
	for _, r := range b.set.Rules {
		if r.Action == rule.Brings && r.From == id {
			rules = append(rules, r)
		}
	}
	sort.SliceStable(rules, func(i, j int) bool { return rules[i].Strength > rules[j].Strength })
	var items []document.Item
	for _, r := range rules {
		items = append(items, item(document.Strong(capital(b.cat.NameOf(r.To))), plain(" ("+Percent(r.Strength)+"): "+r.Because)))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("How it shows"),
		document.Paragraph(plain("In brackets: how often it shows on a machine with nothing else wrong.")), document.List(items...)}
}

// confirm lists the checks that settle what a cause itself shows.
func (b book) confirm(c catalog.Cause) []document.Block {
	var items []document.Item
	said := map[string]bool{}
	for _, r := range b.set.Rules {
		s, ok := b.cat.Sign(r.To)
		if r.From != c.ID || !ok || s.Kind == "complaint" {
			continue
		}
		for _, k := range b.cat.ChecksFor(r.To) {
			if !said[k.ID] {
				said[k.ID] = true
				items = append(items, item(plain(capital(k.Name)+bracketed(Minutes(k.Minutes)+", "+stageIn(b.cat, k.Stage))+" "), document.Code(k.ID)))
			}
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("How to confirm it"), document.List(items...)}
}

// sign tells how to answer it, what brings it and which checks settle it.
func (b book) sign(s catalog.Sign) []document.Block {
	facts := appendFact(nil, "yes", s.Yes)
	facts = appendFact(facts, "no", s.No)
	facts = appendFact(facts, "makes sense when", s.Needs)
	blocks := []document.Block{document.Paragraph(plain(s.Question))}
	if len(facts) > 0 {
		blocks = append(blocks, document.Facts(facts...))
	}
	var items []document.Item
	for _, r := range b.set.Rules {
		if r.Action == rule.Brings && r.To == s.ID {
			items = append(items, item(document.Strong(capital(b.cat.NameOf(r.From))), plain(" ("+Percent(r.Strength)+"): "+r.Because)))
		}
	}
	if len(items) > 0 {
		blocks = append(blocks, heading("What brings it"),
			document.Paragraph(plain("In brackets: how often it does so, acting alone.")), document.List(items...))
	}
	var checks []document.Item
	for _, k := range b.cat.ChecksFor(s.ID) {
		checks = append(checks, item(document.Code(k.ID), plain(": "+k.Name)))
	}
	if len(checks) > 0 {
		blocks = append(blocks, heading("Checks that settle it"), document.List(checks...))
	}
	return append(blocks, document.Paragraph(plain("Seen without any cause of this book in "+Percent(s.Leak)+" of cases. Basis: "+basisIn(b.cat, s.Basis)+".")))
}

// check is how to do it, and what each result means whatever the case.
func (b book) check(c catalog.Check) []document.Block {
	blocks := []document.Block{document.Facts(document.NewFact("effort", plain(Minutes(c.Minutes)+", "+stageIn(b.cat, c.Stage))))}
	blocks = append(blocks, cautionNotes(b.cat, c.Cautions, danger)...)
	blocks = append(blocks, cautionNotes(b.cat, c.Cautions, care)...)
	blocks = append(blocks, steps(c)...)
	var items []document.Item
	for _, r := range c.Results {
		for _, x := range []struct{ answer, text string }{{"yes", r.Yes}, {"no", r.No}} {
			if x.text != "" {
				items = append(items, item(document.Strong(capital(seenIn(b.cat, r.Sign, x.answer))), plain(": "+x.text)))
			}
		}
	}
	if len(items) > 0 {
		blocks = append(blocks, heading("What the results mean"), document.List(items...))
	}
	return append(blocks, document.Paragraph(plain("Basis: "+basisIn(b.cat, c.Basis)+".")))
}

// fact is a word of the history or of the machine sheet, with the rules that
// would change their mind by it.
func (b book) fact(f catalog.Fact, id string) []document.Block {
	facts := appendFact(nil, "question", f.Question)
	facts = appendFact(facts, "how to tell", f.How)
	facts = appendFact(facts, "kind", factKind(f.Kind))
	facts = appendFact(facts, "unit", f.Unit)
	var choices []string
	for _, o := range f.Choices {
		choices = append(choices, o.ID)
	}
	facts = appendFact(facts, "one of", strings.Join(choices, ", "))
	blocks := []document.Block{document.Facts(facts...)}
	var items []document.Item
	for _, r := range b.set.Rules {
		if r.When != nil && slices.Contains(r.When.Words(), id) {
			items = append(items, item(document.Code(r.ID), plain(": "+r.Because)))
		}
	}
	if len(items) > 0 {
		blocks = append(blocks, heading("Rules that ask for it"), document.List(items...))
	}
	return blocks
}

// factKind says what an answer looks like.
func factKind(kind string) string {
	switch kind {
	case string(fact.YesNo):
		return "yes or no"
	case string(fact.Choices):
		return "one or more of a list"
	case string(fact.Choice):
		return "one of a list"
	}
	return kind
}

// reading names the limits but gives none: they are the machine's own.
func (b book) reading(r catalog.Reading) []document.Block {
	facts := appendFact(nil, "unit", r.Unit)
	if g, ok := b.cat.Gauge(r.Gauge); ok {
		facts = appendFact(facts, "usual gauge", g.Name)
	}
	facts = appendFact(facts, "judged against", strings.Join(nonEmpty(r.Limit, r.LimitMin, r.LimitMax), " and "))
	if r.General.Low+r.General.High != "" {
		facts = appendFact(facts, "general figure", strings.Join(nonEmpty(r.General.Low, r.General.High), " to ")+" ("+basisIn(b.cat, r.General.Basis)+")")
	}
	blocks := []document.Block{document.Facts(facts...)}
	if r.Means != "" {
		blocks = append(blocks, document.Paragraph(plain("Past its limit: "+r.Means)))
	}
	if len(r.HowWrong) > 0 {
		blocks = append(blocks, heading("How it goes wrong"), document.List(items(mistakes(r))...))
	}
	return append(blocks, document.Note(document.Doubt, plain("The limit is the one in the machine's own service manual.")))
}

// mistakes says how a reading is easily taken wrong, and what it does to the figure.
func mistakes(r catalog.Reading) []string {
	var out []string
	for _, m := range r.HowWrong {
		switch m.Reads {
		case "high", "low":
			out = append(out, m.Says+" It reads "+m.Reads+".")
		default:
			out = append(out, m.Says)
		}
	}
	return out
}

// nonEmpty drops the empty strings of a list.
func nonEmpty(list ...string) []string {
	var out []string
	for _, s := range list {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// stage is what it takes to open one and to close it again.
func (b book) stage(s catalog.Stage) []document.Block {
	facts := []document.Fact{document.NewFact("there and back", plain(Minutes(s.Minutes)))}
	if s.Parent != "" {
		facts = appendFact(facts, "after", stageIn(b.cat, s.Parent))
	}
	facts = appendFact(facts, "takes", s.Takes)
	return []document.Block{document.Facts(appendFact(facts, "to close", s.Closes)...)}
}
