package sample

import (
	"math"
	"math/rand/v2"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/unit"
)

// How often a fact is so when the catalog does not say.
const (
	yesUnsaid  = 0.2
	partUnsaid = 0.2 // of each option of a set
)

// history draws every fact of the past that makes sense on a machine, in the
// order of the catalog. A figure without a usual range stays unknown.
func (s *Sampler) history(r *rand.Rand, sheet fact.Set) fact.Set {
	var out fact.Set
	if s.manner.Told == 0 {
		return out
	}
	known := sheet.Clone()
	for _, f := range s.cat.Facts {
		if s.ask(f.Needs, known) != rule.Yes {
			continue
		}
		if v, ok := s.value(r, f, known); ok {
			out.Put(f.ID, v)
			known.Put(f.ID, v)
		}
	}
	return out
}

func (s *Sampler) value(r *rand.Rand, f catalog.Fact, known fact.Set) (fact.Value, bool) {
	v := fact.Value{Kind: fact.Kind(f.Kind)}
	switch v.Kind {
	case fact.YesNo:
		v.Yes = r.Float64() < or(f.Share, yesUnsaid)
		v.Text = yesNo(v.Yes)
		return v, true
	case fact.Choice:
		v.Word = s.choice(r, f, known)
		v.Text = v.Word
		return v, v.Word != ""
	case fact.Choices:
		v.Words = s.choices(r, f, known)
		return v, true
	case fact.Quantity, fact.Count:
		return figure(r, f, v)
	}
	return v, false
}

func (s *Sampler) choice(r *rand.Rand, f catalog.Fact, known fact.Set) string {
	weights := make([]float64, len(f.Choices))
	for k, o := range f.Choices {
		if s.ask(o.Needs, known) != rule.No {
			weights[k] = or(o.Share, 1/float64(len(f.Choices)))
		}
	}
	if k := pick(weights, r.Float64()); k >= 0 {
		return f.Choices[k].ID
	}
	return ""
}

func (s *Sampler) choices(r *rand.Rand, f catalog.Fact, known fact.Set) []string {
	words := []string{}
	for _, o := range f.Choices {
		if s.ask(o.Needs, known) != rule.No && r.Float64() < or(o.Share, partUnsaid) {
			words = append(words, o.ID)
		}
	}
	return words
}

// figure draws evenly over the ratio: distances and times range over decades,
// and a temperature in kelvin hardly notices.
func figure(r *rand.Rand, f catalog.Fact, v fact.Value) (fact.Value, bool) {
	low, high, err := f.Range()
	if err != nil || !(low > 0 && high > low) {
		return v, false
	}
	v.SI = low * math.Pow(high/low, r.Float64())
	if v.Kind == fact.Count {
		v.SI = math.Round(v.SI)
	}
	u, _ := unit.Find(f.Unit)
	if u.Offset != 0 { // nobody tells a temperature in tenths
		v.SI = u.ToSI(math.Round(u.FromSI(v.SI)))
		v.Text = unit.Format(v.SI, u, 2)
		return v, true
	}
	v.SI = u.ToSI(twoDigits((v.SI - u.Offset) / u.Factor))
	v.Text = unit.Format(v.SI, u, 2)
	return v, true
}

// twoDigits rounds to two significant digits, as people tell figures.
func twoDigits(x float64) float64 {
	if x == 0 {
		return 0
	}
	scale := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-1)
	return math.Round(x/scale) * scale
}

// tell picks what the owner tells of the history. A fact that makes sense only
// after another is told only after that one.
func (m *Machine) tell(r *rand.Rand) fact.Set {
	told := m.Sheet.Clone()
	for _, f := range m.sampler.cat.Facts {
		v, drawn := m.History.Get(f.ID)
		if drawn && r.Float64() < m.sampler.manner.Told && m.sampler.ask(f.Needs, told) == rule.Yes {
			told.Put(f.ID, v)
		}
	}
	return told
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// or is x, or what stands for it when nothing was said.
func or(x, unsaid float64) float64 {
	if x == 0 {
		return unsaid
	}
	return x
}
