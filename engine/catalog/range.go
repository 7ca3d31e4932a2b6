package catalog

import "example.org/takeup/engine/unit"

// Range returns between what a figure usually lies, in SI units or as bare
// numbers; 0 and 0 when nothing is said. The error is unit.Parse's, or says
// that an end has another dimension than the fact.
func (f Fact) Range() (low, high float64, err error) {
	if f.Usual == (Span{}) {
		return 0, 0, nil
	}
	u, _ := unit.Find(f.Unit)
	a, err := unit.ParseAs(f.Usual.Low, u.Dim)
	if err != nil {
		return 0, 0, err
	}
	b, err := unit.ParseAs(f.Usual.High, u.Dim)
	if err != nil {
		return 0, 0, err
	}
	return a.SI, b.SI, nil
}
