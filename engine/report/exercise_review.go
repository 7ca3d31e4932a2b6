package report

import (
	"fmt"

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
			document.NewFact("forecast", plain(fmt.Sprintf("Brier score %.2f on average, from 0 for sure and right to 2 for sure and wrong", r.Brier))),
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
		items = append(items, item(plain(fmt.Sprintf("%s taken for %s, %s. What parts them: ", capital(t.name(c.Truth)), t.name(c.Named), often(c.Times))),
			document.Code("takeup words "+c.Truth), plain(".")))
	}
	if len(items) > 0 {
		add(heading("What was taken for what"), document.List(items...))
	}
	items = nil
	for _, m := range r.Mistakes {
		items = append(items, item(document.Strong(head(m.Kind)), plain(fmt.Sprintf(", in %s.%s", counted(m.Times, "case", "cases"), after(" ", habit(m.Kind))))))
	}
	if len(items) > 0 {
		add(heading("Habits to watch"), document.List(items...))
	}
	add(document.Note(document.Hint, plain("The next case leans towards the weak complaints and the mixed-up causes; --family and --seed choose instead.")))
	return page
}

// habit is what to do about a mistake that comes back.
func habit(kind practice.MistakeKind) string {
	switch kind {
	case practice.WrongCause:
		return "Read what each is mistaken for: those pages name what parts them."
	case practice.LookAlike:
		return "Before you name a cause, ask what else would look the same, and do the one check that parts them."
	case practice.OnlyDamage:
		return "Damage has a cause: ask what did it before you stop."
	case practice.SecondFault:
		return "Go through the complaints once more: does the fault you hold explain every one?"
	case practice.NamedEarly:
		return "Below 60 % it is half a guess; one more short check costs less than a repair in vain."
	case practice.TooSure:
		return "Say the percentage for which you would take either side of the bet."
	case practice.TooUnsure:
		return "A finding that only one cause brings is worth trusting."
	case practice.OpenedEarly:
		return "List what can still be looked at from outside, and do it first."
	case practice.Idle:
		return "Say beforehand what each result would change; where none would, leave the check out."
	case practice.NoHistory:
		return "Ask first what was done to the machine and when; a question takes a minute."
	case practice.TookHints:
		return "Write down your own next step before you ask for one."
	}
	return ""
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
