package unit

import "math"

// Unit is a unit of measurement: SI value = number * Factor + Offset. Symbol is
// how it is written in output, Names are further spellings that are understood.
// In a name, a hyphen stands for any of blank, hyphen, dot and middle dot, or for
// nothing: "ft-lb" covers ftlb, ft lb, ft·lb and ft.lb.
type Unit struct {
	Symbol string
	Names  []string
	Dim    Dimension
	Factor float64
	Offset float64
}

// The exact definitions everything else follows from: international foot,
// avoirdupois pound and standard gravity. Source: NIST SP 811 (2008), appendix B
// and its footnotes; the gallons likewise (231 cubic inches; 4.546 09 litres).
const (
	inch      = 0.0254
	foot      = 12 * inch
	mile      = 5280 * foot
	pound     = 0.45359237
	gravity   = 9.80665
	lbf       = pound * gravity
	usQuart   = 231 * inch * inch * inch / 4
	impQuart  = 4.54609e-3 / 4
	day       = 24 * 3600
	year      = 365.25 * day // Julian year; machines are not older than calendars
	perRPM    = 2 * math.Pi / 60
	degree    = math.Pi / 180
	rankine   = 5.0 / 9
	metricHP  = 75 * gravity
	britishHP = 550 * foot * lbf
)

// units is the whole table; read-only. Within a dimension the first is the one
// that examples and hints prefer.
var units = []Unit{
	{"mm", []string{"millimetre", "millimetres", "millimeter", "millimeters"}, Length, 1e-3, 0},
	{"cm", []string{"centimetre", "centimetres", "centimeter", "centimeters"}, Length, 1e-2, 0},
	{"m", []string{"metre", "metres", "meter", "meters"}, Length, 1, 0},
	{"µm", []string{"um", "micron", "microns", "micrometre", "micrometres", "micrometer", "micrometers"}, Length, 1e-6, 0},
	{"in", []string{"\"", "inch", "inches"}, Length, inch, 0},
	{"thou", []string{"mil", "mils"}, Length, inch / 1000, 0},
	{"ft", []string{"foot", "feet"}, Length, foot, 0},
	{"km", []string{"kms", "kilometre", "kilometres", "kilometer", "kilometers"}, Length, 1000, 0},
	{"mi", []string{"mile", "miles"}, Length, mile, 0},

	{"mm²", []string{"mm2", "sq-mm"}, Area, 1e-6, 0},
	{"cm²", []string{"cm2", "sq-cm"}, Area, 1e-4, 0},

	{"ml", []string{"cc", "cm3", "cm³", "millilitre", "millilitres", "milliliter", "milliliters"}, Volume, 1e-6, 0},
	{"l", []string{"L", "litre", "litres", "liter", "liters"}, Volume, 1e-3, 0},
	{"US qt", []string{"US-qt", "qt-US", "US-quart", "US-quarts"}, Volume, usQuart, 0},
	{"imp qt", []string{"imp-qt", "qt-imp", "UK-qt", "imp-quart", "imp-quarts", "imperial-quart", "imperial-quarts"}, Volume, impQuart, 0},

	{"g", []string{"gram", "grams"}, Mass, 1e-3, 0},
	{"kg", []string{"kgs", "kilogram", "kilograms"}, Mass, 1, 0},
	{"lb", []string{"lbs", "pound", "pounds"}, Mass, pound, 0},

	{"min", []string{"mins", "minute", "minutes"}, Time, 60, 0},
	{"s", []string{"sec", "secs", "second", "seconds"}, Time, 1, 0},
	{"h", []string{"hr", "hrs", "hour", "hours"}, Time, 3600, 0},
	{"days", []string{"d", "day"}, Time, day, 0},
	{"weeks", []string{"week"}, Time, 7 * day, 0},
	{"months", []string{"month"}, Time, year / 12, 0},
	{"years", []string{"year"}, Time, year, 0},

	{"°C", []string{"C", "deg-C", "degC", "celsius"}, Temperature, 1, 273.15},
	{"°F", []string{"F", "deg-F", "degF", "fahrenheit"}, Temperature, rankine, 459.67 * rankine},
	{"K", []string{"kelvin"}, Temperature, 1, 0},

	{"°", []string{"deg", "degree", "degrees"}, Angle, degree, 0},
	{"rad", []string{"radian", "radians"}, Angle, 1, 0},
	{"turns", []string{"turn", "rev", "revs"}, Angle, 2 * math.Pi, 0},

	{"km/h", []string{"kmh", "kph"}, Speed, 1 / 3.6, 0},
	{"mph", []string{"mi/h"}, Speed, mile / 3600, 0},
	{"m/s", nil, Speed, 1, 0},

	{"rpm", []string{"r/min", "rev/min", "1/min", "min-1"}, Rotation, perRPM, 0},
	{"rad/s", nil, Rotation, 1, 0},

	{"N", []string{"newton", "newtons"}, Force, 1, 0},
	{"kN", nil, Force, 1000, 0},
	{"kgf", []string{"kp", "kg-f"}, Force, gravity, 0},
	{"lbf", []string{"lbsf", "lb-f", "pound-force", "pounds-force"}, Force, lbf, 0},

	{"N·m", []string{"N-m", "newton-metre", "newton-metres", "newton-meter", "newton-meters"}, Torque, 1, 0},
	{"N·cm", []string{"N-cm"}, Torque, 1e-2, 0},
	{"lbf·ft", []string{"lbf-ft", "lb-ft", "lbs-ft", "ft-lbf", "ft-lb", "ft-lbs", "foot-pound", "foot-pounds", "pound-foot", "pound-feet"}, Torque, lbf * foot, 0},
	{"lbf·in", []string{"lbf-in", "lb-in", "lbs-in", "in-lbf", "in-lb", "in-lbs", "inch-pound", "inch-pounds", "pound-inch", "pound-inches"}, Torque, lbf * inch, 0},
	{"kgf·m", []string{"kgf-m", "kg-m", "m-kg", "m-kgf", "kp-m"}, Torque, gravity, 0},
	{"kgf·cm", []string{"kgf-cm", "kg-cm", "kp-cm"}, Torque, gravity / 100, 0},

	{"bar", []string{"bars"}, Pressure, 1e5, 0},
	{"kPa", nil, Pressure, 1e3, 0},
	{"MPa", nil, Pressure, 1e6, 0},
	{"Pa", nil, Pressure, 1, 0},
	{"psi", []string{"lbf/in²", "lbf/in2", "lb/in²", "lb/in2"}, Pressure, lbf / (inch * inch), 0},
	{"kgf/cm²", []string{"kgf/cm2", "kg/cm²", "kg/cm2"}, Pressure, gravity * 1e4, 0},

	{"N/mm", nil, SpringRate, 1e3, 0},
	{"kgf/mm", []string{"kg/mm"}, SpringRate, gravity * 1e3, 0},
	{"lbf/in", []string{"lb/in", "lbs/in"}, SpringRate, lbf / inch, 0},

	{"kW", nil, Power, 1e3, 0},
	{"W", nil, Power, 1, 0},
	{"metric hp", []string{"metric-hp", "hp-metric", "PS", "cv"}, Power, metricHP, 0},
	{"mechanical hp", []string{"mechanical-hp", "hp-mechanical", "bhp"}, Power, britishHP, 0},

	{"cSt", []string{"mm²/s", "mm2/s"}, Viscosity, 1e-6, 0},

	{"%", []string{"percent", "per-cent"}, Dimensionless, 1e-2, 0},
	{"×", []string{"times"}, Dimensionless, 1, 0},
}

// ambiguous lists spellings that mean two things, with what to write instead.
var ambiguous = []struct{ name, hint string }{
	{"qt", `write "US qt" or "imp qt"`},
	{"qts", `write "US qt" or "imp qt"`},
	{"quart", `write "US qt" or "imp qt"`},
	{"quarts", `write "US qt" or "imp qt"`},
	{"hp", `write "metric hp" (735.5 W) or "mechanical hp" (745.7 W)`},
	{"nm", `write "N·m" for a torque; nanometres are not used here`},
}

// ToSI converts a number in the unit to SI.
func (u Unit) ToSI(number float64) float64 { return number*u.Factor + u.Offset }

// FromSI converts an SI value to the unit.
func (u Unit) FromSI(si float64) float64 { return (si - u.Offset) / u.Factor }

// Units returns the units of a dimension, the preferred one first.
func Units(dim Dimension) []Unit {
	var out []Unit
	for _, u := range units {
		if u.Dim == dim {
			out = append(out, u)
		}
	}
	return out
}

// Find returns the unit with that symbol or name. Upper and lower case count
// only where they must ("mm" and "MM" are both millimetres; one-letter units and
// "nm" are taken as written). Spellings that mean two things are not found.
func Find(symbol string) (Unit, bool) {
	u := find([]rune(normal(symbol)))
	if u == nil {
		return Unit{}, false
	}
	return *u, true
}
