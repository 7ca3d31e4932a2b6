package mechanics

import (
	"math"
	"slices"
)

// Spring is one helical spring as measured.
type Spring struct {
	RateNPerM   float64 `json:"rate_n_per_m"`
	FreeLengthM float64 `json:"free_length_m"`
}

// SetLoad is the state of springs side by side between two plates, in the order
// in which they were given.
type SetLoad struct {
	LengthM  float64   `json:"length_m"` // common length of the springs
	ForcesN  []float64 `json:"forces_n"`
	TotalN   float64   `json:"total_n"`
	MeanN    float64   `json:"mean_n"`
	SpreadN  float64   `json:"spread_n"` // largest less smallest force
	Weakest  int       `json:"weakest"`  // index of the first spring with the smallest force
	WeakestN float64   `json:"weakest_n"`
}

// SetAtLength returns the forces of springs held at one common length in metres.
// Springs shorter than that press with nothing.
func SetAtLength(springs []Spring, lengthM float64) (SetLoad, error) {
	if err := firstOf(checkSet(springs), positive("length", lengthM)); err != nil {
		return SetLoad{}, err
	}
	load := SetLoad{LengthM: lengthM, ForcesN: make([]float64, len(springs))}
	for i, s := range springs {
		load.ForcesN[i] = s.RateNPerM * math.Max(0, s.FreeLengthM-lengthM)
		load.TotalN += load.ForcesN[i]
	}
	load.MeanN = load.TotalN / float64(len(springs))
	load.WeakestN = slices.Min(load.ForcesN)
	load.Weakest = slices.Index(load.ForcesN, load.WeakestN)
	load.SpreadN = slices.Max(load.ForcesN) - load.WeakestN
	_, err := result("total spring force", load.TotalN)
	return load, err
}

// SetAtLoad returns how springs of unequal free length share a load in newtons:
// the longest is pressed alone until the next one touches.
// Source: textbook companion of machine design (FOSSEE Scilab 764), ex. 10.19.
func SetAtLoad(springs []Spring, loadN float64) (SetLoad, error) {
	if err := firstOf(checkSet(springs), notNegative("load", loadN)); err != nil {
		return SetLoad{}, err
	}
	order := slices.Clone(springs)
	slices.SortStableFunc(order, func(a, b Spring) int { return compareFloat(b.FreeLengthM, a.FreeLengthM) })
	var rate, moment float64 // sums of k and k L0 over the springs that touch
	var lengthM float64
	for i, s := range order {
		rate += s.RateNPerM
		moment += s.RateNPerM * s.FreeLengthM
		lengthM = (moment - loadN) / rate
		if i+1 == len(order) || lengthM >= order[i+1].FreeLengthM {
			break
		}
	}
	if lengthM <= 0 {
		return SetLoad{}, &DomainError{"load", loadN, "less than presses the springs to nothing"}
	}
	return SetAtLength(springs, lengthM)
}

func checkSet(springs []Spring) error {
	if err := atLeast("springs", len(springs), 1); err != nil {
		return err
	}
	for _, s := range springs {
		err := firstOf(positive("spring rate", s.RateNPerM), positive("free length", s.FreeLengthM))
		if err != nil {
			return err
		}
	}
	return nil
}

func compareFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// ClampOffset returns how far in metres the resultant of spring forces in newtons
// lies off the axis, for springs spaced evenly on a circle of the given radius in
// metres. Anything but 0 lifts and presses the pressure plate crooked.
// Statics: offset = |sum F r|/sum F. The forces must not all be 0.
func ClampOffset(forcesN []float64, pitchRadiusM float64) (float64, error) {
	err := firstOf(atLeast("springs", len(forcesN), 1), positive("pitch radius", pitchRadiusM))
	var x, y, total float64
	for i, f := range forcesN {
		err = firstOf(err, notNegative("spring force", f))
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(forcesN)))
		x, y, total = x+f*cos, y+f*sin, total+f
	}
	if err = firstOf(err, positive("total spring force", total)); err != nil {
		return 0, err
	}
	return result("clamp offset", pitchRadiusM*math.Hypot(x, y)/total)
}
