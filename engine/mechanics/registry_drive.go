package mechanics

func driveFunctions() []Function {
	return []Function{
		{"play_angle", []Param{in("play", "m"), in("radius", "m")}, "rad",
			"turn that a play along the circumference allows", "j/r", plain, of2(AngleFromPlay)},
		{"wheel_angle", []Param{in("play_angle", "rad"), in("turns_per_wheel_turn", "1")}, "rad",
			"turn that a play inside the drive leaves at the rear wheel", "a/i", plain, of2(AngleAtWheel)},
		{"chain_lash", []Param{in("slack", "m"), in("run", "m"), in("rear_sprocket_radius", "m")}, "rad",
			"turn of the rear sprocket that chain slack allows", "(2 sqrt((L/2)^2 + (s/2)^2) - L)/R",
			"geometry of a run in two straight halves", of3(ChainLash)},
		{"sprocket_radius", []Param{in("pitch", "m"), count("teeth")}, "m",
			"pitch radius of a chain sprocket", "p/(2 sin(pi/z))", "geometry of a regular polygon",
			func(v []float64) (float64, error) { return SprocketRadius(v[0], int(v[1])) }},
		{"unbalance_force", []Param{in("mass", "kg"), in("radius", "m"), in("speed", "rad/s")}, "N",
			"rotating force of a mass missing off the axis", "F = m r omega^2", plain, of3(UnbalanceForce)},
		{"permissible_unbalance", []Param{in("grade", "m/s"), in("mass", "kg"), in("speed", "rad/s")}, "kg·m",
			"unbalance that a balance quality grade allows", "U = G M/omega", "ISO 21940-11", of3(PermissibleUnbalance)},
	}
}

func screwFunctions() []Function {
	thread := []Param{in("nominal_diameter", "m"), in("pitch", "m")}
	return []Function{
		{"stress_area", thread, "m²", "tensile stress area of a metric thread", "As = pi/4 ((d2 + d3)/2)^2", "ISO 898-1",
			of2(func(d, p float64) (float64, error) { return StressArea(Thread{d, p}) })},
		{"proof_load", append(thread[:2:2], in("proof_stress", "Pa")), "N",
			"load a screw must bear without lasting stretch", "As Sp", "ISO 898-1",
			of3(func(d, p, proof float64) (float64, error) { return ProofLoad(Thread{d, p}, proof) })},
		{"torque_from_preload", []Param{in("nut_factor", "1"), in("nominal_diameter", "m"), in("preload", "N")}, "N·m",
			"tightening torque for a preload", "T = K d F", "Wentzell, Machine Design, ex. 6.1", of3(TorqueFromPreload)},
		{"preload_from_torque", []Param{in("torque", "N·m"), in("nut_factor", "1"), in("nominal_diameter", "m")}, "N",
			"preload from a tightening torque", "F = T/(K d)", "Wentzell, Machine Design, ex. 6.1", of3(PreloadFromTorque)},
		{"proof_share", []Param{in("torque", "N·m"), in("nut_factor", "1"), in("nominal_diameter", "m"), in("proof_load", "N")}, "1",
			"preload over proof load of the screw, which the boss does not share", "T/(K d Fp)",
			"Wentzell, Machine Design, ex. 6.1", of4(ProofShare)},
	}
}

// gaugeFunctions serve lengths; Go callers may use the same formulas with any unit.
func gaugeFunctions() []Function {
	return []Function{
		{"gauge_uncertainty", []Param{in("limit", "m"), in("resolution", "m")}, "m",
			"standard uncertainty of one reading of a gauge", "u = sqrt(a^2 + (r/2)^2)/sqrt 3",
			"GUM (JCGM 100), type B", of2(GaugeUncertainty)},
		{"wear_used", []Param{in("new_size", "m"), in("limit", "m"), in("size_now", "m")}, "1",
			"share of the allowed wear that is gone; 1 at the limit", "(new - now)/(new - limit)", plain, of3(WearUsed)},
		{"wear_left", []Param{in("new_size", "m"), in("limit", "m"), in("size_now", "m")}, "1",
			"share of the allowed wear that is left; 0 at the limit", "1 - (new - now)/(new - limit)", plain, of3(WearLeft)},
	}
}
