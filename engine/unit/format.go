package unit

import (
	"math"
	"strconv"
	"strings"
)

// noBreak keeps a number and its unit on one line.
const noBreak = "\u00a0"

// Format writes an SI value in a unit with at most the given number of
// significant digits (three if digits is below 1). Digits before the decimal
// point are never rounded away, zeros at the end of decimals are dropped, and
// there is no negative zero. An unbreakable blank stands before the unit, except
// before the degree sign of an angle. The value must be finite.
func Format(si float64, u Unit, digits int) string {
	v := u.FromSI(si)
	if math.Abs(v*u.Factor) < 1e-12*math.Abs(u.Offset) {
		v = 0 // what is left of subtracting 273.15 is rounding, not a temperature
	}
	text := number(v, digits)
	switch u.Symbol {
	case "":
		return text
	case "°":
		return text + u.Symbol
	}
	return text + noBreak + u.Symbol
}

// FormatLike writes an SI value in the unit the user typed in q, with at least
// three significant digits and at least as many as the user gave.
func FormatLike(si float64, q Quantity) string {
	u, ok := Find(q.Unit)
	if !ok {
		u = Unit{Factor: 1}
	}
	return Format(si, u, max(3, significant(q.Text)))
}

// number writes plain decimals in the range that workshops know and falls back to
// an exponent far outside it, where a row of zeros would hide the size.
func number(v float64, digits int) string {
	if digits < 1 {
		digits = 3
	}
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v+0, 'g', -1, 64)
	}
	before := int(math.Floor(math.Log10(math.Abs(v)))) + 1
	if before > 15 || before < -8 {
		return strconv.FormatFloat(v, 'g', digits, 64)
	}
	s := strconv.FormatFloat(v, 'f', max(0, digits-before), 64)
	if strings.ContainsRune(s, '.') {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// significant counts the digits of a typed number from the first that is not
// zero; a fraction counts as none.
func significant(text string) int {
	n := 0
	for _, r := range text {
		switch {
		case r == '/':
			return 0
		case isDigit(r) && (r != '0' || n > 0):
			n++
		case !isDigit(r) && !isPoint(r) && n > 0:
			return n
		}
	}
	return n
}
