package intake

import (
	"unicode/utf8"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// A slip of the decimal point is a factor of ten and is asked about. Metres
// written for millimetres are a factor of a thousand; a reading a hundred times past
// its limit cannot be true, while a badly bent plate may well be at twenty times.
const (
	unusual    = 10
	impossible = 100
)

// usual is the span of figures a reading is compared with, in SI.
type usual struct {
	low, high float64
	from      string // how a message names it
}

// usualOf spans the limits of the machine sheet and the general figures.
func (r *reader) usualOf(c catalog.Reading, known *fact.Set) (usual, bool) {
	var u usual
	for _, limit := range []string{c.Limit, c.LimitMin, c.LimitMax} {
		if v, ok := known.Get(machinePrefix + limit); ok && limit != "" {
			u.include(v.SI, "the limit of "+v.Text)
		}
	}
	for _, text := range []string{c.General.Low, c.General.High} {
		if q, err := unit.ParseAs(text, dimension(c.Unit)); err == nil && text != "" {
			u.include(q.SI, "the usual "+q.Text)
		}
	}
	return u, u.high > 0
}

// include widens the span; a message names the figure that bounds it above.
func (u *usual) include(si float64, from string) {
	if u.low == 0 || si < u.low {
		u.low = si
	}
	if si > u.high {
		u.high, u.from = si, from
	}
}

// plausible warns of a reading far off its limit or the general figures, which
// may be true, and refuses one that cannot be. Only sizes that are measured part
// by part against a least size are asked about when small, zero included: no lift
// and no free play are findings. Temperatures have no zero to be a multiple of.
func (r *reader) plausible(c catalog.Reading, key source.Text, v fact.Value, known *fact.Set) bool {
	u, ok := r.usualOf(c, known)
	if !ok || dimension(c.Unit) == unit.Temperature {
		return true
	}
	if v.Highest() > impossible*u.high {
		r.errorf(CodeRange, key, "%s: %s is more than %d times %s", c.ID, v.Text, impossible, u.from).Hint = "check the unit and the decimal point"
		return false
	}
	small := c.Several && c.Sense == "min" && v.Lowest() < u.low/unusual
	if (small || v.Highest() > unusual*u.high) && !r.full(key.Pos) {
		pos, length := key.Span(0, utf8.RuneCountInString(key.Value))
		r.ps.Warnf(CodeUnusual, pos, length, "%s: %s is far from %s", c.ID, v.Text, u.from).Hint = "check the unit and the decimal point"
	}
	return true
}
