package engine_test

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/knowledge"
)

var (
	causeHeadings = []string{"What it is", "How it shows", "How to confirm it", "What it is mistaken for"}
	checkHeadings = []string{"What it is for", "Doing it well", "Reading the result", "What spoils it"}
	emphasised    = regexp.MustCompile(`\*([^*]+)\*`)
)

// studentPage is a page taken apart: its title, its headings in order, the text
// below each, lines joined.
type studentPage struct {
	title    string
	headings []string
	below    map[string]string
	words    int
}

func readPage(t *testing.T, path string) studentPage {
	t.Helper()
	text, err := fs.ReadFile(knowledge.Files, path)
	if err != nil {
		t.Fatal(err)
	}
	p := studentPage{below: map[string]string{}}
	for _, line := range strings.Split(string(text), "\n") {
		switch {
		case strings.HasPrefix(line, "# "):
			p.title = line[2:]
		case strings.HasPrefix(line, "## "):
			p.headings = append(p.headings, line[3:])
		case len(p.headings) > 0:
			head := p.headings[len(p.headings)-1]
			p.below[head] = strings.TrimSpace(p.below[head] + " " + strings.TrimSpace(line))
			p.words += len(strings.Fields(line))
		}
	}
	return p
}

func (p studentPage) check(t *testing.T, path, name string, headings, checks []string) {
	t.Helper()
	if p.title != capital(name) {
		t.Errorf("%s: title %q, the entry is called %q", path, p.title, name)
	}
	if !slices.Equal(p.headings, headings) {
		t.Errorf("%s: headings %q, want %q", path, p.headings, headings)
	}
	for _, head := range p.headings {
		if p.below[head] == "" {
			t.Errorf("%s: nothing under %q", path, head)
		}
		for _, m := range emphasised.FindAllStringSubmatch(p.below[head], -1) {
			if !slices.Contains(checks, small(m[1])) {
				t.Errorf("%s: %q is no check", path, m[1])
			}
		}
	}
	if p.words < 40 || p.words > 170 {
		t.Errorf("%s: %d words; a page is read at the bench", path, p.words)
	}
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
func small(s string) string   { return strings.ToLower(s[:1]) + s[1:] }

// The pages for students say nothing that the entries do not know: each carries
// its entry's name, names only checks that exist, and a cause's page speaks of
// everything the cause is confused with.
func TestPagesFollowTheKnowledge(t *testing.T) {
	cat, ps := catalog.Load(knowledge.Files)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	var checks []string
	for _, c := range cat.Checks {
		checks = append(checks, c.Name)
	}
	known := map[string]bool{}
	for _, c := range cat.Causes {
		path := "pages/causes/" + c.ID + ".md"
		known[path] = true
		p := readPage(t, path)
		p.check(t, path, c.Name, causeHeadings, checks)
		for _, id := range c.ConfusedWith {
			if !strings.Contains(p.below["What it is mistaken for"], "- "+capital(cat.NameOf(id))+":") {
				t.Errorf("%s: does not say how to tell it from %s, %q", path, id, capital(cat.NameOf(id)))
			}
		}
	}
	for _, c := range cat.Checks {
		if len(c.How) == 0 || len(c.Watch) == 0 || c.Minutes <= 0 {
			t.Errorf("check %s: wants minutes, how to do it and what to watch out for", c.ID)
		}
		path := "pages/checks/" + c.ID + ".md"
		known[path] = true
		readPage(t, path).check(t, path, c.Name, checkHeadings, checks)
	}
	found, err := fs.Glob(knowledge.Files, "pages/*/*.md")
	if err != nil || len(found) == 0 {
		t.Fatal(found, err)
	}
	for _, path := range found {
		if !known[path] {
			t.Errorf("%s: a page without an entry", path)
		}
	}
}

// Two causes are confused only where both can be: a neighbour that the way the
// clutch is worked rules out would be told apart by a glance at the machine.
func TestNeighboursShareAMachine(t *testing.T) {
	e := open(t, "..")
	var ruled []map[string]bool
	for _, actuation := range []string{"cable", "hydraulic"} {
		for _, release := range []string{"arm_rack", "cam", "through_rod"} {
			var known fact.Set
			known.Put("machine.actuation", fact.Value{Kind: fact.Choice, Word: actuation, Text: actuation})
			known.Put("machine.release", fact.Value{Kind: fact.Choice, Word: release, Text: release})
			out := map[string]bool{}
			for i, f := range e.Rules.Fire(known) {
				if e.Rules.Rules[i].Action == rule.RulesOut && f.Verdict == rule.Yes {
					for _, id := range e.Rules.Rules[i].Causes {
						out[id] = true
					}
				}
			}
			ruled = append(ruled, out)
		}
	}
	for _, c := range e.Catalog.Causes {
		for _, other := range c.ConfusedWith {
			if !slices.ContainsFunc(ruled, func(out map[string]bool) bool { return !out[c.ID] && !out[other] }) {
				t.Errorf("%s is confused with %s, which stands in no machine that can have it", c.ID, other)
			}
		}
	}
}
