package mechanics

import "math"

// UnbalanceForce returns the rotating force in newtons of a mass off the axis, or of
// one that is missing there, F = m r omega^2, for mass m in kilograms, radius r
// in metres and speed omega in radians per second. A basket with a finger gone is
// first unsafe for its strength and the debris; this force comes second.
func UnbalanceForce(massKg, radiusM, speedRadPerS float64) (float64, error) {
	err := firstOf(notNegative("mass", massKg), notNegative("radius", radiusM),
		notNegative("speed", speedRadPerS))
	if err != nil {
		return 0, err
	}
	return result("unbalance force", massKg*radiusM*speedRadPerS*speedRadPerS)
}

// PermissibleUnbalance returns the unbalance in kilogram metres that a balance
// quality grade allows, U = G M/omega, for grade G in metres per second (G 6.3 is
// 0.0063), rotor mass M in kilograms and top speed omega in radians per second. Which
// grade suits a clutch is not published; grades 16 and 40 are for drive parts.
// Source: ISO 21940-11.
func PermissibleUnbalance(gradeMPerS, massKg, speedRadPerS float64) (float64, error) {
	err := firstOf(positive("balance grade", gradeMPerS), positive("mass", massKg),
		positive("speed", speedRadPerS))
	if err != nil {
		return 0, err
	}
	return result("permissible unbalance", gradeMPerS*massKg/speedRadPerS)
}

// OffAxisMass is a mass at a radius and an angle on a rotor.
type OffAxisMass struct {
	MassKg   float64 `json:"mass_kg"`
	RadiusM  float64 `json:"radius_m"`
	AngleRad float64 `json:"angle_rad"`
}

// Unbalance returns the size in kilogram metres and the direction in radians, from 0
// to below 2 pi, of the sum of masses in one plane. A mass that balances them lies
// opposite. No masses give 0 and 0.
// Source: Sarkar, Theory of Machines, illustration 8-1.
func Unbalance(masses []OffAxisMass) (sizeKgM, angleRad float64, err error) {
	var x, y float64
	for _, m := range masses {
		err = firstOf(notNegative("mass", m.MassKg), notNegative("radius", m.RadiusM), finite("angle", m.AngleRad))
		if err != nil {
			return 0, 0, err
		}
		sin, cos := math.Sincos(m.AngleRad)
		x, y = x+m.MassKg*m.RadiusM*cos, y+m.MassKg*m.RadiusM*sin
	}
	sizeKgM, err = result("unbalance", math.Hypot(x, y))
	if angleRad = math.Atan2(y, x); angleRad < 0 {
		angleRad += 2 * math.Pi
	}
	return sizeKgM, angleRad, err
}
