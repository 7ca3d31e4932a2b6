package report

import (
	"cmp"
	"fmt"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/inspect"
	"example.org/takeup/engine/mechanics"
)

// sums is what the readings add up to, group by group.
func (a Answer) sums(in inspect.Inspection, working bool) []document.Block {
	var items []document.Item
	var blocks []document.Block
	for _, g := range in.Groups {
		if working {
			blocks = append(blocks, a.worked(g)...)
		} else if text := a.sum(g); text != nil {
			items = append(items, document.NewItem(text))
		}
	}
	for _, f := range in.Fittings {
		text := document.Join(document.Strong(a.fittingOf(f.ID).Name+": "), plain(a.plans(f, working)))
		if working {
			blocks = append(blocks, document.Paragraph(text))
		} else if f.Measured {
			items = append(items, document.NewItem(text))
		}
	}
	if len(items) > 0 {
		blocks = append(blocks, document.List(items...))
	}
	if len(blocks) > 0 && !working {
		blocks = append([]document.Block{heading("What they add up to")}, blocks...)
	}
	return blocks
}

func (a Answer) groupOf(id string) catalog.Group {
	for _, g := range a.Catalog.Groups {
		if g.ID == id {
			return g
		}
	}
	return catalog.Group{ID: id, Name: id}
}

func (a Answer) fittingOf(id string) catalog.Fitting {
	for _, f := range a.Catalog.Fittings {
		if f.ID == id {
			return f
		}
	}
	return catalog.Fitting{ID: id, Name: id}
}

// sum is a group in a few lines: what it comes to, then the figures. Figures of the
// sheet alone show only beside measured ones, or when they warn.
func (a Answer) sum(g inspect.Group) document.Text {
	var values, said []string
	for _, f := range g.Figures {
		d, _ := a.Catalog.DerivedOf(f.ID)
		if d.Quiet && !f.Warns || !g.Measured && !f.Warns {
			continue
		}
		values = append(values, a.labelled(f))
		if f.Means != "" && (f.Measured || f.Warns) {
			said = append(said, f.Means+evenWords(f))
		}
	}
	if len(values) == 0 {
		return nil
	}
	said = append(said, capital(strings.Join(values, ", "))+".", a.partsWords(g))
	return document.Join(document.Strong(a.groupOf(g.ID).Name+": "), plain(strings.Join(nonEmpty(said...), " ")))
}

func evenWords(f inspect.Figure) string {
	if f.Even {
		return " It is close: the gauges leave the other side open."
	}
	return ""
}

// labelled is the short name of a figure with its value, and its share of the parts.
func (a Answer) labelled(f inspect.Figure) string {
	d, _ := a.Catalog.DerivedOf(f.ID)
	text := d.Label + " " + a.valueOf(f)
	if f.Share > 0 && f.Share < 1 { // a part that stands alone is no share of anything
		text += fmt.Sprintf(" (%s)", Percent(f.Share))
	}
	return text
}

// valueOf is a figure with its expanded uncertainty, when the readings leave any.
func (a Answer) valueOf(f inspect.Figure) string {
	d, _ := a.Catalog.DerivedOf(f.ID)
	if u := inspect.Coverage * f.Sigma; u > 0 {
		return plusMinus(f.SI, u, d.Unit)
	}
	return three(f.SI, d.Unit)
}

// partsWords adds the parts up and says what the whole has left over.
func (a Answer) partsWords(g inspect.Group) string {
	p := g.Parts
	if p == nil {
		return ""
	}
	d, _ := a.Catalog.DerivedOf(a.groupOf(g.ID).Whole)
	text := "The parts add up to " + plusMinus(p.Sum, inspect.Coverage*p.Sigma, d.Unit)
	switch {
	case p.Whole == 0:
		return text + "."
	case p.Rest > inspect.Coverage*p.RestSigma:
		return text + fmt.Sprintf("; %s is left for %s.", plusMinus(p.Rest, inspect.Coverage*p.RestSigma, d.Unit), cmp.Or(a.groupOf(g.ID).Rest, "something else"))
	}
	return text + ", which is all there is."
}

// plans words the choices of parts that set a height.
func (a Answer) plans(f inspect.Height, working bool) string {
	c := a.fittingOf(f.ID)
	height := a.high(c, f.Height, f.Sigma) + ", wanted " + shown(f.Low, a.unitOf(c)) + " to " + shown(f.High, a.unitOf(c))
	if f.TooMany {
		return height + ". There are too many choices to search; name fewer sizes."
	}
	best := f.Plans[0] // there is always one: to leave it
	switch {
	case best.InRange && len(best.Swaps) == 0:
		return height + ": leave it as it is."
	case !best.InRange:
		height += ": no choice of " + c.Part + "s on sale reaches it"
		if working && len(best.Swaps) > 0 {
			height += "; the nearest is " + a.order(c, best)
		}
		return height + "." + lowNote(c, f)
	}
	text := height + ": order " + a.order(c, best)
	for _, other := range f.Plans[1:] {
		if other.InRange && len(other.Swaps) == len(best.Swaps) {
			text += "; or " + a.order(c, other)
		}
	}
	return text + ". Measure again after fitting." + lowNote(c, f)
}

// lowNote is what to think of before a low height is made up for.
func lowNote(c catalog.Fitting, f inspect.Height) string {
	if f.Height >= f.Low {
		return ""
	}
	return " " + c.Note
}

// high is a height with its expanded uncertainty.
func (a Answer) high(c catalog.Fitting, si, sigma float64) string {
	if sigma <= 0 {
		return shown(si, a.unitOf(c))
	}
	return plusMinus(si, inspect.Coverage*sigma, a.unitOf(c))
}

// unitOf is the unit that the fitted part is measured in.
func (a Answer) unitOf(c catalog.Fitting) string {
	r, _ := a.Catalog.Reading(c.Fitted)
	return r.Unit
}

// order is one choice as it would be ordered, with what it gives. Which of the old
// parts go out is said by their thickness.
func (a Answer) order(c catalog.Fitting, p mechanics.PackPlan) string {
	var fresh, old []float64
	for _, s := range p.Swaps {
		fresh, old = append(fresh, s.InM), append(old, s.OutM)
	}
	return fmt.Sprintf("%s, %s, for %s, which gives %s", counted(len(fresh), c.Part, c.Part+"s"),
		a.tally(c, fresh), a.tally(c, old), a.high(c, p.HeightM, p.HeightU))
}

// tally counts equal sizes: "2 of 1.8 mm and 1 of 1.7 mm".
func (a Answer) tally(c catalog.Fitting, sizes []float64) string {
	var names []string
	count := map[string]int{}
	for _, size := range sizes {
		name := shown(size, a.unitOf(c))
		if count[name]++; count[name] == 1 {
			names = append(names, name)
		}
	}
	for i, name := range names {
		names[i] = fmt.Sprintf("%d of %s", count[name], name)
	}
	return Join(names)
}

// worked is a group with everything its figures rest on.
func (a Answer) worked(g inspect.Group) []document.Block {
	c := a.groupOf(g.ID)
	blocks := []document.Block{heading(c.Name)}
	if c.What != "" {
		blocks = append(blocks, document.Paragraph(plain(c.What)))
	}
	var items []document.Item
	for _, f := range g.Figures {
		d, _ := a.Catalog.DerivedOf(f.ID)
		text := document.Join(document.Strong(capital(d.Name)), plain(" = "+a.valueOf(f)))
		if f.Share > 0 {
			text = document.Join(text, plain(", "+Percent(f.Share)+" of the parts"))
		}
		facts := []document.Fact{document.NewFact("formula", plain(d.Formula)), document.NewFact("with", plain(a.inputs(f)))}
		facts = appendFact(facts, "from", basisIn(a.Catalog, d.Basis))
		facts = appendFact(facts, "means", strings.TrimSpace(f.Means+evenWords(f)))
		items = append(items, document.NewItem(text, document.Facts(facts...)))
	}
	blocks = append(blocks, document.List(items...))
	if s := a.partsWords(g); s != "" {
		blocks = append(blocks, document.Paragraph(plain(s)))
	}
	return blocks
}

// inputs names what a formula was given.
func (a Answer) inputs(f inspect.Figure) string {
	var out []string
	for i, id := range f.Inputs {
		name := a.Catalog.NameOf(id)
		if v, ok := a.Case.Known.Get(id); ok {
			out = append(out, name+" "+typed(v))
		} else if i < len(f.From) {
			d, _ := a.Catalog.DerivedOf(id)
			out = append(out, name+" "+three(f.From[i], d.Unit))
		}
	}
	return strings.Join(out, ", ")
}

// typed is a value as the user gave it.
func typed(v fact.Value) string { return v.Text }

// wanted says what would have to be known for more.
func (a Answer) wanted(in inspect.Inspection, working bool) []document.Block {
	var items []document.Item
	if text := a.limitsWanted(in); text != "" {
		items = append(items, item(plain(text)))
	}
	for _, m := range in.Missing {
		if !working && len(items) == missingShown {
			break
		}
		if len(m.Gives) == 0 {
			continue
		}
		var words, gives []string
		for _, w := range m.Words {
			words = append(words, a.Catalog.NameOf(w))
		}
		for _, id := range m.Gives {
			gives = append(gives, a.Catalog.NameOf(id))
		}
		if n := len(gives) - givesShown; n > 0 && !working {
			gives = append(gives[:givesShown:givesShown], fmt.Sprintf("%d more", n))
		}
		items = append(items, item(document.Strong(capital(Join(words))), plain(" would give: "+Join(gives)+".")))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("What is missing"), document.List(items...)}
}

// limitsWanted names the readings that only lack their limit.
func (a Answer) limitsWanted(in inspect.Inspection) string {
	var names []string
	for _, m := range in.Missing {
		for _, id := range m.Verdict {
			names = append(names, a.Catalog.NameOf(id))
		}
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return "The machine's own limit of " + names[0] + " would give a verdict on it."
	}
	return "The machine's own limits of " + Join(names) + " would give verdicts on them."
}

// three is a value to three digits.
func three(si float64, symbol string) string { return withDigits(si, symbol, 3) }
