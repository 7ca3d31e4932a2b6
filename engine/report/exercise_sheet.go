package report

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/practice"
)

// blankSteps is how many lines a sheet leaves for what was asked and done.
const blankSteps = 8

// Exercises are the case sheets of a class, to print and hand out. What was found
// is read out by whoever holds the key.
func (t Tutor) Exercises(scenarios []*practice.Scenario) document.Document {
	page := document.New("Cases to practise on",
		document.Paragraph(plain("Every case here is invented. Write down each step before you take it, with your reason; the teacher reads out what it shows and its minutes. "+
			"Name the cause when you are ready, and how sure you are: 100 % is for what you would bet the parts on.")))
	for i, s := range scenarios {
		add := func(b ...document.Block) { page.Blocks = append(page.Blocks, b...) }
		add(heading(fmt.Sprintf("Case %d: %s", i+1, t.machineName(s))))
		story := t.Story(s)
		add(story.Blocks...)
		if limits := t.limits(s); len(limits) > 0 {
			add(document.Paragraph(document.Strong("From its sheet"), plain(":")), document.Facts(limits...))
		}
		var rows [][]string
		for k := range blankSteps {
			rows = append(rows, []string{fmt.Sprint(k + 1), "", "", ""})
		}
		add(document.Table([]string{"step", "asked, opened or done, and why", "what it showed", "minutes"}, []document.Align{document.Right}, rows...))
		add(document.Facts(
			document.NewFact("the cause", plain("........................................   sure: ...... %")),
			document.NewFact("or else", plain("........................................   sure: ...... %")),
			document.NewFact("because", plain("..................................................")),
		))
	}
	return page
}

// limits are the sheet's own, to hold readings against.
func (t Tutor) limits(s *practice.Scenario) []document.Fact {
	var facts []document.Fact
	for _, f := range t.Catalog.Machine {
		if v, ok := s.Known.Get("machine." + f.ID); ok && strings.HasPrefix(f.ID, "limit.") {
			facts = append(facts, document.NewFact(f.Name, plain(valueWords(f, v))))
		}
	}
	return facts
}

// Key is the teacher's answer key: the truth, the planner's way, and all that
// could be asked or found on each machine.
func (t Tutor) Key(scenarios []*practice.Scenario, pars []practice.Par) document.Document {
	page := document.New("Answer key",
		document.Paragraph(plain("For the teacher. Results were drawn from the book's own numbers with the fault in place; a sign can be missing although its cause is there. "+
			"takeup practice grade WAY.yaml judges a way that was written down.")))
	for i, s := range scenarios {
		page.Blocks = append(page.Blocks, heading(fmt.Sprintf("Case %d: %s", i+1, t.machineName(s))))
		page.Blocks = append(page.Blocks, t.key(s, pars[i])...)
	}
	return page
}

func (t Tutor) key(s *practice.Scenario, par practice.Par) []document.Block {
	facts := []document.Fact{document.NewFact("the fault", plain(t.names(s.Truth, len(s.Truth))))}
	if len(s.Brought) > 0 {
		facts = append(facts, document.NewFact("what it led to", plain(t.names(s.Brought, len(s.Brought)))))
	}
	facts = append(facts,
		document.NewFact("planner", plain(fmt.Sprintf("%s to the fault, %s to a cured machine", Minutes(par.Minutes), Minutes(par.ToCure)))),
		document.NewFact("level, seed", plain(fmt.Sprintf("%d, %d", s.Level, s.Seed))))
	blocks := []document.Block{document.Facts(facts...), document.Paragraph(document.Strong("The planner's way"), plain(":"))}
	blocks = append(blocks, t.plannerWay(&practice.Judgement{Scenario: s, Planner: par})...)
	var said []document.Item
	for _, r := range append(t.Answers(s), t.History(s)...) {
		if !ordinary(r) {
			said = append(said, item(plain(t.answered(s, r))))
		}
	}
	said = append(said, item(plain("Cannot say: "+t.vague(s)+".")), item(plain("To everything else that makes sense on it: no.")))
	blocks = append(blocks, document.Heading(3, plain("The customer says when asked (1 minute each)")), document.List(said...))
	blocks = append(blocks, document.Heading(3, plain("What the checks show; what is not listed is as it should be")))
	return append(blocks, t.shows(s)...)
}

// shows lists the results of all checks, stage by stage.
func (t Tutor) shows(s *practice.Scenario) []document.Block {
	all := t.Everything(s)
	var blocks []document.Block
	for _, g := range t.Catalog.Stages {
		var items []document.Item
		var idle []string
		for _, m := range all {
			c, _ := t.Catalog.Check(m.ID)
			if c.Stage != g.ID {
				continue
			}
			if words := t.results(s, m); words != "" {
				items = append(items, item(document.Strong(capital(c.Name)), plain(bracketed(Minutes(c.Minutes))+". "+words)))
			} else {
				idle = append(idle, c.Name+bracketed(Minutes(c.Minutes)))
			}
		}
		if len(idle) > 0 {
			items = append(items, item(plain("Nothing out of the way: "+strings.Join(idle, "; ")+".")))
		}
		if len(items) > 0 {
			blocks = append(blocks, document.Paragraph(document.Strong(capital(g.Name)), plain(opening(g))), document.List(items...))
		}
	}
	return blocks
}

func opening(g catalog.Stage) string {
	if g.Minutes == 0 {
		return ":"
	}
	return fmt.Sprintf(" (%s from the stage above):", Minutes(g.Minutes))
}

// results are those of a check that are worth reading out, or nothing.
func (t Tutor) results(s *practice.Scenario, m practice.Move) string {
	var words []string
	for _, r := range m.Results {
		if !ordinary(r) {
			words = append(words, t.answered(s, r))
		}
	}
	return strings.Join(words, " ")
}

// ordinary reports whether a result says that nothing is there.
func ordinary(r practice.Result) bool {
	switch {
	case r.Sign != "":
		return r.Answer == "no"
	case r.Fact != "":
		return r.Value == nil || r.Value.Kind == fact.YesNo && !r.Value.Yes || r.Value.Kind == fact.Choices && len(r.Value.Words) == 0
	}
	return false
}

// vague lists what the customer cannot say.
func (t Tutor) vague(s *practice.Scenario) string {
	var words []string
	for _, id := range s.Vague {
		words = append(words, t.Catalog.NameOf(id))
	}
	for _, f := range t.Catalog.Facts {
		if !s.Known.Known(f.ID) && t.Sensible(f.Needs, s.Known) {
			words = append(words, f.Name)
		}
	}
	if len(words) == 0 {
		return "nothing"
	}
	return strings.Join(words, "; ")
}

// CaseTitle is the title of a case file of a class set: what is complained of.
func (t Tutor) CaseTitle(s *practice.Scenario, n int) string {
	said := s.Words[s.Told[0]]
	if said == "" {
		said = t.Catalog.NameOf(s.Told[0])
	}
	return fmt.Sprintf("Case %d: %s", n, said)
}

// Graded is Judged for a written way, with whose it is.
func (t Tutor) Graded(j *practice.Judgement, student string) document.Document {
	page := t.Judged(j)
	if student != "" {
		page.Blocks = append([]document.Block{document.Paragraph(document.Strong(student))}, page.Blocks...)
	}
	return page
}
