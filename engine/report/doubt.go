package report

import (
	"fmt"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
)

// questions asks, under a name, for the facts that rules about likely causes wait
// for.
func (a Answer) questions(name string, all bool) []document.Block {
	var items []document.Item
	asked := map[string]bool{}
	for _, w := range a.Explanation.Waiting {
		if w.Moves < waitsAt && !all {
			break
		}
		for _, id := range w.Facts {
			if asked[id] || !all && len(items) == askedShown {
				continue
			}
			asked[id] = true
			items = append(items, item(plain(a.question(id)), plain(" ("), document.Code(id),
				plain(a.touches(w)+")")))
		}
	}
	switch {
	case len(items) == 0:
		return nil
	case len(items) == 1:
		return []document.Block{document.Paragraph(document.Strong(name+": "), items[0].Text)}
	}
	return []document.Block{heading(name), document.List(items...)}
}

// touches names the cause a waiting rule speaks about.
func (a Answer) touches(w explain.Waiting) string {
	r, _ := a.Rules.Rule(w.Rule)
	best, name := -1.0, ""
	for _, id := range r.Touches() {
		if c, ok := a.Explanation.Find(id); ok && c.Probability > best {
			best, name = c.Probability, a.named(id)
		}
	}
	if name == "" {
		return ""
	}
	return "; matters for " + name
}

// doubts says how steady the ranking is and what share is outside the book; it
// ends with a blank, since another sentence follows.
func (a Answer) doubts() string {
	if len(a.Evidence) == 0 || len(a.Explanation.Causes) == 0 {
		return ""
	}
	text := Steady(a.Explanation.Steadiness) + " "
	if u := a.Explanation.Unlisted; u > unlistedAt {
		text += fmt.Sprintf("With %s nothing in this book is the matter. ", Percent(u))
	}
	return text
}

// Steady words the share of disturbed drawings (0 to 1) in which the first cause
// stays first. A drawing changes every number by a factor of about 1.6 either way.
func Steady(share float64) string {
	verdict := "the order of the first two may be the other way round"
	switch {
	case share >= 0.9:
		verdict = "the first place is safe"
	case share >= 0.7:
		verdict = "the first place is fairly safe"
	}
	return fmt.Sprintf("With all numbers shaken, the first stays first in %.0f\u00a0%% of tries: %s.", share*100, verdict)
}
