package report

import (
	"fmt"

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

// RulePage is the page of one rule.
func RulePage(cat *catalog.Catalog, r rule.Rule) document.Document {
	facts := []document.Fact{document.NewFact("does", document.Plain(deed(cat, r)))}
	when := "always"
	if r.When != nil {
		when = r.When.Text
	}
	facts = append(facts, document.NewFact("when", document.Code(when)), document.NewFact("because", plain(r.Because)),
		document.NewFact("basis", plain(basisIn(cat, r.Basis))), document.NewFact("stands in", document.Code("rules/"+r.Pos.String())))
	return document.New(r.ID, document.Facts(facts...))
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
