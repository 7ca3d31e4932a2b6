package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
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
	add(t.faults(j.Scenario.Truth)...)
	add(heading("What to learn from it"))
	add(t.mistakes(j))
	add(heading("Your way"), document.Numbered(t.ownWay(j)...))
	if slices.ContainsFunc(j.Steps, t.weighs) {
		add(document.Paragraph(plain(aBit)))
	}
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
		document.NewFact("mark", plain(fmt.Sprintf("%.0f of 100: %.0f of %.0f for the minutes, %.0f of %.0f for what you named, "+
			"%.0f of %.0f for a confidence that your findings carry",
			j.Mark.Total, j.Mark.Way, practice.WayMark, j.Mark.Naming, practice.NamingMark, j.Mark.Grounds, practice.GroundsMark))),
		document.NewFact("minutes", plain(fmt.Sprintf("%.0f until you named it, %.0f until the machine works; the planner %.0f and %.0f",
			j.Minutes, j.ToCure, j.Planner.Minutes, j.Planner.ToCure))),
		document.NewFact("forecast", plain(fmt.Sprintf("Brier score %.2f, from 0 for sure and right to 2 for sure and wrong; %s",
			j.Score.Brier, ranked(j.Score.Place)))),
	}
	if j.Reason != "" {
		facts = append(facts, document.NewFact("reason", plain("\""+j.Reason+"\"")))
	}
	return document.Facts(facts...)
}

// faults say what each fault is, and where to read on.
func (t Tutor) faults(truth []string) []document.Block {
	blocks := []document.Block{heading("What was wrong")}
	for _, id := range truth {
		c, _ := t.Catalog.Cause(id)
		blocks = append(blocks, document.Paragraph(document.Strong(capital(t.name(id))), plain(". "+c.What+" How it shows and how to be sure of it: "),
			document.Code("takeup words "+id), plain(".")))
	}
	return blocks
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

// ownWay is what the student did, with what each step told.
func (t Tutor) ownWay(j *practice.Judgement) []document.Item {
	var items []document.Item
	wanted := ""
	for _, s := range j.Steps {
		if s.Move.Kind == practice.Begun {
			continue
		}
		words := bracketed(Minutes(s.Move.Minutes)) + "."
		if told := t.split(s, false); told != "" {
			words += " " + told
		}
		switch {
		case s.Planner == nil || s.Same:
		case s.Checked != "" && s.Checked == wanted: // said before
			words += " The planner still wanted that first."
		default:
			words += " " + t.beside(s)
		}
		wanted = cmp.Or(s.Checked, wanted)
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
	said := map[string]bool{}
	for k, e := range b.Entries {
		why := a.carried(c.ID, k, e.Decibans)
		if said[why] {
			why = ""
		}
		said[why] = true
		line(a.observed(k), e.Decibans, why)
	}
	if few > 0 || signed(rest) != "0.0" {
		lines = append(lines, document.NewEntry(plain("all the rest"), signed(rest)))
	}
	return document.Ledger(append(lines, document.NewTotal(plain("together"), Decibans(b.Final), plain(Percent(c.Probability))))...)
}

// carried is the reason by which a piece of evidence speaks for a cause or, not
// there, against it; nothing for what only moves the others.
func (a Answer) carried(cause string, k int, decibans float64) string {
	e := a.Evidence[k]
	chain := a.chain(cause, e.Sign)
	switch {
	case len(chain) == 0 || e.Yes() != (decibans > 0):
		return ""
	case e.Yes():
		return a.because(chain[0])
	}
	return "It would bring that. " + a.because(chain[0])
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
