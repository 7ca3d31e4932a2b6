package ruletest_test

import (
	"flag"
	"math"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/ruletest"
	"example.org/takeup/engine/sample"
)

// A longer look at the shipped pack: -cases 2000, or -each 20 for every cause.
var (
	simulated = flag.Int("cases", 150, "simulated cases of the shipped pack")
	each      = flag.Int("each", 0, "simulated cases of each cause of the shipped pack")
	blind     = flag.Bool("blind", false, "judge them without their history as well")
	shallow   = flag.Bool("shallow", false, "judge them by what is told only")
)

var (
	// What an owner says whom somebody asks: nearly all of the history, and every
	// complaint there is.
	interviewed = sample.Manner{Told: 0.9, Complaints: 99, Denied: 4}
	strays      = sample.Manner{Strays: true}

	told  = ruletest.Depth{Name: "told", Spontaneous: true, History: true}
	blunt = ruletest.Depth{Name: "told, no history", Spontaneous: true}
	asks  = ruletest.Depth{Name: "all complaints", Kinds: []string{"complaint"}}
	out   = ruletest.Depth{Name: "plates out", History: true, Kinds: []string{"complaint", "road", "bench"},
		Stages: []string{"ride", "outside", "small_covers", "cover_off", "pack_out"}}
	outBlunt = ruletest.Depth{Name: "plates out, no history", Kinds: []string{"complaint", "road", "bench"},
		Stages: []string{"ride", "outside", "small_covers", "cover_off", "pack_out"}}
	everything = ruletest.Depth{Name: "everything", All: true}
)

func simulate(t *testing.T, cat *catalog.Catalog, set *rule.Set, trials ruletest.Trials) *ruletest.Simulation {
	t.Helper()
	// A case with a dozen signs present may take seconds: a smaller budget leaves
	// a sign or two out of one case in twenty and keeps the test short.
	trials.Budget = belief.Budget{MaxCost: 2e7, MaxCells: 4e6}
	s, err := ruletest.Simulate(cat, set, cat.Vocabulary(), trials)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What the shipped knowledge is held to on a short run by priors, on the
// invented machine sheets: among the first five from what an owner tells of the
// complaint and the history, first and among three once the plates are out. The
// run is long enough for the floors to lie two standard errors below what a
// long run gives (0.78; 0.93 and 0.98 of 800 cases).
const (
	fiveByTelling  = 0.70
	firstPlatesOut = 0.85
	threePlatesOut = 0.95
)

func TestShippedCausesAreToldApart(t *testing.T) {
	cat, set := pack(t, "../..")
	trials := ruletest.Trials{Seed: 1, Cases: *simulated, Machines: machines(t, cat), Manner: interviewed, Depths: []ruletest.Depth{told, out}}
	if *each > 0 {
		trials.Cases, trials.Stratified, trials.Depths = *each, true, append(trials.Depths, everything)
	}
	if *blind {
		trials.Depths = append(trials.Depths, blunt, outBlunt)
	}
	if *shallow {
		trials.Depths = []ruletest.Depth{told, blunt}
	}
	s := simulate(t, cat, set, trials)
	show(t, s)
	if trials.Stratified || *shallow {
		return // the bars are for causes as often as they occur
	}
	if l := s.Levels[0]; l.Five < fiveByTelling {
		t.Errorf("%s: among five in %.3f of the cases, want %.2f", l.Name, l.Five, fiveByTelling)
	}
	if l := s.Levels[1]; l.First < firstPlatesOut || l.Three < threePlatesOut {
		t.Errorf("%s: first in %.3f and among three in %.3f of the cases, want %.2f and %.2f", l.Name, l.First, l.Three, firstPlatesOut, threePlatesOut)
	}
}

func machines(t *testing.T, cat *catalog.Catalog) []fact.Set {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/machines/*.yaml")
	if err != nil || len(paths) == 0 {
		t.Fatal(paths, err)
	}
	var all []fact.Set
	for _, path := range paths {
		_, known, ps := intake.LoadMachine(path, cat)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		all = append(all, known)
	}
	return all
}

func show(t *testing.T, s *ruletest.Simulation) {
	t.Helper()
	t.Logf("%d cases; left out: %d silent, %d contradictory, %d in which no complaint came from the fault", s.Cases, s.Silent, s.Contradictory, s.Stray)
	for _, l := range s.Levels {
		t.Logf("%-26s first %.3f  three %.3f  five %.3f  mean %.3f  Brier %.3f  too hard %d", l.Name, l.First, l.Three, l.Five, l.Mean, l.Brier, l.Hard)
		for _, c := range l.Causes {
			if c.First < 0.85 && (*shallow || l.Name != told.Name) {
				t.Logf("    %-28s %3d cases, first %.2f three %.2f five %.2f, behind %s %.2f", c.ID, c.Cases, c.First, c.Three, c.Five, c.ConfusedWith, c.Share)
			}
		}
	}
}

func supply(word string) fact.Set {
	var s fact.Set
	s.Put("supply", fact.Value{Kind: fact.Choice, Word: word})
	return s
}

// The lamp has two causes and two complaints, so that the shares can be worked
// out by hand. One complaint is kept, both exclude each other, none is silence;
// dark speaks for the battery, flickering for the lead.
func TestLampSharesAsWorkedOut(t *testing.T) {
	cat, set := pack(t, "../../testdata/packs/lamp")
	const n = 20000
	s := simulate(t, cat, set, ruletest.Trials{Seed: 3, Cases: n, Machines: []fact.Set{supply("battery")}, Manner: strays, Depths: []ruletest.Depth{asks}})
	starvedByBattery := 1 - (1-0.005)*(1-0.8)
	darkByBattery := 1 - (1-0.01)*(1-0.6*starvedByBattery)
	darkByLead := 1 - (1-0.01)*(1-0.6*0.005)
	flickersByLead := 1 - (1-0.02)*(1-0.8)
	right := 0.2*darkByBattery*(1-0.02) + 0.1*flickersByLead*(1-darkByLead)
	wrong := 0.2*(1-darkByBattery)*0.02 + 0.1*(1-flickersByLead)*darkByLead
	both := 0.2*darkByBattery*0.02 + 0.1*flickersByLead*darkByLead
	kept := right + wrong
	near := func(what string, got, want float64) {
		if math.Abs(got-want) > 4*math.Sqrt(want*(1-want)/n) { // four standard errors of a share
			t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	near("first", s.Levels[0].First, right/kept)
	drawn := float64(s.Cases + s.Silent + s.Contradictory)
	near("kept", float64(s.Cases)/drawn, kept/0.3)
	near("contradictory", float64(s.Contradictory)/drawn, both/0.3)
	if s.Cases != n || s.Levels[0].Five != 1 || len(s.Levels[0].Causes) != 2 {
		t.Errorf("got %+v", s)
	}
}

// More answers, and a denial among them, bring the probabilities nearer to what
// is there. The Brier score is proper, so that it must fall; the mean need not.
func TestLookingDeeperHelps(t *testing.T) {
	cat, set := pack(t, "../../testdata/packs/lamp")
	open := ruletest.Depth{Name: "on the desk", Kinds: []string{"complaint"}, Stages: []string{"desk"}}
	s := simulate(t, cat, set, ruletest.Trials{Seed: 5, Cases: 3000, Machines: []fact.Set{supply("battery")},
		Manner: sample.Manner{Complaints: 2, Strays: true}, Depths: []ruletest.Depth{blunt, asks, open, everything}})
	for i := 1; i < len(s.Levels); i++ {
		if a, b := s.Levels[i-1], s.Levels[i]; b.Brier >= a.Brier {
			t.Errorf("level %d: Brier %.4f, then %.4f", i, a.Brier, b.Brier)
		}
	}
}

// A cause is only put into machines that can have it, each cause equally often.
func TestStratifiedCases(t *testing.T) {
	cat, set := pack(t, "../../testdata/packs/lamp")
	trials := ruletest.Trials{Seed: 7, Cases: 51, Stratified: true, Machines: []fact.Set{supply("mains"), supply("battery")}, Depths: []ruletest.Depth{everything}}
	s := simulate(t, cat, set, trials)
	for _, c := range s.Levels[0].Causes {
		if c.Cases != 51 || c.Mean <= 0 {
			t.Errorf("%+v", c)
		}
	}
	if again := simulate(t, cat, set, trials); s.Cases != 102 || !reflect.DeepEqual(s, again) {
		t.Errorf("the same seed gave %+v, then %+v", s, again)
	}
	trials.Machines = trials.Machines[:1] // battery_flat cannot be
	if s := simulate(t, cat, set, trials); s.Cases != 51 || s.Levels[0].Causes[0].ID != "lead_loose" {
		t.Errorf("%+v", s)
	}
}

const small = `
families: [{id: f, name: f}]
stages: [{id: s, name: s, minutes: 0}]
signs:
  - {id: hums, name: hums, absent: a, kind: complaint, family: f, question: q, leak: 1e-9, basis: common practice}
causes:
  - {id: a, name: a, prior: 0.1, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
  - {id: b, name: b, prior: 0.1, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
`

func smallPack(t *testing.T, arrows ...string) (*catalog.Catalog, *rule.Set) {
	t.Helper()
	rules := "rules:\n"
	for _, a := range arrows {
		from, to, _ := strings.Cut(a, " ")
		rules += "  - {id: " + from + "_" + to + ", cause: " + from + ", brings: " + to + ", strength: 0.5, because: b, basis: common practice}\n"
	}
	cat, ps := catalog.Load(fstest.MapFS{"k.yaml": {Data: []byte(small)}})
	set, more := rule.Load(fstest.MapFS{"r.yaml": {Data: []byte(rules)}}, cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	return cat, set
}

// Twins are never first and name each other; a cause that follows from the true
// one and is there is no mistake, though it is the more probable.
func TestTwinsAndConsequences(t *testing.T) {
	trials := ruletest.Trials{Seed: 1, Cases: 40, Stratified: true, Machines: []fact.Set{{}}, Depths: []ruletest.Depth{asks}}
	cat, set := smallPack(t, "a hums", "b hums")
	for i, c := range simulate(t, cat, set, trials).Levels[0].Causes {
		if c.First != 0 || c.Three != 1 || c.Share != 1 || c.ConfusedWith != []string{"b", "a"}[i] {
			t.Errorf("twin: %+v", c)
		}
	}
	// Without a sign of its own, a shows only through b, which is then there.
	cat, set = smallPack(t, "a b", "b hums")
	for _, c := range simulate(t, cat, set, trials).Levels[0].Causes {
		if c.First != 1 || c.ConfusedWith != "" {
			t.Errorf("consequence: %+v", c)
		}
	}
	if m := simulate(t, cat, set, trials).Levels[0].Causes[0].Mean; math.Abs(m-meanOfA) > 1e-6 {
		t.Errorf("mean of a is %v, want %v", m, meanOfA)
	}
}

// P(a | b), where b has its prior of 0.1 and follows from a in half the cases:
// P(b | a) = 1 - 0.9*0.5 and P(b) = 0.1 P(b | a) + 0.9 * 0.1.
const meanOfA = 0.1 * (1 - 0.9*0.5) / (0.1*(1-0.9*0.5) + 0.9*0.1)

func TestCauseThatNeverShows(t *testing.T) {
	cat, set := smallPack(t, "b hums")
	_, err := ruletest.Simulate(cat, set, cat.Vocabulary(), ruletest.Trials{Cases: 1, Stratified: true, Machines: []fact.Set{{}}, Depths: []ruletest.Depth{asks}, Budget: belief.DefaultBudget})
	if err == nil || !strings.Contains(err.Error(), "cause a") {
		t.Errorf("got %v", err)
	}
}
