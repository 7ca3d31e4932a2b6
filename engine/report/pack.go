package report

import (
	"fmt"
	"sort"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// Failure is an expectation of a rule test that did not hold.
type Failure struct {
	Pos     source.Pos `json:"pos"`
	Test    string     `json:"test"`
	Message string     `json:"message"`
}

// Gap is something that rules, knowledge or tests leave open.
type Gap struct {
	Kind    string `json:"kind"`
	ID      string `json:"id"`
	Message string `json:"message"`
}

// Checked is the page of a pack that was read without errors.
func Checked(cat *catalog.Catalog, set *rule.Set, warnings int) document.Document {
	text := fmt.Sprintf("%s about %s, %s and %s hang together.", counted(len(set.Rules), "rule", "rules"),
		counted(len(cat.Causes), "cause", "causes"), counted(len(cat.Signs), "sign", "signs"), counted(len(cat.Checks), "check", "checks"))
	if warnings > 0 {
		text += " " + counted(warnings, "place is", "places are") + " worth a look."
	}
	return document.New("Rules checked", document.Paragraph(plain(text)))
}

// Tested is the page of a run of the tests beside the rules.
func Tested(tests, passed int, failures []Failure) document.Document {
	page := document.New("Rules tested", document.Paragraph(plain(fmt.Sprintf("%d of %s passed.", passed, counted(tests, "test", "tests")))))
	var items []document.Item
	for _, f := range failures {
		items = append(items, item(document.Code(f.Pos.String()), plain(" "), document.Strong(f.Test), plain(": "+f.Message)))
	}
	if len(items) > 0 {
		page.Blocks = append(page.Blocks, heading("Not as expected"), document.List(items...))
	}
	return page
}

// Covered is the page of what is left open, by kind.
func Covered(gaps []Gap) document.Document {
	if len(gaps) == 0 {
		return document.New("Nothing is left open", document.Paragraph(plain("Every rule is tried both ways and everything in the book can be reached.")))
	}
	page := document.New(capital(counted(len(gaps), "gap", "gaps")))
	var items []document.Item
	for i, g := range gaps {
		items = append(items, item(document.Code(g.ID), plain(" "+g.Message)))
		if i == len(gaps)-1 || gaps[i+1].Kind != g.Kind {
			page.Blocks = append(page.Blocks, heading(capital(g.Kind)), document.List(items...))
			items = nil
		}
	}
	return page
}

// Apart says how well one cause is told from the others.
type Apart struct {
	Cause    string  `json:"cause"`
	Cases    int     `json:"cases"`
	First    float64 `json:"first"`               // share of its cases in which it is named first
	TakenFor string  `json:"taken_for,omitempty"` // the false cause that is put before it most often
	Share    float64 `json:"share"`               // how often, of its cases
}

// ToldApart lists the causes that are not always named first, worst first, below
// the page of what is left open.
func ToldApart(page document.Document, first float64, list []Apart) document.Document {
	var rows [][]string
	for _, a := range list {
		if a.First < 1 {
			rows = append(rows, []string{a.Cause, Percent(a.First), a.TakenFor, Percent(a.Share)})
		}
	}
	sort.SliceStable(rows, func(i, j int) bool { return share(list, rows[i][0]) < share(list, rows[j][0]) })
	page.Blocks = append(page.Blocks, heading("Causes told apart"),
		document.Paragraph(plain(fmt.Sprintf("With history and every check answered, the true cause is named first in %s of the cases, each cause taken equally often. The rules that judge also drew the cases: this shows what they tell apart, never whether they are true.", Percent(first)))))
	if len(rows) > 0 {
		page.Blocks = append(page.Blocks, document.Table([]string{"cause", "first", "taken for", "in"}, []document.Align{document.Left, document.Right, document.Left, document.Right}, rows...))
	}
	return page
}

// share is how often a cause is first.
func share(list []Apart, cause string) float64 {
	for _, a := range list {
		if a.Cause == cause {
			return a.First
		}
	}
	return 1
}

// RulePage is the page of one rule.
func RulePage(cat *catalog.Catalog, r rule.Rule) document.Document {
	facts := []document.Fact{document.NewFact("does", document.Plain(deed(cat, r)))}
	when := "always"
	if r.When != nil {
		when = r.When.Text
	}
	if r.Given != nil {
		when = r.Given.Text + ", and then " + when
	}
	if r.Until != "" {
		when += " (until " + r.Until + " is known)"
	}
	facts = append(facts, document.NewFact("when", document.Code(when)), document.NewFact("because", plain(r.Because)),
		document.NewFact("basis", plain(basisIn(cat, r.Basis))), document.NewFact("stands in", document.Code("rules/"+r.Pos.String())))
	return document.New(r.ID, document.Facts(facts...))
}

// RulesAbout lists every rule that speaks of a cause, an effect or a sign; false
// when none does.
func RulesAbout(cat *catalog.Catalog, set *rule.Set, id string) (document.Document, bool) {
	var leadsTo, ledTo, history, read []document.Item
	for _, r := range set.About(id) {
		line := document.NewItem(document.Join(document.Strong(capital(deed(cat, r))), plain(". "+r.Because)), document.Paragraph(document.Code(r.ID)))
		switch {
		case r.Action == rule.Brings && r.From == id:
			leadsTo = append(leadsTo, line)
		case r.Action == rule.Brings && r.To == id:
			ledTo = append(ledTo, line)
		case r.Action == rule.Shows && r.To == id:
			read = append(read, line)
		case r.Action != rule.Brings && r.Action != rule.Shows && r.Action != rule.Cautions:
			history = append(history, byHistory(cat, r, id))
		}
	}
	page := document.New("Rules about " + cat.NameOf(id))
	for _, s := range []struct {
		name  string
		items []document.Item
	}{{"What leads to it", ledTo}, {"What it leads to", leadsTo}, {"What of history and machine speaks for or against it", history}, {"What it is read off", read}} {
		if len(s.items) > 0 {
			page.Blocks = append(page.Blocks, heading(s.name), document.List(s.items...))
		}
	}
	return page, len(page.Blocks) > 0
}

// byHistory is what one rule about history and machine does to one of its causes.
func byHistory(cat *catalog.Catalog, r rule.Rule, id string) document.Item {
	does := "rules it out"
	for _, f := range r.Factors {
		if f.Cause == id {
			does = fmt.Sprintf("multiplies its odds by %g", f.By)
			if r.Action == rule.Lowers {
				does = fmt.Sprintf("divides its odds by %g", f.By)
			}
		}
	}
	names := factNames(cat, r, func(catalog.Fact) string { return "" })
	head := capital(does)
	if len(names) > 0 {
		head = capital(Join(names)) + ": " + does
	}
	under := document.Paragraph(document.Code(r.ID))
	if r.When != nil {
		under = document.Paragraph(document.Code(r.ID), plain(", when "), document.Code(r.When.Text))
	}
	return document.NewItem(document.Join(document.Strong(head), plain(". "+r.Because)), under)
}

// deed words what a rule does.
func deed(cat *catalog.Catalog, r rule.Rule) string {
	var names []string
	for _, f := range r.Factors {
		names = append(names, fmt.Sprintf("%s by %g", cat.NameOf(f.Cause), f.By))
	}
	for _, id := range r.Causes {
		names = append(names, cat.NameOf(id))
	}
	switch r.Action {
	case rule.Brings:
		return fmt.Sprintf("%s alone brings %s with %s", cat.NameOf(r.From), cat.NameOf(r.To), Percent(r.Strength))
	case rule.Raises:
		return "multiplies the odds of " + Join(names)
	case rule.Lowers:
		return "divides the odds of " + Join(names)
	case rule.RulesOut:
		return "rules out " + Join(names)
	case rule.Shows:
		return "reads off a measurement: " + cat.NameOf(r.To)
	}
	return "shows the caution " + r.To
}
