package report

import (
	"cmp"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/figure"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
)

// Answer is the answer to one case with the pack it was found in and every
// stage on the way. All fields are needed but Drawing.
type Answer struct {
	Catalog     *catalog.Catalog
	Rules       *rule.Set
	Case        *intake.Case
	Firings     []rule.Firing
	Network     *network.Network
	Evidence    []network.Evidence
	Explanation *explain.Explanation
	Cautions    []string // ids, those of danger first
	Course      *plan.Course
	Handout     bool            // the page leaves the bench: cautions in full, no commands
	Drawing     *figure.Drawing // of the machine, on pages that can show it; nil for none
}

// cause finds a cause of the catalog; an id that is not there keeps its id as a name.
func (a Answer) cause(id string) catalog.Cause {
	c, ok := a.Catalog.Cause(id)
	if !ok {
		c.ID, c.Name = id, id
	}
	return c
}

// named is the name of a cause, marked when it only looks like the trade's own.
func (a Answer) named(id string) string { return title(a.Catalog, a.cause(id)) }

// title is the name of a cause for a page. Look-alikes are marked wherever they
// are named, so that nobody opens a cover for a slack chain.
func title(cat *catalog.Catalog, c catalog.Cause) string {
	if c.Outside {
		return c.Name + " (not " + subject(cat) + ")"
	}
	return c.Name
}

// subject is what the pack is about.
func subject(cat *catalog.Catalog) string { return cmp.Or(cat.Subject, "the part in question") }

// seen words a sign as it was answered.
func (a Answer) seen(sign, answer string) string { return seenIn(a.Catalog, sign, answer) }

// seenIn is seen without a case.
func seenIn(cat *catalog.Catalog, sign, answer string) string {
	s, ok := cat.Sign(sign)
	if !ok {
		return sign
	}
	switch answer {
	case "no":
		return s.Absent
	case "probably not":
		return "probably " + s.Absent
	case "probably":
		return "probably " + s.Name
	}
	return s.Name
}

// observed words the k-th piece of evidence; a measured one says which way the
// measurement went.
func (a Answer) observed(k int) string {
	e := a.Evidence[k]
	if e.Answer != "measured" {
		return a.seen(e.Sign, e.Answer)
	}
	answer := "no"
	if e.Yes() {
		answer = "yes"
	}
	return a.seen(e.Sign, answer) + " (" + a.readOff(e.Rule) + ")"
}

// because is the reason a rule gives, or nothing for a rule that is not there.
func (a Answer) because(id string) string {
	r, _ := a.Rules.Rule(id)
	return r.Because
}

// stageName names a stage.
func (a Answer) stageName(id string) string {
	if s, ok := a.Catalog.Stage(id); ok {
		return s.Name
	}
	return id
}

// cautionNotes are the notes of a list of cautions.
func cautionNotes(cat *catalog.Catalog, ids []string, want func(catalog.Caution) bool) []document.Block {
	var out []document.Block
	for _, id := range ids {
		if c, ok := cat.Caution(id); ok && want(c) {
			out = append(out, document.Note(document.Caution, document.Plain(c.Text)))
		}
	}
	return out
}

// danger picks the cautions that stand above everything else on a page.
func danger(c catalog.Caution) bool { return c.Severity == "danger" }
func care(c catalog.Caution) bool   { return c.Severity != "danger" }

// question is what to ask for a word that would settle a rule.
func (a Answer) question(id string) string {
	if f, ok := a.Catalog.Fact(id); ok && f.Question != "" {
		return f.Question
	}
	if s, ok := a.Catalog.Sign(id); ok {
		return s.Question
	}
	if q, ok := a.inStack(id); ok {
		return q
	}
	return "What is the " + a.Catalog.NameOf(id) + "?"
}
