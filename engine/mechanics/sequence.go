package mechanics

// Crosswise returns the order in which to tighten n screws numbered from 1 round a
// circle, so that each is as far as may be from the one before and the ring is never
// drawn down on one side. With an even n opposite pairs follow each other, and the
// pairs are spread in the same way; with an odd n every step goes almost half way
// round. Fewer than one screw gives none.
// Source: the cross pattern of ASME PCC-1 (legacy table), which this reproduces for
// 4 to 24 screws in fours; the star for odd numbers is common practice.
func Crosswise(n int) []int {
	if n < 1 {
		return nil
	}
	if n%2 == 0 {
		var order []int
		for _, k := range Crosswise(n / 2) {
			order = append(order, k, k+n/2)
		}
		return order
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i*((n-1)/2)%n + 1 // the step has no divisor in common with n
	}
	return order
}
