package mechanics

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Source: ASME PCC-1, legacy cross-pattern tightening sequence (from memory); the
// star for five is the one drawn for wheels with five nuts (common practice).
func TestCrosswisePublished(t *testing.T) {
	for n, want := range map[int]string{
		4:  "[1 3 2 4]",
		5:  "[1 3 5 2 4]",
		8:  "[1 5 3 7 2 6 4 8]",
		12: "[1 7 4 10 2 8 5 11 3 9 6 12]",
		16: "[1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16]",
		20: "[1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19]",
		24: "[1 13 7 19 4 16 10 22 2 14 8 20 5 17 11 23 3 15 9 21 6 18 12 24]",
	} {
		if got := fmt.Sprint(Crosswise(n)); got != want {
			t.Errorf("%d screws: got %s, want %s", n, got, want)
		}
	}
}

// Every screw has its turn once, and from four screws on the next one is never the
// neighbour (with six, two thirds of a half turn away at the least).
func TestCrosswiseVisitsAllAndNeverTheNeighbour(t *testing.T) {
	if Crosswise(0) != nil || Crosswise(-3) != nil {
		t.Error("no screws, yet an order")
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "n")
		order := Crosswise(n)
		sorted := slices.Sorted(slices.Values(order))
		for i, k := range sorted {
			if k != i+1 {
				t.Fatalf("%d screws: %v is no order of 1 to %d", n, order, n)
			}
		}
		for i := 1; i < n && n > 4; i++ {
			gap := (order[i] - order[i-1] + n) % n
			if min(gap, n-gap) < 2 {
				t.Fatalf("%d screws: %d follows its neighbour %d in %v", n, order[i], order[i-1], order)
			}
		}
	})
}
