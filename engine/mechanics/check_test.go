package mechanics

import (
	"errors"
	"math"
	"testing"
)

// got turns the two results of a function into a check against a published value
// with a relative tolerance.
func got(v float64, err error) func(t *testing.T, what string, want, tolerance float64) {
	return func(t *testing.T, what string, want, tolerance float64) {
		t.Helper()
		if err != nil {
			t.Errorf("%s: %v", what, err)
			return
		}
		if !near(v, want, tolerance) {
			t.Errorf("%s = %.7g, want %.7g within %g", what, v, want, tolerance)
		}
	}
}

func near(v, want, tolerance float64) bool {
	return math.Abs(v-want) <= tolerance*math.Abs(want)
}

// must returns the value for use as an input of the next step.
func must[T any](t *testing.T) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// refused checks that an error is a DomainError about one quantity.
func refused(t *testing.T, err error, quantity string) {
	t.Helper()
	var domain *DomainError
	if !errors.As(err, &domain) {
		t.Errorf("error %v, want a DomainError about %s", err, quantity)
		return
	}
	if domain.Quantity != quantity {
		t.Errorf("DomainError about %q, want %q", domain.Quantity, quantity)
	}
}

const (
	mm   = 1e-3
	mPa  = 1e6 // N/mm2
	inch = 0.0254
	lbf  = 4.4482216152605
)

func rpm(n float64) float64 { return n * 2 * math.Pi / 60 }
