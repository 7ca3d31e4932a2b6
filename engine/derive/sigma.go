package derive

import (
	"math"

	"example.org/takeup/engine/fact"
)

// sigma carries the uncertainty of the readings through a formula by central
// differences. What a gauge does wrong may be common to all values of a reading or
// differ from value to value, and nobody knows in which parts: both extremes are
// worked out and the larger counts. Readings among each other are independent. Words
// of the machine sheet count as exact.
// Source: GUM (JCGM 100), 5.1.3 with numerical sensitivities; 5.2 for the common part.
func (t *Table) sigma(text string, words []string, known fact.Set) float64 {
	var sum float64
	for _, w := range words {
		v, _ := known.Get(w)
		if v.Kind != fact.Reading || v.Sigma <= 0 {
			continue
		}
		all := make([]int, len(v.Values))
		var apart float64
		for i := range v.Values {
			all[i] = i
			apart = math.Hypot(apart, t.half(text, w, v, known, []int{i}))
		}
		sum = math.Hypot(sum, math.Max(apart, math.Abs(t.half(text, w, v, known, all))))
	}
	return sum
}

// half is half the difference the result makes when some values of a reading are
// moved one standard uncertainty up and down. Where a formula does not hold on one
// side, such as below nothing, the other side counts twice.
func (t *Table) half(text, word string, v fact.Value, known fact.Set, which []int) float64 {
	move := func(by float64) (float64, error) {
		moved := v
		moved.Values = append([]float64(nil), v.Values...)
		for _, i := range which {
			moved.Values[i] += by
		}
		return t.compute(text, instead(known.Get, word, moved))
	}
	up, errUp := move(v.Sigma)
	down, errDown := move(-v.Sigma)
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
