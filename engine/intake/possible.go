package intake

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// bounds are a catalog.Bounds in SI; an open end is infinite.
type bounds struct{ low, high float64 }

// boundsOf reads a span of the catalog, whose texts were checked when it was loaded.
func boundsOf(s catalog.Bounds, dim unit.Dimension) bounds {
	b := bounds{math.Inf(-1), math.Inf(1)}
	if q, err := unit.ParseAs(s.Low, dim); err == nil {
		b.low = q.SI
	}
	if q, err := unit.ParseAs(s.High, dim); err == nil {
		b.high = q.SI
	}
	return b
}

func (b bounds) hold(si float64) bool { return si >= b.low && si <= b.high }

// possible refuses what cannot be on any machine and names the slip that explains
// it: the same number in another unit, or the decimal point moved.
func (r *reader) possible(id string, at source.Text, q unit.Quantity, span catalog.Bounds) bool {
	b := boundsOf(span, q.Dim)
	if b.hold(q.SI) {
		return true
	}
	p := r.errorf(CodeRange, at, "%s: %s cannot be, expected %s", id, spelled(q, span), wanted(span))
	p.Hint = slip(q, b)
	return false
}

// wanted words the two ends of a span.
func wanted(s catalog.Bounds) string {
	switch {
	case s.Low == "":
		return "at most " + s.High
	case s.High == "":
		return "at least " + s.Low
	}
	return s.Low + " to " + s.High
}

// spelled is a value as typed, and in the unit of the span when that is another.
func spelled(q unit.Quantity, s catalog.Bounds) string {
	like, err := unit.Parse(cmp.Or(s.High, s.Low))
	if err != nil || like.Unit == q.Unit {
		return q.Text
	}
	return fmt.Sprintf("%s (%s)", q.Text, breakable(unit.FormatLike(q.SI, like)))
}

// breakable puts plain blanks where pages have unbreakable ones.
func breakable(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// A hint makes one guess, or two that fit about equally well: within a factor of
// 1.4 as near to the middle of the span.
const asGood = 0.15

// guess is one reading of what was typed, with its distance in decades from the
// middle of the span.
type guess struct {
	text string
	off  float64
}

// middle is the geometric middle of the span; an open lower end counts as a
// thirtieth of the upper, the ratio of most closed ones or more.
func (b bounds) middle() float64 {
	low, high := b.low, b.high
	if low <= 0 {
		low = high / 30
	}
	if math.IsInf(high, 1) {
		high = low * 30
	}
	return math.Sqrt(low * high)
}

// slip guesses what was meant. Decimal places come after units: a wrong unit is the
// more likely of the two.
func slip(q unit.Quantity, b bounds) string {
	typed, ok := unit.Find(q.Unit)
	if !ok {
		typed = unit.Unit{Factor: 1}
	}
	number := typed.FromSI(q.SI)
	var guesses []guess
	offer := func(si float64, u unit.Unit) {
		if b.hold(si) && si > 0 {
			guesses = append(guesses, guess{breakable(unit.Format(si, u, 4)), math.Abs(math.Log10(si / b.middle()))})
		}
	}
	for _, u := range unit.Units(q.Dim) {
		if u.Symbol != typed.Symbol && q.Unit != "" {
			offer(u.ToSI(number), u)
		}
	}
	if len(guesses) == 0 {
		for _, by := range []float64{0.1, 0.01, 10, 100} {
			offer(typed.ToSI(number*by), typed)
		}
	}
	if len(guesses) == 0 {
		return "check the unit and the decimal point"
	}
	slices.SortStableFunc(guesses, func(a, b guess) int { return cmp.Compare(a.off, b.off) })
	hint := "did you mean " + guesses[0].text
	if len(guesses) > 1 && guesses[1].off-guesses[0].off < asGood {
		hint += " or " + guesses[1].text
	}
	return hint + "?"
}
