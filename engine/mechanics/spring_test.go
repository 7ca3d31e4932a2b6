package mechanics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Jindal, Machine Design, ex. 8-1 (S1: 16.204; the companion's printout of 16.0 is integer
// division); FOSSEE Scilab 764, ex. 10.7 and 10.11 (S2, S3); Wentzell, Machine Design,
// ex. 8.2 (S5); Sadhu Singh, Machine Design-I, ex. 8.3 (S6).
func TestSpringRate(t *testing.T) {
	tests := []struct {
		name                                          string
		shearPa, wireM, meanM, coils, want, tolerance float64
	}{
		{"S1", 84000 * mPa, 5 * mm, 30 * mm, 15, 16.204 / mm, 5e-4},
		{"S2", 81370 * mPa, 5 * mm, 40 * mm, 5, 19.8657 / mm, 1e-4},
		{"S3", 81370 * mPa, 4.5 * mm, 22.5 * mm, 6, 61.03 / mm, 1e-3}, // rate computed, not printed
		{"S5", 11.85e6 * lbf / inch / inch, 0.105 * inch, 0.620 * inch, 10.79, 70.0 * lbf / inch, 1e-3},
		{"S6", 84000 * mPa, 3 * mm, 18 * mm, 15, 9.722 / mm, 5e-4},
	}
	for _, tt := range tests {
		got(SpringRate(tt.shearPa, tt.wireM, tt.meanM, tt.coils))(t, tt.name, tt.want, tt.tolerance)
	}
}

// FOSSEE Scilab 764, ex. 10.7 (S2) and 10.11 (S3, a clutch spring); coils plus 2 for
// closed and ground ends: Machinery's Handbook, 31st ed., p. 318.
func TestSpringHeights(t *testing.T) {
	got(SolidHeight(4.5*mm, 8))(t, "S3 solid", 36*mm, 1e-12)
	needed := must[float64](t)(ClampNeeded(300, 0.35, 2, 110*mm))
	got(needed/9, nil)(t, "S3 force of one", 432.9, 1e-3)
	deflection := needed / 9 / (61.03 / mm)
	got(FreeLength(4.5*mm, 8, deflection, 1*mm))(t, "S3 free", 50.09*mm, 1e-3)
	got(FreeLength(5*mm, 7, 300/(19.8657/mm), 1*mm))(t, "S2 free", 56.10*mm, 1e-4)
	got(CoilClearance(40*mm, 2*mm, 36*mm))(t, "clearance", 2*mm, 1e-9)
}

// FOSSEE Scilab 764, ex. 10.19 (S4): two springs, the outer 15 mm longer, share 1000 N.
func TestSetAtLoad(t *testing.T) {
	outer := must[float64](t)(SpringRate(81370*mPa, 6*mm, 36*mm, 10))
	inner := must[float64](t)(SpringRate(81370*mPa, 5*mm, 30*mm, 8))
	load := must[SetLoad](t)(SetAtLoad([]Spring{{inner, 85 * mm}, {outer, 100 * mm}}, 1000))
	got(load.ForcesN[1], nil)(t, "outer", 706.02, 1e-4)
	got(load.ForcesN[0], nil)(t, "inner", 293.98, 1e-4)
	got(100*mm-load.LengthM, nil)(t, "outer deflection", 24.989*mm, 1e-4)
	got(85*mm-load.LengthM, nil)(t, "inner deflection", 9.989*mm, 1e-4)
	if load.Weakest != 0 {
		t.Errorf("weakest is %d, want the inner one, 0", load.Weakest)
	}
}

// Khurmi & Gupta, ex. 10.26 (S7).
func TestInitialCompression(t *testing.T) {
	clamp := must[float64](t)(ClampFromPeakPressure(0.07*mPa, 190*mm, 237.5*mm))
	got(clamp, nil)(t, "S7 force", 3969.4, 1e-3)
	got(clamp/(8*40/mm), nil)(t, "S7 compression", 12.40*mm, 1e-3)
}

// Computed: five springs of 18 N/mm, compressed by 12 mm, each 1 mm shorter (S8).
func TestShorterSprings(t *testing.T) {
	got(ClampOfSet(5, 18/mm, 50*mm, 38*mm))(t, "new", 1080, 1e-9)
	got(ClampOfSet(5, 18/mm, 49*mm, 38*mm))(t, "worn", 990, 1e-9)
	got(ClampLost(5, 18/mm, 1*mm))(t, "lost", 90, 1e-9)
	got(SpringForce(18/mm, 30*mm, 38*mm))(t, "spring too short to touch", 0, 0)
}

// A set of four equal springs carries a quarter of the clamp each: common practice.
func TestSetAtLength(t *testing.T) {
	equal := make([]Spring, 4)
	for i := range equal {
		equal[i] = Spring{20 / mm, 40 * mm}
	}
	load := must[SetLoad](t)(SetAtLength(equal, 30*mm))
	got(load.ForcesN[2]/load.TotalN, nil)(t, "share", 0.25, 1e-12)
	if offset := must[float64](t)(ClampOffset(load.ForcesN, 40*mm)); offset > 1e-9*mm {
		t.Errorf("equal springs press %v m off the axis, want 0", offset)
	}
	equal[2].FreeLengthM = 39 * mm
	load = must[SetLoad](t)(SetAtLength(equal, 30*mm))
	if load.Weakest != 2 || !near(load.SpreadN, 20, 1e-9) || !near(load.WeakestN, 180, 1e-9) {
		t.Errorf("one short spring: %+v", load)
	}
	// With one of four springs gone the other three pull the clamp off by r/3.
	got(ClampOffset([]float64{200, 200, 0, 200}, 30*mm))(t, "offset", 10*mm, 1e-9)
}

// JIS B 2704-2, grades 1 to 3: lean 0.02, 0.05 and 0.08 of the free length, that is
// 1.146, 2.862 and 4.574 degrees. Grade 3 of free length differs by edition and is
// left out here.
func TestSpringGrades(t *testing.T) {
	for grade, degrees := range map[int]float64{1: 1.146, 2: 2.862, 3: 4.574} {
		share := SpringGrades()[grade-1].LeanShare
		got(LeanAngle(share*50*mm, 50*mm))(t, "lean", degrees*math.Pi/180, 5e-4)
		if g, err := LeanGrade(share * 0.99); g != grade || err != nil {
			t.Errorf("LeanGrade(%v) = %d, %v; want %d", share*0.99, g, err, grade)
		}
	}
	if g, _ := LeanGrade(0.09); g != 0 {
		t.Errorf("LeanGrade(0.09) = %d, want none", g)
	}
	got(FreeLengthTolerance(1, 40*mm, 6))(t, "grade 1", 0.4*mm, 1e-9)
	got(FreeLengthTolerance(1, 10*mm, 6))(t, "grade 1, least", 0.2*mm, 1e-9)
	got(FreeLengthTolerance(2, 40*mm, 6))(t, "grade 2", 0.8*mm, 1e-9)
	got(FreeLengthTolerance(2, 40*mm, 10))(t, "grade 2, slender", 1.2*mm, 1e-9)
	for i, rate := range []float64{0.05, 0.10, 0.15} {
		got(SpringGrades()[i].RateShare, nil)(t, "rate tolerance", rate, 0)
	}
}

func TestSpringRefuses(t *testing.T) {
	_, err := SpringRate(8e10, 5*mm, 5*mm, 6)
	refused(t, err, "mean coil diameter")
	_, err = SpringForce(math.NaN(), 1, 1)
	refused(t, err, "spring rate")
	_, err = SetAtLength(nil, 1)
	refused(t, err, "springs")
	_, err = SetAtLoad([]Spring{{1000, 0.04}}, 41)
	refused(t, err, "load")
	_, err = ClampOffset([]float64{0, 0}, 1)
	refused(t, err, "total spring force")
	_, err = LeanShare(-1, 1)
	refused(t, err, "lean")
	_, err = FreeLengthTolerance(4, 0.04, 6)
	refused(t, err, "spring grade")
}

func TestThinnerPackClampsLess(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		clamp := rapid.Float64Range(0, 5000).Draw(rt, "clamp")
		rate := rapid.Float64Range(1e3, 1e5).Draw(rt, "rate")
		n := rapid.IntRange(1, 12).Draw(rt, "n")
		wear := rapid.Float64Range(0, 0.01).Draw(rt, "wear")
		more := wear + rapid.Float64Range(0, 0.01).Draw(rt, "more")
		a, err1 := ClampAfterWear(clamp, n, rate, wear)
		b, err2 := ClampAfterWear(clamp, n, rate, more)
		if err := firstOf(err1, err2); err != nil {
			rt.Fatal(err)
		}
		if b > a || b < 0 {
			rt.Fatalf("wear %v clamps %v, wear %v clamps %v", wear, a, more, b)
		}
	})
}

// The forces of a set add up to the load that was put on it.
func TestSetAtLoadBalances(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		springs := make([]Spring, rapid.IntRange(1, 6).Draw(rt, "n"))
		stiff := 0.0
		for i := range springs {
			springs[i] = Spring{rapid.Float64Range(1e3, 1e5).Draw(rt, "k"), rapid.Float64Range(0.02, 0.06).Draw(rt, "L")}
			stiff += springs[i].RateNPerM
		}
		load := rapid.Float64Range(0, 0.01).Draw(rt, "x") * stiff
		set, err := SetAtLoad(springs, load)
		if err != nil {
			rt.Skip("pressed to nothing")
		}
		if math.Abs(set.TotalN-load) > 1e-6*(1+load) {
			rt.Fatalf("forces add up to %v, want %v: %+v", set.TotalN, load, set)
		}
	})
}
