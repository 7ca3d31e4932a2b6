package derive

import (
	"math"
	"slices"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/unit"
)

// sigma carries the uncertainty of what was measured through a formula by central
// differences. What a gauge does wrong is in part common to all values of a reading,
// which adds up over many plates, and in part differs from value to value, which
// evens out. A gauge that does not say how much is common is taken at its worse
// extreme. Readings among each other are independent, and words of the machine sheet
// count as exact.
// Source: GUM (JCGM 100), 5.1.3 with numerical sensitivities; 5.2 for the common part.
func (t *Table) sigma(text string, words []string, known fact.Set) float64 {
	var sum float64
	for _, w := range words {
		v, _ := known.Get(w)
		m := movable(v)
		if m == nil {
			continue
		}
		each := make([]int, m.count())
		var apart float64
		for i := range each {
			each[i] = i
			apart = math.Hypot(apart, t.half(text, w, m, known, []int{i}))
		}
		together := math.Abs(t.half(text, w, m, known, each))
		if share, said := t.shared(m); said {
			sum = math.Hypot(sum, math.Hypot(share*together, math.Sqrt(1-share*share)*apart))
		} else {
			sum = math.Hypot(sum, max(together, apart))
		}
	}
	return sum
}

// shared is the part of a value's uncertainty that is common to all, 0 to 1.
func (t *Table) shared(m moved) (float64, bool) {
	of := m.one()
	g, _ := t.cat.Gauge(of.Gauge)
	q, err := unit.Parse(g.Common)
	if err != nil || of.Sigma <= 0 {
		return 0, false
	}
	return min(1, q.SI/of.Sigma), true
}

// half is half the difference the result makes when some values are moved one
// standard uncertainty up and down. Where a formula does not hold on one side, such as
// below nothing, the other side counts twice.
func (t *Table) half(text, word string, m moved, known fact.Set, which []int) float64 {
	move := func(sigmas float64) (float64, error) {
		return t.compute(text, instead(known.Get, word, m.by(sigmas, which)))
	}
	up, errUp := move(1)
	down, errDown := move(-1)
	if errUp == nil && errDown == nil {
		return (up - down) / 2
	}
	at, err := t.compute(text, known.Get)
	switch {
	case err != nil || errUp != nil && errDown != nil:
		return 0
	case errUp == nil:
		return up - at
	}
	return at - down
}

// moved is something measured whose values can be moved by their uncertainty.
type moved interface {
	count() int
	one() fact.Value // one of the values, for its gauge
	by(sigmas float64, which []int) fact.Value
}

// movable is nil for what is exact.
func movable(v fact.Value) moved {
	switch {
	case v.Kind == fact.Reading && v.Sigma > 0:
		return values{v}
	case v.Stack != nil:
		return parts{v}
	}
	return nil
}

// values are those of a reading.
type values struct{ fact.Value }

func (m values) count() int      { return len(m.Values) }
func (m values) one() fact.Value { return m.Value }

func (m values) by(sigmas float64, which []int) fact.Value {
	v := m.Value
	v.Values = slices.Clone(v.Values)
	for _, i := range which {
		v.Values[i] += sigmas * v.Sigma
	}
	return v
}

// parts are those of a stack, each with what was measured on it.
type parts struct{ fact.Value }

func (m parts) count() int { return len(m.Stack.Parts) }

func (m parts) one() fact.Value {
	for _, p := range m.Stack.Parts {
		for _, id := range p.Known.IDs() {
			if v, _ := p.Known.Get(id); v.Kind == fact.Reading {
				return v
			}
		}
	}
	return fact.Value{}
}

func (m parts) by(sigmas float64, which []int) fact.Value {
	s := *m.Stack
	s.Parts = slices.Clone(s.Parts)
	for _, i := range which {
		known := s.Parts[i].Known.Clone()
		for _, id := range known.IDs() {
			if v, _ := known.Get(id); v.Kind == fact.Reading {
				v.SI += sigmas * v.Sigma
				v.Values = []float64{v.SI}
				known.Put(id, v)
			}
		}
		s.Parts[i].Known = known
	}
	v := m.Value
	v.Stack = &s
	return v
}
