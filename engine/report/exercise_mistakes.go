package report

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/practice"
)

// mistakes words what went wrong, gravest first.
func (t Tutor) mistakes(j *practice.Judgement) document.Block {
	var items []document.Item
	for _, m := range j.Mistakes {
		items = append(items, item(document.Strong(head(m.Kind)), plain(". "+t.mistake(j, m))))
	}
	if len(items) == 0 {
		return document.Paragraph(plain("Nothing to hold against it: every step could tell something, and the confidence was what the findings carry."))
	}
	return document.List(items...)
}

// head is what a mistake is called, the same on every page.
func head(kind practice.MistakeKind) string {
	switch kind {
	case practice.WrongCause:
		return "Wrong cause"
	case practice.OnlyDamage:
		return "The damage, not the fault"
	case practice.SecondFault:
		return "A second fault"
	case practice.NamedEarly:
		return "Named too early"
	case practice.LookAlike:
		return "A look-alike left standing"
	case practice.TooSure:
		return "Too sure"
	case practice.TooUnsure:
		return "Too unsure"
	case practice.OpenedEarly:
		return "Opened too early"
	case practice.Idle:
		return "A check for nothing"
	case practice.NoHistory:
		return "History not asked"
	case practice.TookHints:
		return "Hints"
	}
	return string(kind)
}

// mistake says what was wrong about one, and what would have served.
func (t Tutor) mistake(j *practice.Judgement, m practice.Mistake) string {
	switch m.Kind {
	case practice.WrongCause:
		return fmt.Sprintf("Not on this machine: %s. Putting it right in vain and finding the fault after all takes %s more.%s",
			t.name(m.Cause), Minutes(m.Minutes), t.served(j, "What tells it from "+t.name(m.Other), m))
	case practice.OnlyDamage:
		return fmt.Sprintf("%s is there, but %s led to it; put right alone it comes back.%s",
			capital(t.name(m.Cause)), t.name(m.Other), t.served(j, "What shows the fault", m))
	case practice.SecondFault:
		return fmt.Sprintf("%s is there as well; a complaint is left when only the other is put right.%s", capital(t.name(m.Cause)), t.served(j, "What shows it", m))
	case practice.NamedEarly:
		words := fmt.Sprintf("The findings carried %s, with %s still in play.", Percent(m.Held), counted(m.Count, "cause", "causes"))
		if m.Check != "" {
			words += fmt.Sprintf(" Worth doing first, in %s: %s.", Minutes(m.Minutes), t.Catalog.NameOf(m.Check))
		}
		return words
	case practice.LookAlike:
		return fmt.Sprintf("%s was still at %s.%s", capital(t.name(m.Other)), Percent(m.Held), t.served(j, "What tells it from "+t.name(m.Cause), m))
	case practice.TooSure:
		return fmt.Sprintf("You said %s, the findings carry %s. What is said too surely gets parts bought.", Percent(m.Stated), Percent(m.Held))
	case practice.TooUnsure:
		return fmt.Sprintf("You said %s, the findings carry %s. Who trusts findings too little goes on looking at the customer's cost.", Percent(m.Stated), Percent(m.Held))
	case practice.OpenedEarly:
		words := fmt.Sprintf("%s (%s) at step %d, with a shorter look undone.", capital(t.Catalog.NameOf(m.Other)), Minutes(m.Minutes), m.Step)
		if m.Check != "" {
			words += fmt.Sprintf(" The planner would first, in %s: %s%s.", Minutes(m.Stated), t.Catalog.NameOf(m.Check), after(": ", t.parts(j.Steps[m.Step].Tells)))
		}
		return words
	case practice.Idle:
		return fmt.Sprintf("%s (%s, step %d) could not have told anything: what it settles was settled, or is the same whatever is wrong.",
			capital(t.Catalog.NameOf(m.Check)), Minutes(m.Minutes), m.Step)
	case practice.NoHistory:
		var asks []string
		for _, id := range m.Facts {
			f, _ := t.Catalog.Fact(id)
			v, _ := j.Scenario.Known.Get(id)
			asks = append(asks, f.Name+" ("+valueWords(f, v)+")")
		}
		return fmt.Sprintf("One minute each, and it speaks for %s: %s.", t.name(m.Cause), strings.Join(asks, "; "))
	case practice.TookHints:
		return fmt.Sprintf("You asked the planner %s.", often(m.Count))
	}
	return ""
}

// served names the check that would have served, what it shows on this machine,
// and why.
func (t Tutor) served(j *practice.Judgement, what string, m practice.Mistake) string {
	if m.Check == "" {
		return ""
	}
	words := " " + what + ": " + t.Catalog.NameOf(m.Check)
	if m.Tells == nil {
		return words + "."
	}
	words += bracketed(Minutes(m.Tells.Minutes))
	e, known := j.Scenario.Signs[m.Tells.Sign]
	if !known {
		return words + "."
	}
	words += "; here it shows: " + seenIn(t.Catalog, m.Tells.Sign, e.Answer) + "."
	from := m.Tells.One // whose sign it is
	if m.Tells.ByOther > m.Tells.ByOne {
		from = m.Tells.Other
	}
	return words + after(" ", t.reason(j.End.Network, from, m.Tells.Sign))
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
