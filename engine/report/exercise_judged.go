package report

import (
	"fmt"
	"math"
	"strings"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/practice"
)

// Judged is the page at the end of a case: the verdict, what to learn from it,
// the student's way beside the planner's, and the account of the truth.
func (t Tutor) Judged(j *practice.Judgement) document.Document {
	page := document.New(t.verdict(j), document.Paragraph(plain(t.summing(j))))
	add := func(b ...document.Block) { page.Blocks = append(page.Blocks, b...) }
	add(t.figures(j))
	add(heading("What to learn from it"))
	add(t.mistakes(j))
	add(heading("Your way"), document.Numbered(t.ownWay(j)...))
	add(heading("The planner's way"))
	add(t.plannerWay(j)...)
	add(t.account(j)...)
	add(t.remedies(j)...)
	add(document.Note(document.Doubt, plain("The truth was drawn from the same book that judges you; a real machine may be something the book does not know. "+decides)))
	return page
}

// verdict is the title.
func (t Tutor) verdict(j *practice.Judgement) string {
	first := j.Forecast[0].Cause
	truth := t.names(j.Scenario.Truth, len(j.Scenario.Truth))
	switch {
	case j.Scenario.Fault(first) && len(j.Mistakes) > 0 && j.Mistakes[0].Kind == practice.SecondFault:
		return "Half of it: " + truth
	case j.Scenario.Fault(first):
		return "Right: " + truth
	case j.Scenario.Damage(first):
		return "The damage, not the fault: " + truth
	}
	return "It was " + truth
}

// summing is what was said, what it was worth and what it cost.
func (t Tutor) summing(j *practice.Judgement) string {
	var said []string
	for _, x := range j.Forecast {
		said = append(said, t.name(x.Cause)+" with "+Percent(x.Probability))
	}
	words := fmt.Sprintf("You named %s. By what you knew then the first of these stood at %s", Join(said), Percent(j.Grounds))
	if len(j.Forecast) == 1 {
		words = fmt.Sprintf("You named %s. By what you knew then it stood at %s", said[0], Percent(j.Grounds))
	}
	if !j.Scenario.Fault(j.Forecast[0].Cause) {
		words += fmt.Sprintf(", and %s at %s", t.name(j.Scenario.Truth[0]), Percent(j.TruthAt))
	}
	return words + "."
}

// figures are the scores with what they are made of.
func (t Tutor) figures(j *practice.Judgement) document.Block {
	facts := []document.Fact{
		document.NewFact("mark", plain(fmt.Sprintf("%.0f of 100: way %.0f of %.0f, naming %.0f of %.0f, grounds %.0f of %.0f",
			j.Mark.Total, j.Mark.Way, practice.WayMark, j.Mark.Naming, practice.NamingMark, j.Mark.Grounds, practice.GroundsMark))),
		document.NewFact("minutes", plain(fmt.Sprintf("%s until you named it, %s until the machine works; the planner %s and %s",
			Minutes(j.Minutes), Minutes(j.ToCure), Minutes(j.Planner.Minutes), Minutes(j.Planner.ToCure)))),
		document.NewFact("forecast", plain(fmt.Sprintf("Brier %.2f (0 best, 2 worst), log %.2f%sbits, quadratic %.0f; %s",
			j.Score.Brier, j.Score.Log/math.Ln2, nbsp, j.Score.Quadratic, ranked(j.Score.Place)))),
	}
	if j.Reason != "" {
		facts = append(facts, document.NewFact("reason", plain("\""+j.Reason+"\"")))
	}
	return document.Facts(facts...)
}

func often(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

func ranked(n int) string {
	switch n {
	case 0:
		return "the truth was not among those named"
	case 1:
		return "the truth named first"
	}
	return fmt.Sprintf("the truth named in place %d", n)
}

// mistakes words what went wrong, gravest first.
func (t Tutor) mistakes(j *practice.Judgement) document.Block {
	var items []document.Item
	for _, m := range j.Mistakes {
		head, words := t.mistake(j, m)
		items = append(items, item(document.Strong(head), plain(". "+words)))
	}
	if len(items) == 0 {
		return document.Paragraph(plain("Nothing to hold against it: every step could tell something, and the confidence was what the findings carry."))
	}
	return document.List(items...)
}

func (t Tutor) mistake(j *practice.Judgement, m practice.Mistake) (head, words string) {
	serve := func(what string) string {
		if m.Check == "" {
			return ""
		}
		return " " + what + ": " + t.Catalog.NameOf(m.Check) + "."
	}
	switch m.Kind {
	case practice.WrongCause:
		return "Wrong cause", fmt.Sprintf("%s is sound on this machine. Putting it right in vain and finding the fault after all takes %s more.%s",
			capital(t.name(m.Cause)), Minutes(m.Minutes), serve("What tells it from "+t.name(m.Other)))
	case practice.OnlyDamage:
		return "The damage, not the fault", fmt.Sprintf("%s is there, but %s led to it; put right alone it comes back.%s", capital(t.name(m.Cause)), t.name(m.Other), serve("What shows the fault"))
	case practice.SecondFault:
		return "A second fault", fmt.Sprintf("%s is there as well; a complaint is left when only the other is put right.%s", capital(t.name(m.Cause)), serve("What shows it"))
	case practice.NamedEarly:
		return "Named too early", fmt.Sprintf("The findings carried %s, with %s still in play.%s", Percent(m.Held), counted(m.Count, "cause", "causes"), serve("Worth doing first, in "+Minutes(m.Minutes)))
	case practice.LookAlike:
		return "A look-alike left standing", fmt.Sprintf("%s was still at %s.%s", capital(t.name(m.Other)), Percent(m.Held), serve("What tells it from "+t.name(m.Cause)))
	case practice.TooSure:
		return "Too sure", fmt.Sprintf("You said %s, the findings carry %s. What is said too surely gets parts bought.", Percent(m.Stated), Percent(m.Held))
	case practice.TooUnsure:
		return "Too unsure", fmt.Sprintf("You said %s, the findings carry %s.", Percent(m.Stated), Percent(m.Held))
	case practice.OpenedEarly:
		return "Opened too early", fmt.Sprintf("%s (%s) at step %d, with a shorter look undone.%s", capital(t.Catalog.NameOf(m.Other)), Minutes(m.Minutes), m.Step, serve("The planner would first, in "+Minutes(m.Stated)))
	case practice.Idle:
		return "A check for nothing", fmt.Sprintf("%s (%s, step %d) could not have told anything: what it settles was settled, or is the same whatever is wrong.", capital(t.Catalog.NameOf(m.Check)), Minutes(m.Minutes), m.Step)
	case practice.NoHistory:
		var asks []string
		for _, id := range m.Facts {
			f, _ := t.Catalog.Fact(id)
			v, _ := j.Scenario.Known.Get(id)
			asks = append(asks, f.Name+" ("+valueWords(f, v)+")")
		}
		return "History not asked", fmt.Sprintf("One minute each, and it speaks for %s: %s.", t.name(m.Cause), strings.Join(asks, "; "))
	case practice.TookHints:
		return "Hints", fmt.Sprintf("You asked the planner %s.", often(m.Count))
	}
	return string(m.Kind), ""
}

// ownWay is what the student did, with what each step told.
func (t Tutor) ownWay(j *practice.Judgement) []document.Item {
	var items []document.Item
	for _, s := range j.Steps {
		if s.Move.Kind == practice.Begun {
			continue
		}
		words := bracketed(Minutes(s.Move.Minutes)) + "."
		if told := t.split(s); told != "" {
			words += " " + told
		}
		if s.Planner != nil && !s.Same {
			words += " " + t.beside(s)
		}
		items = append(items, item(document.Strong(capital(t.did(s.Move))), plain(words)))
	}
	if len(items) == 0 {
		items = append(items, item(plain("Nothing was asked or done.")))
	}
	return items
}

// plannerWay is the planner's, without its reasons.
func (t Tutor) plannerWay(j *practice.Judgement) []document.Block {
	var items []document.Item
	for _, m := range j.Planner.Moves {
		items = append(items, item(plain(capital(t.did(m))+bracketed(Minutes(m.Minutes)))))
	}
	for _, c := range j.Planner.Named {
		words := "names " + t.name(c.Cause) + bracketed(Percent(c.Probability))
		if !j.Scenario.Fault(c.Cause) && !j.Scenario.Damage(c.Cause) {
			words += ", in vain"
		}
		items = append(items, item(document.Strong(capital(words))))
	}
	if j.Planner.Gave {
		items = append(items, item(plain("Hands the machine to someone with the means to go further.")))
	}
	return []document.Block{document.Numbered(items...)}
}

// account is the balance sheet of each fault by what the student knew: what
// weighs little is summed up in one line.
func (t Tutor) account(j *practice.Judgement) []document.Block {
	if j.Explanation == nil {
		return nil
	}
	known := j.Steps[len(j.Steps)-1].Move.After.Known
	a := Answer{
		Catalog: t.Catalog, Rules: t.Rules, Case: &intake.Case{Known: known}, Network: j.End.Network, Evidence: j.End.Evidence,
		Explanation: j.Explanation,
	}
	var blocks []document.Block
	for _, id := range j.Scenario.Truth {
		c, ok := j.Explanation.Find(id)
		if !ok {
			continue
		}
		blocks = append(blocks, heading("The account of "+t.name(id)), a.shortLedger(c))
	}
	if len(blocks) > 0 {
		blocks = append(blocks, document.Paragraph(plain("In decibans, by what you knew: +10 makes the odds ten times as large, +3 twice.")))
	}
	return blocks
}

// shortLedger is ledger with its small lines in one.
func (a Answer) shortLedger(c explain.Cause) document.Block {
	b := c.Balance
	lines := []document.Entry{document.NewEntry(plain("how often it comes up"), signed(b.Base), plain(Percent(belief.FromDecibans(b.Base))))}
	rest, few := b.ByOthers, 0
	line := func(label string, decibans float64, note string) {
		if math.Abs(decibans) < worthSaying {
			rest, few = rest+decibans, few+1
			return
		}
		lines = append(lines, document.NewEntry(plain(label), signed(decibans), plain(note)))
	}
	for _, h := range b.History {
		line(a.past(h.ID), h.Decibans, a.because(h.ID))
	}
	for k, e := range b.Entries {
		line(a.observed(k), e.Decibans, "")
	}
	if few > 0 || signed(rest) != "0.0" {
		lines = append(lines, document.NewEntry(plain("all the rest"), signed(rest)))
	}
	return document.Ledger(append(lines, document.NewTotal(plain("together"), Decibans(b.Final), plain(Percent(c.Probability))))...)
}

// remedies say what to do about the faults, and with what care.
func (t Tutor) remedies(j *practice.Judgement) []document.Block {
	blocks := []document.Block{heading("What puts it right")}
	var cautions []string
	for _, id := range j.Scenario.Truth {
		c, _ := t.Catalog.Cause(id)
		text := c.Remedy.Do
		if c.Remedy.Afterwards != "" {
			text += " " + c.Remedy.Afterwards
		}
		if len(j.Scenario.Truth) > 1 {
			text = capital(t.name(id)) + ": " + text
		}
		blocks = append(blocks, document.Paragraph(plain(text)))
		cautions = append(cautions, c.Cautions...)
	}
	for _, s := range j.Steps {
		c, _ := t.Catalog.Check(s.Move.ID)
		for _, id := range c.Cautions { // what was only looked at can hurt as well
			if x, ok := t.Catalog.Caution(id); ok && danger(x) && s.Move.Kind == practice.Do {
				cautions = append(cautions, id)
			}
		}
	}
	seen := map[string]bool{}
	var once []string
	for _, id := range cautions {
		if !seen[id] {
			seen[id] = true
			once = append(once, id)
		}
	}
	blocks = append(blocks, cautionNotes(t.Catalog, once, danger)...)
	return append(blocks, cautionNotes(t.Catalog, once, care)...)
}

// trimmed cuts the blanks at both ends.
func trimmed(s string) string { return strings.TrimSpace(s) }
