package report

import (
	"fmt"
	"math"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/network"
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
		say(t.split(s, true))
		say(t.beside(s))
		if t.weighs(s) {
			say(aBit)
		}
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
// it set apart and by what, and which two of the same looks it left as they were.
// With because, the physics of it as well.
func (t Tutor) split(s practice.Step, because bool) string {
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
		add("%s", t.apart(s, because))
	}
	if s.Tied != nil {
		add("It could not tell %s from %s", t.name(s.Tied.A), t.name(s.Tied.B))
		if s.Parts != nil && s.Parts.Check != s.Checked {
			words += "; what could: " + t.checked(s.Parts)
		}
		words += "."
	}
	return trimmed(words)
}

// apart says how far a step set two causes apart, and by which of its results.
func (t Tutor) apart(s practice.Step, because bool) string {
	p := s.Apart
	a, b := t.name(p.A), t.name(p.B)
	words := fmt.Sprintf("It spoke %s for %s against %s", ratio(p.Decibans), a, b)
	if p.Sign == "" {
		return words + "."
	}
	sign, from := t.Catalog.NameOf(p.Sign), p.A
	if p.There {
		words += fmt.Sprintf(": %s shows \"%s\" %s, %s %s.", a, sign, usually(p.ByA, " of cases"), b, usually(p.ByB, ""))
	} else {
		from = p.B
		words += fmt.Sprintf(": %s would show \"%s\" %s, %s %s.", b, sign, usually(p.ByB, " of cases"), a, usually(p.ByA, ""))
	}
	if because {
		words += after(" ", t.reason(s.Network, from, p.Sign))
	}
	return words
}

// reason is why a cause shows a sign, or nothing when no rule says.
func (t Tutor) reason(n *network.Network, cause, sign string) string {
	a := Answer{Catalog: t.Catalog, Rules: t.Rules, Network: n}
	if chain := a.chain(cause, sign); len(chain) > 0 {
		return a.because(chain[0])
	}
	return ""
}

// usually says how often a cause shows a sign, and of what that is a share.
func usually(p float64, of string) string {
	if p < 0.01 {
		return "hardly ever"
	}
	return "in " + Percent(p) + of
}

// ratio words decibans as odds.
func ratio(decibans float64) string {
	x := math.Pow(10, decibans/10)
	switch {
	case x >= 1000:
		return "more than a thousand to 1"
	case x >= 10:
		return fmt.Sprintf("%.0f to 1", x)
	}
	return fmt.Sprintf("%.1f to 1", x)
}

// checked is a check that tells two causes apart, with its minutes.
func (t Tutor) checked(x *practice.Telling) string {
	return t.Catalog.NameOf(x.Check) + bracketed(Minutes(x.Minutes))
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
		return fmt.Sprintf("The planner would have gone for: %s (%s, %s)%s.%s", t.Catalog.NameOf(s.Checked), Minutes(s.Takes), bits(s.Planner.Bits),
			after(": ", t.parts(s.Tells)), yours)
	}
	if s.Planner.Kind == plan.Service {
		return "The planner saw nothing left worth its minutes."
	}
	return fmt.Sprintf("The planner would have put right by now: %s.%s", t.name(s.Planner.Cause), yours)
}

// parts says which two causes a check sets apart, and how.
func (t Tutor) parts(x *practice.Telling) string {
	if x == nil {
		return ""
	}
	return fmt.Sprintf("%s shows \"%s\" %s, %s %s", t.name(x.One), t.Catalog.NameOf(x.Sign), usually(x.ByOne, " of cases"), t.name(x.Other), usually(x.ByOther, ""))
}

// aBit explains the measure where it was met.
const aBit = "A bit is what an even chance settles: a check of 1 bit halves what is in question."

// weighs reports whether the words about a step speak of bits.
func (t Tutor) weighs(s practice.Step) bool {
	return s.Planner != nil && !s.Same && (s.Checked != "" || s.Move.Kind == practice.Do && s.Planner.Kind != plan.Service)
}

func bits(x float64) string {
	if x = math.Abs(x); x < 0.05 {
		return "next to nothing"
	}
	return fmt.Sprintf("%.1f%sbits", x, nbsp)
}

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

// Hinted is what the planner would do next, and what for.
func (t Tutor) Hinted(a practice.Advice) document.Document {
	switch {
	case a.Proposal.Kind == plan.Service:
		return document.New("", document.Note(document.Hint, plain("Nothing left here is worth its minutes. Name what you hold likeliest.")))
	case a.Check == "":
		return document.New("", document.Note(document.Hint, plain("The planner would stop looking and name a cause now.")))
	}
	takes := Minutes(a.Minutes)
	if len(a.Opening) > 0 {
		var names []string
		for _, id := range a.Opening {
			names = append(names, t.Catalog.NameOf(id))
		}
		takes += " with " + Join(names)
	}
	words := "The planner would go for: " + t.Catalog.NameOf(a.Check) + bracketed(takes) + after(": ", t.parts(a.Tells)) + "."
	return document.New("", document.Note(document.Hint, plain(words)))
}
