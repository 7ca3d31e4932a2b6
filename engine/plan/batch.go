package plan

import "slices"

// Batches groups looks behind one cover when the machine can only be tested
// closed: opening and closing costs the given minutes each time, and all of a
// batch is done before the test. Probabilities (of one fault, summing to at
// most 1) and minutes are per action. It returns the batches as action numbers
// and the expected minutes until all are done or the machine works.
//
// The order is p/c, highest first, and the cuts are the best for that order
// (dynamic programming). Choosing order and cuts together is NP-hard without
// inside information (Lin 2014).
func Batches(probability, minutes []float64, openClose float64) (batches [][]int, expected float64) {
	order := byYield(probability, minutes)
	n := len(order)
	rest := make([]float64, n+1) // probability left before the k-th of the order
	rest[0] = 1
	for k, i := range order {
		rest[k+1] = max(rest[k]-probability[i], 0)
	}
	best := make([]float64, n+1) // expected minutes from the k-th on
	cut := make([]int, n)
	for k := n - 1; k >= 0; k-- {
		work := openClose
		for j := k; j < n; j++ {
			work += minutes[order[j]]
			if v := rest[k]*work + best[j+1]; j == k || v < best[k] {
				best[k], cut[k] = v, j+1
			}
		}
	}
	for k := 0; k < n; k = cut[k] {
		batches = append(batches, order[k:cut[k]:cut[k]])
	}
	return batches, best[0]
}

// byYield returns the numbers sorted by p/c, highest first.
func byYield(probability, minutes []float64) []int {
	order := make([]int, len(probability))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return compare(probability[j]*minutes[i], probability[i]*minutes[j])
	})
	return order
}
