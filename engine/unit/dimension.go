package unit

import (
	"strconv"
	"strings"
)

// Dimension holds the exponents of length, mass, time, temperature and angle.
// Angle is kept apart although SI calls it a plain number, so that degrees are
// not taken for a ratio. The zero value is a plain number.
type Dimension struct{ L, M, T, K, A int8 }

// The dimensions that workshop quantities have; read-only. Torque is not told
// apart from energy, which does not occur here.
var (
	Dimensionless = Dimension{}
	Length        = Dimension{L: 1}
	Area          = Dimension{L: 2}
	Volume        = Dimension{L: 3}
	Mass          = Dimension{M: 1}
	Time          = Dimension{T: 1}
	Temperature   = Dimension{K: 1}
	Angle         = Dimension{A: 1}
	Speed         = Dimension{L: 1, T: -1}
	Rotation      = Dimension{T: -1, A: 1}
	Force         = Dimension{L: 1, M: 1, T: -2}
	Torque        = Dimension{L: 2, M: 1, T: -2}
	Pressure      = Dimension{L: -1, M: 1, T: -2}
	SpringRate    = Dimension{M: 1, T: -2}
	Power         = Dimension{L: 2, M: 1, T: -3}
	Viscosity     = Dimension{L: 2, T: -1} // kinematic
)

// dimensions names them for messages, with an example of how to write one.
var dimensions = []struct {
	dim           Dimension
	name, example string
}{
	{Dimensionless, "plain number", "12"},
	{Length, "length", "2.5 mm"},
	{Area, "area", "20 mm²"},
	{Volume, "volume", "900 ml"},
	{Mass, "mass", "250 g"},
	{Time, "time", "20 min"},
	{Temperature, "temperature", "90 °C"},
	{Angle, "angle", "12°"},
	{Speed, "speed", "60 km/h"},
	{Rotation, "rotational speed", "3000 rpm"},
	{Force, "force", "120 N"},
	{Torque, "torque", "10 N·m"},
	{Pressure, "pressure", "2.5 bar"},
	{SpringRate, "spring rate", "25 N/mm"},
	{Power, "power", "50 kW"},
	{Viscosity, "kinematic viscosity", "100 cSt"},
}

// Mul returns the dimension of a product.
func (d Dimension) Mul(e Dimension) Dimension {
	return Dimension{d.L + e.L, d.M + e.M, d.T + e.T, d.K + e.K, d.A + e.A}
}

// Div returns the dimension of a quotient.
func (d Dimension) Div(e Dimension) Dimension {
	return Dimension{d.L - e.L, d.M - e.M, d.T - e.T, d.K - e.K, d.A - e.A}
}

// String names the dimension ("length", "torque"); one without a name is written
// out in SI base units, such as "m^4 kg s^-2".
func (d Dimension) String() string {
	for _, n := range dimensions {
		if n.dim == d {
			return n.name
		}
	}
	var parts []string
	for i, exp := range [...]int8{d.L, d.M, d.T, d.K, d.A} {
		symbol := [...]string{"m", "kg", "s", "K", "rad"}[i]
		switch {
		case exp == 1:
			parts = append(parts, symbol)
		case exp != 0:
			parts = append(parts, symbol+"^"+strconv.Itoa(int(exp)))
		}
	}
	return strings.Join(parts, " ")
}

// withArticle is "a length", "an angle", or "a quantity in m^4 kg".
func (d Dimension) withArticle() string {
	name := d.String()
	switch {
	case d.example() == "":
		return "a quantity in " + name
	case strings.ContainsRune("aeiou", rune(name[0])):
		return "an " + name
	}
	return "a " + name
}

// example shows how a quantity of the dimension is written, "" if it has no name.
func (d Dimension) example() string {
	for _, n := range dimensions {
		if n.dim == d {
			return n.example
		}
	}
	return ""
}
