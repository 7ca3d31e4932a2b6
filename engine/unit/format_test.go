package unit

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		si     float64
		unit   string
		digits int
		want   string
	}{
		{0.0025, "mm", 3, "2.5\u00a0mm"},
		{0.0003048, "thou", 3, "12\u00a0thou"},
		{0.00029999, "mm", 3, "0.3\u00a0mm"},
		{1234567, "km", 2, "1235\u00a0km"}, // whole digits stay
		{-1e-12, "mm", 0, "-0.000000001\u00a0mm"},
		{-0.00004, "m", 1, "-0.00004\u00a0m"},
		{math.Copysign(0, -1), "N", 3, "0\u00a0N"},
		{363.15, "°C", 3, "90\u00a0°C"},
		{273.15 - 1e-13, "°C", 3, "0\u00a0°C"},
		{math.Pi / 15, "°", 3, "12°"},
		{0.05, "%", 3, "5\u00a0%"},
		{9.80665, "N·m", 4, "9.807\u00a0N·m"},
		{0.0099999, "mm", 3, "10\u00a0mm"},
	} {
		u, ok := Find(c.unit)
		if !ok {
			t.Fatalf("%s not found", c.unit)
		}
		if got := Format(c.si, u, c.digits); got != c.want {
			t.Errorf("%g %s, %d digits: got %q, want %q", c.si, c.unit, c.digits, got, c.want)
		}
	}
}

func TestFormatLike(t *testing.T) {
	for _, c := range []struct {
		typed string
		si    float64
		want  string
	}{
		{"2.5 mm", 0.0024375, "2.44\u00a0mm"},
		{"2.5000 mm", 0.0024375, "2.4375\u00a0mm"},
		{"1/4 in", 0.0127, "0.5\u00a0in"},
		{"9 ft-lb", 13.558179483314004, "10\u00a0lbf·ft"},
		{"7", 3, "3"},
	} {
		q, err := Parse(c.typed)
		if err != nil {
			t.Fatal(err)
		}
		if got := FormatLike(c.si, q); got != c.want {
			t.Errorf("%q: got %q, want %q", c.typed, got, c.want)
		}
	}
}

func anyUnit(t *rapid.T) Unit { return rapid.SampledFrom(units).Draw(t, "unit") }

// What Format writes, Parse reads back to the precision asked for.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := anyUnit(t)
		v := rapid.Float64Range(-99999, 99999).Filter(func(v float64) bool { return v == 0 || math.Abs(v) > 1e-6 }).Draw(t, "v")
		text := Format(u.ToSI(v), u, 12)
		q, err := Parse(text)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		// An offset (kelvin) costs absolute precision near zero.
		if got := u.FromSI(q.SI); q.Dim != u.Dim || math.Abs(got-v) > 1e-10*math.Abs(v)+1e-9 {
			t.Fatalf("%v %s became %q, read as %v", v, u.Symbol, text, got)
		}
	})
}

// A decimal comma means what a decimal point means, whenever it is accepted.
func TestCommaIsPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.IntRange(0, 9999).Draw(t, "whole")
		part := rapid.StringMatching(`[0-9]{1,5}`).Draw(t, "part")
		u := anyUnit(t)
		point, err := Parse(strconv.Itoa(whole) + "." + part + " " + u.Symbol)
		if err != nil {
			t.Fatal(err)
		}
		comma, err := Parse(strconv.Itoa(whole) + "," + part + " " + u.Symbol)
		refused := len(part) == 3 && whole > 0 && whole < 1000
		if refused != (err != nil) || !refused && comma.SI != point.SI {
			t.Fatalf("%d,%s: %v, %v", whole, part, comma, err)
		}
	})
}
