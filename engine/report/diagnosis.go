package report

import (
	"fmt"
	"slices"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/plan"
)

// What one screen shows.
const (
	barsShown    = 5
	barsAtLeast  = 2
	barAt        = 0.1
	reasonsShown = 3 // of the first cause
	misfitsShown = 1
	secondAt     = 0.25  // probability from which the second cause's reasons are shown too
	askedShown   = 1     // open questions
	waitsAt      = 0.005 // what an answer must be able to move for its question to be worth asking
	unlistedAt   = 0.05
	pairAt       = 0.1
	bothAt       = 0.5  // probability from which two faults at once are the headline
	setAt        = 0.25 // and the likeliest set of several
	againstAt    = -2   // decibans from which evidence speaks against the first cause
)

// decides is the line under every answer about a machine.
const decides = "The machine's own service manual, local rules and a qualified technician decide."

// invented follows it under a made-up case.
const invented = " This machine and this case are invented."

// Diagnosis is the page of the answer: one screen, or with all every cause with
// its account and every caution.
func (a Answer) Diagnosis(all bool) document.Document {
	page := document.New(a.heading(), document.Paragraph(plain(a.Summary())))
	add := func(blocks []document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(cautionNotes(a.Catalog, a.byUse(), danger))
	add(a.ranking(all))
	add(a.why())
	add(a.misfits(all))
	add(a.together())
	if a.opens() { // a question costs nothing, and its answer may spare the opening
		add(a.questions("Ask before you open", all))
		add(a.nextShort())
	} else {
		add(a.nextShort())
		add(a.questions("Not known yet", all))
	}
	if all {
		add(a.accounts())
	}
	add(a.care(all))
	add(a.closing(all))
	return page
}

// heading is the title of the case, or its file when it has none.
func (a Answer) heading() string {
	if a.Case.Title == "" {
		return a.Case.File
	}
	return a.Case.Title
}

// ranking is the bars of the likeliest causes and a line about the rest.
func (a Answer) ranking(all bool) []document.Block {
	causes := a.Explanation.Causes
	n := a.shownCauses(all)
	var bars []document.Bar
	var ids []string // of the bars, for the drawing
	for _, c := range causes[:n] {
		ids = append(ids, c.ID)
		bar := document.NewBar(document.Strong(a.named(c.ID)), c.Probability, Percent(c.Probability))
		if all { // on one screen the ids stand in the hint below
			bar = bar.With(document.Code(c.ID), plain(", seen "+a.stageName(a.cause(c.ID).Stage)))
		}
		bars = append(bars, bar)
	}
	bars, ids = a.withUnlisted(bars, ids)
	if len(bars) == 0 {
		return nil
	}
	blocks := append([]document.Block{document.Bars(bars...)}, a.rest(causes[n:])...)
	return append(blocks, a.figure(bars, ids)...)
}

// withUnlisted puts the bar of what the book does not hold in its place; it has no id.
func (a Answer) withUnlisted(bars []document.Bar, ids []string) ([]document.Bar, []string) {
	u := a.Explanation.Unlisted
	if u <= unlistedAt {
		return bars, ids
	}
	at := 0
	for at < len(bars) && bars[at].Share >= u {
		at++
	}
	bar := document.NewBar(plain("something not in this book"), u, Percent(u))
	return slices.Insert(bars, at, bar), slices.Insert(ids, at, "")
}

// shownCauses is how many causes get a bar: those that are worth a look.
func (a Answer) shownCauses(all bool) int {
	causes := a.Explanation.Causes
	if all {
		return len(causes)
	}
	n := min(barsAtLeast, len(causes))
	for n < min(barsShown, len(causes)) && causes[n].Probability >= barAt {
		n++
	}
	return n
}

// rest says how many causes have no bar, and that none of them hides a large one.
func (a Answer) rest(causes []explain.Cause) []document.Block {
	if len(causes) == 0 {
		return nil
	}
	// Faults can come together, so the rest is not summed: the sum of many small
	// probabilities is no probability.
	return []document.Block{document.Paragraph(plain(fmt.Sprintf("And %s, none above %s.",
		counted(len(causes), "other", "others"), Percent(causes[0].Probability))))}
}

// why gives the reasons for the cause named first, and the strongest one for the
// next in line when it counts.
func (a Answer) why() []document.Block {
	causes := a.Explanation.Causes
	if len(causes) == 0 {
		return nil
	}
	first := a.lead()
	next := causes[0]
	if next.ID == first.ID && len(causes) > 1 {
		next = causes[1]
	}
	second := next.ID != first.ID && next.Probability >= secondAt
	shown := reasonsShown
	if second {
		shown--
	}
	items := a.reasonItems(first, shown)
	if len(items) == 0 {
		return nil
	}
	blocks := []document.Block{heading("Why " + a.named(first.ID)), document.List(items...)}
	if second {
		for _, it := range a.reasonItems(next, 1) {
			blocks = append(blocks, document.Paragraph(document.Strong("For "+a.named(next.ID)+": "), plain(it.Text.String())))
		}
	}
	return blocks
}

// misfits lists what the cause named first leaves open.
func (a Answer) misfits(all bool) []document.Block {
	var items []document.Item
	if len(a.Explanation.Causes) > 0 && len(a.Evidence) > 0 {
		items = a.against(a.lead())
	}
	for _, id := range a.Explanation.Unexplained {
		items = append(items, item(document.Strong(capital(a.seen(id, "yes"))),
			plain(": most likely for a reason that is not in this book.")))
	}
	if len(items) == 0 {
		return nil
	}
	if !all { // a paragraph takes less of the screen than a heading
		var blocks []document.Block
		for _, it := range items[:min(len(items), misfitsShown)] {
			blocks = append(blocks, document.Paragraph(document.Strong("Does not fit: "), plain(it.Text.String())))
		}
		return blocks
	}
	return []document.Block{heading("What does not fit"), document.List(items...)}
}

// against lists what was expected of a cause and is missing, and what was seen
// that makes it less likely.
func (a Answer) against(c explain.Cause) []document.Item {
	var items []document.Item
	said := map[string]bool{}
	for _, s := range c.Missing {
		said[s.ID] = true
		items = append(items, item(document.Strong(capital(a.seen(s.ID, "no"))),
			plain(fmt.Sprintf(": with %s it would be otherwise in %s of cases.", a.named(c.ID), Percent(s.Chance)))))
	}
	for k, e := range c.Balance.Entries {
		if e.LeaveOneOut >= againstAt || said[e.ID] {
			continue
		}
		items = append(items, item(document.Strong(capital(a.observed(k))), plain(" ("+Decibans(e.LeaveOneOut)+"): "+a.contrary(c.ID, k))))
	}
	return items
}

// contrary says in what way a piece of evidence speaks against a cause.
func (a Answer) contrary(cause string, k int) string {
	brings := a.chain(cause, a.Evidence[k].Sign) != nil
	switch {
	case !a.Evidence[k].Yes() && brings:
		return "it could be otherwise with " + a.named(cause) + "."
	case !a.Evidence[k].Yes():
		return "it makes " + a.named(cause) + " less likely by way of the others."
	case brings:
		return "others bring this more readily than " + a.named(cause) + "."
	}
	return "something else than " + a.named(cause) + " brings this."
}

// together words the likely sets of several faults.
func (a Answer) together() []document.Block {
	var blocks []document.Block
	if a.summaryOfSet() != "" { // said already
		return nil
	}
	for i, s := range a.Explanation.Sets {
		if i < 3 && len(a.found(s.Causes)) > 1 && s.Probability >= pairAt {
			blocks = append(blocks, document.Paragraph(document.Strong("Faults together: "),
				plain(Join(a.names(s.Causes))+", exactly these and no others: "+Percent(s.Probability)+".")))
		}
	}
	return blocks
}

// care shows the milder cautions: the first with the number of the others, or all.
func (a Answer) care(all bool) []document.Block {
	notes := cautionNotes(a.Catalog, a.byUse(), care)
	if all || a.Handout || len(notes) < 2 {
		return notes
	}
	first := notes[0]
	first.Text = document.Join(first.Text, plain(" "+counted(len(notes)-1, "more caution applies", "more cautions apply")+" ("),
		document.Code("--all"), plain(")."))
	return []document.Block{first}
}

// byUse lists the cautions, those of the next step first: they are needed now.
func (a Answer) byUse() []string {
	if a.Course == nil {
		return a.Cautions
	}
	check, _ := a.Catalog.Check(a.Course.Next.Check)
	var now []string
	if a.Course.Next.Kind != plan.Ask {
		now = a.cause(a.Course.Next.Cause).Cautions
	}
	var out []string
	for _, id := range slices.Concat(check.Cautions, now, a.Cautions) {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// closing says who decides and what to type next.
func (a Answer) closing(all bool) []document.Block {
	last := a.doubts() + decides
	if a.Case.Invented {
		last += invented
	}
	blocks := []document.Block{document.Note(document.Doubt, plain(last))}
	if !all && !a.Handout && len(a.Explanation.Causes) > 0 {
		blocks = append(blocks, document.Note(document.Hint, plain("+3 dban doubles the odds, +10 makes them ten times as large. "),
			document.Code("takeup next"), plain(" gives the steps, "),
			document.Code("takeup why"), plain(" the account, "), document.Code("--all"), plain(" the rest")))
	}
	return blocks
}

// accounts is the balance of every cause that is not out of the question.
func (a Answer) accounts() []document.Block {
	blocks := []document.Block{heading("Every account")}
	for _, c := range a.Explanation.Causes {
		if c.Probability >= 0.001 {
			blocks = append(blocks, document.Heading(3, plain(a.named(c.ID)+", "+Percent(c.Probability))), a.ledger(c))
		}
	}
	for _, r := range a.Explanation.RuledOut {
		blocks = append(blocks, document.Paragraph(plain(capital(a.named(r.Cause))+" is ruled out: "+a.because(r.Rule))))
	}
	return blocks
}
