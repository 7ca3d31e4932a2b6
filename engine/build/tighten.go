package build

import (
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/unit"
)

// fewest is the number of screws from which an order means anything.
const fewest = 3

// tighten fills a way of tightening with the numbers of the machine sheet.
func (j Job) tighten(id string) *Tighten {
	t, ok := j.Catalog.Tightening(id)
	if !ok {
		return nil
	}
	out := &Tighten{ID: id}
	if n, ok := j.number(t.Screws); ok && n >= fewest && n <= 100 {
		out.Screws = int(n)
		out.Order = mechanics.Crosswise(out.Screws)
	}
	if torque, ok := j.number(t.Torque); ok {
		out.TorqueNm = torque
		return out
	}
	out.LowNm, out.HighNm = newtonMetres(t.General.Low), newtonMetres(t.General.High)
	return out
}

// number is a count or a quantity in SI units from the machine sheet.
func (j Job) number(word string) (float64, bool) {
	v, ok := j.Known.Get("machine." + word)
	return v.SI, ok && v.SI > 0
}

// newtonMetres is a torque that was checked when the knowledge was read, 0 for none.
func newtonMetres(text string) float64 {
	q, err := unit.ParseAs(text, unit.Torque)
	if err != nil {
		return 0
	}
	return q.SI
}
