package belief

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// ordinary is an invented graph of the size of a real pack: causes with one to
// three effects, effects and a few causes with signs. Findings are drawn from
// one simulated case with two causes, up to positives of them present.
func ordinary(seed uint64, positives, negatives int) (g Graph, findings []Finding) {
	const causes, effects, signs = 85, 22, 150
	r := rand.New(rand.NewPCG(seed, 7))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	logBetween := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	for i := range causes {
		g.Variables = append(g.Variables, Variable{Name: fmt.Sprint("cause", i), Leak: logBetween(.005, .1)})
	}
	for i := range effects {
		g.Variables = append(g.Variables, Variable{Name: fmt.Sprint("effect", i), Leak: logBetween(.001, .01)})
	}
	link := func(child, parent int, lo, hi float64) {
		x := &g.Variables[child]
		for _, p := range x.Parents {
			if p == parent {
				return
			}
		}
		x.Parents = append(x.Parents, parent)
		x.Strengths = append(x.Strengths, between(lo, hi))
	}
	for c := range causes {
		// Effects come in families: most causes stay within theirs.
		home := r.IntN(effects)
		for range 1 + r.IntN(3) {
			e := (home + r.IntN(5)) % effects
			link(causes+e, c, .2, .95)
		}
	}
	for i := range signs {
		g.Variables = append(g.Variables, Variable{Name: fmt.Sprint("sign", i), Leak: logBetween(.002, .03)})
		s := causes + effects + i
		link(s, causes+i%effects, .3, .95)
		if r.IntN(2) == 0 {
			link(s, causes+(i%effects+r.IntN(4))%effects, .2, .9)
		}
		if r.IntN(3) == 0 {
			link(s, r.IntN(causes), .2, .9)
		}
	}
	return g, simulate(g, r, causes, causes+effects, positives, negatives)
}

// simulate draws a case with two causes present and reports some of its signs.
func simulate(g Graph, r *rand.Rand, causes, signs, positives, negatives int) (findings []Finding) {
	state := make([]bool, len(g.Variables))
	state[r.IntN(causes)] = true
	state[r.IntN(causes)] = true
	for v := causes; v < len(state); v++ {
		x := &g.Variables[v]
		state[v] = r.Float64() < x.Leak
		for k, u := range x.Parents {
			state[v] = state[v] || state[u] && r.Float64() < x.Strengths[k]
		}
	}
	for _, i := range r.Perm(len(state) - signs) {
		v := signs + i
		switch {
		case state[v] && positives > 0:
			findings = append(findings, Yes(v))
			positives--
		case !state[v] && negatives > 0:
			findings = append(findings, No(v))
			negatives--
		}
	}
	return findings
}

// twoLevel is a random two-level noisy-OR network with m positive findings: the
// least structured case.
func twoLevel(seed uint64, causes, findings, links, positives, negatives int) (g Graph, e []Finding) {
	r := rand.New(rand.NewPCG(seed, 11))
	logBetween := func(lo, hi float64) float64 { return lo * math.Pow(hi/lo, r.Float64()) }
	for i := range causes {
		g.Variables = append(g.Variables, Variable{Name: fmt.Sprint("c", i), Leak: logBetween(.005, .1)})
	}
	for i := range findings {
		x := Variable{Name: fmt.Sprint("f", i), Leak: logBetween(.002, .05), Parents: r.Perm(causes)[:links]}
		for range links {
			x.Strengths = append(x.Strengths, .05+.9*r.Float64())
		}
		g.Variables = append(g.Variables, x)
	}
	for i, f := range r.Perm(findings)[:positives+negatives] {
		if i < positives {
			e = append(e, Yes(causes+f))
		} else {
			e = append(e, No(causes+f))
		}
	}
	return g, e
}

func BenchmarkOrdinary(b *testing.B) {
	for _, n := range [][2]int{{6, 6}, {8, 0}, {10, 0}, {10, 10}, {10, 20}} {
		b.Run(fmt.Sprintf("pos%d_neg%d", n[0], n[1]), func(b *testing.B) {
			g, e := ordinary(1, n[0], n[1])
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Solve(g, e, DefaultBudget); err != nil {
					b.Fatal(err)
				}
			}
			c, _ := Condition(g, e, DefaultBudget)
			b.ReportMetric(c.m.plan.cost, "steps")
		})
	}
}

// Causes only, no predictions: what leaving out one finding costs.
func BenchmarkCauses(b *testing.B) {
	g, e := ordinary(1, 10, 10)
	for b.Loop() {
		c, err := Condition(g, e, DefaultBudget)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := c.Posteriors([]int{0, 1, 84}); err != nil {
			b.Fatal(err)
		}
	}
}

// Other numbers, same shape: what one disturbance costs.
func BenchmarkRenumbering(b *testing.B) {
	g, e := ordinary(1, 10, 10)
	c, err := Condition(g, e, DefaultBudget)
	if err != nil {
		b.Fatal(err)
	}
	r := c.Renumbering()
	for b.Loop() {
		if _, err := r.Posteriors(g, []int{0, 1, 84}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOutcomes(b *testing.B) {
	for _, n := range [][2]int{{8, 0}, {10, 0}, {10, 10}} {
		b.Run(fmt.Sprintf("pos%d_neg%d", n[0], n[1]), func(b *testing.B) {
			g, e := ordinary(1, n[0], n[1])
			var signs, causes []int
			for v := range g.Variables {
				switch {
				case v < 85:
					causes = append(causes, v)
				case v >= 85+22:
					signs = append(signs, v)
				}
			}
			for b.Loop() {
				if _, err := Outcomes(g, e, signs, causes, DefaultBudget); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkTopSets(b *testing.B) {
	for _, n := range [][2]int{{6, 6}, {10, 10}} {
		b.Run(fmt.Sprintf("pos%d_neg%d", n[0], n[1]), func(b *testing.B) {
			g, e := ordinary(1, n[0], n[1])
			causes := make([]int, 85)
			for v := range causes {
				causes[v] = v
			}
			c, err := Condition(g, e, DefaultBudget)
			if err != nil {
				b.Fatal(err)
			}
			var s Sets
			for b.Loop() {
				s, _ = c.TopSets(causes, 5, DefaultSetLimit)
			}
			b.ReportMetric(float64(s.Examined), "examined")
		})
	}
}

func BenchmarkTwoLevel(b *testing.B) {
	for _, m := range []int{8, 12, 16, 20} {
		b.Run(fmt.Sprintf("40x60x6_pos%d", m), func(b *testing.B) {
			g, e := twoLevel(1, 40, 60, 6, m, 10)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Solve(g, e, DefaultBudget); err != nil {
					b.Fatal(err)
				}
			}
			c, _ := Condition(g, e, DefaultBudget)
			b.ReportMetric(c.m.plan.cost, "steps")
		})
	}
}

func BenchmarkForward(b *testing.B) {
	for _, m := range []int{12, 16, 20} {
		b.Run(fmt.Sprintf("40x60x6_pos%d", m), func(b *testing.B) {
			g, e := twoLevel(1, 40, 60, 6, m, 10)
			c, err := Condition(g, e, DefaultBudget)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				for i := range c.m.stale {
					c.m.stale[i] = true
				}
				c.m.run()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/c.m.plan.cost, "ns/step")
		})
	}
}

func BenchmarkCompile(b *testing.B) {
	for _, m := range []int{12, 16, 20} {
		b.Run(fmt.Sprintf("40x60x6_pos%d", m), func(b *testing.B) {
			g, e := twoLevel(1, 40, 60, 6, m, 10)
			for b.Loop() {
				compile(g, gather(len(g.Variables), e), nil)
			}
		})
	}
}
