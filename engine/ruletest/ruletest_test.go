package ruletest_test

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/ruletest"
)

func pack(t *testing.T, dir string) (*catalog.Catalog, *rule.Set) {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS(dir + "/knowledge"))
	set, more := rule.Load(os.DirFS(dir+"/rules"), cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	return cat, set
}

// The tests that ship beside the rules hold, and leave no rule untried.
func TestShippedRules(t *testing.T) {
	cat, set := pack(t, "../..")
	report, ps := ruletest.Run(os.DirFS("../../rules"), cat, set)
	for _, p := range ps {
		t.Errorf("%s (%s)", p, p.Hint)
	}
	for _, f := range report.Failures {
		t.Errorf("%s: %s: %s", f.Pos, f.Test, f.Message)
	}
	for _, g := range ruletest.Gaps(cat, set, report) {
		if g.Kind != "clause" {
			t.Errorf("%s", g)
		}
	}
	t.Logf("%d rules, %d tests", len(set.Rules), report.Tests)
}

// The lamp pack passes the same runner.
func TestSecondPack(t *testing.T) {
	cat, set := pack(t, "../../testdata/packs/lamp")
	report, ps := ruletest.Run(os.DirFS("../../testdata/packs/lamp/rules"), cat, set)
	if len(ps) > 0 || len(report.Failures) > 0 || report.Passed != report.Tests || report.Tests == 0 {
		t.Fatal(ps, report.Failures)
	}
	for _, g := range ruletest.Gaps(cat, set, report) {
		if g.Kind == "untested" {
			t.Error(g)
		}
	}
}

// Each kind of expectation can fail.
func TestWrongExpectationsFail(t *testing.T) {
	cat, set := pack(t, "../../testdata/packs/lamp")
	for text, want := range map[string]string{
		"signs: {dark: yes}\n    quiet: [starved_is_dark]":                "less probable to have acted",
		"signs: {dark: no}\n    fires: [starved_is_dark]":                 "more probable to have acted",
		"given: {supply: battery}\n    fires: [adapter_needs_no_battery]": "should fire",
		"given: {supply: mains}\n    quiet: [adapter_needs_no_battery]":   "should be quiet",
		"given: {supply: mains}\n    fires: [long_use_empties]":           "waits for lit_for",
		"given: {lit_for: 9 h}\n    waits: [long_use_empties]":            "should wait",
		"signs: {dark: yes}\n    down: [battery_flat]":                    "become less probable",
		"signs: {dark: no}\n    up: [battery_flat]":                       "become more probable",
		"signs: {lead_loose_found: yes}\n    top: battery_flat":           "should be first",
		"given: {supply: mains}\n    fires: [flat_battery_starves]":       "ruled out",
	} {
		report, ps := ruletest.Run(fstest.MapFS{"x_test.yaml": {Data: []byte("tests:\n  - name: n\n    " + text + "\n")}}, cat, set)
		if ps.HasErrors() || len(report.Failures) != 1 || !strings.Contains(report.Failures[0].Message, want) {
			t.Errorf("%s: %v %v, want %q", text, ps, report.Failures, want)
		}
	}
}

func TestUnknownIDsAreProblems(t *testing.T) {
	cat, set := pack(t, "../../testdata/packs/lamp")
	_, ps := ruletest.Run(fstest.MapFS{"x_test.yaml": {Data: []byte("tests:\n  - name: n\n    signs: {drak: yes}\n    fires: [starved_is_drak]\n    up: [batery_flat]\n")}}, cat, set)
	if len(ps) != 3 {
		t.Fatalf("found %d problems, want 3: %v", len(ps), ps)
	}
	for _, p := range ps {
		if p.Pos.Line == 0 || p.Hint == "" {
			t.Errorf("%s has no place or no hint", p)
		}
	}
}
