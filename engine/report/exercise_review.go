package report

import (
	"fmt"
	"math"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/practice"
)

// confusionsShown is how many pairs a review names.
const confusionsShown = 6

// Reviewed is the page of strengths and confusions over all exercises.
func (t Tutor) Reviewed(r practice.Review) document.Document {
	if r.Exercises == 0 {
		return document.New("Nothing practised yet", document.Paragraph(plain("takeup practice brings in the first machine.")))
	}
	page := document.New(fmt.Sprintf("%s practised", counted(r.Exercises, "case", "cases")),
		document.Facts(
			document.NewFact("right", plain(fmt.Sprintf("%d of %d; among the first three named: %d", r.Right, r.Exercises, r.Top3))),
			document.NewFact("mark", plain(fmt.Sprintf("%.0f of 100 on average, %.0f over the last five", r.Mark, r.Late))),
			document.NewFact("minutes", plain(fmt.Sprintf("%.1f times the planner's to a cured machine", r.Ratio))),
			document.NewFact("forecast", plain(fmt.Sprintf("Brier %.2f, log %.2f%sbits on average", r.Brier, r.Log/math.Ln2, nbsp))),
			document.NewFact("confidence", plain(confidence(r))),
		))
	add := func(b ...document.Block) { page.Blocks = append(page.Blocks, b...) }
	var bars []document.Bar
	for _, s := range r.Standings {
		bars = append(bars, document.NewBar(plain(t.family(s.Family)), s.Mark/100, fmt.Sprintf("%.0f", s.Mark)).
			With(plain(fmt.Sprintf("%s, %d right, %.1f times the planner's minutes", counted(s.Exercises, "case", "cases"), s.Right, s.Ratio))))
	}
	add(heading("By complaint, weakest first"), document.Bars(bars...))
	var items []document.Item
	for _, c := range r.Confusions[:min(confusionsShown, len(r.Confusions))] {
		items = append(items, item(plain(fmt.Sprintf("%s taken for %s: %s", capital(t.name(c.Truth)), t.name(c.Named), counted(c.Times, "time", "times")))))
	}
	if len(items) > 0 {
		add(heading("What was taken for what"), document.List(items...))
	}
	items = nil
	for _, m := range r.Mistakes {
		items = append(items, item(plain(fmt.Sprintf("%s: in %s", capital(string(m.Kind)), counted(m.Times, "case", "cases")))))
	}
	if len(items) > 0 {
		add(heading("Habits to watch"), document.List(items...))
	}
	add(document.Note(document.Hint, plain("The next case leans towards the weak complaints and the mixed-up causes; --family and --seed choose instead.")))
	return page
}

// confidence sets what was said against what came true.
func confidence(r practice.Review) string {
	hits := float64(r.Right) / float64(r.Exercises)
	words := fmt.Sprintf("%s stated, %s right", Percent(r.Stated), Percent(hits))
	switch d := r.Stated - hits; {
	case d > 0.1:
		return words + ": surer than you are right"
	case d < -0.1:
		return words + ": righter than you are sure"
	}
	return words + ": well matched"
}

// family names a family of complaints.
func (t Tutor) family(id string) string {
	for _, f := range t.Catalog.Families {
		if f.ID == id {
			return capital(f.Name)
		}
	}
	return id
}
