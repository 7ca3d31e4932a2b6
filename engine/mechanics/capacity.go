package mechanics

import "math"

// Interfaces returns the number of rubbing interfaces of plates stacked alternately,
// N = n1 + n2 - 1, for n1 driving and n2 driven plates. With a plain plate at
// both ends that is twice the number of double-faced friction plates.
// Both counts must be at least 1.
// Source: textbook companion of machine design (FOSSEE Scilab 764), ex. 11.8.
func Interfaces(drivingPlates, drivenPlates int) (int, error) {
	err := firstOf(atLeast("driving plates", drivingPlates, 1), atLeast("driven plates", drivenPlates, 1))
	if err != nil {
		return 0, err
	}
	return drivingPlates + drivenPlates - 1, nil
}

// EffectiveRadiusWear returns the friction radius in metres of a run-in face
// (uniform wear), R = (Ro + Ri)/2, for the inner and outer radius of the contact
// band in metres. It needs 0 <= Ri < Ro.
// Source: Khurmi & Gupta, Theory of Machines, ch. 10.
func EffectiveRadiusWear(innerRadiusM, outerRadiusM float64) (float64, error) {
	if err := ring(innerRadiusM, outerRadiusM); err != nil {
		return 0, err
	}
	return result("effective radius", innerRadiusM/2+outerRadiusM/2)
}

// EffectiveRadiusPressure returns the friction radius in metres of a new, flat
// face (uniform pressure), R = (2/3)(Ro^3 - Ri^3)/(Ro^2 - Ri^2). It is never
// smaller than the radius of uniform wear and exceeds it by 1 % at Ri/Ro = 0.7.
// It needs 0 <= Ri < Ro, in metres.
// Source: Khurmi & Gupta, Theory of Machines, ch. 10.
func EffectiveRadiusPressure(innerRadiusM, outerRadiusM float64) (float64, error) {
	if err := ring(innerRadiusM, outerRadiusM); err != nil {
		return 0, err
	}
	// Divided through by Ro - Ri, so that a narrow ring loses no digits.
	i, o := innerRadiusM, outerRadiusM
	return result("effective radius", 2.0/3.0*(o+i*(i/(o+i))))
}

// TorqueCapacity returns the torque in newton metres at which the pack slips,
// T = mu F N R, for friction coefficient mu (no unit), clamp force F in newtons,
// N rubbing interfaces and effective radius R in metres. It holds for static
// clamping with every interface carrying the whole clamp force.
// Source: Khurmi & Gupta, Theory of Machines, ch. 10.
func TorqueCapacity(friction, clampN float64, interfaces int, effectiveRadiusM float64) (float64, error) {
	err := firstOf(positive("friction coefficient", friction), notNegative("clamp force", clampN),
		atLeast("interfaces", interfaces, 1), positive("effective radius", effectiveRadiusM))
	if err != nil {
		return 0, err
	}
	return result("torque capacity", friction*clampN*float64(interfaces)*effectiveRadiusM)
}

// TorqueCapacityWear is TorqueCapacity of a run-in face between two radii in metres.
// This is the figure for a clutch in service.
func TorqueCapacityWear(friction, clampN float64, interfaces int, innerRadiusM, outerRadiusM float64) (float64, error) {
	radiusM, err := EffectiveRadiusWear(innerRadiusM, outerRadiusM)
	if err != nil {
		return 0, err
	}
	return TorqueCapacity(friction, clampN, interfaces, radiusM)
}

// TorqueCapacityPressure is TorqueCapacity of a new, flat face between two radii
// in metres.
func TorqueCapacityPressure(friction, clampN float64, interfaces int, innerRadiusM, outerRadiusM float64) (float64, error) {
	radiusM, err := EffectiveRadiusPressure(innerRadiusM, outerRadiusM)
	if err != nil {
		return 0, err
	}
	return TorqueCapacity(friction, clampN, interfaces, radiusM)
}

// ClampNeeded returns the clamp force in newtons that carries a torque in newton
// metres, F = T/(mu N R); TorqueCapacity solved for the force.
func ClampNeeded(torqueNm, friction float64, interfaces int, effectiveRadiusM float64) (float64, error) {
	err := firstOf(notNegative("torque", torqueNm), positive("friction coefficient", friction),
		atLeast("interfaces", interfaces, 1), positive("effective radius", effectiveRadiusM))
	if err != nil {
		return 0, err
	}
	return result("clamp force", torqueNm/(friction*float64(interfaces)*effectiveRadiusM))
}

// InterfacesNeeded returns how many rubbing interfaces carry a torque in newton
// metres, N = (1 + allowance) T/(mu F R), not rounded: a pack needs the next whole
// number up. The allowance covers the face lost to slots and grooves, 0.05 for 5 %.
// Source: textbook companion of machine design (FOSSEE Scilab 764), ex. 11.7.
func InterfacesNeeded(torqueNm, friction, clampN, effectiveRadiusM, allowance float64) (float64, error) {
	err := firstOf(notNegative("torque", torqueNm), positive("friction coefficient", friction),
		positive("clamp force", clampN), positive("effective radius", effectiveRadiusM),
		notNegative("allowance", allowance))
	if err != nil {
		return 0, err
	}
	return result("interfaces", (1+allowance)*torqueNm/(friction*clampN*effectiveRadiusM))
}

// ClampFromPeakPressure returns the clamp force in newtons of a run-in face whose
// pressure peaks at the inner edge, F = 2 pi pmax Ri (Ro - Ri), with pmax in
// pascals and the radii in metres; Ri must be above 0.
// Source: Khurmi & Gupta, Theory of Machines, ex. 10.23.
func ClampFromPeakPressure(peakPressurePa, innerRadiusM, outerRadiusM float64) (float64, error) {
	err := firstOf(notNegative("peak pressure", peakPressurePa), positive("inner radius", innerRadiusM),
		ring(innerRadiusM, outerRadiusM))
	if err != nil {
		return 0, err
	}
	return result("clamp force", 2*math.Pi*peakPressurePa*innerRadiusM*(outerRadiusM-innerRadiusM))
}

// ClampFromPressure returns the clamp force in newtons of a face under even
// pressure in pascals, F = pi p (Ro^2 - Ri^2), with the radii in metres.
func ClampFromPressure(pressurePa, innerRadiusM, outerRadiusM float64) (float64, error) {
	err := firstOf(notNegative("pressure", pressurePa), ring(innerRadiusM, outerRadiusM))
	if err != nil {
		return 0, err
	}
	return result("clamp force", pressurePa*ringAreaM2(innerRadiusM, outerRadiusM))
}

func ringAreaM2(innerRadiusM, outerRadiusM float64) float64 {
	return math.Pi * (outerRadiusM - innerRadiusM) * (outerRadiusM + innerRadiusM)
}

// FacePressure is the contact pressure of a run-in face under uniform wear, where
// p r is the same at every radius r.
type FacePressure struct {
	PeakPa float64 `json:"peak_pa"` // at the inner edge
	EdgePa float64 `json:"edge_pa"` // at the outer edge
	MeanPa float64 `json:"mean_pa"` // force over area
}

// FacePressures returns the pressures in pascals of a run-in face under a clamp
// force in newtons between two radii in metres, the inner one above 0.
// Source: Khurmi & Gupta, Theory of Machines, ex. 10.22.
func FacePressures(clampN, innerRadiusM, outerRadiusM float64) (FacePressure, error) {
	err := firstOf(notNegative("clamp force", clampN), positive("inner radius", innerRadiusM),
		ring(innerRadiusM, outerRadiusM))
	if err != nil {
		return FacePressure{}, err
	}
	width := 2 * math.Pi * (outerRadiusM - innerRadiusM)
	p := FacePressure{
		PeakPa: clampN / (width * innerRadiusM),
		EdgePa: clampN / (width * outerRadiusM),
		MeanPa: clampN / ringAreaM2(innerRadiusM, outerRadiusM),
	}
	_, err = result("face pressure", p.PeakPa+p.EdgePa+p.MeanPa)
	return p, err
}

// TorqueAtClutch returns the torque in newton metres that reaches the clutch,
// T = Te i s, for engine torque Te in newton metres, primary ratio i (engine turns
// per turn of the basket) and a shock factor s of at least 1 for the way it is ridden.
// The shock factor is a choice of the user, not a published figure.
func TorqueAtClutch(engineTorqueNm, primaryRatio, shockFactor float64) (float64, error) {
	err := firstOf(positive("engine torque", engineTorqueNm), positive("primary ratio", primaryRatio),
		inside("shock factor", shockFactor, 1, 10))
	if err != nil {
		return 0, err
	}
	return result("torque at the clutch", engineTorqueNm*primaryRatio*shockFactor)
}

// SlipMargin returns capacity over the torque that reaches the clutch, without
// unit: below 1 the clutch slips. Torques are in newton metres; see TorqueAtClutch.
func SlipMargin(capacityNm, engineTorqueNm, primaryRatio, shockFactor float64) (float64, error) {
	if err := notNegative("torque capacity", capacityNm); err != nil {
		return 0, err
	}
	loadNm, err := TorqueAtClutch(engineTorqueNm, primaryRatio, shockFactor)
	if err != nil {
		return 0, err
	}
	return result("slip margin", capacityNm/loadNm)
}

// Power returns the power in watts, P = T omega, of a torque in newton metres at a
// speed in radians per second.
func Power(torqueNm, speedRadPerS float64) (float64, error) {
	err := firstOf(finite("torque", torqueNm), notNegative("speed", speedRadPerS))
	if err != nil {
		return 0, err
	}
	return result("power", torqueNm*speedRadPerS)
}
