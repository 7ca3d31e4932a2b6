package explain_test

import (
	"math"
	"testing"
	"testing/fstest"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

const small = `
families: [{id: f, name: f}]
stages: [{id: s, name: s, minutes: 0}]
signs:
  - {id: slip_hot, name: slips, absent: a, kind: complaint, family: f, question: q, leak: 0.01, basis: common practice}
  - {id: drag, name: drags, absent: a, kind: complaint, family: f, question: q, leak: 0.02, basis: common practice}
  - {id: judder, name: judders, absent: a, kind: complaint, family: f, question: q, leak: 0.03, basis: common practice}
  - {id: free_play_off, name: play off, absent: a, kind: complaint, family: f, question: q, leak: 0.05, basis: common practice}
  - {id: burnt_smell, name: smells, absent: a, kind: complaint, family: f, question: q, leak: 0.005, basis: common practice}
causes:
  - {id: worn, name: worn, prior: 0.10, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
  - {id: oil, name: oil, prior: 0.05, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
  - {id: cable, name: cable, prior: 0.20, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
  - {id: spring, name: spring, prior: 0.02, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
`

const smallRules = `
rules:
  - {id: r1, cause: worn, brings: slip_hot, strength: 0.8, because: b, basis: common practice}
  - {id: r2, cause: oil, brings: slip_hot, strength: 0.5, because: b, basis: common practice}
  - {id: r3, cause: spring, brings: slip_hot, strength: 0.7, because: b, basis: common practice}
  - {id: r4, cause: oil, brings: drag, strength: 0.6, because: b, basis: common practice}
  - {id: r5, cause: cable, brings: drag, strength: 0.7, because: b, basis: common practice}
  - {id: r6, cause: worn, brings: judder, strength: 0.4, because: b, basis: common practice}
  - {id: r7, cause: oil, brings: judder, strength: 0.2, because: b, basis: common practice}
  - {id: r8, cause: cable, brings: free_play_off, strength: 0.9, because: b, basis: common practice}
  - {id: r9, cause: worn, brings: burnt_smell, strength: 0.5, because: b, basis: common practice}
  - {id: r10, cause: spring, brings: burnt_smell, strength: 0.6, because: b, basis: common practice}
`

func explained(t *testing.T, said ...network.Evidence) *explain.Explanation {
	t.Helper()
	cat, ps := catalog.Load(fstest.MapFS{"small.yaml": {Data: []byte(small)}})
	set, more := rule.Load(fstest.MapFS{"small.yaml": {Data: []byte(smallRules)}}, cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	firings := set.Fire(fact.Set{})
	net, err := network.Build(cat, set, firings)
	if err != nil {
		t.Fatal(err)
	}
	ex, err := explain.New(explain.Input{Catalog: cat, Rules: set, Firings: firings, Network: net, Evidence: net.Evidence(said, set, firings)})
	if err != nil {
		t.Fatal(err)
	}
	return ex
}

func smallCase(t *testing.T) *explain.Explanation {
	return explained(t,
		network.Evidence{Sign: "slip_hot", Answer: "yes", Present: 1},
		network.Evidence{Sign: "drag", Answer: "yes", Present: 1},
		network.Evidence{Sign: "judder", Answer: "no", Absent: 1})
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 6e-5 {
		t.Errorf("%s: %.6f, want %.6f", what, got, want)
	}
}

// Decibans of the worked four-cause example: computed by brute force in exact
// fractions, inclusion-exclusion and elimination alike (made for this purpose,
// the form is Spiegelhalter and Knill-Jones 1984).
func TestBalanceOfTheWorkedExample(t *testing.T) {
	ex := smallCase(t)
	for _, want := range []struct {
		id                 string
		prior              float64
		lines, leave       [3]float64
		final, probability float64
	}{
		{"worn", -9.5424, [3]float64{12.2468, -3.6072, -1.6105}, [3]float64{9.2476, -3.4375, -1.6105}, -2.5133, .359229},
		{"oil", -12.7875, [3]float64{7.3274, 6.2498, .3845}, [3]float64{8.6810, 6.2498, .3845}, 1.1742, .567182},
		{"cable", -6.0206, [3]float64{0, 6.9549, -.2420}, [3]float64{-5.4082, 6.7129, -.2420}, .6923, .539768},
		{"spring", -16.9020, [3]float64{8.1635, -1.7569, 1.1276}, [3]float64{7.5343, -2.1117, 1.1276}, -9.3677, .103680},
	} {
		c, ok := ex.Find(want.id)
		if !ok {
			t.Fatalf("%s is not ranked", want.id)
		}
		near(t, want.id+" prior", c.Balance.Prior(), want.prior)
		near(t, want.id+" final", c.Balance.Final, want.final)
		near(t, want.id+" probability", c.Probability, want.probability)
		sum := c.Balance.Prior()
		for i, e := range c.Balance.Entries {
			near(t, want.id+" "+e.ID, e.Decibans, want.lines[i])
			near(t, want.id+" without "+e.ID, e.LeaveOneOut, want.leave[i])
			sum += e.Decibans
		}
		if math.Abs(sum-c.Balance.Final) > 1e-9 {
			t.Errorf("%s: the account adds up to %v, not %v", want.id, sum, c.Balance.Final)
		}
	}
	if ex.Causes[0].ID != "oil" || ex.Causes[3].ID != "spring" {
		t.Errorf("ranking starts with %s and ends with %s", ex.Causes[0].ID, ex.Causes[3].ID)
	}
}

// Link shares and exact sets of the same example.
func TestSharesAndSetsOfTheWorkedExample(t *testing.T) {
	ex := smallCase(t)
	want := map[string]float64{"r1": .350685, "r2": .528758, "r3": .098192, "r4": .513379, "r5": .505250}
	for _, s := range ex.Signs[:2] {
		for _, share := range s.Shares {
			near(t, share.Rule, share.Share, want[share.Rule])
		}
	}
	near(t, "slip leak", ex.Signs[0].Leak, .070137)
	near(t, "drag leak", ex.Signs[1].Leak, .072179)
	if len(ex.Signs[2].Shares) > 0 {
		t.Error("a sign that is absent was brought by something")
	}
	for i, s := range []struct {
		causes int
		p      float64
	}{{1, .360027}, {2, .262803}, {2, .130628}, {2, .070519}, {1, .049153}} {
		near(t, "set", ex.Sets[i].Probability, s.p)
		if len(ex.Sets[i].Causes) != s.causes {
			t.Errorf("set %d is %v", i, ex.Sets[i].Causes)
		}
	}
}

func TestContrastAddsUp(t *testing.T) {
	c, err := smallCase(t).Against("oil", "worn")
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, l := range c.Lines {
		sum += l.Decibans
	}
	near(t, "contrast", sum, c.Total)
	near(t, "contrast total", c.Total, 1.1742+2.5133)
	if _, err := smallCase(t).Against("oil", "nothing"); err == nil {
		t.Error("an unknown cause was contrasted")
	}
}

// Worn linings smell burnt half the time: asked of them, not certain enough to
// be expected; a cable off its adjustment shows at the lever.
func TestExpectedAndMissing(t *testing.T) {
	ex := explained(t, network.Evidence{Sign: "free_play_off", Answer: "no", Absent: 1}, network.Evidence{Sign: "judder", Answer: "yes", Present: 1})
	cable, _ := ex.Find("cable")
	if len(cable.Missing) != 1 || cable.Missing[0].ID != "free_play_off" || len(cable.Expected) != 1 || cable.Expected[0].ID != "drag" {
		t.Errorf("missing %v, expected %v", cable.Missing, cable.Expected)
	}
	alone := explained(t, network.Evidence{Sign: "burnt_smell", Answer: "no", Absent: 1})
	if len(alone.Unexplained) != 0 {
		t.Errorf("unexplained %v", alone.Unexplained)
	}
}

// A sign that other causes bring often is not missed of a cause that does not
// bring it; one that the cause itself brings is, with the chance that it does.
func TestMissingIsWhatTheCauseBrings(t *testing.T) {
	no := func(sign string) network.Evidence { return network.Evidence{Sign: sign, Answer: "no", Absent: 1} }
	yes := func(sign string) network.Evidence { return network.Evidence{Sign: sign, Answer: "yes", Present: 1} }
	ex := explained(t, yes("slip_hot"), no("drag"), no("free_play_off"), no("judder"))
	missing := map[string]map[string]float64{}
	for _, c := range ex.Causes {
		missing[c.ID] = map[string]float64{}
		for _, s := range c.Missing {
			missing[c.ID][s.ID] = s.Chance
		}
	}
	// The cable alone brings drag (0.7) and play (0.9), the oil brings drag (0.6).
	want := map[string]map[string]float64{"worn": {}, "spring": {}, "oil": {"drag": 0.6}, "cable": {"drag": 0.7, "free_play_off": 0.9}}
	for cause, signs := range want {
		if len(missing[cause]) != len(signs) {
			t.Errorf("%s misses %v, want %v", cause, missing[cause], signs)
		}
		for sign, chance := range signs {
			if math.Abs(missing[cause][sign]-chance) > 1e-12 {
				t.Errorf("%s misses %s with %v, want %v", cause, sign, missing[cause][sign], chance)
			}
		}
	}
}
