package mechanics

import "math"

// SpringGrade is one accuracy grade for new cold-formed compression springs. It
// says how good a new spring is, not when a used one is worn out.
type SpringGrade struct {
	Standard  string  `json:"standard"`
	Grade     int     `json:"grade"`
	LeanShare float64 `json:"lean_share"` // lean of the unloaded spring over its free length
	RateShare float64 `json:"rate_share"` // tolerance of rate and load, 3 to 10 active coils; 0: not known
	// Lengths holds the tolerances of free length by spring index, ascending.
	Lengths []LengthTolerance `json:"lengths"`
	// FromMemory marks figures recalled without a readable copy of the standard.
	FromMemory bool   `json:"from_memory"`
	Source     string `json:"source"`
}

// LengthTolerance is the tolerance of free length, plus or minus, for springs whose
// index D/d lies from IndexFrom up to IndexTo.
type LengthTolerance struct {
	IndexFrom float64 `json:"index_from"`
	IndexTo   float64 `json:"index_to"`
	Share     float64 `json:"share"` // of the free length
	LeastM    float64 `json:"least_m"`
}

const (
	jis2018 = "JIS B 2704-2 (2018 figures), read in trade copies"
	en15800 = "EN 15800:2008, from memory"
)

// SpringGrades lists the grades of JIS B 2704-2, best first, then the lean factors
// of EN 15800 from memory.
func SpringGrades() []SpringGrade {
	jis, en := "JIS B 2704-2", "EN 15800"
	return []SpringGrade{
		{jis, 1, 0.02, 0.05, []LengthTolerance{{4, 8, 0.01, 0.0002}, {8, 15, 0.015, 0}}, false, jis2018},
		{jis, 2, 0.05, 0.10, []LengthTolerance{{4, 8, 0.02, 0.0005}, {8, 15, 0.03, 0.0007}}, false, jis2018},
		{jis, 3, 0.08, 0.15, []LengthTolerance{{4, 8, 0.03, 0.0007}, {8, 15, 0.04, 0}}, false, jis2018},
		{en, 1, 0.03, 0, nil, true, en15800},
		{en, 2, 0.05, 0, nil, true, en15800},
		{en, 3, 0.08, 0, nil, true, en15800},
	}
}

// LeanGrade returns the best JIS grade whose lean limit a spring meets, 1 to 3, or
// 0 when it meets none. The lean is a share of the free length; see LeanShare.
func LeanGrade(leanShare float64) (int, error) {
	if err := notNegative("lean", leanShare); err != nil {
		return 0, err
	}
	for _, g := range SpringGrades() {
		if !g.FromMemory && leanShare <= g.LeanShare {
			return g.Grade, nil
		}
	}
	return 0, nil
}

// FreeLengthTolerance returns the tolerance in metres, plus or minus, of the free
// length of a new spring of JIS grade 1 to 3, for its free length in metres and its
// index D/d from 4 to 15. An index of 8 falls under the tighter column.
func FreeLengthTolerance(grade int, freeLengthM, springIndex float64) (float64, error) {
	err := firstOf(inside("spring grade", float64(grade), 1, 3), positive("free length", freeLengthM),
		inside("spring index", springIndex, 4, 15))
	if err != nil {
		return 0, err
	}
	columns := SpringGrades()[grade-1].Lengths
	column := columns[0]
	if springIndex > column.IndexTo {
		column = columns[1]
	}
	return math.Max(column.Share*freeLengthM, column.LeastM), nil
}
