package report_test

import (
	"encoding/json"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine"
	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/render/markdown"
	"example.org/takeup/engine/report"
)

const lamp = "../../testdata/packs/lamp"

// answer reasons about a case of the bench lamp written in the test.
func answer(t testing.TB, text string) report.Answer {
	t.Helper()
	e, ps := engine.Open(os.DirFS(lamp+"/knowledge"), os.DirFS(lamp+"/rules"))
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	file := t.TempDir() + "/case.yaml"
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	c, ps := intake.Load(file, e.Catalog)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	return report.Answer{
		Catalog: e.Catalog, Rules: e.Rules, Case: d.Case, Firings: d.Firings, Network: d.Network, Evidence: d.Evidence,
		Explanation: d.Explanation, Cautions: d.Cautions, Course: d.Course,
	}
}

const dark = "title: stays dark\nhistory: {supply: battery, lit_for: 9 h}\nsigns: {dark: yes, lead_loose_found: no}\n"

func text(page document.Document) string {
	return strings.ReplaceAll(markdown.Render(page), "\u00a0", " ")
}

func TestDiagnosisSaysWhatAndWhy(t *testing.T) {
	page := text(answer(t, dark).Diagnosis(false))
	for _, want := range []string{
		"# stays dark", "battery flat", "Why battery flat",
		"The charge lasts about six hours.",       // the history rule, in its own words
		"An empty battery pushes little current.", // the first rule of the way to the sign
		"What to do next", "service manual",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q:\n%s", want, page)
		}
	}
	if strings.Contains(page, "Every account") {
		t.Error("the short page shows every account")
	}
}

func TestDiagnosisWithAllShowsEveryCause(t *testing.T) {
	page := text(answer(t, dark).Diagnosis(true))
	for _, want := range []string{"Every account", "lead loose", "how often it comes up"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q:\n%s", want, page)
		}
	}
}

func TestDiagnosisWithoutSigns(t *testing.T) {
	if s := answer(t, "title: nothing known\n").Summary(); !strings.HasPrefix(s, "No sign is known yet") {
		t.Errorf("summary %q", s)
	}
}

func TestDangerStandsAboveTheRanking(t *testing.T) {
	page := text(answer(t, "title: on mains\nhistory: {supply: mains}\nsigns: {flickers: yes}\n").Diagnosis(false))
	caution, ranking := strings.Index(page, "Unplug the adapter"), strings.Index(page, "1. ")
	if caution < 0 || caution > ranking {
		t.Errorf("the danger stands at %d, the ranking at %d", caution, ranking)
	}
}

func TestWhatDoesNotFitNamesTheMissingSign(t *testing.T) {
	a := answer(t, "title: loose\nsigns: {flickers: yes, lead_loose_found: no}\n")
	page := text(a.Diagnosis(false))
	if first := a.Explanation.Causes[0].ID; first != "battery_flat" || !strings.Contains(page, "for a reason that is not in this book") {
		t.Errorf("first is %s, and flickering is not called unexplained:\n%s", first, page)
	}
	why, err := a.Why("lead_loose")
	if err != nil || !strings.Contains(text(why), "Expected and missing") {
		t.Errorf("%v:\n%s", err, text(why))
	}
}

// The ledger is an account: its lines add up to its total, as printed to one
// decimal, within half a unit of the last place for each line.
func TestTheLedgerAddsUp(t *testing.T) {
	a := answer(t, dark)
	for _, c := range a.Explanation.Causes {
		page, err := a.Why(c.ID)
		if err != nil {
			t.Fatal(err)
		}
		sum, total, lines := 0.0, math.NaN(), 0
		for _, b := range page.Blocks {
			for _, l := range b.Ledger {
				x := number(t, l.Amount)
				if l.Total {
					total = x
				} else {
					sum, lines = sum+x, lines+1
				}
			}
		}
		if lines < 3 || math.Abs(sum-total) > 0.05*float64(lines+1) {
			t.Errorf("%s: %d lines make %.1f, the total is %.1f", c.ID, lines, sum, total)
		}
		if p := belief.FromDecibans(total); math.Abs(p-c.Probability) > 0.02 {
			t.Errorf("%s: the total says %.3f, the answer %.3f", c.ID, p, c.Probability)
		}
	}
}

func number(t *testing.T, amount string) float64 {
	t.Helper()
	var x float64
	amount, _, _ = strings.Cut(strings.NewReplacer("\u2212", "-", "+", "").Replace(amount), "\u00a0")
	if err := json.Unmarshal([]byte(amount), &x); err != nil {
		t.Fatalf("amount %q: %v", amount, err)
	}
	return x
}

func TestWhyOfACauseThatIsRuledOut(t *testing.T) {
	a := answer(t, "title: on mains\nhistory: {supply: mains}\nsigns: {dark: yes}\n")
	page, err := a.Why("battery_flat")
	if err != nil || !strings.Contains(text(page), "the battery does not matter") {
		t.Errorf("%v:\n%s", err, text(page))
	}
	if _, err := a.Why("no_such"); err == nil {
		t.Error("no error for a cause that is not there")
	}
}

func TestContrastTotalsTheDifference(t *testing.T) {
	a := answer(t, dark)
	page, err := a.Not("battery_flat", "lead_loose")
	if err != nil {
		t.Fatal(err)
	}
	first, _ := a.Explanation.Find("battery_flat")
	second, _ := a.Explanation.Find("lead_loose")
	want := report.Decibans(first.Balance.Final - second.Balance.Final)
	if !strings.Contains(markdown.Render(page), want) {
		t.Errorf("the page lacks the total %s:\n%s", want, text(page))
	}
	if _, err := a.Not("battery_flat", "no_such"); err == nil {
		t.Error("no error for a cause that is not there")
	}
}

func TestNextGivesTheSteps(t *testing.T) {
	page := text(answer(t, dark).Next())
	for _, want := range []string{"Next: measure the battery voltage", "1. Hold the meter to the terminals.", "min"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q:\n%s", want, page)
		}
	}
}

// The keys are those that programs rely on, in this order.
func TestResultKeys(t *testing.T) {
	raw, err := data.Marshal(answer(t, dark).Result())
	if err != nil {
		t.Fatal(err)
	}
	at := 0
	for _, key := range []string{
		"schema", "case", "causes", "id", "name", "probability", "stage", "balance", "evidence", "decibans", "rules", "sets",
		"unlisted", "unexplained", "waiting", "next", "check", "minutes", "bits", "expected_minutes_saved", "results", "cautions", "steadiness",
	} {
		i := strings.Index(string(raw[at:]), `"`+key+`":`)
		if i < 0 {
			t.Fatalf("no key %q after byte %d of %s", key, at, raw)
		}
		at += i
	}
}

func TestResultBalanceBeginsWithThePriorAndAddsUp(t *testing.T) {
	for _, c := range answer(t, dark).Result().Causes {
		sum := 0.0
		for _, l := range c.Balance {
			sum += l.Decibans
		}
		if c.Balance[0].Evidence != "prior" || math.Abs(belief.FromDecibans(sum)-c.Probability) > 1e-9 {
			t.Errorf("%s: balance %v makes %v, want %v", c.ID, c.Balance, belief.FromDecibans(sum), c.Probability)
		}
	}
}

func TestEveryStagePrints(t *testing.T) {
	a := answer(t, dark)
	for _, name := range report.StageNames() {
		v, ok := a.Stage(name)
		raw, err := json.Marshal(v)
		if !ok || err != nil || len(raw) < 20 {
			t.Errorf("%s: %v, %v, %s", name, ok, err, raw)
		}
	}
	if _, ok := a.Stage("thoughts"); ok {
		t.Error("a stage that is not there was found")
	}
}

func TestEveryWordHasAPage(t *testing.T) {
	a := answer(t, dark)
	words := report.Words(a.Catalog)
	if len(words) < 15 {
		t.Fatalf("%d words", len(words))
	}
	for _, w := range words {
		if page := report.Entry(a.Catalog, a.Rules, w); page.Title != w.Name || len(page.Blocks) < 2 {
			t.Errorf("%s: page %q with %d blocks", w.ID, page.Title, len(page.Blocks))
		}
	}
}

func TestSearch(t *testing.T) {
	cat := answer(t, dark).Catalog
	for _, c := range []struct{ text, first string }{
		{"battery_flat", "battery_flat"}, {"Battery FLAT", "battery_flat"}, {"come and go", "flickers"},
	} {
		found := report.Search(cat, c.text)
		if len(found) == 0 || found[0].ID != c.first {
			t.Errorf("%q: %v, want %s first", c.text, found, c.first)
		}
	}
	for _, nothing := range []string{"", " ", "zeppelin"} {
		if found := report.Search(cat, nothing); len(found) > 0 {
			t.Errorf("%q found %v", nothing, found)
		}
	}
}

func TestPercent(t *testing.T) {
	for _, c := range []struct {
		p    float64
		want string
	}{{0, "0 %"}, {1e-9, "under 1 %"}, {0.0099, "under 1 %"}, {0.01, "1 %"}, {0.624, "62 %"}, {0.99, "99 %"}, {0.991, "over 99 %"}, {1, "100 %"}} {
		if got := strings.ReplaceAll(report.Percent(c.p), "\u00a0", " "); got != c.want {
			t.Errorf("%v: %q, want %q", c.p, got, c.want)
		}
	}
}

var percent = regexp.MustCompile(`^(under |over )?\d{1,3}\x{a0}%$`)

// What is neither certain nor impossible never reads so.
func TestPercentIsNeverFalselySure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		got := report.Percent(p)
		if !percent.MatchString(got) || p > 0 && p < 1 && (got[0] == '0' || strings.HasPrefix(got, "100")) {
			t.Errorf("%v reads %q", p, got)
		}
	})
}

// 10 log10 2 = 3.01: the odds doubled (Good 1950, from memory).
func TestDecibans(t *testing.T) {
	for _, c := range []struct {
		d    float64
		want string
	}{{3.0103, "+3.0"}, {-0.04, "0.0"}, {0, "0.0"}, {-12.34, "\u221212.3"}} {
		if got := report.Decibans(c.d); got != c.want+"\u00a0dban" {
			t.Errorf("%v: %q, want %q", c.d, got, c.want)
		}
	}
}

func TestMinutesAndJoin(t *testing.T) {
	for _, c := range []struct {
		m    float64
		want string
	}{{0, "no time"}, {3, "3 min"}, {89, "89 min"}, {90, "1.5 h"}, {120, "2 h"}} {
		if got := strings.ReplaceAll(report.Minutes(c.m), "\u00a0", " "); got != c.want {
			t.Errorf("%v: %q, want %q", c.m, got, c.want)
		}
	}
	for want, words := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}} {
		if got := report.Join(words); got != want {
			t.Errorf("%v: %q, want %q", words, got, want)
		}
	}
}

func TestSteadyInWords(t *testing.T) {
	for share, want := range map[float64]string{0.97: "is safe", 0.75: "fairly safe", 0.5: "other way round"} {
		if got := report.Steady(share); !strings.Contains(got, want) {
			t.Errorf("%v: %q lacks %q", share, got, want)
		}
	}
}

// Same case, same bytes.
func TestPagesDoNotChangeFromRunToRun(t *testing.T) {
	a, b := answer(t, dark), answer(t, dark)
	b.Case.File = a.Case.File
	if text(a.Diagnosis(true)) != text(b.Diagnosis(true)) || text(a.Next()) != text(b.Next()) {
		t.Error("two runs differ")
	}
}

func BenchmarkDiagnosisPage(b *testing.B) {
	a := answer(b, dark)
	for b.Loop() {
		a.Diagnosis(false)
	}
}
