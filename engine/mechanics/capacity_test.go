package mechanics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The worked examples below are numbered as in the project's table of references.
// "FOSSEE" are the openly published textbook companions: Scilab folder 764 for machine
// design, Python for Khurmi & Gupta, Jindal and Wentzell.

// FOSSEE Scilab 764, ex. 11.1, 11.2 and 11.8 (C1, C2, C5); Khurmi & Gupta, Theory of
// Machines, ex. 10.23 and 10.28 (C8, C9).
func TestCapacityFromPressure(t *testing.T) {
	tests := []struct {
		name                                 string
		innerMM, outerMM, friction, pressure float64
		interfaces                           int
		speedRPM                             float64
		even                                 bool // uniform pressure, else uniform wear
		forceN, torqueNm, powerKW, tolerance float64
	}{
		{"C1", 50, 100, 0.2, 1, 1, 750, false, 15707.96, 235.619, 18.5055, 1e-4},
		{"C2", 50, 100, 0.2, 1, 1, 750, true, 23561.94, 366.519, 28.7863, 1e-4},
		{"C5", 37.5, 75, 0.1, 0.3, 8, 750, false, 2650.72, 119.282, 9.3684, 1e-4},
		{"C8", 100, 150, 0.3, 0.1, 2, 2500, false, 3141.59, 235.62, 61.685, 1e-4},
		// The force of C9 is not printed; 2992.4 is computed from its inputs.
		{"C9", 75, 125, 0.3, 0.127, 4, 500, false, 2992.4, 359.08, 18.80, 1e-3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			force, capacity := ClampFromPeakPressure, TorqueCapacityWear
			if tt.even {
				force, capacity = ClampFromPressure, TorqueCapacityPressure
			}
			ri, ro := tt.innerMM*mm, tt.outerMM*mm
			f, err := force(tt.pressure*mPa, ri, ro)
			got(f, err)(t, "force", tt.forceN, tt.tolerance)
			torque, err := capacity(tt.friction, f, tt.interfaces, ri, ro)
			got(torque, err)(t, "torque", tt.torqueNm, tt.tolerance)
			got(Power(torque, rpm(tt.speedRPM)))(t, "power", tt.powerKW*1000, tt.tolerance)
		})
	}
}

// FOSSEE Scilab 764, ex. 11.6 (C3): both theories for the capacity when new, then uniform
// wear for the worn clutch that just slips.
func TestWearBeforeSlip(t *testing.T) {
	const rate, torque = 800 / (5 * mm), 250
	ri, ro := 87.5*mm, 125*mm
	clamp := 9 * 800.0
	even := must[float64](t)(TorqueCapacityPressure(0.35, clamp, 2, ri, ro))
	got(SlipMargin(even, torque, 1, 1))(t, "factor, pressure", 2.1642, 5e-4)
	worn := must[float64](t)(TorqueCapacityWear(0.35, clamp, 2, ri, ro))
	got(SlipMargin(worn, torque, 1, 1))(t, "factor, wear", 2.1420, 5e-4)

	radius := must[float64](t)(EffectiveRadiusWear(ri, ro))
	needed := must[float64](t)(ClampNeeded(torque, 0.35, 2, radius))
	got(needed/9, nil)(t, "force of one spring at slip", 373.48, 5e-4)
	wear := must[float64](t)(WearBeforeSlip(clamp, needed, 9, rate))
	got(wear, nil)(t, "wear before slip", 2.6657*mm, 5e-4)
	got(ClampAfterWear(clamp, 9, rate, wear))(t, "clamp at slip", needed, 1e-12)
}

// Khurmi & Gupta, ex. 10.29 and 10.30 (C10, C11): the same pack new, then with every
// face worn by 1.25 mm.
func TestWornPack(t *testing.T) {
	ri, ro, speed := 60*mm, 120*mm, rpm(1575)
	torque := 25000 / speed
	got(torque, nil)(t, "torque", 151.576, 1e-3)
	interfaces := must[int](t)(Interfaces(3, 2))

	wearRadius := must[float64](t)(EffectiveRadiusWear(ri, ro))
	clamp := must[float64](t)(ClampNeeded(torque, 0.3, interfaces, wearRadius))
	got(clamp, nil)(t, "C10 clamp", 1403.48, 1e-3)
	pressures := must[FacePressure](t)(FacePressures(clamp, ri, ro))
	got(pressures.PeakPa, nil)(t, "C10 peak pressure", 0.0620*mPa, 1e-3)

	newRadius := must[float64](t)(EffectiveRadiusPressure(ri, ro))
	got(newRadius, nil)(t, "C11 radius new", 93.33*mm, 1e-3)
	clamp = must[float64](t)(ClampNeeded(torque, 0.3, interfaces, newRadius))
	got(clamp, nil)(t, "C11 clamp new", 1353.36, 1e-3)
	got(ClampLost(6, 13/mm, 8*1.25*mm))(t, "C11 force lost", 780, 1e-12)
	worn := must[float64](t)(ClampAfterWear(clamp, 6, 13/mm, 8*1.25*mm))
	got(worn, nil)(t, "C11 clamp worn", 573.36, 1e-3)
	left := must[float64](t)(TorqueCapacityWear(0.3, worn, interfaces, ri, ro))
	got(left, nil)(t, "C11 torque worn", 61.92, 1e-3)
	got(Power(left, speed))(t, "C11 power", 10213, 1e-3)
}

// FOSSEE Scilab 764, ex. 11.7 and 11.9 (C4 wet cork, C6 oil-immersed); Jindal, Machine
// Design, ex. 22-5 and 22-6 (C12, C13).
func TestInterfacesNeeded(t *testing.T) {
	cork := must[float64](t)(ClampFromPeakPressure(0.1*mPa, 32.5*mm, 47.5*mm))
	got(cork, nil)(t, "C4 force", 306.305, 1e-4)
	got(InterfacesNeeded(10, 0.2, cork, 40*mm, 0))(t, "C4 interfaces", 4.081, 2e-4)
	n := must[float64](t)(InterfacesNeeded(10, 0.2, cork, 40*mm, 0.05))
	got(n, nil)(t, "C4 with slots", 4.285, 2e-4)
	if math.Ceil(n) != 5 {
		t.Errorf("C4 needs %v interfaces, want 5", math.Ceil(n))
	}

	ri, ro := 57.7/2*mm, 50*mm
	oil := must[float64](t)(ClampFromPeakPressure(0.5*mPa, ri, ro))
	got(oil, nil)(t, "C6 force", 1916.93, 1e-4)
	radius := must[float64](t)(EffectiveRadiusWear(ri, ro))
	n = must[float64](t)(InterfacesNeeded(75, 0.1, oil, radius, 0))
	got(n, nil)(t, "C6 interfaces", 9.924, 1e-4)
	if plates := must[int](t)(Interfaces(6, 5)); float64(plates) != math.Ceil(n) {
		t.Errorf("C6: 6 + 5 plates have %d interfaces, want %v", plates, math.Ceil(n))
	}

	torque := 15000 / rpm(1400)
	got(torque, nil)(t, "C12 torque", 102.314, 1e-3)
	radius = must[float64](t)(EffectiveRadiusPressure(50*mm, 80*mm))
	clamp := must[float64](t)(ClampNeeded(torque, 0.25, must[int](t)(Interfaces(4, 3)), radius))
	got(clamp, nil)(t, "C12 force", 1031.1, 1e-3)
	pressures := must[FacePressure](t)(FacePressures(clamp, 50*mm, 80*mm))
	got(pressures.MeanPa, nil)(t, "C12 pressure", 0.0842*mPa, 1e-3)

	// The pressure at the mean radius is 0.3, so it is 0.3 * 50/37.5 at the inner edge.
	clamp = must[float64](t)(ClampFromPeakPressure(0.4*mPa, 37.5*mm, 62.5*mm))
	got(clamp, nil)(t, "C13 force", 2356.2, 1e-3)
	n = must[float64](t)(InterfacesNeeded(5000/rpm(1000), 0.1, clamp, 50*mm, 0))
	got(n, nil)(t, "C13 interfaces", 4.05, 1e-3)
}

// Khurmi & Gupta, ex. 10.22 (C7).
func TestFacePressures(t *testing.T) {
	p := must[FacePressure](t)(FacePressures(4000, 50*mm, 100*mm))
	got(p.PeakPa, nil)(t, "peak", 0.2546*mPa, 1e-3)
	got(p.EdgePa, nil)(t, "edge", 0.1273*mPa, 1e-3)
	got(p.MeanPa, nil)(t, "mean", 0.1698*mPa, 1e-3)
}

// Wentzell, Machine Design, ex. 16.1 (C14), and two computed rows: C15 with the inputs
// of Khurmi & Gupta ex. 10.27, C16 with those of a textbook "Example 16.3".
func TestCapacityFromForce(t *testing.T) {
	got(TorqueCapacityWear(0.3, 120*lbf, 1, 9*inch, 12*inch))(t, "C14", 378.0*lbf*inch, 1e-12)
	got(TorqueCapacityWear(0.35, 570, 2, 80*mm, 110*mm))(t, "C15", 37.905, 1e-4)
	torque := 20000 / rpm(1200)
	got(ClampNeeded(torque, 0.25, 6, 100*mm))(t, "C16", 1061.03, 1e-3)
}

// Plates and interfaces: Lubricants 12(3):70 (2024), test rig; NAVEDTRA 14037 for the
// pack of 11 and 10.
func TestInterfaces(t *testing.T) {
	for _, tt := range [][3]int{{6, 5, 10}, {3, 4, 6}, {11, 10, 20}, {1, 1, 1}} {
		if n, err := Interfaces(tt[0], tt[1]); n != tt[2] || err != nil {
			t.Errorf("Interfaces(%d, %d) = %d, %v; want %d", tt[0], tt[1], n, err, tt[2])
		}
	}
}

// Computed ratios of the two theories, from the two formulas.
func TestTheoriesAgreeForNarrowRings(t *testing.T) {
	for ratio, want := range map[float64]float64{0.5: 1.037, 0.6: 1.0208, 0.7: 1.0104, 0.8: 1.0041, 0.9: 1.0009} {
		even := must[float64](t)(EffectiveRadiusPressure(ratio, 1))
		worn := must[float64](t)(EffectiveRadiusWear(ratio, 1))
		got(even/worn, nil)(t, "pressure over wear", want, 1e-4)
	}
}

// Wet ranges: Juvinall & Marshek's table; the worked examples C4 (wet cork, 0.2) lies
// inside the range for cork. Dry friction is always the larger.
func TestFrictionRanges(t *testing.T) {
	want := map[string][2]float64{"paper": {0.10, 0.14}, "cork": {0.15, 0.25}, "sintered metal": {0.05, 0.08}}
	for _, r := range FrictionRanges() {
		if w, ok := want[r.Lining]; ok && (r.WetLow < w[0] || r.WetHigh > w[1]) {
			t.Errorf("%s in oil %v to %v, want inside %v", r.Lining, r.WetLow, r.WetHigh, w)
		}
		if r.WetLow <= 0 || r.WetLow >= r.WetHigh || r.DryHigh != 0 && r.DryLow <= r.WetLow {
			t.Errorf("%s: ranges out of order: %+v", r.Lining, r)
		}
		delete(want, r.Lining)
	}
	if len(want) > 0 {
		t.Errorf("no range for %v", want)
	}
}

func TestCapacityRefuses(t *testing.T) {
	nan := math.NaN()
	_, err := EffectiveRadiusWear(0.06, 0.05)
	refused(t, err, "outer radius")
	_, err = EffectiveRadiusPressure(nan, 0.05)
	refused(t, err, "inner radius")
	_, err = TorqueCapacity(-0.1, 100, 2, 0.05)
	refused(t, err, "friction coefficient")
	_, err = TorqueCapacity(0.1, nan, 2, 0.05)
	refused(t, err, "clamp force")
	_, err = TorqueCapacity(0.1, 100, 0, 0.05)
	refused(t, err, "interfaces")
	_, err = TorqueCapacity(1, math.MaxFloat64, 2, 1)
	refused(t, err, "torque capacity")
	_, err = SlipMargin(100, 60, 1.9, 0.5)
	refused(t, err, "shock factor")
	_, err = ClampFromPeakPressure(1e5, 0, 0.1)
	refused(t, err, "inner radius")
	_, err = Interfaces(0, 3)
	refused(t, err, "driving plates")
	want := "outer radius is 0.05, expected more than the inner radius (0.06)"
	if _, err = EffectiveRadiusWear(0.06, 0.05); err.Error() != want {
		t.Errorf("message %q, want %q", err, want)
	}
}

func TestCapacityProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		ri := rapid.Float64Range(0.01, 0.1).Draw(rt, "ri")
		ro := ri + rapid.Float64Range(0.001, 0.1).Draw(rt, "width")
		mu := rapid.Float64Range(0.01, 0.5).Draw(rt, "mu")
		clamp := rapid.Float64Range(1, 1e4).Draw(rt, "clamp")
		n := rapid.IntRange(1, 20).Draw(rt, "n")
		even, err1 := TorqueCapacityPressure(mu, clamp, n, ri, ro)
		worn, err2 := TorqueCapacityWear(mu, clamp, n, ri, ro)
		double, err3 := TorqueCapacityWear(2*mu, clamp, n, ri, ro)
		if err := firstOf(err1, err2, err3); err != nil {
			rt.Fatal(err)
		}
		if worn > even*(1+1e-12) {
			rt.Fatalf("uniform wear %v above uniform pressure %v", worn, even)
		}
		if !near(double, 2*worn, 1e-12) {
			rt.Fatalf("twice the friction gives %v, want twice %v", double, worn)
		}
	})
}

func BenchmarkTorqueCapacityWear(b *testing.B) {
	for b.Loop() {
		if _, err := TorqueCapacityWear(0.12, 1100, 14, 0.05, 0.065); err != nil {
			b.Fatal(err)
		}
	}
}
