package mechanics

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// SelectivePack is a measured pack and the plates that could set its height.
type SelectivePack struct {
	HeightM    float64   `json:"height_m"`    // as measured now
	HeightU    float64   `json:"height_u"`    // its standard uncertainty, in metres
	FittedM    []float64 `json:"fitted_m"`    // thickness of each plate that may be changed
	AvailableM []float64 `json:"available_m"` // thicknesses that can be bought
	PlateU     float64   `json:"plate_u"`     // standard uncertainty of one plate's thickness, in metres
	MinM       float64   `json:"min_m"`       // allowed height
	MaxM       float64   `json:"max_m"`
}

// Swap is one plate taken out and the new one put in its place, in metres.
type Swap struct {
	OutM float64 `json:"out_m"`
	InM  float64 `json:"in_m"`
}

// PackPlan is one way to set the height of a pack.
type PackPlan struct {
	Swaps      []Swap  `json:"swaps"` // thinnest plate out first; empty: leave it
	HeightM    float64 `json:"height_m"`
	HeightU    float64 `json:"height_u"`     // standard uncertainty, in metres
	OffMiddleM float64 `json:"off_middle_m"` // height less the middle of the range
	InRange    bool    `json:"in_range"`
}

// grainM is the step below which two heights count as equal, so that the noise of
// adding decimals in binary never decides between plans.
const grainM = 1e-9

// mostPlans bounds the search; it is far above any real pack.
const mostPlans = 1_000_000

// ChoosePlates searches every choice of new plates and returns the best, at most
// keep of them, best first. Plans that bring the height into the range come before
// all others; among them the fewest new plates, then the nearest to the middle.
// When no plan does, the nearest to the middle come first, InRange false.
// More than a million choices is a *DomainError.
func ChoosePlates(pack SelectivePack, keep int) ([]PackPlan, error) {
	if err := firstOf(pack.check(), atLeast("plans to keep", keep, 1)); err != nil {
		return nil, err
	}
	s := search{pack: pack, keep: keep, fitted: slices.Sorted(slices.Values(pack.FittedM)), sizes: distinct(pack.AvailableM)}
	if n := s.choices(); n > mostPlans {
		return nil, &DomainError{"choices of plates", n, fmt.Sprintf("at most %d: name fewer plates or sizes", mostPlans)}
	}
	s.chosen = make([]int, len(s.fitted))
	s.from(0)
	return s.best, nil
}

func (p SelectivePack) check() error {
	err := firstOf(positive("pack height", p.HeightM), notNegative("uncertainty of the height", p.HeightU),
		notNegative("uncertainty of a plate", p.PlateU), positive("least height", p.MinM),
		finite("greatest height", p.MaxM), inside("least height", p.MinM, 0, p.MaxM))
	for _, thickness := range slices.Concat(p.FittedM, p.AvailableM) {
		err = firstOf(err, positive("plate thickness", thickness))
	}
	return err
}

// distinct sorts sizes and drops those equal to within the grain.
func distinct(sizes []float64) []float64 {
	sorted := slices.Sorted(slices.Values(sizes))
	return slices.CompactFunc(sorted, sameSize)
}

func sameSize(a, b float64) bool { return math.Abs(a-b) < grainM }

// search walks all choices. A choice gives each fitted plate 0 (keep it) or the
// number of a size; equal neighbours choose in ascending order, so that each set
// of plates is met once.
type search struct {
	pack   SelectivePack
	fitted []float64
	sizes  []float64
	chosen []int
	keep   int
	best   []PackPlan
}

// choices counts the walk: for each run of r equal plates the multisets of r out
// of the sizes and "keep".
func (s *search) choices() float64 {
	total, run := 1.0, 0.0
	for i := range s.fitted {
		if i == 0 || s.fitted[i] != s.fitted[i-1] {
			run = 0
		}
		run++
		total *= (float64(len(s.sizes)) + run) / run
	}
	return math.Round(total)
}

func (s *search) from(plate int) {
	if plate == len(s.fitted) {
		s.offer(s.plan())
		return
	}
	first := 0
	if plate > 0 && s.fitted[plate] == s.fitted[plate-1] {
		first = s.chosen[plate-1]
	}
	for size := first; size <= len(s.sizes); size++ {
		if size > 0 && sameSize(s.sizes[size-1], s.fitted[plate]) {
			continue // a new plate as thick as the old one changes nothing
		}
		s.chosen[plate] = size
		s.from(plate + 1)
	}
}

func (s *search) plan() PackPlan {
	plan := PackPlan{HeightM: s.pack.HeightM, Swaps: []Swap{}}
	for i, size := range s.chosen {
		if size > 0 {
			swap := Swap{OutM: s.fitted[i], InM: s.sizes[size-1]}
			plan.Swaps = append(plan.Swaps, swap)
			plan.HeightM += swap.InM - swap.OutM
		}
	}
	// Each swap brings in the uncertainty of two plates: the one out, the one in.
	plan.HeightU = math.Hypot(s.pack.HeightU, s.pack.PlateU*math.Sqrt(2*float64(len(plan.Swaps))))
	plan.OffMiddleM = plan.HeightM - (s.pack.MinM/2 + s.pack.MaxM/2)
	plan.InRange = plan.HeightM > s.pack.MinM-grainM && plan.HeightM < s.pack.MaxM+grainM
	return plan
}

// offer inserts a plan among the best, if it belongs there.
func (s *search) offer(plan PackPlan) {
	at, _ := slices.BinarySearchFunc(s.best, plan, comparePlans)
	if at >= s.keep {
		return
	}
	s.best = slices.Insert(s.best, at, plan)
	s.best = s.best[:min(len(s.best), s.keep)]
}

// comparePlans orders plans from best to worst, ties by the plates themselves.
func comparePlans(a, b PackPlan) int {
	if a.InRange != b.InRange {
		if a.InRange {
			return -1
		}
		return 1
	}
	fewer := cmp.Compare(len(a.Swaps), len(b.Swaps))
	nearer := cmp.Compare(grains(a.OffMiddleM), grains(b.OffMiddleM))
	plates := slices.CompareFunc(a.Swaps, b.Swaps, func(x, y Swap) int {
		return cmp.Or(cmp.Compare(x.OutM, y.OutM), cmp.Compare(x.InM, y.InM))
	})
	if a.InRange {
		return cmp.Or(fewer, nearer, plates)
	}
	return cmp.Or(nearer, fewer, plates)
}

func grains(m float64) float64 { return math.Round(math.Abs(m) / grainM) }
