package mechanics

import (
	"fmt"
	"math"
)

// Verdict is what a reading says against a limit once its uncertainty is counted.
type Verdict int

// The verdicts, from good to bad.
const (
	Inside   Verdict = iota // inside the limit even at the edge of the uncertainty
	TooClose                // too close to call with this gauge
	Past                    // past the limit even at the edge of the uncertainty
)

// String returns the verdict in words.
func (v Verdict) String() string {
	switch v {
	case Inside:
		return "inside"
	case TooClose:
		return "too close to call"
	case Past:
		return "past"
	}
	return fmt.Sprintf("verdict %d", int(v))
}

// MarshalText makes a verdict a word in JSON.
func (v Verdict) MarshalText() ([]byte, error) { return []byte(v.String()), nil }

// Limit is a least value, a greatest value, or both, in the unit of the reading.
type Limit struct {
	Min    float64 `json:"min,omitempty"`
	Max    float64 `json:"max,omitempty"`
	HasMin bool    `json:"has_min"`
	HasMax bool    `json:"has_max"`
}

// AtLeast is the limit of a part that wears thin or short.
func AtLeast(least float64) Limit { return Limit{Min: least, HasMin: true} }

// AtMost is the limit of a play, a warp or a run-out.
func AtMost(most float64) Limit { return Limit{Max: most, HasMax: true} }

// Between is a range with both ends allowed.
func Between(least, most float64) Limit {
	return Limit{Min: least, Max: most, HasMin: true, HasMax: true}
}

func (l Limit) check() error {
	switch {
	case !l.HasMin && !l.HasMax:
		return &DomainError{"limit", 0, "a least value, a greatest value or both"}
	case l.HasMin && l.HasMax:
		return firstOf(finite("lower limit", l.Min), finite("upper limit", l.Max),
			inside("lower limit", l.Min, -math.MaxFloat64, l.Max))
	case l.HasMin:
		return finite("lower limit", l.Min)
	}
	return finite("upper limit", l.Max)
}

// room returns how far a reading lies inside its nearest limit; negative is past it.
func (l Limit) room(reading float64) float64 {
	room := math.Inf(1)
	if l.HasMin {
		room = reading - l.Min
	}
	if l.HasMax {
		room = math.Min(room, l.Max-reading)
	}
	return room
}

// Judgement is a reading held against a limit.
type Judgement struct {
	Verdict  Verdict `json:"verdict"`
	Room     float64 `json:"room"`     // distance to the nearest limit, negative when past it
	Expanded float64 `json:"expanded"` // expanded uncertainty, U = k u
	PastProb float64 `json:"past_probability"`
}

// Judge gives the three-way verdict on a reading with standard uncertainty u and
// coverage factor k (2 for about 95 %): inside when even the worse edge of
// y - U ... y + U meets the limit, past when even the better edge does not, and too
// close to call between. Both ends of a limit are allowed values.
// This rule is the project's own statement of the idea of ISO 14253-1.
func Judge(reading, standard, coverage float64, limit Limit) (Judgement, error) {
	past, err := PastProbability(reading, standard, limit)
	if err = firstOf(err, positive("coverage factor", coverage)); err != nil {
		return Judgement{}, err
	}
	j := Judgement{Room: limit.room(reading), Expanded: coverage * standard, PastProb: past, Verdict: TooClose}
	switch {
	case j.Room >= j.Expanded:
		j.Verdict = Inside
	case j.Room < -j.Expanded:
		j.Verdict = Past
	}
	_, err = result("judgement", j.Room+j.Expanded)
	return j, err
}

// PastProbability returns the probability that the true value is past the limit,
// when it is spread normally about the reading with the standard uncertainty. It
// passes smoothly through 0.5 at the limit; with an uncertainty of 0 it is a step
// from 0 (at the limit or inside) to 1.
// Source: the normal distribution; GUM (JCGM 100) gives the standard uncertainty.
func PastProbability(reading, standard float64, limit Limit) (float64, error) {
	err := firstOf(finite("reading", reading), notNegative("standard uncertainty", standard), limit.check())
	if err != nil {
		return 0, err
	}
	if standard == 0 {
		if limit.room(reading) < 0 {
			return 1, nil
		}
		return 0, nil
	}
	var p float64
	if limit.HasMin {
		p += normalBelow((limit.Min - reading) / standard)
	}
	if limit.HasMax {
		p += normalBelow((reading - limit.Max) / standard)
	}
	return math.Min(1, p), nil
}

// normalBelow is the standard normal distribution function.
func normalBelow(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// WearUsed returns the share of the allowed wear that is gone, (new - now)/(new - limit),
// without unit: 0 when new, 1 at the limit, more when past it. It serves parts
// that shrink and plays that grow alike, whichever side the limit lies on.
func WearUsed(newSize, limit, now float64) (float64, error) {
	err := firstOf(finite("new size", newSize), finite("limit", limit), finite("size now", now))
	if err == nil && newSize == limit {
		err = &DomainError{"limit", limit, "a limit that differs from the new size"}
	}
	if err != nil {
		return 0, err
	}
	return result("wear used", (newSize-now)/(newSize-limit))
}

// WearLeft returns the share of the allowed wear that is left, 1 less WearUsed; it
// is negative when the part is past its limit.
func WearLeft(newSize, limit, now float64) (float64, error) {
	used, err := WearUsed(newSize, limit, now)
	if err != nil {
		return 0, err
	}
	return 1 - used, nil
}
