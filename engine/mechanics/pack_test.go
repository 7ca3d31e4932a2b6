package mechanics

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Computed: ten plates of 3 mm, each read to 0.01 mm at random and 0.005 mm in common.
func TestComparePack(t *testing.T) {
	plates := slices.Repeat([]float64{3 * mm}, 10)
	p := must[PackHeight](t)(ComparePack(plates, 0.01*mm, 0.005*mm, 30.3*mm, 0.02*mm, 2))
	got(p.SumM, nil)(t, "sum", 30*mm, 1e-12)
	got(p.SumU, nil)(t, "uncertainty", math.Sqrt(10*1e-4+2.5e-3)*mm, 1e-9)
	got(p.AgreeWithin, nil)(t, "agree within", 2*math.Sqrt(10*1e-4+2.5e-3+4e-4)*mm, 1e-9)
	if p.Agrees || !near(p.DifferenceM, 0.3*mm, 1e-9) {
		t.Errorf("0.3 mm too tall: %+v", p)
	}
	p = must[PackHeight](t)(ComparePack(plates, 0.01*mm, 0.005*mm, 30.1*mm, 0.02*mm, 2))
	if !p.Agrees {
		t.Errorf("0.1 mm is within the uncertainty: %+v", p)
	}
	_, err := ComparePack([]float64{3 * mm, 0}, 0, 0, 1, 0, 2)
	refused(t, err, "plate thickness")
}

func samplePack() SelectivePack {
	return SelectivePack{
		HeightM: 30.5 * mm, HeightU: 0.03 * mm, PlateU: 0.01 * mm,
		FittedM:    []float64{2.0 * mm, 2.0 * mm, 2.0 * mm},
		AvailableM: []float64{2.3 * mm, 2.0 * mm, 2.2 * mm, 2.1 * mm},
		MinM:       30.8 * mm, MaxM: 31.2 * mm,
	}
}

// The pack lacks 0.5 mm to the middle. One plate can bring 0.3, just to the edge of the range,
// and one plate comes before two, even if two come nearer.
func TestChoosePlates(t *testing.T) {
	plans := must[[]PackPlan](t)(ChoosePlates(samplePack(), 3))
	if len(plans) != 3 {
		t.Fatalf("%d plans, want 3", len(plans))
	}
	first, second := plans[0], plans[1]
	if len(first.Swaps) != 1 || first.Swaps[0].InM != 2.3*mm || !first.InRange {
		t.Errorf("first plan %+v, want one plate of 2.3 mm", first)
	}
	got(first.HeightM, nil)(t, "height", 30.8*mm, 1e-9)
	got(first.HeightU, nil)(t, "uncertainty", math.Sqrt(9e-4+2e-4)*mm, 1e-9)
	want := []Swap{{2.0 * mm, 2.2 * mm}, {2.0 * mm, 2.3 * mm}}
	if !slices.Equal(second.Swaps, want) || math.Abs(second.OffMiddleM) > 1e-9 {
		t.Errorf("second plan %+v, want %v and the middle", second, want)
	}
}

func TestChoosePlatesLeavesAGoodPackAlone(t *testing.T) {
	pack := samplePack()
	pack.HeightM = 31.1 * mm
	plans := must[[]PackPlan](t)(ChoosePlates(pack, 1))
	if len(plans) != 1 || len(plans[0].Swaps) != 0 || !plans[0].InRange {
		t.Errorf("plans %+v, want none changed", plans)
	}
}

func TestChoosePlatesOutOfReach(t *testing.T) {
	pack := samplePack()
	pack.HeightM = 28 * mm
	plans := must[[]PackPlan](t)(ChoosePlates(pack, 1))
	if plans[0].InRange || len(plans[0].Swaps) != 3 || plans[0].Swaps[2].InM != 2.3*mm {
		t.Errorf("plan %+v, want three of the thickest and still out of range", plans[0])
	}
	pack.FittedM = nil
	for i := range 12 {
		pack.FittedM = append(pack.FittedM, (2+float64(i)/100)*mm)
	}
	_, err := ChoosePlates(pack, 1)
	refused(t, err, "choices of plates")
	pack = samplePack()
	pack.MaxM = pack.MinM / 2
	_, err = ChoosePlates(pack, 1)
	refused(t, err, "least height")
}

// The search agrees with trying every size in every place.
func TestChoosePlatesEqualsBruteForce(t *testing.T) {
	tenths := rapid.IntRange(18, 26)
	rapid.Check(t, func(rt *rapid.T) {
		pack := SelectivePack{HeightM: rapid.Float64Range(29, 33).Draw(rt, "height") * mm, MinM: 30.8 * mm, MaxM: 31.2 * mm}
		for range rapid.IntRange(0, 4).Draw(rt, "plates") {
			pack.FittedM = append(pack.FittedM, float64(tenths.Draw(rt, "fitted"))/10*mm)
		}
		for range rapid.IntRange(0, 4).Draw(rt, "sizes") {
			pack.AvailableM = append(pack.AvailableM, float64(tenths.Draw(rt, "size"))/10*mm)
		}
		plans, err := ChoosePlates(pack, 1)
		if err != nil {
			rt.Fatal(err)
		}
		swaps, off := bruteForce(pack)
		best := plans[0]
		if swaps >= 0 && len(best.Swaps) != swaps || best.InRange != (swaps >= 0) {
			rt.Fatalf("best plan %+v, brute force needs %d plates", best, swaps)
		}
		if math.Abs(math.Abs(best.OffMiddleM)-off) > 2*grainM {
			rt.Fatalf("best plan is %v off the middle, brute force %v", best.OffMiddleM, off)
		}
	})
}

// bruteForce returns the fewest new plates that reach the range, or -1, and the least
// distance from the middle among those choices, or among all when none reaches it.
func bruteForce(pack SelectivePack) (swaps int, offM float64) {
	type state struct {
		heightM float64
		swaps   int
	}
	states := []state{{pack.HeightM, 0}}
	for _, out := range pack.FittedM {
		for _, s := range slices.Clone(states) {
			for _, in := range pack.AvailableM {
				if in != out {
					states = append(states, state{s.heightM + in - out, s.swaps + 1})
				}
			}
		}
	}
	swaps, offM = -1, math.Inf(1)
	for _, s := range states {
		if s.heightM > pack.MinM-grainM && s.heightM < pack.MaxM+grainM && (swaps < 0 || s.swaps < swaps) {
			swaps = s.swaps
		}
	}
	for _, s := range states {
		inRange := s.heightM > pack.MinM-grainM && s.heightM < pack.MaxM+grainM
		if swaps < 0 || inRange && s.swaps == swaps {
			offM = min(offM, math.Abs(s.heightM-(pack.MinM+pack.MaxM)/2))
		}
	}
	return swaps, offM
}

func BenchmarkChoosePlates(b *testing.B) {
	pack := samplePack()
	pack.FittedM = slices.Repeat([]float64{2.0 * mm}, 7)
	for b.Loop() {
		if _, err := ChoosePlates(pack, 5); err != nil {
			b.Fatal(err)
		}
	}
}
