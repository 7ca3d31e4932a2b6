package sample

import (
	"hash/fnv"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/unit"
)

// gauge is what is needed to draw one reading.
type gauge struct {
	reading    catalog.Reading
	unit       unit.Unit
	sigma      float64 // standard uncertainty, SI, or as a share of the value
	relative   bool
	resolution float64     // SI
	rules      []rule.Rule // those that read a sign off it
	limits     []string    // machine words it is held against
	derived    bool        // a rule looks at a derived quantity too
}

// gauges prepares every reading whose unit and gauge can be read.
func (s *Sampler) gauges() []gauge {
	var out []gauge
	for _, r := range s.cat.Readings {
		u, ok := unit.Find(r.Unit)
		tool, known := s.cat.Gauge(r.Gauge)
		spread, err := unit.Parse(tool.Uncertainty)
		if !ok || !known || err != nil {
			continue
		}
		in, _ := unit.Find(spread.Unit)
		g := gauge{reading: r, unit: u, sigma: spread.SI - in.Offset, relative: spread.Unit == "%"}
		if q, err := unit.Parse(tool.Resolution); err == nil && q.Dim == u.Dim {
			in, _ := unit.Find(q.Unit)
			g.resolution = q.SI - in.Offset
		}
		g.rules, g.limits = s.reads(r)
		g.derived = slices.ContainsFunc(g.rules, s.derives)
		out = append(out, g)
	}
	return out
}

// reads lists the rules that read a sign off a reading, and the words of the
// machine sheet that it is compared with.
func (s *Sampler) reads(r catalog.Reading) (rules []rule.Rule, limits []string) {
	add := func(word string) {
		if word != "" && !has(limits, word) {
			limits = append(limits, word)
		}
	}
	for _, l := range []string{r.Limit, r.LimitMin, r.LimitMax} {
		if l != "" {
			add("machine." + l)
		}
	}
	for _, x := range s.rules.Rules {
		if x.Action != rule.Shows || x.When == nil || !s.looksAt(x.When.Words(), r.ID) {
			continue
		}
		rules = append(rules, x)
		for _, w := range x.When.Words() {
			if f, ok := s.cat.Fact(w); ok && f.Unit != "" {
				if u, ok := unit.Find(f.Unit); ok && s.sameDimension(u, r) {
					add(w)
				}
			}
		}
	}
	return rules, limits
}

// derives reports whether a rule asks for a derived quantity.
func (s *Sampler) derives(x rule.Rule) bool {
	return slices.ContainsFunc(x.When.Words(), func(w string) bool {
		_, ok := s.cat.DerivedOf(w)
		return ok
	})
}

// looksAt reports whether a reading is among some words, or in what one of them
// is worked out from.
func (s *Sampler) looksAt(words []string, reading string) bool {
	if has(words, reading) {
		return true
	}
	for _, d := range s.cat.Derived {
		if has(words, d.ID) && s.looksAt(wordsIn.FindAllString(d.Value, -1), reading) {
			return true
		}
	}
	return false
}

// wordsIn finds the words of a formula.
var wordsIn = regexp.MustCompile(`[a-z][a-z0-9_]*`)

func (s *Sampler) sameDimension(u unit.Unit, r catalog.Reading) bool {
	own, ok := unit.Find(r.Unit)
	return ok && own.Dim == u.Dim
}

// Readings are the values that a check measures on this machine, by reading:
// such that every sign read off them says what is so, or close to the limit as
// the gauge leaves it open. A reading without a limit on the sheet, or with
// signs that no value satisfies, is left out; its signs are then seen, not
// measured.
func (m *Machine) Readings(check string) map[string]fact.Value {
	m.once.Do(m.measure)
	out := map[string]fact.Value{}
	c, _ := m.sampler.cat.Check(check)
	for _, id := range c.Gives {
		if v, ok := m.values[id]; ok && m.Sensible(c.Needs) {
			out[id] = v
		}
	}
	return out
}

const (
	tries     = 400  // values drawn before a reading is given up
	decided   = 0.97 // probability from which a measurement says yes
	doubtful  = 0.6  // the same for the few that come out close
	closeCall = 0.1  // share of readings that may come out close
)

// measure draws all readings, in the order of the catalog: a rule that looks at
// two of them is heeded by the second.
func (m *Machine) measure() {
	m.values = map[string]fact.Value{}
	known := m.Truth.Clone()
	for _, g := range m.sampler.readings {
		h := fnv.New64a()
		h.Write([]byte(g.reading.ID))
		r := rand.New(rand.NewPCG(m.seed[0]^h.Sum64(), m.seed[1]))
		if v, ok := m.reading(r, g, known); ok {
			m.values[g.reading.ID] = v
			known.Put(g.reading.ID, v)
		}
	}
}

func (m *Machine) reading(r *rand.Rand, g gauge, known fact.Set) (fact.Value, bool) {
	low, high, ok := m.reach(g)
	if !ok {
		return fact.Value{}, false
	}
	sure := decided
	if r.Float64() < closeCall {
		sure = doubtful
	}
	n := 1
	if g.reading.Several {
		n = 4 + r.IntN(3)
	}
	known = known.Clone() // values that were tried in vain must not stay
	for range tries {
		v := g.value(r, low, high, n)
		known.Put(g.reading.ID, v)
		if m.agrees(g, known, sure) {
			return v, true
		}
	}
	return fact.Value{}, false
}

// reach is where values are looked for: round the limits of the machine sheet, as
// far as they lie from each other, or a good part of the only one.
func (m *Machine) reach(g gauge) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, id := range g.limits {
		if v, known := m.Truth.Get(id); known && v.SI > 0 {
			low, high = min(low, v.SI), max(high, v.SI)
		}
	}
	switch span := high - low; {
	case span < 0:
		return 0, 0, false
	case len(g.rules) == 0: // no sign says that anything is wrong with it
		return g.sound(low, high)
	case span > 0.02*high:
		return max(low-0.8*span, low/3), high + 0.8*span, true
	case g.reading.Sense == "max":
		return 0.2 * low, 2 * high, true
	case g.derived: // what is worked out may want it far from the sheet's own limit
		return 0.3 * low, 2.5 * high, true
	}
	return 0.9 * low, 1.06 * high, true
}

// sound is where a reading lies that is within its limits.
func (g gauge) sound(low, high float64) (float64, float64, bool) {
	switch g.reading.Sense {
	case "min":
		return 1.02 * high, 1.06 * high, true
	case "max":
		return 0.3 * low, 0.9 * low, true
	}
	return low, high, true
}

// value draws n values about a middle, as the gauge shows them.
func (g gauge) value(r *rand.Rand, low, high float64, n int) fact.Value {
	middle := low + (high-low)*r.Float64()
	spread := (high - low) * 0.1 * r.Float64()
	v := fact.Value{Kind: fact.Reading, Gauge: g.reading.Gauge}
	for range n {
		x := max(middle+spread*r.NormFloat64(), 0)
		if g.resolution > 0 {
			x = math.Round(x/g.resolution) * g.resolution
			x = math.Round(x*1e9) / 1e9 // the nearest number, not one a bit beside it
		}
		v.Values = append(v.Values, x)
	}
	v.SI, v.Sigma = v.Mean(), g.sigma
	if g.relative {
		v.Sigma *= v.SI
	}
	v.Text = unit.Format(v.SI, g.unit, 3)
	return v
}

// agrees reports whether all signs read off a reading say what is so. Several
// rules may read one sign; one that finds it is enough.
func (m *Machine) agrees(g gauge, known fact.Set, sure float64) bool {
	// Working quantities out is dear, so that what the reading says by itself is
	// heard first.
	if g.derived {
		if !m.heard(g, known, sure, true) {
			return false
		}
		known = m.sampler.derived.Fill(known)
	}
	return m.heard(g, known, sure, false)
}

// heard is agrees with what is known as it stands. First says that more is to be
// worked out: a sign that is there may still be found for sure, but whoever has made
// this check alone must not hear that it is not there.
func (m *Machine) heard(g gauge, known fact.Set, sure float64, first bool) bool {
	found := map[string]float64{}
	for _, x := range g.rules {
		f := m.sampler.rules.Ask(x.When, known)
		if f.Verdict != rule.Unknown {
			found[x.To] = max(found[x.To], f.Probability)
		}
	}
	return !slices.ContainsFunc(g.rules, func(x rule.Rule) bool {
		p, read := found[x.To]
		there := m.Has(x.To)
		if !there {
			p = 1 - p
		}
		if first && there {
			return read && p <= 0.5
		}
		return read && p < sure
	})
}
