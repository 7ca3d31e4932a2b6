package report

import (
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/interview"
)

// Keys says what can be typed instead of an answer, in one line.
const Keys = "? why and how to tell, s skip, b back, w so far, q stop"

// Ask is one question with what can be answered, as short as it can be. What has
// to be done for it comes first, with the dangers of doing it.
func Ask(cat *catalog.Catalog, q interview.Question) document.Document {
	var page document.Document
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	if c, ok := cat.Check(q.Check); ok {
		add(cautionNotes(cat, c.Cautions, danger)...)
		add(document.Paragraph(document.Strong(capital(c.Name)), plain(bracketed(Minutes(q.Minutes)+", "+stageIn(cat, q.Stage))+".")))
	}
	add(document.Paragraph(document.Strong(questionOf(cat, q))))
	var items []document.Item
	for _, id := range q.Options {
		items = append(items, item(plain(optionName(cat, q, id))))
	}
	if len(items) > 0 {
		add(document.Numbered(items...))
	}
	if hint := manyHint(cat, q); hint != "" {
		add(document.Paragraph(plain(hint)))
	}
	return page
}

// questionOf is the question in words.
func questionOf(cat *catalog.Catalog, q interview.Question) string {
	switch q.Kind {
	case interview.Complaint:
		return "What is it about?"
	case interview.Sign:
		s, _ := cat.Sign(q.Signs[0])
		return s.Question
	case interview.Signs:
		if q.Check != "" {
			return "Which of these do you find?"
		}
		for _, g := range cat.Questions {
			if g.ID == q.ID && len(g.Signs) == len(q.Signs) {
				return g.Text
			}
		}
		return "Which of these is so?"
	case interview.Reading:
		r, _ := cat.Reading(q.ID)
		return fmt.Sprintf("How much is the %s, in %s?", r.Name, r.Unit)
	}
	f, _ := cat.Fact(q.ID)
	if f.Unit != "" {
		return strings.TrimSuffix(f.Question, "?") + ", in " + f.Unit + "?"
	}
	return f.Question
}

// optionName is one answer in words.
func optionName(cat *catalog.Catalog, q interview.Question, id string) string {
	switch q.Kind {
	case interview.Complaint:
		for _, f := range cat.Families {
			if f.ID == id {
				return f.Name
			}
		}
	case interview.Signs:
		return cat.NameOf(id)
	case interview.Fact:
		f, _ := cat.Fact(q.ID)
		for _, o := range f.Choices {
			if o.ID == id {
				return o.Name
			}
		}
	}
	return id
}

// manyHint says how to give several answers, or a figure.
func manyHint(cat *catalog.Catalog, q interview.Question) string {
	switch q.Kind {
	case interview.Complaint:
		return "Several with blanks between."
	case interview.Signs:
		return "Several with blanks between, 0 for none of these."
	case interview.Reading:
		if r, _ := cat.Reading(q.ID); r.Several {
			return "One value for each part, with semicolons between. Any unit will do when it is written."
		}
		return "Any unit will do when it is written."
	}
	if f, _ := cat.Fact(q.ID); fact.Kind(f.Kind) == fact.Choices {
		return "Several with blanks between, 0 for none of these."
	}
	return ""
}

// Reason is the answer to "why do you ask": what each answer would do, how to
// tell, how it is done, and what can be typed.
func Reason(cat *catalog.Catalog, q interview.Question, prospects []interview.Prospect) document.Document {
	var page document.Document
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(partings(cat, q, prospects)...)
	add(howToTell(cat, q)...)
	if c, ok := cat.Check(q.Check); ok {
		add(cautionNotes(cat, c.Cautions, care)...)
		add(steps(c)...)
	}
	if q.Kind == interview.Signs {
		add(document.Paragraph(plain("Name all that are so: those that are not named count as not so. A ? behind a number makes it a probable one.")))
	}
	add(document.Paragraph(plain("Instead of an answer: " + Keys + ". What is skipped stays unknown; every answer is saved at once.")))
	return page
}

func partings(cat *catalog.Catalog, q interview.Question, prospects []interview.Prospect) []document.Block {
	if q.Kind == interview.Complaint {
		var items []document.Item
		for _, f := range cat.Families {
			if f.What != "" {
				items = append(items, item(document.Strong(capital(f.Name)), plain(": "+f.What)))
			}
		}
		return []document.Block{document.Paragraph(plain("It decides which questions come first. The rest is not forgotten.")), document.List(items...)}
	}
	var items []document.Item
	for _, p := range prospects {
		if p.Top == "" || p.Probability < 0.01 {
			continue
		}
		top, _ := cat.Cause(p.Top)
		items = append(items, item(document.Strong(capital(prospectAnswer(cat, q, p))),
			plain(fmt.Sprintf(" (%s): then %s comes first (%s).", Percent(p.Probability), title(cat, top), Percent(p.TopShare)))))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{document.Paragraph(plain("What each answer would do:")), document.List(items...)}
}

// prospectAnswer words one answer.
func prospectAnswer(cat *catalog.Catalog, q interview.Question, p interview.Prospect) string {
	if q.Kind == interview.Fact {
		switch f, _ := cat.Fact(q.ID); {
		case p.Value == "":
			return "none of these"
		case fact.Kind(f.Kind) == fact.Quantity || fact.Kind(f.Kind) == fact.Count:
			return "about " + p.Value
		}
		return optionName(cat, q, p.Value)
	}
	if len(p.Yes) > 0 {
		var words []string
		for _, id := range p.Yes {
			words = append(words, seenIn(cat, id, "yes"))
		}
		return Join(words)
	}
	if len(q.Signs) == 1 {
		return seenIn(cat, q.Signs[0], "no")
	}
	return "none of these"
}

func howToTell(cat *catalog.Catalog, q interview.Question) []document.Block {
	var items []document.Item
	switch q.Kind {
	case interview.Sign, interview.Signs:
		for _, id := range q.Signs {
			s, _ := cat.Sign(id)
			for _, x := range []struct{ answer, text string }{{"yes", s.Yes}, {"no", s.No}} {
				if x.text != "" && (len(q.Signs) == 1 || x.answer == "yes") {
					items = append(items, item(document.Strong(capital(seenIn(cat, id, x.answer))), plain(": "+x.text)))
				}
			}
		}
	case interview.Reading:
		r, _ := cat.Reading(q.ID)
		if len(r.HowWrong) == 0 {
			return nil
		}
		for _, w := range r.HowWrong {
			items = append(items, item(plain(w.Says)))
		}
		return []document.Block{document.Paragraph(plain("How it goes wrong:")), document.List(items...)}
	case interview.Fact:
		if f, _ := cat.Fact(q.ID); f.How != "" {
			return []document.Block{document.Paragraph(plain("How to tell: " + f.How))}
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{document.Paragraph(plain("How to tell:")), document.List(items...)}
}

// SoFar is the ranking in the middle of an interview.
func (a Answer) SoFar() document.Document {
	page := document.New("So far", document.Paragraph(plain(a.Summary())))
	page.Blocks = append(page.Blocks, a.ranking(false)...)
	return page
}

// Closing is the page at the end of an interview: the ranking, the dangers, and
// the next check.
func (a Answer) Closing() document.Document {
	page := document.New(a.heading(), document.Paragraph(plain(a.Summary())))
	add := func(blocks []document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(cautionNotes(a.Catalog, a.Cautions, danger))
	add(a.ranking(false))
	add(a.nextShort())
	add([]document.Block{document.Note(document.Doubt, plain(a.doubts()+decides)),
		document.Note(document.Hint, document.Code("takeup diagnose"), plain(" gives the reasons, "), document.Code("takeup next"), plain(" the steps"))})
	return page
}

// Over says why an interview ends.
func Over(end interview.End, file string) string {
	saved := "All answers are in " + file // no full stop: the name is there to be copied
	switch end {
	case interview.Settled:
		return "That settles it. " + saved
	case interview.Nothing:
		return "Nothing else that can be asked is worth its time. " + saved
	}
	return saved
}

// Warn is the dangers that an answer has brought to light.
func Warn(cat *catalog.Catalog, ids []string) document.Document {
	return document.Document{Blocks: cautionNotes(cat, ids, danger)}
}

// Wrong words a slip in an answer; what was typed has not been taken.
func Wrong(s interview.Slip) string {
	return sentence(s.Message) + sentence(s.Hint)
}

// sentence makes a sentence of a message, with a blank behind it.
func sentence(s string) string {
	switch {
	case s == "":
		return ""
	case strings.HasSuffix(s, "?"):
		return capital(s) + " "
	}
	return capital(s) + ". "
}

// Unsure asks for an answer that may be a slip to be given again.
func Unsure(s interview.Slip) string { return Wrong(s) + "Type it again if it is right." }

// Saved says what was written into the file.
func Saved(cat *catalog.Catalog, q interview.Question, a interview.Answer) string {
	var words []string
	for _, e := range a.Edits {
		switch e.Part {
		case "done":
		case "signs":
			if e.Value != "no" || len(a.Edits) < 3 {
				words = append(words, seenIn(cat, e.ID, e.Value))
			}
		case "readings":
			words = append(words, cat.NameOf(e.ID)+" "+strings.Trim(e.Value, `[]"`))
		default:
			words = append(words, factWords(cat, q, e.Value))
		}
	}
	if len(words) == 0 {
		if len(a.Edits) == 0 {
			return ""
		}
		words = []string{"none of these"}
	}
	return "Saved: " + Join(slices.Compact(words)) + "."
}

func factWords(cat *catalog.Catalog, q interview.Question, value string) string {
	f, _ := cat.Fact(q.ID)
	if value == "[]" {
		return f.Name + ": none of these"
	}
	var words []string
	for _, id := range strings.Split(strings.Trim(value, `[]"`), ", ") {
		words = append(words, optionName(cat, q, id))
	}
	return f.Name + ": " + Join(words)
}

// What an interview says besides its questions.
const (
	AskTitle       = "What is wrong with it? In a line, in the owner's own words."
	WhyTitle       = "The line becomes the title of the case and the name of its file. s does without, q stops here."
	NoTitle        = "Untitled case"
	NothingWritten = "Nothing was written."
	NothingBefore  = "This is the first question: there is nothing to go back to."
	Skipped        = "Left open."
	LastKeys       = "(Enter for the answer, b back, w so far)"
)

// Begun says where a new case is kept.
func Begun(file string) string { return "Every answer is saved at once in " + file }
