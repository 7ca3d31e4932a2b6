package rule

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/freeze"
)

// throughSnapshot is a set as a process gets it that opens a snapshot.
func throughSnapshot(t *testing.T, set *Set) *Set {
	t.Helper()
	f := set.Freeze()
	data, err := freeze.Write(&f)
	if err != nil {
		t.Fatal(err)
	}
	var again Frozen
	if err := freeze.Read(string(data), &again); err != nil {
		t.Fatal(err)
	}
	out, err := Restore(again)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The leaves of the shipped rules come back from a snapshot as they were, and are
// parsed by themselves to what they were as parts of their conditions.
func TestLeavesComeBack(t *testing.T) {
	cat, _ := catalog.Load(os.DirFS("../../knowledge"))
	set, ps := Load(os.DirFS("../../rules"), cat.Vocabulary())
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	again := throughSnapshot(t, set)
	type line struct {
		Rule, Text, Tree string
		Words            []string
	}
	list := func(s *Set) (out []line) {
		for _, r := range s.Rules {
			for _, c := range []*Condition{r.When, r.Given} {
				if c != nil {
					c.root.leaves(func(l *clause) { out = append(out, line{r.ID, l.Text, l.expression().String(), l.Words}) })
				}
			}
		}
		return out
	}
	want := list(set)
	if len(want) < len(set.Rules)/4 {
		t.Fatalf("%d leaves in %d rules", len(want), len(set.Rules))
	}
	if diff := cmp.Diff(want, list(again)); diff != "" {
		t.Error(diff)
	}
}

func TestRestoreRefusesWhatDoesNotFit(t *testing.T) {
	when := &Condition{Text: "a"}
	for name, f := range map[string]Frozen{
		"a condition too few":       {Rules: []Rule{{ID: "x"}}},
		"a condition without tree":  {Rules: []Rule{{ID: "x", When: when}}, Whens: []*clause{nil}, Givens: []*clause{nil}},
		"a tree without condition":  {Rules: []Rule{{ID: "x"}}, Whens: []*clause{{Op: opLeaf}}, Givens: []*clause{nil}},
		"a tree of another `given`": {Rules: []Rule{{ID: "x"}}, Whens: []*clause{nil}, Givens: []*clause{{Op: opLeaf}}},
	} {
		if _, err := Restore(f); err == nil {
			t.Errorf("%s: restored without an error", name)
		}
	}
}
