package intake

import (
	"math"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// unusual is the factor past the general figures at which a reading is asked
// about: a slip of the decimal point is a factor of ten.
const unusual = 10

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
// them, or keys value or values, gauge and spread; `unknown` leaves it out.
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
		if v, ok := r.reading(reading, e); ok {
			v.Pos = e.Value.Pos()
			into.Put(reading.ID, v)
		}
	}
}

func (r *reader) reading(c catalog.Reading, e source.Entry) (fact.Value, bool) {
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
	r.plausible(c, e.Key, v)
	return v, r.gauge(c, raw, e.Key, &v)
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
		values, text := r.quantities(c.ID, n, dim)
		if len(values) > 1 && !c.Several {
			p := r.ps.Errorf(CodeSeveral, n.Pos(), 1, "%s: expected one value, found %d", c.ID, len(values))
			p.Hint = "give the one that counts, or the mean of repeated measurements"
			return nil, ""
		}
		return r.notZero(c, n, values), text
	}
	t, ok := r.text(n)
	if !ok {
		return nil, ""
	}
	si, ok := r.quantity(c.ID, t, dim)
	if !ok {
		return nil, ""
	}
	return r.notZero(c, n, []float64{si}), t.Value
}

// notZero refuses zero for the sizes of parts: what is measured part by part
// against a least size has some size. A lift or a free play may well be zero.
func (r *reader) notZero(c catalog.Reading, n *source.Node, values []float64) []float64 {
	if !c.Several || c.Sense != "min" {
		return values
	}
	for _, x := range values {
		if x == 0 {
			r.ps.Errorf(CodeRange, n.Pos(), n.Length(), "%s: expected a size above zero", c.ID).Hint = "leave out what was not measured"
			return nil
		}
	}
	return values
}

// plausible warns of a reading far off the general figures; it may be true.
func (r *reader) plausible(c catalog.Reading, key source.Text, v fact.Value) {
	low, errLow := unit.Parse(c.General.Low)
	high, errHigh := unit.Parse(c.General.High)
	if dimension(c.Unit) == unit.Temperature || r.full(key.Pos) {
		return
	}
	over := errHigh == nil && high.SI > 0 && v.Highest() > unusual*high.SI
	under := errLow == nil && v.Lowest() > 0 && v.Lowest() < low.SI/unusual
	if over || under {
		pos, length := key.Span(0, len(key.Value))
		r.ps.Warnf(CodeUnusual, pos, length, "%s: %s is far from the usual %s to %s", c.ID, v.Text, c.General.Low, c.General.High).Hint = "check the unit and the decimal point"
	}
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
// reading. A uncertainty in degrees Celsius is a difference, so the offset of the
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
