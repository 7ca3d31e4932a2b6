package report

import (
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/build"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/figure"
	"example.org/takeup/engine/unit"
)

// preventsShown is how many faults one step names that it keeps away.
const preventsShown = 3

// Sheet is the page of a build sheet: what is put right, what is renewed, and the
// steps in order. It is laid out to be printed and ticked off.
func (a Answer) Sheet(s *build.Sheet) document.Document {
	page := document.New("Build sheet: " + a.heading())
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(a.depth(s))
	add(a.rights(s)...)
	add(cautionNotes(a.Catalog, s.Cautions, danger)...)
	add(a.packs(s)...)
	add(a.renewed(s)...)
	said := map[string]bool{}
	for _, p := range a.Catalog.Phases {
		add(a.phase(s, p, said)...)
	}
	last := decides
	if a.Case.Invented {
		last += invented
	}
	add(document.Note(document.Doubt, plain(last)))
	return page
}

// depth says how far the sheet reaches and what it could not tell.
func (a Answer) depth(s *build.Sheet) document.Block {
	deepest := ""
	for _, id := range s.Stages {
		if a.Catalog.Depth(id) >= a.Catalog.Depth(deepest) {
			deepest = id
		}
	}
	text := counted(len(s.Steps), "step", "steps")
	if deepest != "" {
		text += ", from " + a.stageName(deepest) + " outwards"
	}
	var waits []string
	for _, step := range s.Steps {
		for _, id := range step.Waits {
			if name := a.Catalog.NameOf(id); !slices.Contains(waits, name) {
				waits = append(waits, name)
			}
		}
	}
	text += "."
	if len(waits) > 0 {
		text += " The machine sheet does not say: " + strings.Join(waits, "; ") + ". Steps that depend on it are marked."
	}
	return document.Paragraph(plain(text))
}

// rights says what the job puts right: what is wrong in the list of parts first.
func (a Answer) rights(s *build.Sheet) []document.Block {
	var listed, other []document.Item
	for _, c := range s.Causes {
		if len(c.Listed) > 0 {
			listed = append(listed, a.right(c))
		} else {
			other = append(other, a.right(c))
		}
	}
	var blocks []document.Block
	if len(listed) > 0 {
		blocks = append(blocks, heading("Wrong as listed"), document.List(listed...))
	}
	switch {
	case len(other) > 0:
		blocks = append(blocks, heading("What this job puts right"), document.List(other...))
	case len(listed) == 0:
		blocks = append(blocks, document.Paragraph(plain("No cause is confirmed and none is probable enough to order parts for. The sheet holds what a machine opened this far needs anyway.")))
	}
	return blocks
}

// right is one cause with the remedy and the steps that see to it.
func (a Answer) right(c build.Cause) document.Item {
	cause := a.cause(c.ID)
	sure := "probable, " + Percent(c.Probability)
	if len(cause.Remedy.Parts) > 0 {
		sure += "; confirm it before you order parts"
	}
	if seen := a.lookedAt(c.Seen); seen != "" {
		sure = seen + "; " + Percent(c.Probability)
	}
	if c.Found {
		sure = "found"
	}
	why := ""
	for _, id := range c.Listed {
		why += a.because(id) + " "
	}
	text := document.Join(document.Strong(capital(a.named(c.ID))), plain(" ("+sure+"). "+why+cause.Remedy.Do))
	if len(c.Steps) > 0 {
		text = document.Join(text, plain(" See "), document.Emphasis(Join(a.stepNames(c.Steps))), plain("."))
	}
	return item(text)
}

// lookedAt names the signs that were found on looking or measuring: whoever found them
// need not be told to confirm.
func (a Answer) lookedAt(signs []string) string {
	var names []string
	for _, id := range signs {
		if s, ok := a.Catalog.Sign(id); ok && s.Kind == "found" {
			names = append(names, s.Name)
		}
	}
	return Join(names)
}

func (a Answer) stepNames(ids []string) []string {
	var names []string
	for _, id := range ids {
		if s, ok := a.Catalog.Step(id); ok {
			names = append(names, s.Name)
		}
	}
	return names
}

// packs draws the stack as it should be and as it is listed.
func (a Answer) packs(s *build.Sheet) []document.Block {
	if len(s.Packs) == 0 {
		return nil
	}
	blocks := []document.Block{heading("The pack, " + s.Packs[0].Section.Inner + " outwards")}
	for _, p := range s.Packs {
		blocks = append(blocks, figure.Stack(origins[p.Origin], p.Section))
	}
	return blocks
}

// origins say what a drawing of the pack goes by.
var origins = map[build.Origin]string{
	build.FromSheet:  "As the machine sheet lists it.",
	build.FromCounts: "By the numbers on the machine sheet; the manual's own drawing decides.",
	build.FromCase:   "As listed in the case.",
}

// renewed lists the parts: first those the causes ask for.
func (a Answer) renewed(s *build.Sheet) []document.Block {
	var facts []document.Fact
	for _, p := range s.Parts {
		var why []string
		if p.Always {
			why = append(why, "new every time")
		}
		if len(p.Causes) > 0 {
			why = append(why, "for "+Join(a.names(p.Causes)))
		}
		facts = append(facts, document.NewFact(p.Name, plain(strings.Join(why, "; "))))
	}
	if len(facts) == 0 {
		return nil
	}
	return []document.Block{heading("Parts"), document.Facts(facts...)}
}

// phase is one part of the work with its milder cautions, each said once.
func (a Answer) phase(s *build.Sheet, p catalog.Phase, said map[string]bool) []document.Block {
	var items []document.Item
	var cautions []string
	for _, taken := range s.Steps {
		if taken.Phase != p.ID {
			continue
		}
		step, _ := a.Catalog.Step(taken.ID)
		items = append(items, a.step(taken, step, p.Lead))
		for _, id := range step.Cautions {
			if !said[id] {
				said[id] = true
				cautions = append(cautions, id)
			}
		}
	}
	if len(items) == 0 {
		return nil
	}
	blocks := append([]document.Block{heading(p.Name)}, cautionNotes(a.Catalog, cautions, care)...)
	return append(blocks, document.Checklist(items...))
}

// step is one step with what it prevents and how its screws are drawn down.
func (a Answer) step(taken build.Step, step catalog.Step, lead string) document.Item {
	text := document.Strong(step.Name)
	if len(taken.Waits) > 0 {
		text = document.Join(text, document.Emphasis(" ("+step.Where+")"))
	}
	text = document.Join(text, plain(". "+step.Do+" "), document.Emphasis(lead+": "+a.prevented(step)+"."))
	if taken.Tighten == nil {
		return document.NewItem(text)
	}
	return document.NewItem(text, a.tightening(*taken.Tighten)...)
}

func (a Answer) prevented(step catalog.Step) string {
	var names []string
	for _, id := range step.Prevents {
		names = append(names, a.Catalog.NameOf(id))
	}
	if len(names) > preventsShown+1 {
		names = append(names[:preventsShown], counted(len(names)-preventsShown, "more", "more"))
	}
	return strings.Join(names, "; ")
}

// tightening is the torque, the order of the screws and the passes.
func (a Answer) tightening(t build.Tighten) []document.Block {
	known, _ := a.Catalog.Tightening(t.ID)
	facts := []document.Fact{document.NewFact("torque", plain(torque(t, known)))}
	if len(t.Order) > 0 {
		var order []string
		for _, k := range t.Order {
			order = append(order, fmt.Sprint(k))
		}
		facts = append(facts, document.NewFact("order", plain(strings.Join(order, " – ")+", numbered round the circle")))
	}
	var passes []document.Item
	for i, p := range known.Passes {
		text := fmt.Sprintf("Pass %d. %s", i+1, p.Do)
		if p.Share > 0 && t.TorqueNm > 0 {
			text = strings.TrimSuffix(text, ".") + ", " + newtonMetres(p.Share*t.TorqueNm) + "."
		}
		passes = append(passes, item(plain(text)))
	}
	return []document.Block{document.Facts(facts...), document.List(passes...)}
}

// torque is the figure of the sheet, or where to find it with what is usual.
func torque(t build.Tighten, known catalog.Tightening) string {
	if t.TorqueNm > 0 {
		return newtonMetres(t.TorqueNm) + " by the machine sheet"
	}
	text := "see the service manual"
	if t.HighNm > 0 {
		low, _, _ := strings.Cut(newtonMetres(t.LowNm), nbsp)
		thread := strings.ReplaceAll(known.General.For, " ", nbsp)
		text += fmt.Sprintf("; %s to %s is usual for %s (%s)", low, newtonMetres(t.HighNm), thread, known.General.Basis)
	}
	return text
}

// newtonMetres words a torque.
func newtonMetres(nm float64) string {
	u, _ := unit.Find("N·m")
	return unit.Format(nm, u, 2)
}
