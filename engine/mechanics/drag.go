package mechanics

import "math"

// DragTorque returns the torque in newton metres that oil carries across a released
// pack, T = N mu omega pi (Ro^4 - Ri^4)/(2 h), for N interfaces, dynamic viscosity
// mu in pascal seconds, slip speed omega in radians per second, radii and gap h in
// metres. It holds for a full laminar film, so near idle; at higher speed air
// enters and drag falls, and there this is only an upper bound.
// Source: White, Fluid Mechanics (title from memory), prob. 1.54.
func DragTorque(interfaces int, viscosityPaS, slipRadPerS, innerRadiusM, outerRadiusM, gapM float64) (float64, error) {
	err := firstOf(atLeast("interfaces", interfaces, 1), positive("viscosity", viscosityPaS),
		notNegative("slip speed", slipRadPerS), ring(innerRadiusM, outerRadiusM), positive("gap", gapM))
	if err != nil {
		return 0, err
	}
	i2, o2 := innerRadiusM*innerRadiusM, outerRadiusM*outerRadiusM
	polar := math.Pi / 2 * (o2 - i2) * (o2 + i2)
	return result("drag torque", float64(interfaces)*viscosityPaS*slipRadPerS*polar/gapM)
}

// DragRatio returns how many times stronger cold oil drags than hot oil through the
// same gaps, without unit: the ratio of the dynamic viscosities in pascal seconds.
func DragRatio(coldPaS, hotPaS float64) (float64, error) {
	err := firstOf(positive("cold viscosity", coldPaS), positive("hot viscosity", hotPaS))
	if err != nil {
		return 0, err
	}
	return result("drag ratio", coldPaS/hotPaS)
}

// DynamicViscosity returns mu = nu rho in pascal seconds for kinematic viscosity nu
// in square metres per second and density rho in kilograms per cubic metre (engine
// oil is about 850, from memory).
func DynamicViscosity(kinematicM2PerS, densityKgPerM3 float64) (float64, error) {
	err := firstOf(positive("kinematic viscosity", kinematicM2PerS), positive("density", densityKgPerM3))
	if err != nil {
		return 0, err
	}
	return result("dynamic viscosity", kinematicM2PerS*densityKgPerM3)
}

// leastWaltherM2S is where the short form of Walther's equation stops holding.
const leastWaltherM2S = 2e-6

// KinematicViscosity returns the viscosity in square metres per second of a mineral
// oil at a temperature, from its viscosity at two others, by Walther's equation
// log log(nu + 0.7) = A - B log T with nu in mm2/s and T in kelvin. Temperatures
// are in kelvin, viscosities in square metres per second and at least 2e-6; the
// hotter of the two points must be the thinner.
// Source: the short form of ASTM D341, from memory. Between the two points it
// interpolates; outside them, and below the cloud point, it is a rough guide.
func KinematicViscosity(temperatureK, coldK, coldM2PerS, hotK, hotM2PerS float64) (float64, error) {
	err := firstOf(positive("temperature", temperatureK), positive("cold temperature", coldK),
		above("hot temperature", hotK, "cold temperature", coldK),
		inside("hot viscosity", hotM2PerS, leastWaltherM2S, math.MaxFloat64),
		above("cold viscosity", coldM2PerS, "hot viscosity", hotM2PerS))
	if err != nil {
		return 0, err
	}
	cold, hot := waltherZ(coldM2PerS), waltherZ(hotM2PerS)
	slope := (cold - hot) / math.Log(hotK/coldK)
	z := hot + slope*math.Log(hotK/temperatureK)
	mm2PerS := math.Pow(10, math.Pow(10, z)) - 0.7
	if mm2PerS < leastWaltherM2S*1e6*(1-1e-9) {
		return 0, &DomainError{"temperature", temperatureK, "a temperature at which the oil is thicker than 2 mm2/s"}
	}
	return result("kinematic viscosity", mm2PerS*1e-6)
}

// waltherZ is the ordinate in which an oil's viscosity over log T is a straight line.
func waltherZ(m2PerS float64) float64 {
	return math.Log10(math.Log10(m2PerS*1e6 + 0.7))
}
