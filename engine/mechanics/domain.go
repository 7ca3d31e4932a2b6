package mechanics

import (
	"fmt"
	"math"
	"strconv"
)

// DomainError says that an input lies outside the range in which a formula means
// anything, or that the result is too large to hold. Every function of this
// package that can fail on a number fails with this type.
type DomainError struct {
	Quantity string  // what was given, such as "outer radius"
	Value    float64 // the number as given, in the SI unit of the quantity
	Want     string  // what was expected, such as "a number above 0"
}

// Error names the quantity, its value and what was expected.
func (e *DomainError) Error() string {
	value := strconv.FormatFloat(e.Value, 'g', -1, 64)
	return fmt.Sprintf("%s is %s, expected %s", e.Quantity, value, e.Want)
}

// firstOf returns the first error, so that a function can list its demands in the
// order of its parameters.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func finite(quantity string, v float64) error {
	if !isFinite(v) {
		return &DomainError{quantity, v, "a finite number"}
	}
	return nil
}

func positive(quantity string, v float64) error {
	if !isFinite(v) || v <= 0 {
		return &DomainError{quantity, v, "a finite number above 0"}
	}
	return nil
}

func notNegative(quantity string, v float64) error {
	if !isFinite(v) || v < 0 {
		return &DomainError{quantity, v, "a finite number, 0 or above"}
	}
	return nil
}

// inside demands low <= v <= high.
func inside(quantity string, v, low, high float64) error {
	if !(v >= low && v <= high) {
		return &DomainError{quantity, v, fmt.Sprintf("a number from %g to %g", low, high)}
	}
	return nil
}

// above demands a finite v strictly greater than another input, which it names.
func above(quantity string, v float64, than string, bound float64) error {
	if !isFinite(v) || !(v > bound) {
		return &DomainError{quantity, v, fmt.Sprintf("more than the %s (%g)", than, bound)}
	}
	return nil
}

// atLeast demands a count of at least least.
func atLeast(quantity string, n, least int) error {
	if n < least {
		return &DomainError{quantity, float64(n), fmt.Sprintf("a whole number, %d or above", least)}
	}
	return nil
}

// ring checks the two radii of an annular face. An inner radius of 0 is a full disc.
func ring(innerRadiusM, outerRadiusM float64) error {
	return firstOf(notNegative("inner radius", innerRadiusM),
		above("outer radius", outerRadiusM, "inner radius", innerRadiusM))
}

// result passes a computed value on unless it has overflowed.
func result(quantity string, v float64) (float64, error) {
	if !isFinite(v) {
		return 0, &DomainError{quantity, v, "a result within the range of a float64"}
	}
	return v, nil
}
