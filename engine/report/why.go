package report

import (
	"fmt"
	"math"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
)

// RuledOut returns the rule that says a cause cannot exist in this machine.
func (a Answer) RuledOut(cause string) (rule string, yes bool) {
	for _, r := range a.Explanation.RuledOut {
		if r.Cause == cause {
			return r.Rule, true
		}
	}
	return "", false
}

// Why is the page that accounts for one cause. The error says that the cause is
// not one of this case's.
func (a Answer) Why(cause string) (document.Document, error) {
	if rule, yes := a.RuledOut(cause); yes {
		return document.New("Why not "+a.named(cause),
			document.Paragraph(plain("It cannot be that: "+a.because(rule))), a.basisOf(rule)), nil
	}
	c, ok := a.Explanation.Find(cause)
	if !ok {
		return document.Document{}, fmt.Errorf("%q is not a cause of this pack", cause)
	}
	page := document.New("Why "+a.named(cause),
		document.Paragraph(plain(fmt.Sprintf("For \"%s\": %s, after %s before any sign.", a.heading(), Percent(c.Probability), Percent(c.Prior)))),
		heading("The account"), a.ledger(c), a.ledgerKey())
	add := func(name string, items []document.Item) {
		if len(items) > 0 {
			page.Blocks = append(page.Blocks, heading(name), document.List(items...))
		}
	}
	add("The rules that speak", a.spoken(c))
	add("What was read off", a.read())
	add("Expected and missing", a.expected(c.Missing, "no"))
	add("Expected and not asked yet", a.expected(c.Expected, "yes"))
	add("Who accounts for each sign", a.shares())
	page.Blocks = append(page.Blocks, document.Note(document.Doubt, plain(decides)))
	return page, nil
}

// ledger is the account of a cause: every line adds up to the total.
func (a Answer) ledger(c explain.Cause) document.Block {
	b := c.Balance
	lines := []document.Entry{document.NewEntry(plain("how often it comes up"), signed(b.Base), plain(Percent(belief.FromDecibans(b.Base))))}
	for _, h := range b.History {
		lines = append(lines, document.NewEntry(plain(a.past(h.ID)), signed(h.Decibans), plain(a.because(h.ID))))
	}
	if signed(b.ByOthers) != "0.0" {
		lines = append(lines, document.NewEntry(plain("other causes that lead to it"), signed(b.ByOthers)))
	}
	right, sum := 0, 0.0 // what is right in the stack and hardly counts
	idle, rest := 0, 0.0 // what says nothing about this cause
	for k, e := range b.Entries {
		if ev := a.Evidence[k]; a.listed(ev.Rule) && !ev.Yes() && math.Abs(e.Decibans) < worthSaying {
			right, sum = right+1, sum+e.Decibans
			continue
		}
		if signed(e.Decibans) == "0.0" && signed(e.LeaveOneOut) == "0.0" {
			idle, rest = idle+1, rest+e.Decibans
			continue
		}
		var note document.Text
		if len(b.Entries) > 1 {
			note = plain("alone " + signed(e.LeaveOneOut))
		}
		lines = append(lines, document.NewEntry(plain(a.observed(k)), signed(e.Decibans), note))
	}
	if right > 0 {
		lines = append(lines, document.NewEntry(plain(counted(right, "thing", "things")+" right in the stack"), signed(sum)))
	}
	if idle > 0 {
		lines = append(lines, document.NewEntry(plain(counted(idle, "finding that says", "findings that say")+" nothing about it"), signed(rest)))
	}
	return document.Ledger(append(lines, document.NewTotal(plain("together"), Decibans(b.Final), plain(Percent(c.Probability))))...)
}

// ledgerKey explains the unit where it is first met.
func (a Answer) ledgerKey() document.Block {
	return document.Paragraph(plain("In decibans: ten times the logarithm of the odds, so that +10 makes the odds ten times as large, +3 twice. " +
		"The lines add up in the order given, but for the rounding to a tenth. \"Alone\" is what would be lost if that piece only were struck out; these do not add up."))
}

// spoken lists the rules about a cause that have something to say here.
func (a Answer) spoken(c explain.Cause) []document.Item {
	var items []document.Item
	for _, s := range c.Rules {
		r, ok := a.Rules.Rule(s.Rule)
		if !ok || s.Share < 0.01 {
			continue
		}
		about := "history"
		if r.From != "" {
			about = a.Catalog.NameOf(r.From) + " brings " + a.Catalog.NameOf(r.To) + ", acting with " + Percent(s.Share)
		}
		items = append(items, document.NewItem(
			document.Join(document.Strong(capital(about)), plain(". "+r.Because)),
			document.Paragraph(document.Code(r.ID), plain(", "+a.basis(r.Basis)))))
	}
	return items
}

// read lists the rules that found a sign in measurements or in the stack.
func (a Answer) read() []document.Item {
	var items []document.Item
	for k, e := range a.Evidence {
		r, ok := a.Rules.Rule(e.Rule)
		if !ok || !e.Yes() {
			continue
		}
		items = append(items, document.NewItem(
			document.Join(document.Strong(capital(a.observed(k))), plain(". "+r.Because)),
			document.Paragraph(document.Code(r.ID), plain(", "+a.basis(r.Basis)))))
	}
	return items
}

// basis is where a statement comes from, in words.
func (a Answer) basis(id string) string { return basisIn(a.Catalog, id) }

// basisOf is the rule with its source, on one line.
func (a Answer) basisOf(rule string) document.Block {
	r, _ := a.Rules.Rule(rule)
	return document.Paragraph(document.Code(rule), plain(", "+a.basis(r.Basis)))
}

// expected lists signs with how often the cause shows them.
func (a Answer) expected(signs []explain.Sign, answer string) []document.Item {
	var items []document.Item
	for _, s := range signs {
		items = append(items, item(plain(capital(a.seen(s.ID, answer))+": "), plain(a.checkFor(s)+"the cause brings it in "+Percent(s.Chance)+" of cases.")))
	}
	return items
}

// checkFor names the check that would settle a sign that is still open.
func (a Answer) checkFor(s explain.Sign) string {
	checks := a.Catalog.ChecksFor(s.ID)
	if s.Answer != "" || len(checks) == 0 {
		return ""
	}
	return checks[0].Name + "; "
}

// shares tells for every sign that is there what stands behind it.
func (a Answer) shares() []document.Item {
	var items []document.Item
	for k, s := range a.Explanation.Signs {
		if !a.Evidence[k].Yes() {
			continue
		}
		var words []string
		for _, h := range s.Shares[:min(3, len(s.Shares))] {
			if h.Share >= 0.01 {
				words = append(words, a.Catalog.NameOf(h.ID)+" "+Percent(h.Share))
			}
		}
		words = append(words, "nothing in this book "+Percent(s.Leak))
		items = append(items, item(document.Strong(capital(a.observed(k))), plain(": "+Join(words)+".")))
	}
	return items
}
