package mechanics

import (
	"cmp"
	"math"
	"slices"
)

// TorqueUnit is a unit found on torque wrenches and in manuals.
type TorqueUnit struct {
	Symbol string  `json:"symbol"`
	Nm     float64 `json:"n_m"` // newton metres in one of it
}

// TorqueUnits lists the units that get mixed up, exact by definition.
// Source: NIST SP 811, appendix B (lb = 0.45359237 kg, g = 9.80665 m/s2, ft = 0.3048 m).
func TorqueUnits() []TorqueUnit {
	return []TorqueUnit{
		{"N·m", 1},
		{"lbf·ft", 1.3558179483314004},
		{"lbf·in", 0.1129848290276167},
		{"kgf·m", 9.80665},
		{"kgf·cm", 0.0980665},
	}
}

// UnitSlip is a mix-up of units that would explain a torque out of its range: the
// figure is right, but the unit meant was another.
type UnitSlip struct {
	Written TorqueUnit `json:"written"`
	Meant   TorqueUnit `json:"meant"`
	ThenNm  float64    `json:"then_n_m"` // the torque in newton metres, once put right
	Factor  float64    `json:"factor"`   // the torque as written over the torque meant
}

// UnitSlips names the mix-ups that would bring a torque in newton metres into its
// range, likeliest first: those that land nearest to the middle of the range by ratio.
// Give the unit in which the torque was written, or the zero unit when it is
// not known, to try them all. A torque inside its range, and one that no mix-up
// explains, give none.
func UnitSlips(torqueNm float64, written TorqueUnit, minNm, maxNm float64) ([]UnitSlip, error) {
	err := firstOf(positive("torque", torqueNm), positive("least torque", minNm),
		positive("greatest torque", maxNm), inside("least torque", minNm, 0, maxNm),
		notNegative("unit in newton metres", written.Nm))
	if err != nil || torqueNm >= minNm && torqueNm <= maxNm {
		return nil, err
	}
	from := TorqueUnits()
	if written.Nm > 0 {
		from = []TorqueUnit{written}
	}
	var slips []UnitSlip
	for _, was := range from {
		for _, meant := range TorqueUnits() {
			if thenNm := torqueNm * meant.Nm / was.Nm; thenNm >= minNm && thenNm <= maxNm {
				slips = append(slips, UnitSlip{was, meant, thenNm, was.Nm / meant.Nm})
			}
		}
	}
	middle := math.Sqrt(minNm) * math.Sqrt(maxNm)
	slices.SortStableFunc(slips, func(a, b UnitSlip) int {
		return cmp.Compare(math.Abs(math.Log(a.ThenNm/middle)), math.Abs(math.Log(b.ThenNm/middle)))
	})
	return slips, nil
}

// TightenPass is one round over all screws of a pattern.
type TightenPass struct {
	TorqueNm float64 `json:"torque_n_m"`
	Order    []int   `json:"order"` // screw numbers from 1, counted round the circle
}

// TighteningSequence returns the rounds in which screws evenly spaced on a circle are
// drawn down to a torque in newton metres in equal steps, each round crosswise. To
// undo them, go through the rounds and their order backwards.
// Even, crosswise, stepwise tightening is common practice; an order in the machine's
// manual comes first.
func TighteningSequence(screws, steps int, torqueNm float64) ([]TightenPass, error) {
	err := firstOf(atLeast("screws", screws, 1), inside("screws", float64(screws), 1, 100),
		atLeast("steps", steps, 1), inside("steps", float64(steps), 1, 100), positive("torque", torqueNm))
	if err != nil {
		return nil, err
	}
	passes := make([]TightenPass, steps)
	for i := range passes {
		passes[i] = TightenPass{torqueNm * float64(i+1) / float64(steps), crosswise(screws)}
	}
	return passes, nil
}

// crosswise orders screws 1 to n in pairs across the circle, each pair started as far
// as possible from the screws already drawn down.
func crosswise(n int) []int {
	order := []int{1}
	for len(order) < n {
		next := opposite(order[len(order)-1], n)
		if n%2 == 1 || slices.Contains(order, next) {
			next = farthest(order, n)
		}
		order = append(order, next)
	}
	return order
}

func opposite(screw, n int) int { return (screw-1+n/2)%n + 1 }

// farthest returns the loose screw with the widest gap to all tight ones; of equals
// the farthest from the last one tightened, then the lowest number.
func farthest(tight []int, n int) int {
	best, bestGap, bestLast := 0, 0, 0
	for screw := 1; screw <= n; screw++ {
		gap, last := n, circleDistance(screw, tight[len(tight)-1], n)
		for _, t := range tight {
			gap = min(gap, circleDistance(screw, t, n))
		}
		if gap > bestGap || gap > 0 && gap == bestGap && last > bestLast {
			best, bestGap, bestLast = screw, gap, last
		}
	}
	return best
}

func circleDistance(a, b, n int) int {
	d := max(a, b) - min(a, b)
	return min(d, n-d)
}
