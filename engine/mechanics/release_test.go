package mechanics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Esposito, Fluid Power with Applications, ex. 3-13 and 3-4 (H1, H2); Sullivan, Fluid
// Power, 4th ed., ex. 2.3 (H3); an encyclopaedia example of a hydraulic brake, alone
// and behind a 3:1 lever (H4, H5). Areas are given for H1 to H3, so the ratio is direct.
func TestLeverThrough(t *testing.T) {
	half := must[float64](t)(HydraulicRatio(1, 2))
	tests := []struct {
		name          string
		in            Lever
		ratios        []float64
		force, travel float64
		tolerance     float64
	}{
		{"H1", Lever{200, 0.05}, []float64{100.0 / 25}, 800, 0.0125, 1e-12},
		{"H2", Lever{100 * lbf, inch}, []float64{20.0 / 2}, 1000 * lbf, 0.1 * inch, 1e-12},
		{"H3", Lever{150 * lbf, inch}, []float64{0.785 / 0.049}, 2403.06 * lbf, 0.049 / 0.785 * inch, 1e-4},
		{"H4", Lever{10, 0.040}, []float64{half}, 40, 0.010, 1e-12},
		{"H5", Lever{10, 0.120}, []float64{3, half}, 120, 0.010, 1e-12},
	}
	for _, tt := range tests {
		out := must[Lever](t)(tt.in.Through(tt.ratios...))
		got(out.ForceN, nil)(t, tt.name+" force", tt.force, tt.tolerance)
		got(out.TravelM, nil)(t, tt.name+" travel", tt.travel, tt.tolerance)
		got(out.ForceN*out.TravelM, nil)(t, tt.name+" work", tt.in.ForceN*tt.in.TravelM, 1e-12)
	}
}

// Inputs: Wolfson, Essential University Physics, ch. 15 prob. 47 (H6); answers computed.
func TestHydraulicRatioOfPistons(t *testing.T) {
	ratio := must[float64](t)(HydraulicRatio(1.04e-2, 2.10e-2))
	out := must[Lever](t)(Lever{3250 / ratio, 8.80 * mm}.Through(ratio))
	got(3250/ratio, nil)(t, "H6 force in", 797.1, 1e-3)
	got(out.TravelM, nil)(t, "H6 travel out", 2.158*mm, 1e-3)
	got(out.ForceN*out.TravelM, nil)(t, "H6 work", 7.014, 1e-3)
}

// Computed from the definitions.
func TestReleaseLift(t *testing.T) {
	got(ReleaseLift(75*mm, 15*mm, 40))(t, "lift", 1.5*mm, 1e-12)
	got(ReleaseLift(10*mm, 15*mm, 40))(t, "lift, all free play", 0, 0)
	got(ClearancePerFace(1.5*mm, 0.1*mm, 14))(t, "clearance", 0.1*mm, 1e-12)
	got(ClearancePerFace(0.1*mm, 0.38*mm, 14))(t, "still touching", -0.02*mm, 1e-12)
	got(HandForce(1200, 20, 0.75))(t, "hand force", 80, 1e-12)
	_, err := HandForce(1200, 20, 0)
	refused(t, err, "efficiency")
	_, err = ReleaseLift(math.Inf(1), 0, 40)
	refused(t, err, "lever travel")
	_, err = Lever{10, 0.1}.Through(2, 0)
	refused(t, err, "ratio")
}

// Inputs of D1: a fluid mechanics textbook, Fig. P2-79 (title from memory), answer
// computed (a printed 0.151 has a slip); D4: ring and oil of a paper
// (Shock and Vibration 2021, 5522998), gap and answer our own.
func TestDragTorque(t *testing.T) {
	got(DragTorque(1, 0.38, rpm(1200-1125), 0, 150*mm, 2*mm))(t, "D1", 1.1867, 1e-3)
	got(DragTorque(1, 0.0681, rpm(1000), 64*mm, 85*mm, 0.2*mm))(t, "D4", 1.984, 1e-3)
	// White, Fluid Mechanics (title from memory), prob. 1.54 (D3): oil on both faces.
	got(DragTorque(2, 0.3, 50, 0, 0.1, 1*mm))(t, "D3", math.Pi*0.3*50*1e-4/(1*mm), 1e-12)
}

// D5: twice the gap or half the viscosity halves the drag; twice the faces or the
// speed doubles it.
func TestDragProportions(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		mu := rapid.Float64Range(0.005, 10).Draw(rt, "mu")
		speed := rapid.Float64Range(1, 500).Draw(rt, "speed")
		gap := rapid.Float64Range(0.05, 0.5).Draw(rt, "gap") * mm
		drag := func(n int, mu, speed, gap float64) float64 {
			v, err := DragTorque(n, mu, speed, 50*mm, 65*mm, gap)
			if err != nil {
				rt.Fatal(err)
			}
			return v
		}
		base := drag(7, mu, speed, gap)
		for _, v := range []float64{2 * drag(7, mu, speed, 2*gap), 2 * drag(7, mu/2, speed, gap),
			drag(14, mu, speed, gap) / 2, drag(7, mu, 2*speed, gap) / 2} {
			if !near(v, base, 1e-12) {
				rt.Fatalf("proportion broken: %v, want %v", v, base)
			}
		}
	})
}

// The viscosity curve passes through the two points it is given and falls with heat.
func TestKinematicViscosity(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		hot := rapid.Float64Range(4, 25).Draw(rt, "hot") * 1e-6
		cold := hot * rapid.Float64Range(2, 50).Draw(rt, "thicker")
		at := func(k float64) float64 {
			v, err := KinematicViscosity(k, 313.15, cold, 373.15, hot)
			if err != nil {
				rt.Fatal(err)
			}
			return v
		}
		if !near(at(313.15), cold, 1e-9) || !near(at(373.15), hot, 1e-9) {
			rt.Fatalf("curve misses its points: %v, %v", at(313.15), at(373.15))
		}
		between := rapid.Float64Range(313.2, 373.1).Draw(rt, "K")
		if v := at(between); v >= cold || v <= hot {
			rt.Fatalf("viscosity %v at %v K is not between %v and %v", v, between, hot, cold)
		}
	})
	_, err := KinematicViscosity(300, 373.15, 1e-5, 313.15, 1e-4)
	refused(t, err, "hot temperature")
	_, err = KinematicViscosity(300, 313.15, 1e-5, 373.15, 1e-4)
	refused(t, err, "cold viscosity")
	_, err = KinematicViscosity(800, 313.15, 1e-4, 373.15, 1e-5)
	refused(t, err, "temperature")
	_, err = KinematicViscosity(1, 313.15, 1e-4, 373.15, 1e-5)
	refused(t, err, "kinematic viscosity")
}
