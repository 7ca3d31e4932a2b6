package mechanics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Machinery's Handbook, 31st ed., p. 362 (B1); Mechanical Engineer's Data Handbook, p. 36
// (B4, printed to two digits); FOSSEE Scilab 764, ex. 10.26 for M (B3).
func TestDiscConstants(t *testing.T) {
	got(DiscConstantDIN(80.0/41))(t, "B1", 0.6841, 2e-4)
	table := map[float64]float64{1.4: 0.46, 1.8: 0.64, 2.2: 0.73, 2.6: 0.76, 3.0: 0.78, 3.4: 0.80, 5.0: 0.79}
	for ratio, want := range table {
		k := must[float64](t)(DiscConstantDIN(ratio))
		if math.Abs(k-want) > 0.01 {
			t.Errorf("B4: K1(%v) = %.4f, want %v within 0.01", ratio, k, want)
		}
	}
	got(DiscConstantAlmen(1.75))(t, "B3 M", 0.62684, 1e-4)
}

// Machinery's Handbook, 31st ed., p. 362 (B2).
func TestConicalForce(t *testing.T) {
	k := must[float64](t)(DiscConstantDIN(80.0 / 41))
	d := Disc{77.778 * mm, 4 * mm, 2.2 * mm, k, 206e9, 0.3}
	got(ConicalForce(d, 0.9*mm))(t, "B2 at 0.9 mm", 14390, 1e-3)
	got(ConicalForce(d, 1.32*mm))(t, "B2 at 1.32 mm", 20050, 1e-3)
}

// FOSSEE Scilab 764, ex. 10.26 (B3), which uses M; with K1 the same disc gives 4476.7 N.
func TestConicalFlatLoad(t *testing.T) {
	d := Disc{154.818 * mm, 2.65298 * mm, 3.97947 * mm, 0, 207e9, 0.3}
	d.Constant = must[float64](t)(DiscConstantAlmen(1.75))
	got(ConicalFlatLoad(d))(t, "B3 with M", 4500, 1e-4)
	d.Constant = must[float64](t)(DiscConstantDIN(1.75))
	got(ConicalFlatLoad(d))(t, "B3 with K1", 4476.7, 1e-4)
}

// DIN 2093, A 50, B 50 and C 50 at 0.75 of the cone height (B5). The table values are
// from memory; the formula reproduces them.
func TestConicalStandardSizes(t *testing.T) {
	for _, tt := range []struct{ thicknessMM, coneMM, forceN float64 }{{3, 1.1, 11976}, {2, 1.4, 4762}, {1.25, 1.6, 1550}} {
		d := must[Disc](t)(SteelDisc(50*mm, 25.4*mm, tt.thicknessMM*mm, tt.coneMM*mm))
		got(ConicalForce(d, 0.75*tt.coneMM*mm))(t, "B5", tt.forceN, 1e-3)
	}
}

// The named shape must be what the force curve does.
func TestShapeMatchesForce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		thickness := rapid.Float64Range(0.5, 3).Draw(rt, "t") * mm
		cone := thickness * rapid.Float64Range(0.1, 3).Draw(rt, "h/t")
		d, err := SteelDisc(120*mm, 90*mm, thickness, cone)
		if err != nil {
			rt.Fatal(err)
		}
		falls, last := false, -1.0
		for i := 0; i <= 400; i++ {
			f, err := ConicalForce(d, min(cone, cone*float64(i)/400))
			if err != nil {
				rt.Fatal(err)
			}
			falls = falls || f < last
			last = f
		}
		shape, err := ShapeOfConical(cone, thickness)
		if err != nil {
			rt.Fatal(err)
		}
		// Close to sqrt 2 the dip is too shallow for 400 points.
		if math.Abs(cone/thickness-math.Sqrt2) > 0.02 && falls != (shape == SnapsThrough) {
			rt.Fatalf("h/t %v is called %s, force falls: %v", cone/thickness, shape, falls)
		}
	})
}

func TestConicalRefuses(t *testing.T) {
	_, err := DiscConstantDIN(1)
	refused(t, err, "diameter ratio")
	_, err = SteelDisc(20, 30, 1, 1)
	refused(t, err, "outer diameter")
	d := must[Disc](t)(SteelDisc(50*mm, 25.4*mm, 2*mm, 1*mm))
	_, err = ConicalForce(d, 1.1*mm)
	refused(t, err, "deflection")
	_, err = ShapeOfConical(1, 0)
	refused(t, err, "thickness")
	if shape, _ := ShapeOfConical(0.3, 1); shape != NearLinear {
		t.Errorf("h/t 0.3 is called %s, want %s", shape, NearLinear)
	}
}
