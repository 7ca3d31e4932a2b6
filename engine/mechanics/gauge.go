package mechanics

import "math"

// A reading, its limit and its uncertainty may be of any quantity in this file, as
// long as all are in the same unit; names without a unit suffix mean that unit.

// Rectangular returns the standard uncertainty of a value that lies anywhere within
// plus or minus a half-width, u = a/sqrt 3.
// Source: GUM (JCGM 100), type B evaluation; NIST TN 1297.
func Rectangular(halfWidth float64) (float64, error) {
	if err := notNegative("half-width", halfWidth); err != nil {
		return 0, err
	}
	return halfWidth / math.Sqrt(3), nil
}

// Combine returns the root sum of squares of independent standard uncertainties.
// Source: NIST TN 1297.
func Combine(standard ...float64) (float64, error) {
	var u float64
	for _, s := range standard {
		if err := notNegative("standard uncertainty", s); err != nil {
			return 0, err
		}
		u = math.Hypot(u, s)
	}
	return result("combined uncertainty", u)
}

// GaugeUncertainty returns the standard uncertainty of one reading of a gauge, from
// its error limit (plus or minus) and its resolution (smallest step shown; the
// reading lies within half a step). A limit that already covers reading takes
// a resolution of 0.
// Source: GUM (JCGM 100), type B evaluation of both parts, combined.
func GaugeUncertainty(limit, resolution float64) (float64, error) {
	if err := firstOf(notNegative("gauge limit", limit), notNegative("resolution", resolution)); err != nil {
		return 0, err
	}
	return result("gauge uncertainty", math.Hypot(limit, resolution/2)/math.Sqrt(3))
}

// Bracketed returns the value and standard uncertainty of a gap known only to lie
// between a feeler leaf that goes in and the next that does not.
func Bracketed(goes, doesNot float64) (value, standard float64, err error) {
	err = firstOf(notNegative("leaf that goes", goes), above("leaf that does not go", doesNot, "leaf that goes", goes))
	if err != nil {
		return 0, 0, err
	}
	return goes + (doesNot-goes)/2, (doesNot - goes) / 2 / math.Sqrt(3), nil
}

// Repeats is what several readings of the same thing say.
type Repeats struct {
	Mean      float64 `json:"mean"`
	Deviation float64 `json:"deviation"` // sample standard deviation; 0 for one reading
	Standard  float64 `json:"standard"`  // standard uncertainty of the mean, deviation/sqrt n
}

// MeanOf returns the mean of repeated readings and its type A uncertainty. With only a
// few readings the deviation itself is poorly known, so Combine it with the gauge's.
// Source: GUM (JCGM 100), type A evaluation.
func MeanOf(readings []float64) (Repeats, error) {
	err := atLeast("readings", len(readings), 1)
	var r Repeats
	for i, v := range readings {
		err = firstOf(err, finite("reading", v))
		r.Mean += (v - r.Mean) / float64(i+1)
	}
	if err != nil || len(readings) == 1 {
		return r, err
	}
	for _, v := range readings {
		r.Deviation = math.Hypot(r.Deviation, v-r.Mean)
	}
	r.Deviation /= math.Sqrt(float64(len(readings) - 1))
	r.Standard = r.Deviation / math.Sqrt(float64(len(readings)))
	_, err = result("mean of readings", r.Mean+r.Deviation)
	return r, err
}

// Instrument is a common gauge with a default error limit, for a user who knows no
// better figure; the gauge's own certificate comes first.
type Instrument struct {
	Name        string  `json:"name"`
	LimitM      float64 `json:"limit_m"`      // error limit, plus or minus
	ResolutionM float64 `json:"resolution_m"` // smallest step shown
	RangeM      float64 `json:"range_m"`      // up to this measured length
	Source      string  `json:"source"`
}

// DepthExtraM is added to a calliper's limit for inside and depth measurement.
// Source: DIN 862, read in a secondary copy.
const DepthExtraM = 20e-6

// Instruments lists default gauges, coarsest first.
func Instruments() []Instrument {
	din862, din863 := "DIN 862, read in a secondary copy", "DIN 863, read in a secondary copy"
	return []Instrument{
		{"calliper, 0.1 mm", 50e-6, 100e-6, 0.300, din862},
		{"calliper, 0.05 mm", 50e-6, 50e-6, 0.300, din862},
		{"calliper, 0.02 mm", 20e-6, 20e-6, 0.100, din862},
		{"calliper, digital 0.01 mm", 20e-6, 10e-6, 0.100, din862},
		{"micrometer, 50 to 100 mm", 5e-6, 10e-6, 0.100, din863},
		{"micrometer, 0 to 50 mm", 4e-6, 10e-6, 0.050, din863},
	}
}
