package mechanics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Computed from the definitions; the chain also by the straight-line formula in full.
func TestLashParts(t *testing.T) {
	got(AngleFromPlay(1*mm, 50*mm))(t, "play", 0.02, 1e-12)
	got(AngleAtWheel(0.02, 8))(t, "at the wheel", 0.0025, 1e-12)
	run, slack := 0.6, 0.03
	excess := 2*math.Sqrt(run*run/4+slack*slack/4) - run
	got(ChainLash(slack, run, 0.09))(t, "chain", excess/0.09, 1e-9)
	// Six teeth make a hexagon, whose radius is its side.
	got(SprocketRadius(15.875*mm, 6))(t, "hexagon", 15.875*mm, 1e-12)
	_, err := ChainLash(0.7, 0.6, 0.09)
	refused(t, err, "chain run")
	_, err = SprocketRadius(15.875*mm, 2)
	refused(t, err, "sprocket teeth")
	_, err = AngleAtWheel(0.1, 0)
	refused(t, err, "turns per wheel turn")
}

func TestLashAtWheel(t *testing.T) {
	lash := must[Lash](t)(LashAtWheel([]LashPart{{"cush", 0.08, 8}, {"chain", 0.01, 1}, {"hub", 0.02, 1}}))
	got(lash.WheelRad, nil)(t, "sum", 0.04, 1e-12)
	for i, share := range []float64{0.25, 0.25, 0.5} {
		got(lash.Parts[i].Share, nil)(t, lash.Parts[i].Name, share, 1e-12)
	}
	none := must[Lash](t)(LashAtWheel([]LashPart{{"chain", 0, 1}}))
	if none.WheelRad != 0 || none.Parts[0].Share != 0 {
		t.Errorf("no play gives %+v", none)
	}
	_, err := LashAtWheel([]LashPart{{"cush", math.NaN(), 8}})
	refused(t, err, "play angle")
}

func TestLashSharesAddUp(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		parts := make([]LashPart, rapid.IntRange(1, 6).Draw(rt, "n"))
		for i := range parts {
			parts[i] = LashPart{"p", rapid.Float64Range(0, 0.2).Draw(rt, "play"), rapid.Float64Range(0.5, 20).Draw(rt, "turns")}
		}
		parts[0].PlayRad += 1e-6
		lash, err := LashAtWheel(parts)
		if err != nil {
			rt.Fatal(err)
		}
		sum := 0.0
		for _, p := range lash.Parts {
			sum += p.Share
		}
		if !near(sum, 1, 1e-12) {
			rt.Fatalf("shares add up to %v", sum)
		}
	})
}

// ISO 21940-11 by its relatives: a grade of 6.3 at 2 kg and 10 000 rpm (a tool maker's
// worked value, U1); the US form in ounce inches (U2) and MIL-STD-167 as grade 0.665
// (U3), both as quoted in the trade press.
func TestPermissibleUnbalance(t *testing.T) {
	const gmm = 1e-6 // kg m
	got(PermissibleUnbalance(6.3*mm, 2, rpm(10000)))(t, "U1", 12.03*gmm, 5e-3)
	const pound, ounce = 0.45359237, 0.45359237 / 16
	got(PermissibleUnbalance(1*mm, 1*pound, rpm(1)))(t, "U2", 6.0153*ounce*inch, 1e-4)
	got(PermissibleUnbalance(0.665*mm, 1*pound, rpm(1)))(t, "U3", 4*ounce*inch, 1e-3)
	// Computed: a clutch of 3 kg at 5000 rpm under grade 40 (U6); the grade is our choice.
	got(PermissibleUnbalance(40*mm, 3, rpm(5000)))(t, "U6", 229.2*gmm, 1e-3)
}

// Sarkar, Theory of Machines, illustration 8-1 (U4): the balancing mass at 100 mm lies
// opposite the sum.
func TestUnbalance(t *testing.T) {
	degree := math.Pi / 180
	size, angle, err := Unbalance([]OffAxisMass{
		{12, 40 * mm, 0}, {10, 50 * mm, 60 * degree}, {18, 60 * mm, 130 * degree}, {15, 30 * mm, 270 * degree},
	})
	got(size/0.1, err)(t, "U4 mass", 8.111, 2e-3)
	got(math.Mod(angle/degree+180, 360), nil)(t, "U4 angle", 267.47, 2e-3)
	_, _, err = Unbalance([]OffAxisMass{{-1, 1, 0}})
	refused(t, err, "mass")
}

// Computed: 10 g gone at 70 mm, 5000 rpm (U5).
func TestUnbalanceForce(t *testing.T) {
	got(UnbalanceForce(0.010, 70*mm, rpm(5000)))(t, "U5", 191.9, 1e-3)
	_, err := UnbalanceForce(0.01, 0.07, -1)
	refused(t, err, "speed")
}
