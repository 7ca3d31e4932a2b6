package intake

import (
	"math"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// rawReading is the long form of a reading. Spread is the standard uncertainty
// of one value where the user knows better than the gauge's general figure.
type rawReading struct {
	Value  *source.Node `yaml:"value"`
	Values *source.Node `yaml:"values"`
	Gauge  source.Text  `yaml:"gauge"`
	Spread source.Text  `yaml:"spread"`
}

// ParseReadings reads measurements into the set as values of kind reading, in
// SI units with one standard uncertainty. A reading is a quantity, a list of
// them, or keys value or values, gauge and spread; `unknown` leaves it out. Limits
// of the machine sheet that are in the set already serve to spot wrong units.
func ParseReadings(n *source.Node, cat *catalog.Catalog, into *fact.Set, ps *source.Problems) {
	newReader(cat, ps).readings(n, into)
}

func (r *reader) readings(n *source.Node, into *fact.Set) {
	for _, e := range r.entries(n) {
		reading, ok := r.cat.Reading(e.Key.Value)
		if !ok {
			r.unknown(CodeReading, "reading", e.Key, r.readingIDs())
			continue
		}
		if isUnknown(e.Value) || e.Value.Kind() == source.Empty {
			continue
		}
		if v, ok := r.reading(reading, e, into); ok {
			v.Pos = e.Value.Pos()
			into.Put(reading.ID, v)
		}
	}
}

func (r *reader) reading(c catalog.Reading, e source.Entry, known *fact.Set) (fact.Value, bool) {
	raw := rawReading{Value: e.Value}
	if e.Value.Kind() == source.Map {
		raw = rawReading{}
		source.Decode(e.Value, &raw, r.ps)
	}
	values := r.oneOf(c.ID, raw, e.Key)
	if values == nil || isUnknown(values) {
		return fact.Value{}, false
	}
	v := fact.Value{Kind: fact.Reading, Gauge: c.Gauge}
	if v.Values, v.Text = r.measured(c, values); v.Values == nil {
		r.gauge(c, raw, e.Key, &v) // for its own problems
		return v, false
	}
	v.SI = v.Mean()
	possible := r.plausible(c, e.Key, v, known)
	return v, r.gauge(c, raw, e.Key, &v) && possible
}

// oneOf picks the value or the values; nil when there is not exactly one.
func (r *reader) oneOf(id string, raw rawReading, key source.Text) *source.Node {
	switch {
	case raw.Value != nil && raw.Values != nil:
		r.errorf(CodeValue, key, "%s has both value and values", id).Hint = "keep one of them"
		return nil
	case raw.Values != nil:
		return raw.Values
	case raw.Value == nil:
		r.errorf(CodeValue, key, "%s has no value", id).Hint = "add value: or values:"
	}
	return raw.Value
}

// measured reads one quantity or a list of them; nil when anything is wrong.
func (r *reader) measured(c catalog.Reading, n *source.Node) ([]float64, string) {
	dim := dimension(c.Unit)
	if n.Kind() == source.List {
		values, text := r.quantities(c.ID, n, dim, c.Possible)
		if len(values) > 1 && !c.Several {
			p := r.ps.Errorf(CodeSeveral, n.Pos(), 1, "%s: expected one value, found %d", c.ID, len(values))
			p.Hint = "give the one that counts, or the mean of repeated measurements"
			return nil, ""
		}
		return values, text
	}
	t, ok := r.text(n)
	if !ok {
		return nil, ""
	}
	si, ok := r.quantity(c.ID, t, dim, c.Possible)
	if !ok {
		return nil, ""
	}
	return []float64{si}, t.Value
}

// gauge fills in what the reading was taken with and its uncertainty.
func (r *reader) gauge(c catalog.Reading, raw rawReading, key source.Text, v *fact.Value) bool {
	at := key
	if raw.Gauge.Value != "" {
		at, v.Gauge = raw.Gauge, raw.Gauge.Value
	}
	g, ok := r.cat.Gauge(v.Gauge)
	if !ok {
		r.unknown(CodeGauge, "gauge", source.Text{Value: v.Gauge, Pos: at.Pos, Raw: at.Raw}, r.gaugeIDs())
		return false
	}
	uncertainty := g.Uncertainty
	if raw.Spread.Value != "" {
		at, uncertainty = raw.Spread, raw.Spread.Value
	}
	q, err := unit.Parse(uncertainty)
	if err != nil {
		r.unitError(c.ID, at, err)
		return false
	}
	v.Sigma, ok = sigma(q, dimension(c.Unit), v.Mean())
	if !ok {
		r.errorf(CodeMeasures, at, "%s: expected %s, found an uncertainty of %s", c.ID, dimension(c.Unit), uncertainty).Hint = r.fittingGauges(dimension(c.Unit))
	}
	return ok
}

// sigma is a standard uncertainty in SI, from a quantity or a percentage of the
// reading. An uncertainty in degrees Celsius is a difference, so the offset of the
// scale does not belong to it.
func sigma(q unit.Quantity, dim unit.Dimension, reading float64) (float64, bool) {
	u, _ := unit.Find(q.Unit)
	si := q.SI - u.Offset
	switch {
	case si < 0:
		return 0, false
	case q.Unit == "%":
		return si * math.Abs(reading), true
	}
	return si, q.Dim == dim
}

// fittingGauges lists the gauges that measure a dimension.
func (r *reader) fittingGauges(dim unit.Dimension) string {
	var fit []string
	for _, g := range r.cat.Gauges {
		if q, err := unit.Parse(g.Uncertainty); err == nil && (q.Dim == dim || q.Unit == "%") {
			fit = append(fit, g.ID)
		}
	}
	if len(fit) == 0 {
		return ""
	}
	return "gauges that fit: " + strings.Join(fit, ", ")
}

func (r *reader) readingIDs() []string {
	out := make([]string, len(r.cat.Readings))
	for i, c := range r.cat.Readings {
		out[i] = c.ID
	}
	return out
}

func (r *reader) gaugeIDs() []string {
	out := make([]string, len(r.cat.Gauges))
	for i, g := range r.cat.Gauges {
		out[i] = g.ID
	}
	return out
}
