package belief

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// solve fails the test on any error.
func solve(t testing.TB, g Graph, findings ...Finding) Result {
	t.Helper()
	r, err := Solve(g, findings, DefaultBudget)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func wantNear(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !near(got, want, tolerance) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

// Fever: Russell & Norvig, Artificial Intelligence, noisy-OR table; inhibitions
// cold .6, flu .2, malaria .1, no leak. Rows as in course slides on the book.
func TestFever(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "cold", Leak: .5}, {Name: "flu", Leak: .5}, {Name: "malaria", Leak: .5},
		{Name: "fever", Parents: []int{0, 1, 2}, Strengths: []float64{.4, .8, .9}},
	}}
	// Row i: bit 0 cold, bit 1 flu, bit 2 malaria.
	for row, want := range []float64{0, .4, .8, .88, .9, .94, .98, .988} {
		var e []Finding
		for v := range 3 {
			e = append(e, Finding{v, float64(row >> v & 1), float64(1 - row>>v&1)})
		}
		wantNear(t, "P(fever)", solve(t, g, e...).Posterior[3], want, 1e-15)
	}
}

// Burglar alarm: Pearl 1988, Russell & Norvig (both print .284, from memory);
// ten digits recomputed by an independent program.
func TestBurglarAlarm(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "burglary", Leak: .001}, {Name: "earthquake", Leak: .002},
		{Name: "alarm", Parents: []int{0, 1}, Table: []float64{.001, .94, .29, .95}},
		{Name: "john", Parents: []int{2}, Table: []float64{.05, .9}},
		{Name: "mary", Parents: []int{2}, Table: []float64{.01, .7}},
	}}
	r := solve(t, g, Yes(3), Yes(4))
	wantNear(t, "P(e)", math.Exp(r.LogEvidence), .0020841002, 5e-11)
	wantNear(t, "P(burglary)", r.Posterior[0], .2841718354, 5e-11)
	wantNear(t, "P(earthquake)", r.Posterior[1], .1760668384, 5e-11)
}

// Sprinkler: Murphy's tutorial on graphical models (four digits, from memory).
func TestSprinkler(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "cloudy", Leak: .5},
		{Name: "sprinkler", Parents: []int{0}, Table: []float64{.5, .1}},
		{Name: "rain", Parents: []int{0}, Table: []float64{.2, .8}},
		{Name: "wet", Parents: []int{1, 2}, Table: []float64{0, .9, .9, .99}},
	}}
	wantNear(t, "P(wet)", solve(t, g).Posterior[3], .6471, 5e-5)
	r := solve(t, g, Yes(3))
	wantNear(t, "P(sprinkler | wet)", r.Posterior[1], .4298, 5e-5)
	wantNear(t, "P(rain | wet)", r.Posterior[2], .7079, 5e-5)
	wantNear(t, "P(sprinkler | wet, rain)", solve(t, g, Yes(3), Yes(2)).Posterior[1], .1945, 5e-5)
}

// Explaining away: two causes .1, links .9, no leak; by hand P(e) = 1 - .91².
func TestExplainingAway(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "a", Leak: .1}, {Name: "b", Leak: .1},
		{Name: "sign", Parents: []int{0, 1}, Strengths: []float64{.9, .9}},
	}}
	r := solve(t, g, Yes(2))
	wantNear(t, "P(e)", math.Exp(r.LogEvidence), .1719, 1e-15)
	wantNear(t, "P(a)", r.Posterior[0], .528796, 5e-7)
	wantNear(t, "P(a | b)", solve(t, g, Yes(2), Yes(1)).Posterior[0], .108911, 5e-7)
	wantNear(t, "P(a | no b)", solve(t, g, Yes(2), No(1)).Posterior[0], 1, 0)
}

// Leak convention: Henrion 1989 against Diez 1993 (formulas from memory). An
// expert's "P(x) = .8 when only this cause is known present" includes the leak.
func TestNetStrength(t *testing.T) {
	net := NetStrength(.8, .1)
	wantNear(t, "net strength", net, .777778, 5e-7)
	g := Graph{Variables: []Variable{
		{Name: "a", Leak: .1}, {Name: "b", Leak: .1},
		{Name: "x", Parents: []int{0, 1}, Leak: .1, Strengths: []float64{net, net}},
	}}
	wantNear(t, "one cause", solve(t, g, Yes(0), No(1)).Posterior[2], .8, 1e-15)
	wantNear(t, "two causes", solve(t, g, Yes(0), Yes(1)).Posterior[2], .955556, 5e-7)
	g.Variables[2].Strengths = []float64{.8, .8}
	wantNear(t, "two causes, unconverted", solve(t, g, Yes(0), Yes(1)).Posterior[2], .964, 1e-15)
}

// One step of EM with hidden "link fired" bits, computed by an independent
// program: cause 1 known present (link .8), cause 2 prior .1 (link .5), leak .05.
func TestLinkShares(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "c1", Leak: 1}, {Name: "c2", Leak: .1},
		{Name: "f", Parents: []int{0, 1}, Leak: .05, Strengths: []float64{.8, .5}},
	}}
	for _, e := range [][]Finding{{Yes(2)}, {Yes(2), Yes(0)}} {
		r := solve(t, g, e...)
		wantNear(t, "P(e)", math.Exp(r.LogEvidence), .8195, 1e-15)
		wantNear(t, "E[c2]", r.Posterior[1], .11043319, 5e-9)
		wantNear(t, "E[leak]", r.LeakShare[2], .06101281, 5e-9)
		wantNear(t, "E[link 1]", r.Shares[2][0], .97620500, 5e-9)
		wantNear(t, "E[link 2]", r.Shares[2][1], .06101281, 5e-9)
	}
}

// asia is the network of Lauritzen & Spiegelhalter, Local computations with
// probabilities on graphical structures, J. R. Statist. Soc. B 50 (1988).
func asia() Graph {
	return Graph{Variables: []Variable{
		{Name: "asia", Leak: .01},
		{Name: "tub", Parents: []int{0}, Table: []float64{.01, .05}},
		{Name: "smoke", Leak: .5},
		{Name: "lung", Parents: []int{2}, Table: []float64{.01, .1}},
		{Name: "bronc", Parents: []int{2}, Table: []float64{.3, .6}},
		{Name: "either", Parents: []int{1, 3}, Strengths: []float64{1, 1}},
		{Name: "xray", Parents: []int{5}, Table: []float64{.05, .98}},
		{Name: "dysp", Parents: []int{4, 5}, Table: []float64{.1, .8, .7, .9}},
	}}
}

const (
	asiaVisit = iota
	tub
	smoke
	lung
	bronc
	either
	xray
	dysp
)

// Posteriors agreed by gRain, libDAI, merlin, bayesjs, pgmpy and BNT.
func TestAsia(t *testing.T) {
	for _, row := range []struct {
		name     string
		findings []Finding
		evidence float64
		want     map[int]float64
	}{
		{"none", nil, 1, map[int]float64{tub: .0104, lung: .055, bronc: .45, either: .064828,
			smoke: .5, xray: .11029004, dysp: .4359706}},
		{"asia, dysp", []Finding{Yes(asiaVisit), Yes(dysp)}, .004501375, map[int]float64{
			tub: .0877509650, lung: .0995251451, bronc: .8114020716, either: .1822998528,
			smoke: .6259198578, xray: .2195388631}},
		{"dysp, xray", []Finding{Yes(dysp), Yes(xray)}, .0706701044, map[int]float64{
			tub: .1139333254, lung: .6212527967, bronc: .6818685385, either: .7287250930,
			smoke: .7856103861}},
		{"asia, dysp, xray", []Finding{Yes(asiaVisit), Yes(dysp), Yes(xray)}, .0009882268, map[int]float64{
			tub: .3917117200, lung: .4442705078, bronc: .6288217760, either: .8137687024,
			smoke: .7020251172}},
		{"asia, smoke, dysp, no xray", []Finding{Yes(asiaVisit), Yes(smoke), Yes(dysp), No(xray)}, .00212374,
			map[int]float64{tub: .0019305565, lung: .0038611129, bronc: .9215958639, either: .0055986138}},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := solve(t, asia(), row.findings...)
			wantNear(t, "P(e)", math.Exp(r.LogEvidence), row.evidence, 1e-10)
			for v, want := range row.want {
				wantNear(t, asia().Variables[v].Name, r.Posterior[v], want, 6e-11)
			}
		})
	}
}

// A posterior is a ratio of two linear functions of one parameter; for asia and
// x = P(lung | smoker) the four constants were worked out by an independent
// program, to eight decimals. Castillo, Gutierrez & Hadi 1997 (form from memory).
func TestAsiaSensitivity(t *testing.T) {
	f := func(x float64) float64 {
		g := asia()
		g.Variables[lung].Table[1] = x
		return solve(t, g, Yes(dysp), Yes(xray)).Posterior[lung]
	}
	for _, x := range []float64{.001, .02, .059083, .1, .3, .7, 1} {
		wantNear(t, "f(x)", f(x), (.4018*x+.003724)/(.38475648*x+.03219446), 5e-8)
	}
	wantNear(t, "f(.1)", f(.1), .62125280, 5e-9)
	const h = 1e-5
	wantNear(t, "f'(.1)", (f(.1+h)-f(.1-h))/(2*h), 2.303222, 1e-6)
	if f(.05908) >= .5 || f(.05909) <= .5 {
		t.Errorf("f crosses one half outside .05908 to .05909")
	}
}

// Chan & Darwiche, JAIR 17 (2002) 265-287 (formula from memory): moving one
// number of a binary variable by some log-odds moves no query by more.
func TestChanDarwicheBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 10, false, true)
		findings := drawFindings(t, len(g.Variables))
		query := rapid.IntRange(0, len(g.Variables)-1).Draw(t, "query")
		moved := rapid.IntRange(0, len(g.Variables)-1).Draw(t, "moved")
		before, err := Solve(g, findings, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		// The bound is about table rows and priors; a noisy-OR number sits in
		// several rows at once.
		x := &g.Variables[moved]
		number := &x.Leak
		if x.Table != nil {
			number = &x.Table[rapid.IntRange(0, len(x.Table)-1).Draw(t, "row")]
		} else if !x.root() {
			return
		}
		old := *number
		*number = rapid.Float64Range(.001, .999).Draw(t, "new")
		after, err := Solve(g, findings, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		p, q := before.Posterior[query], after.Posterior[query]
		if p < 1e-9 || q < 1e-9 || p > 1-1e-9 || q > 1-1e-9 {
			return // observed, or too sharp to take a logarithm of
		}
		change, bound := math.Abs(Weight(p, q)), math.Abs(Weight(old, *number))
		if change > bound+1e-5 {
			t.Fatalf("query moved %v decibans, the number only %v", change, bound)
		}
	})
}
