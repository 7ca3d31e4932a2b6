package inspect

import (
	"math"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/mechanics"
)

// A value lies apart when it is off the others by more than the gauge explains, and
// by more than the others differ among themselves.
const (
	apartSigmas  = 4 // of a difference between two values
	apartSpreads = 3
)

// apart finds one value that lies apart from all others, or -1. Two values cannot
// say which of them is the odd one.
func apart(values []float64, sigma float64) int {
	if len(values) < 3 {
		return -1
	}
	at, furthest := -1, 0.0
	for i := range values {
		rest := slices.Delete(slices.Clone(values), i, i+1)
		slices.Sort(rest)
		off := math.Abs(values[i] - rest[len(rest)/2])
		least := max(apartSigmas*sigma*math.Sqrt2, apartSpreads*(rest[len(rest)-1]-rest[0]))
		if off > least && off > furthest {
			at, furthest = i, off
		}
	}
	return at
}

// doubts lists the mistakes of measuring that could have made this verdict: those
// that would hide wear behind a good figure, or feign it in a bad one, and what sets
// one value apart. A reading without a limit has them all.
func doubts(c catalog.Reading, r Measurement) []string {
	out := []string{}
	for _, m := range c.HowWrong {
		if matters(m.Reads, r) {
			out = append(out, m.Says)
		}
	}
	return out
}

func matters(reads string, r Measurement) bool {
	if r.Judged == nil {
		return true
	}
	switch reads {
	case "apart":
		return r.Apart >= 0
	case "either":
		return r.Apart >= 0 || r.Judged.Verdict != mechanics.Inside
	}
	// A figure near its lower limit looks better when it reads high.
	flatters := (reads == "high") == r.Judged.Below
	switch r.Judged.Verdict {
	case mechanics.Inside:
		return flatters
	case mechanics.Past:
		return !flatters
	}
	return true
}
