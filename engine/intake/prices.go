package intake

import (
	"maps"
	"slices"

	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// HourKey is the price of an hour of work among the prices of parts.
const HourKey = "hour"

// maxPrice bounds a price, in whatever money the workshop counts.
const maxPrice = 1e6

// prices reads what parts cost: a bare number each, by the name of a part or the id
// of a cause, and the money for an hour of work.
func (r *reader) prices(n *source.Node) map[string]float64 {
	var out map[string]float64
	for _, e := range r.entries(n) {
		if known := r.cat.Priced(); e.Key.Value != HourKey && !slices.Contains(known, e.Key.Value) {
			if !r.full(e.Key.Pos) {
				r.errorf(CodePrice, e.Key, "nothing here needs the part %q", e.Key.Value).Hint = didYouMean(e.Key.Value, append(known, HourKey))
			}
			continue
		}
		t, ok := r.text(e.Value)
		if !ok {
			continue
		}
		switch q, err := unit.Parse(t.Value); {
		case err != nil:
			r.errorf(CodeCount, t, "%s: expected a bare number, found %q", e.Key.Value, t.Value)
		case q.Unit != "":
			r.errorf(CodeCount, t, "%s: expected a bare number, found one in %s", e.Key.Value, q.Unit).Hint = "leave the unit out"
		case q.SI < 0 || q.SI > maxPrice:
			r.errorf(CodeRange, t, "%s: expected a price from 0 to %.0f, found %s", e.Key.Value, float64(maxPrice), q.Text)
		default:
			if out == nil {
				out = map[string]float64{}
			}
			out[e.Key.Value] = q.SI
		}
	}
	return out
}

// AllPrices are those of the machine sheet with those of the case over them.
func (c *Case) AllPrices() map[string]float64 {
	all := maps.Clone(c.Machine.Prices)
	if all == nil {
		return c.Prices
	}
	maps.Copy(all, c.Prices)
	return all
}
