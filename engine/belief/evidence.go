package belief

import "math"

// standing is what the findings make of one variable.
type standing uint8

const (
	hidden  standing = iota // not observed, or softly
	absent                  // observed absent
	present                 // observed present
)

// evidence is the findings gathered per variable.
type evidence struct {
	// like holds the likelihoods {absent, present} of each variable, the larger
	// one scaled to 1 so that many small likelihoods do not underflow.
	like  [][2]float64
	state []standing
	// informed marks variables whose two likelihoods differ.
	informed []bool
	logScale float64 // ln of the factors taken out of like
	// contradicted is a variable whose findings exclude both values, or -1.
	contradicted int
}

// gather multiplies the findings of each of n variables.
func gather(n int, findings []Finding) evidence {
	ev := evidence{
		like:         make([][2]float64, n),
		state:        make([]standing, n),
		informed:     make([]bool, n),
		contradicted: -1,
	}
	for i := range ev.like {
		ev.like[i] = [2]float64{1, 1}
	}
	for _, f := range findings {
		ev.take(f)
	}
	for v, l := range ev.like {
		ev.informed[v] = l[0] != l[1]
		switch {
		case l[0] == 0 && l[1] == 0:
			ev.contradicted = v
		case l[0] == 0:
			ev.state[v] = present
		case l[1] == 0:
			ev.state[v] = absent
		}
	}
	return ev
}

// take multiplies one finding in.
func (ev *evidence) take(f Finding) {
	l := &ev.like[f.Variable]
	// Each finding is scaled before it multiplies, so that products of tiny
	// likelihoods stay in range.
	top := max(f.Present, f.Absent)
	if top == 0 {
		*l = [2]float64{}
		return
	}
	l[0] *= f.Absent / top
	l[1] *= f.Present / top
	ev.logScale += math.Log(top)
	if top = max(l[0], l[1]); top > 0 {
		l[0] /= top
		l[1] /= top
		ev.logScale += math.Log(top)
	}
}

// active marks the variables that P(e) depends on: informed ones, those in
// extra, and all their ancestors. The rest is barren and summed out for free.
func active(g Graph, ev *evidence, extra []int) []bool {
	on := make([]bool, len(g.Variables))
	copy(on, ev.informed)
	for _, v := range extra {
		on[v] = true
	}
	for v := len(on) - 1; v >= 0; v-- {
		if !on[v] {
			continue
		}
		for _, p := range g.Variables[v].Parents {
			on[p] = true
		}
	}
	return on
}
