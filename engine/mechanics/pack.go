package mechanics

import "math"

// PackHeight is the height of a plate pack, added up plate by plate and as measured
// under load, with their uncertainties.
type PackHeight struct {
	SumM        float64 `json:"sum_m"`        // of the single plates
	SumU        float64 `json:"sum_u"`        // standard uncertainty of the sum, in metres
	MeasuredM   float64 `json:"measured_m"`   // of the whole pack
	MeasuredU   float64 `json:"measured_u"`   // standard uncertainty, in metres
	DifferenceM float64 `json:"difference_m"` // measured less sum
	AgreeWithin float64 `json:"agree_within"` // expanded uncertainty of the difference, in metres
	Agrees      bool    `json:"agrees"`
}

// ComparePack holds the measured height of a pack against the sum of its plates, all
// in metres. Each plate carries a random standard uncertainty of its own and one
// that all readings share, since a gauge that reads high does so on every plate: the
// random parts add as root sum of squares, the shared part n times over. A
// pack that measures taller than its sum holds a warped plate, a swollen lining or dirt.
// The coverage factor is 2 for about 95 %.
// Source: GUM (JCGM 100), correlated and independent inputs.
func ComparePack(platesM []float64, randomU, sharedU, measuredM, measuredU, coverage float64) (PackHeight, error) {
	err := firstOf(atLeast("plates", len(platesM), 1), notNegative("random uncertainty", randomU),
		notNegative("shared uncertainty", sharedU), positive("measured height", measuredM),
		notNegative("uncertainty of the height", measuredU), positive("coverage factor", coverage))
	if err != nil {
		return PackHeight{}, err
	}
	n := float64(len(platesM))
	p := PackHeight{MeasuredM: measuredM, MeasuredU: measuredU}
	for _, plateM := range platesM {
		if err := positive("plate thickness", plateM); err != nil {
			return PackHeight{}, err
		}
		p.SumM += plateM
	}
	p.SumU = math.Hypot(math.Sqrt(n)*randomU, n*sharedU)
	p.DifferenceM = p.MeasuredM - p.SumM
	p.AgreeWithin = coverage * math.Hypot(p.SumU, p.MeasuredU)
	p.Agrees = math.Abs(p.DifferenceM) <= p.AgreeWithin
	_, err = result("pack height", p.SumM+p.AgreeWithin)
	return p, err
}
