package belief

import (
	"fmt"
	"math"

	"pgregory.net/rapid"
)

// The oracle of these tests enumerates all states of a small graph and, for
// shares, all states of the links: nothing is shared with the code under test.

// joint is P(state) for each of the 2^n states; bit v is variable v.
func joint(g Graph) []float64 {
	n := len(g.Variables)
	p := make([]float64, 1<<n)
	for s := range p {
		p[s] = 1
		for v := range g.Variables {
			yes, no := conditional(&g.Variables[v], s)
			if s>>v&1 == 1 {
				p[s] *= yes
			} else {
				p[s] *= no
			}
		}
	}
	return p
}

// conditional is P(x present | its parents in state s) and P(x absent | ...),
// each in products and sums of its own so that neither loses digits when small.
func conditional(x *Variable, s int) (yes, no float64) {
	if x.Table != nil {
		row := 0
		for i, u := range x.Parents {
			row += (s >> u & 1) << i
		}
		return x.Table[row], 1 - x.Table[row]
	}
	yes, no = x.Leak, 1-x.Leak
	for i, u := range x.Parents {
		if s>>u&1 == 1 {
			yes += (1 - yes) * x.Strengths[i]
			no *= 1 - x.Strengths[i]
		}
	}
	return yes, no
}

// enumerated is the oracle's posterior state distribution and P(e).
func enumerated(g Graph, findings []Finding) (states []float64, evidence float64) {
	states = joint(g)
	for s := range states {
		for _, f := range findings {
			if s>>f.Variable&1 == 1 {
				states[s] *= f.Present
			} else {
				states[s] *= f.Absent
			}
		}
		evidence += states[s]
	}
	for s := range states {
		states[s] /= evidence
	}
	return states, evidence
}

// probability sums the states for which ok holds.
func probability(states []float64, ok func(s int) bool) float64 {
	sum := 0.0
	for s, p := range states {
		if ok(s) {
			sum += p
		}
	}
	return sum
}

// enumeratedShare is P(link k of v fired and its parent present | e); k -1 is
// the leak. Given the state, a present v has at least one part fired, so a part
// of strength w has fired with w/P(v present | parents); an absent v has none.
func enumeratedShare(g Graph, states []float64, v, k int) float64 {
	x := &g.Variables[v]
	sum := 0.0
	for s, p := range states {
		if s>>v&1 == 0 || p == 0 {
			continue
		}
		w := x.Leak
		if k >= 0 {
			w = x.Strengths[k] * float64(s>>x.Parents[k]&1)
		}
		yes, _ := conditional(x, s)
		sum += p * w / yes
	}
	return sum
}

// drawGraph draws a graph of up to most variables. Numbers stay off 0 and 1
// unless sharp is set.
func drawGraph(t *rapid.T, most int, sharp, tables bool) Graph {
	n := rapid.IntRange(1, most).Draw(t, "n")
	number := rapid.Float64Range(0.001, 0.999)
	if sharp {
		number = rapid.OneOf(rapid.Just(0.0), rapid.Just(1.0), number)
	}
	var g Graph
	for v := range n {
		x := Variable{Name: fmt.Sprintf("v%d", v)}
		for u := range v {
			if len(x.Parents) < 5 && rapid.IntRange(0, n).Draw(t, "link") < 3 {
				x.Parents = append(x.Parents, u)
			}
		}
		if tables && rapid.IntRange(0, 3).Draw(t, "kind") == 0 {
			for range 1 << len(x.Parents) {
				x.Table = append(x.Table, number.Draw(t, "row"))
			}
		} else {
			x.Leak = number.Draw(t, "leak")
			for range x.Parents {
				x.Strengths = append(x.Strengths, number.Draw(t, "strength"))
			}
		}
		g.Variables = append(g.Variables, x)
	}
	return g
}

func drawFindings(t *rapid.T, n int) []Finding {
	var list []Finding
	for v := range n {
		switch rapid.IntRange(0, 7).Draw(t, "finding") {
		case 0, 1:
			list = append(list, Yes(v))
		case 2:
			list = append(list, No(v))
		case 3:
			list = append(list, Soft(v, rapid.Float64Range(0.01, 0.99).Draw(t, "soft")))
		}
	}
	return list
}

// near reports whether two numbers agree to an absolute error.
func near(a, b, tolerance float64) bool {
	return math.Abs(a-b) <= tolerance
}
