package mechanics

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// WinterGrade is one W grade of SAE J300.
type WinterGrade struct {
	Name        string  `json:"name"`         // "10W"
	CrankingPaS float64 `json:"cranking_pas"` // greatest cold-cranking viscosity
	CrankingK   float64 `json:"cranking_k"`   // at this temperature
	MinM2PerS   float64 `json:"min_m2_per_s"` // least viscosity at 100 degrees Celsius
}

// SummerGrade is one grade of SAE J300 at 100 degrees Celsius. The range is half
// open: the upper end belongs to the next grade.
type SummerGrade struct {
	Name        string  `json:"name"` // "40"
	MinM2PerS   float64 `json:"min_m2_per_s"`
	BelowM2PerS float64 `json:"below_m2_per_s"`
}

// J300Edition names the edition of the grade tables. Older tables differ: that of
// 1999 starts SAE 20 at 5.6 mm2/s.
const J300Edition = "SAE J300, 2015 edition"

const celsius100K = 373.15

// WinterGrades lists the W grades of SAE J300, thinnest first.
// Source: SAE J300, 2015 edition, read in secondary copies.
func WinterGrades() []WinterGrade {
	return []WinterGrade{
		{"0W", 6.2, 238.15, 3.8e-6},
		{"5W", 6.6, 243.15, 3.8e-6},
		{"10W", 7.0, 248.15, 4.1e-6},
		{"15W", 7.0, 253.15, 5.6e-6},
		{"20W", 9.5, 258.15, 5.6e-6},
		{"25W", 13.0, 263.15, 9.3e-6},
	}
}

// SummerGrades lists the grades of SAE J300 at 100 degrees Celsius, thinnest first.
// The ranges of 8 to 20 overlap.
// Source: SAE J300, 2015 edition, read in secondary copies.
func SummerGrades() []SummerGrade {
	return []SummerGrade{
		{"8", 4.0e-6, 6.1e-6},
		{"12", 5.0e-6, 7.1e-6},
		{"16", 6.1e-6, 8.2e-6},
		{"20", 6.9e-6, 9.3e-6},
		{"30", 9.3e-6, 12.5e-6},
		{"40", 12.5e-6, 16.3e-6},
		{"50", 16.3e-6, 21.9e-6},
		{"60", 21.9e-6, 26.1e-6},
	}
}

// SummerGradesAt returns the names of all grades whose range holds a kinematic
// viscosity at 100 degrees Celsius in square metres per second, thinnest first.
func SummerGradesAt(m2PerS float64) []string {
	// Whole millionths of 1 mm2/s, so that 12.5 converted from mm2/s is 12.5.
	fine := func(v float64) float64 { return math.Round(v * 1e12) }
	var names []string
	for _, g := range SummerGrades() {
		if v := fine(m2PerS); v >= fine(g.MinM2PerS) && v < fine(g.BelowM2PerS) {
			names = append(names, g.Name)
		}
	}
	return names
}

// OilGrade is the label of a multigrade or single-grade oil; either part may be empty.
type OilGrade struct {
	Winter string `json:"winter,omitempty"` // "10W"
	Summer string `json:"summer,omitempty"` // "40"
}

// String writes the grade as on the can, "10W-40".
func (g OilGrade) String() string {
	if g.Winter == "" || g.Summer == "" {
		return g.Winter + g.Summer
	}
	return g.Winter + "-" + g.Summer
}

// GradeError says that a text is not a grade of SAE J300.
type GradeError struct {
	Text string // as given
	Part string // the part that is not known
}

// Error names the text and what was expected.
func (e *GradeError) Error() string {
	return fmt.Sprintf("oil grade %q: %q is not a grade of SAE J300, expected something like 10W-40", e.Text, e.Part)
}

// ParseOilGrade reads a grade as people write it: "10W-40", "SAE 10w40", "20W/50",
// "30". The error is a *GradeError.
func ParseOilGrade(text string) (OilGrade, error) {
	label := strings.ToUpper(strings.TrimSpace(text))
	label = strings.TrimSpace(strings.TrimPrefix(label, "SAE"))
	winter, summer, multigrade := strings.Cut(label, "W")
	var g OilGrade
	if multigrade {
		g.Winter = strings.TrimSpace(winter) + "W"
		if !slices.ContainsFunc(WinterGrades(), func(w WinterGrade) bool { return w.Name == g.Winter }) {
			return OilGrade{}, &GradeError{text, g.Winter}
		}
	} else {
		summer = label
	}
	g.Summer = strings.TrimSpace(strings.TrimLeft(summer, "-/ "))
	if g.Summer == "" && multigrade {
		return g, nil
	}
	if !slices.ContainsFunc(SummerGrades(), func(s SummerGrade) bool { return s.Name == g.Summer }) {
		return OilGrade{}, &GradeError{text, g.Summer}
	}
	return g, nil
}

// ThickestAt returns an upper bound in pascal seconds of the dynamic viscosity of a
// multigrade at a temperature in kelvin, by Walther's equation through its greatest
// cold-cranking viscosity and the upper end of its range at 100 degrees Celsius, with
// the density in kilograms per cubic metre taken as constant. Used against
// the hot viscosity it tells whether drag that goes away warm fits the oil; it does not
// predict a torque. Both parts of the grade must be known.
// Source: SAE J300, 2015 edition.
func (g OilGrade) ThickestAt(temperatureK, densityKgPerM3 float64) (float64, error) {
	w := slices.IndexFunc(WinterGrades(), func(w WinterGrade) bool { return w.Name == g.Winter })
	s := slices.IndexFunc(SummerGrades(), func(s SummerGrade) bool { return s.Name == g.Summer })
	if w < 0 || s < 0 {
		return 0, &GradeError{g.String(), g.String()}
	}
	if err := positive("density", densityKgPerM3); err != nil {
		return 0, err
	}
	cold, hot := WinterGrades()[w], SummerGrades()[s]
	coldM2PerS := cold.CrankingPaS / densityKgPerM3
	nu, err := KinematicViscosity(temperatureK, cold.CrankingK, coldM2PerS, celsius100K, hot.BelowM2PerS)
	if err != nil {
		return 0, err
	}
	return DynamicViscosity(nu, densityKgPerM3)
}
