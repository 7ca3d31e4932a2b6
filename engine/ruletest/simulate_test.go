package ruletest_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/ruletest"
)

var (
	simulated  = flag.Int("cases", 120, "simulated cases of the shipped pack")
	stratified = flag.Int("each", 0, "simulated cases of each cause of the shipped pack")
)

func machines(t *testing.T, cat *catalog.Catalog) []fact.Set {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/machines/*.yaml")
	if err != nil || len(paths) == 0 {
		t.Fatal(paths, err)
	}
	var out []fact.Set
	for _, path := range paths {
		_, known, ps := intake.LoadMachine(path, cat)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		out = append(out, known)
	}
	return out
}

var depths = []ruletest.Depth{
	{Name: "complaints", Kinds: []string{"complaint"}, Spontaneous: true, Denied: 4},
	{Name: "plates out", Kinds: []string{"complaint", "road", "bench"}, Stages: []string{"ride", "outside", "small_covers", "cover_off", "pack_out"}},
	{Name: "everything", All: true},
}

func show(t *testing.T, s *ruletest.Simulation) {
	t.Helper()
	t.Logf("%d cases, %d with stray complaints only; left out %d silent, %d contradictory", s.Cases, s.Stray, s.Silent, s.Contradictory)
	for _, l := range s.Levels {
		t.Logf("%-10s first %.3f  three %.3f  five %.3f  mean %.3f  Brier %.3f", l.Name, l.First, l.Three, l.Five, l.Mean, l.Brier)
	}
}
func TestProbe(t *testing.T) {
	cat, _ := catalog.Load(os.DirFS("../../knowledge"))
	set, _ := rule.Load(os.DirFS("../../rules"), cat.Vocabulary())
	w := cat.Vocabulary()
	var ok []rule.Rule
	for _, r := range set.Rules {
		if _, known := w.Lookup(r.To); (r.Action == rule.Brings || r.Action == rule.Shows) && !known {
			continue
		}
		ok = append(ok, r)
	}
	set.Rules = ok
	var ms []fact.Set
	ms = machines(t, cat)
	s, err := ruletest.Simulate(cat, set, w, ruletest.Trials{Seed: 1, Cases: *simulated, Machines: ms, Depths: depths, Stratified: *stratified > 0})
	if err != nil {
		t.Fatal(err)
	}
	show(t, s)
	for i, c := range s.Levels[1].Causes {
		fmt.Println(c.ID, s.Levels[0].Causes[i].Five, c.First, c.Three, s.Levels[2].Causes[i].First, c.ConfusedWith, c.Share)
	}
}
