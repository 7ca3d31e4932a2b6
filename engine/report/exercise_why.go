package report

import (
	"fmt"
	"math"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/practice"
)

// inPlayShown is how many causes in play a page names.
const inPlayShown = 5

// name is a cause as pages name it.
func (t Tutor) name(id string) string {
	c, ok := t.Catalog.Cause(id)
	if !ok {
		return id
	}
	return title(t.Catalog, c)
}

// Why looks back at one step: what it split, what it could not, and what the
// planner would have done.
func (t Tutor) Why(s practice.Step) document.Document {
	page := document.New("")
	say := func(words string) {
		if words != "" {
			page.Blocks = append(page.Blocks, document.Paragraph(plain(words)))
		}
	}
	if s.Move.Kind == practice.Begun {
		say("Nothing has been asked or done yet; this is what was told unasked.")
	} else {
		page.Blocks = append(page.Blocks, document.Paragraph(document.Strong(capital(t.did(s.Move))), plain(bracketed(Minutes(s.Move.Minutes))+".")))
		say(t.split(s))
		say(t.beside(s))
	}
	page.Blocks = append(page.Blocks, t.inPlay("Still in play", s.After)...)
	return page
}

// did names a move.
func (t Tutor) did(m practice.Move) string {
	name := t.Catalog.NameOf(m.ID)
	switch m.Kind {
	case practice.Begun:
		return "what was told"
	case practice.Ask:
		return "asked: " + name
	case practice.Recall:
		return "asked: " + name
	case practice.Open:
		return "opened: " + name
	case practice.Hint:
		return "asked for a hint"
	}
	return name
}

// split says what a step told: what it put out or brought in, which two causes
// it set apart and which two it left as they were.
func (t Tutor) split(s practice.Step) string {
	if s.Move.Kind == practice.Open || s.Move.Kind == practice.Hint {
		return ""
	}
	words := ""
	add := func(format string, args ...any) { words += " " + fmt.Sprintf(format, args...) }
	switch {
	case s.Move.Kind != practice.Recall && s.Worth.Idle():
		add("No result could have told anything: what it settles was settled, or is the same whatever is wrong.")
	case len(s.Out) > 0:
		add("It put out %s.", t.names(s.Out, 3))
	case s.Apart == nil && math.Abs(s.Told) < 0.05:
		add("It left things as they were.")
	}
	if len(s.In) > 0 {
		add("It brought in %s.", t.names(s.In, 3))
	}
	if s.Apart != nil {
		add("It set %s apart from %s: the odds between them moved by %s in favour of the first.", t.name(s.Apart.A), t.name(s.Apart.B), times(s.Apart.Decibans))
	}
	if s.Tied != nil {
		add("It could not tell %s from %s.", t.name(s.Tied.A), t.name(s.Tied.B))
	}
	return trimmed(words)
}

// times words decibans as a factor.
func times(decibans float64) string {
	x := math.Pow(10, decibans/10)
	switch {
	case x >= 1000:
		return "more than a thousand times"
	case x >= 10:
		return fmt.Sprintf("%.0f times", x)
	}
	return fmt.Sprintf("%.1f times", x)
}

// names lists some causes and counts the rest.
func (t Tutor) names(ids []string, most int) string {
	var words []string
	for _, id := range ids[:min(most, len(ids))] {
		words = append(words, t.name(id))
	}
	if more := len(ids) - most; more > 0 {
		words = append(words, counted(more, "more", "more"))
	}
	return Join(words)
}

// beside sets a step against the planner's.
func (t Tutor) beside(s practice.Step) string {
	switch {
	case s.Planner == nil:
		return ""
	case s.Same:
		return "The planner would have done the same."
	}
	yours := ""
	if s.Move.Kind == practice.Do {
		yours = fmt.Sprintf(" Yours could tell %s in %s.", bits(s.Worth.Bits), Minutes(s.Move.Minutes))
	}
	if s.Checked != "" {
		return fmt.Sprintf("The planner would have gone for: %s (%s, %s).%s", t.Catalog.NameOf(s.Checked), Minutes(s.Planner.Minutes), bits(s.Planner.Bits), yours)
	}
	if s.Planner.Kind == plan.Service {
		return "The planner saw nothing left worth its minutes."
	}
	return fmt.Sprintf("The planner would have put right by now: %s.%s", t.name(s.Planner.Cause), yours)
}

func bits(x float64) string { return fmt.Sprintf("%.1f%sbits", math.Abs(x), nbsp) }

// inPlay is the list of causes that are not as good as out.
func (t Tutor) inPlay(name string, list []practice.Candidate) []document.Block {
	var bars []document.Bar
	for _, c := range list[:min(inPlayShown, len(list))] {
		bars = append(bars, document.NewBar(plain(t.name(c.Cause)), c.Probability, Percent(c.Probability)))
	}
	blocks := []document.Block{document.Paragraph(document.Strong(name), plain(":")), document.Bars(bars...)}
	if more := len(list) - inPlayShown; more > 0 {
		blocks = append(blocks, document.Paragraph(plain("And "+counted(more, "other", "others")+" at "+Percent(practice.InPlay)+" or more.")))
	}
	return blocks
}

// Hinted is what the planner would do next.
func (t Tutor) Hinted(p plan.Proposal, done bool) document.Document {
	switch {
	case p.Kind == plan.Service:
		return document.New("", document.Note(document.Hint, plain("Nothing left here is worth its minutes. Name what you hold likeliest.")))
	case p.Confirmed || done || p.Check == "":
		return document.New("", document.Note(document.Hint, plain("The planner would stop looking and name a cause now.")))
	}
	words := "The planner would go for: " + t.Catalog.NameOf(p.Check) + bracketed(Minutes(p.Minutes)) + "."
	return document.New("", document.Note(document.Hint, plain(words)))
}
