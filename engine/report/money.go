package report

import (
	"fmt"
	"math"
)

// Money writes a sum in whatever money the workshop counts: whole, or with two
// digits after the point.
func Money(x float64) string {
	if x == math.Trunc(x) {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.2f", x)
}

// andMoney is money that comes on top of minutes; empty for none.
func andMoney(x float64) string {
	if x == 0 {
		return ""
	}
	return " and " + Money(x)
}

// moneyCounts says that minutes hold money too, where they do.
func (a Answer) moneyCounts() string {
	if a.Course.Rate == 0 {
		return ""
	}
	return fmt.Sprintf(", money counted in at %s an hour", Money(a.Course.Rate))
}
