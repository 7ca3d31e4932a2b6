package mechanics

import "math"

// DiscConstantDIN returns K1 of a conical (Belleville) spring, without unit,
// K1 = (1/pi) ((c-1)/c)^2 / ((c+1)/(c-1) - 2/ln c), for the diameter ratio
// c = De/Di above 1.
// Source: DIN 2092 / EN 16984, as given in Machinery's Handbook, 31st ed., p. 362.
func DiscConstantDIN(diameterRatio float64) (float64, error) {
	if err := above("diameter ratio", diameterRatio, "smallest ratio", 1.01); err != nil {
		return 0, err
	}
	c := diameterRatio
	share := (c - 1) / c
	return result("disc constant", share*share/math.Pi/((c+1)/(c-1)-2/math.Log(c)))
}

// DiscConstantAlmen returns the constant M of Almen and Laszlo (1936), without unit,
// M = 6/(pi ln c) ((c-1)/c)^2, for the diameter ratio c = Do/Di above 1. It is below
// K1 by about 0.5 % at c = 1.75, so a force must say which of the two it used.
func DiscConstantAlmen(diameterRatio float64) (float64, error) {
	if err := above("diameter ratio", diameterRatio, "smallest ratio", 1.01); err != nil {
		return 0, err
	}
	share := (diameterRatio - 1) / diameterRatio
	return result("disc constant", 6*share*share/(math.Pi*math.Log(diameterRatio)))
}

// Disc is one conical spring, such as an anti-rattle spring, unloaded.
type Disc struct {
	OuterDiameterM float64 `json:"outer_diameter_m"` // of the circle on which the load acts
	ThicknessM     float64 `json:"thickness_m"`
	ConeHeightM    float64 `json:"cone_height_m"` // free height less thickness
	Constant       float64 `json:"constant"`      // K1 or M for its diameter ratio
	YoungPa        float64 `json:"young_pa"`
	Poisson        float64 `json:"poisson"`
}

func (d Disc) check() error {
	return firstOf(positive("outer diameter", d.OuterDiameterM), positive("thickness", d.ThicknessM),
		notNegative("cone height", d.ConeHeightM), positive("disc constant", d.Constant),
		positive("Young's modulus", d.YoungPa), inside("Poisson's ratio", d.Poisson, 0, 0.5))
}

// ConicalForce returns the force in newtons of a conical spring pressed by s metres,
// F = 4 E s/((1-nu^2) K De^2) [(h-s)(h-s/2) t + t^3], for cone height h and
// thickness t in metres, Young's modulus E in pascals and Poisson's ratio nu. It holds
// for a thin disc of rectangular section with edge loads, from s = 0 to flat.
// Source: DIN 2092 / EN 16984; Almen & Laszlo, Trans. ASME 58 (1936).
func ConicalForce(d Disc, deflectionM float64) (float64, error) {
	if err := firstOf(d.check(), inside("deflection", deflectionM, 0, d.ConeHeightM)); err != nil {
		return 0, err
	}
	s, h, t := deflectionM, d.ConeHeightM, d.ThicknessM
	stiffness := 4 * d.YoungPa * s / ((1 - d.Poisson*d.Poisson) * d.Constant * d.OuterDiameterM * d.OuterDiameterM)
	return result("conical spring force", stiffness*((h-s)*(h-s/2)*t+t*t*t))
}

// ConicalFlatLoad returns the force in newtons that presses a conical spring flat;
// ConicalForce at a deflection of the whole cone height.
func ConicalFlatLoad(d Disc) (float64, error) {
	return ConicalForce(d, d.ConeHeightM)
}

// SteelDisc returns a disc of spring steel (E 206 GPa, nu 0.3) with the DIN constant
// for its diameters. All lengths are in metres.
// Source of the material values: Machinery's Handbook, 31st ed., p. 362.
func SteelDisc(outerDiameterM, innerDiameterM, thicknessM, coneHeightM float64) (Disc, error) {
	err := firstOf(positive("inner diameter", innerDiameterM),
		above("outer diameter", outerDiameterM, "inner diameter", innerDiameterM))
	if err != nil {
		return Disc{}, err
	}
	constant, err := DiscConstantDIN(outerDiameterM / innerDiameterM)
	if err != nil {
		return Disc{}, err
	}
	d := Disc{outerDiameterM, thicknessM, coneHeightM, constant, 206e9, 0.3}
	return d, d.check()
}

// ConicalShape names the form of a conical spring's force curve.
type ConicalShape string

// The forms of a force curve, by the ratio of cone height to thickness.
const (
	NearLinear   ConicalShape = "near linear"   // up to 0.4
	Degressive   ConicalShape = "degressive"    // force always rises, more slowly
	SnapsThrough ConicalShape = "snaps through" // above sqrt 2: force falls again before flat
)

// ShapeOfConical returns the form of the force curve for a cone height and a
// thickness in metres. The bound sqrt 2 follows from the formula of ConicalForce;
// the bound 0.4 is a convention.
func ShapeOfConical(coneHeightM, thicknessM float64) (ConicalShape, error) {
	err := firstOf(notNegative("cone height", coneHeightM), positive("thickness", thicknessM))
	switch ratio := coneHeightM / thicknessM; {
	case err != nil:
		return "", err
	case ratio <= 0.4:
		return NearLinear, nil
	case ratio <= math.Sqrt2:
		return Degressive, nil
	}
	return SnapsThrough, nil
}
