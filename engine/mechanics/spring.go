package mechanics

import "math"

// SpringRate returns the rate in newtons per metre of a helical compression spring,
// k = G d^4/(8 D^3 Na), for shear modulus G in pascals, wire diameter d and mean
// coil diameter D in metres and Na active coils. It needs D above d.
// Source: Machinery's Handbook, 31st ed., p. 318.
func SpringRate(shearModulusPa, wireM, meanDiameterM, activeCoils float64) (float64, error) {
	err := firstOf(positive("shear modulus", shearModulusPa), positive("wire diameter", wireM),
		above("mean coil diameter", meanDiameterM, "wire diameter", wireM),
		positive("active coils", activeCoils))
	if err != nil {
		return 0, err
	}
	index := wireM / meanDiameterM
	return result("spring rate", shearModulusPa*wireM*index*index*index/(8*activeCoils))
}

// SpringForce returns the force in newtons of a spring held at a length in metres,
// F = k (L0 - L), for rate k in newtons per metre and free length L0 in metres.
// A spring held longer than its free length presses with nothing.
func SpringForce(rateNPerM, freeLengthM, lengthM float64) (float64, error) {
	err := firstOf(positive("spring rate", rateNPerM), positive("free length", freeLengthM),
		positive("length", lengthM))
	if err != nil {
		return 0, err
	}
	return result("spring force", rateNPerM*math.Max(0, freeLengthM-lengthM))
}

// SolidHeight returns the height in metres of a coil-bound spring with closed and
// ground ends, Hs = Nt d, for Nt total coils (active coils plus 2) of wire d in metres.
// Source: Machinery's Handbook, 31st ed., p. 318.
func SolidHeight(wireM, totalCoils float64) (float64, error) {
	err := firstOf(positive("wire diameter", wireM), positive("total coils", totalCoils))
	if err != nil {
		return 0, err
	}
	return result("solid height", wireM*totalCoils)
}

// FreeLength returns the free length in metres of a spring that takes a deflection
// and then still has a gap between neighbouring coils, L0 = Nt d + s + (Nt - 1) g,
// all lengths in metres.
// Source: textbook companion of machine design (FOSSEE Scilab 764), ex. 10.7.
func FreeLength(wireM, totalCoils, deflectionM, gapM float64) (float64, error) {
	solidM, err := SolidHeight(wireM, totalCoils)
	if err != nil {
		return 0, err
	}
	err = firstOf(inside("total coils", totalCoils, 1, math.MaxFloat64),
		notNegative("deflection", deflectionM), notNegative("gap", gapM))
	if err != nil {
		return 0, err
	}
	return result("free length", solidM+deflectionM+(totalCoils-1)*gapM)
}

// CoilClearance returns what is left in metres before a spring goes solid when the
// pressure plate lifts, c = L - lift - Hs, for installed length L, lift and solid
// height Hs in metres. Negative means that the spring is coil-bound before full lift.
func CoilClearance(installedLengthM, liftM, solidHeightM float64) (float64, error) {
	err := firstOf(positive("installed length", installedLengthM), notNegative("lift", liftM),
		positive("solid height", solidHeightM))
	if err != nil {
		return 0, err
	}
	return result("coil clearance", installedLengthM-liftM-solidHeightM)
}

// ClampOfSet returns the clamp force in newtons of equal springs side by side,
// F = n k (L0 - L), with the rate of one spring in newtons per metre and free and
// installed length in metres.
func ClampOfSet(springs int, rateNPerM, freeLengthM, installedLengthM float64) (float64, error) {
	if err := atLeast("springs", springs, 1); err != nil {
		return 0, err
	}
	forceN, err := SpringForce(rateNPerM, freeLengthM, installedLengthM)
	if err != nil {
		return 0, err
	}
	return result("clamp force", float64(springs)*forceN)
}

// ClampLost returns the clamp force in newtons that a set loses when every spring
// stands longer by the given length in metres, or has become shorter by it,
// dF = n k dL. A pack thinner by dL lets the springs out by just as much. It holds
// while all springs stay compressed; ClampAfterWear has the floor at zero.
// Source: Khurmi & Gupta, Theory of Machines, ex. 10.30.
func ClampLost(springs int, rateNPerM, lengthM float64) (float64, error) {
	err := firstOf(atLeast("springs", springs, 1), positive("spring rate", rateNPerM),
		notNegative("lost length", lengthM))
	if err != nil {
		return 0, err
	}
	return result("lost clamp force", float64(springs)*rateNPerM*lengthM)
}

// ClampAfterWear returns the clamp force in newtons left after the pack has lost
// height, F = max(0, F0 - n k w), for clamp F0 in newtons when new and wear w of the
// whole pack in metres.
func ClampAfterWear(clampN float64, springs int, rateNPerM, packWearM float64) (float64, error) {
	lostN, err := ClampLost(springs, rateNPerM, packWearM)
	if err = firstOf(notNegative("clamp force", clampN), err); err != nil {
		return 0, err
	}
	return math.Max(0, clampN-lostN), nil
}

// WearBeforeSlip returns the pack wear in metres after which the clamp force no
// longer carries the torque, w = (F0 - F)/(n k), for clamp F0 now and F needed in
// newtons. Negative means that the clutch should slip already.
// Source: textbook companion of machine design (FOSSEE Scilab 764), ex. 11.6.
func WearBeforeSlip(clampN, neededN float64, springs int, rateNPerM float64) (float64, error) {
	err := firstOf(notNegative("clamp force", clampN), notNegative("needed clamp force", neededN),
		atLeast("springs", springs, 1), positive("spring rate", rateNPerM))
	if err != nil {
		return 0, err
	}
	return result("wear before slip", (clampN-neededN)/(float64(springs)*rateNPerM))
}

// LeanAngle returns the lean in radians of a spring stood on its end against a
// square, atan(e/L0), for the gap e at the top and the free length L0 in metres.
func LeanAngle(gapM, freeLengthM float64) (float64, error) {
	share, err := LeanShare(gapM, freeLengthM)
	return math.Atan(share), err
}

// LeanShare returns the lean of a spring as a share of its free length, e/L0,
// without unit; the form in which standards give it. Lengths are in metres.
func LeanShare(gapM, freeLengthM float64) (float64, error) {
	err := firstOf(notNegative("lean", gapM), positive("free length", freeLengthM))
	if err != nil {
		return 0, err
	}
	return result("lean", gapM/freeLengthM)
}
