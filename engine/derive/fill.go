package derive

import (
	"slices"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// Fill adds the derived quantities that rules ask for and that can be worked out.
// Each enters as a reading with one value and its uncertainty, so that a condition
// near its limit counts in part.
func (t *Table) Fill(known fact.Set) fact.Set {
	if len(t.asked) == 0 || !measured(known) {
		return known
	}
	full := known.Clone()
	for _, id := range t.asked {
		if v := t.Value(id, known); v.Known() {
			full.Put(id, fact.Value{Kind: fact.Reading, SI: v.SI, Values: []float64{v.SI}, Sigma: v.Sigma})
		}
	}
	return full
}

// measured reports whether there is any reading: without one nothing is derived
// that the machine sheet does not say.
func measured(known fact.Set) bool {
	return slices.ContainsFunc(known.IDs(), func(id string) bool {
		v, _ := known.Get(id)
		return v.Kind == fact.Reading
	})
}

// Settle replaces the derived quantities that a firing waits for by what would
// have to be known to work them out.
func (t *Table) Settle(firings []rule.Firing, known fact.Set) {
	for i, f := range firings {
		if !slices.ContainsFunc(f.Waits, func(w string) bool { return t.words.Has(w, fact.RoleDerived) }) {
			continue
		}
		var waits []string
		for _, w := range f.Waits {
			if t.words.Has(w, fact.RoleDerived) {
				waits = append(waits, t.Value(w, known).Missing...)
			} else {
				waits = append(waits, w)
			}
		}
		slices.Sort(waits)
		firings[i].Waits = slices.Compact(waits)
	}
}
