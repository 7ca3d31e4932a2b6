package mechanics

// ReleaseLift returns the lift of the pressure plate in metres that a pull of the
// lever gives, x = (s - f)/i, for lever travel s and free play f, both in metres at
// the lever's end, and the whole ratio i (lever travel per lift: lever, arm or
// hydraulics multiplied). Free play beyond the travel gives no lift.
// Lost motion and stretch are not in it, so it is an upper bound.
func ReleaseLift(leverTravelM, freePlayM, totalRatio float64) (float64, error) {
	err := firstOf(notNegative("lever travel", leverTravelM), notNegative("free play", freePlayM),
		positive("ratio", totalRatio))
	if err != nil {
		return 0, err
	}
	return result("lift", max(0, leverTravelM-freePlayM)/totalRatio)
}

// ClearancePerFace returns the mean gap in metres at each rubbing interface of the
// released pack, c = (x - w)/N, for lift x and summed plate warp w in metres and N
// interfaces. Zero or less means that the plates still touch. Real gaps are
// uneven, so the smallest is below this mean.
func ClearancePerFace(liftM, warpM float64, interfaces int) (float64, error) {
	err := firstOf(notNegative("lift", liftM), notNegative("warp", warpM),
		atLeast("interfaces", interfaces, 1))
	if err != nil {
		return 0, err
	}
	return result("clearance per face", (liftM-warpM)/float64(interfaces))
}

// HydraulicRatio returns the force ratio of a line without unit, slave area over
// master area, (ds/dm)^2, for piston diameters in metres. Force is multiplied and
// travel divided by it. It holds for a full line without air and rigid hoses.
// Source: Esposito, Fluid Power with Applications, ex. 3-4.
func HydraulicRatio(masterDiameterM, slaveDiameterM float64) (float64, error) {
	err := firstOf(positive("master piston diameter", masterDiameterM),
		positive("slave piston diameter", slaveDiameterM))
	if err != nil {
		return 0, err
	}
	ratio := slaveDiameterM / masterDiameterM
	return result("hydraulic ratio", ratio*ratio)
}

// Lever is a force and a travel at one end of a release chain.
type Lever struct {
	ForceN  float64 `json:"force_n"`
	TravelM float64 `json:"travel_m"`
}

// Through carries a force and a travel through ratios that multiply the force and
// divide the travel, without friction; work in equals work out.
func (l Lever) Through(ratios ...float64) (Lever, error) {
	err := firstOf(notNegative("force", l.ForceN), notNegative("travel", l.TravelM))
	for _, r := range ratios {
		if err = firstOf(err, positive("ratio", r)); err != nil {
			return Lever{}, err
		}
		l.ForceN *= r
		l.TravelM /= r
	}
	_, overflow := result("force and travel through the ratios", l.ForceN+l.TravelM)
	return l, firstOf(err, overflow)
}

// HandForce returns the force in newtons at the lever that holds the springs open,
// F = Fs/(i e), for spring force Fs at full lift in newtons, the whole ratio i and the
// efficiency e of cable or hydraulics, above 0 and at most 1.
func HandForce(springForceN, totalRatio, efficiency float64) (float64, error) {
	err := firstOf(notNegative("spring force", springForceN), positive("ratio", totalRatio),
		positive("efficiency", efficiency), inside("efficiency", efficiency, 0, 1))
	if err != nil {
		return 0, err
	}
	return result("hand force", springForceN/(totalRatio*efficiency))
}
