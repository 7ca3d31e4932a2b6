package mechanics

// The sources most formulas share.
const (
	khurmi    = "Khurmi & Gupta, Theory of Machines, ch. 10"
	companion = "textbook companion of machine design (FOSSEE Scilab 764)"
	machinery = "Machinery's Handbook, 31st ed."
	plain     = "by definition"
)

func capacityFunctions() []Function {
	radii := []Param{in("inner_radius", "m"), in("outer_radius", "m")}
	pack := []Param{in("friction", "1"), in("clamp", "N"), count("interfaces")}
	return []Function{
		{"rubbing_interfaces", []Param{count("driving_plates"), count("driven_plates")}, "1",
			"rubbing interfaces of plates stacked alternately", "N = n1 + n2 - 1", companion,
			func(v []float64) (float64, error) {
				n, err := Interfaces(int(v[0]), int(v[1]))
				return float64(n), err
			}},
		{"effective_radius_wear", radii, "m", "friction radius of run-in plates", "R = (Ro + Ri)/2", khurmi,
			of2(EffectiveRadiusWear)},
		{"effective_radius_pressure", radii, "m", "friction radius of new plates",
			"R = (2/3)(Ro^3 - Ri^3)/(Ro^2 - Ri^2)", khurmi, of2(EffectiveRadiusPressure)},
		{"torque_capacity", append(pack[:3:3], in("effective_radius", "m")), "N·m",
			"torque at which the pack slips", "T = mu F N R", khurmi,
			func(v []float64) (float64, error) { return TorqueCapacity(v[0], v[1], int(v[2]), v[3]) }},
		{"torque_capacity_wear", append(pack[:3:3], radii...), "N·m",
			"torque at which a run-in pack slips", "T = mu F N (Ro + Ri)/2", khurmi,
			func(v []float64) (float64, error) { return TorqueCapacityWear(v[0], v[1], int(v[2]), v[3], v[4]) }},
		{"torque_capacity_pressure", append(pack[:3:3], radii...), "N·m",
			"torque at which a new pack slips", "T = mu F N (2/3)(Ro^3 - Ri^3)/(Ro^2 - Ri^2)", khurmi,
			func(v []float64) (float64, error) { return TorqueCapacityPressure(v[0], v[1], int(v[2]), v[3], v[4]) }},
		{"clamp_needed", []Param{in("torque", "N·m"), in("friction", "1"), count("interfaces"), in("effective_radius", "m")},
			"N", "clamp force that carries a torque", "F = T/(mu N R)", khurmi,
			func(v []float64) (float64, error) { return ClampNeeded(v[0], v[1], int(v[2]), v[3]) }},
		{"clamp_from_pressure", append([]Param{in("pressure", "Pa")}, radii...), "N",
			"clamp force of a face under even pressure", "F = pi p (Ro^2 - Ri^2)", khurmi, of3(ClampFromPressure)},
		{"torque_at_clutch", []Param{in("engine_torque", "N·m"), in("primary_ratio", "1"), in("shock_factor", "1")}, "N·m",
			"torque that reaches the clutch", "T = Te i s", plain, of3(TorqueAtClutch)},
		{"slip_margin", []Param{in("capacity", "N·m"), in("engine_torque", "N·m"), in("primary_ratio", "1"), in("shock_factor", "1")},
			"1", "capacity over the torque that reaches the clutch; below 1 it slips", "T/(Te i s)", plain, of4(SlipMargin)},
		{"power", []Param{in("torque", "N·m"), in("speed", "rad/s")}, "W", "power of a torque at a speed", "P = T omega", plain,
			of2(Power)},
	}
}

func springFunctions() []Function {
	rate := in("rate", "N/m")
	return []Function{
		{"spring_rate", []Param{in("shear_modulus", "Pa"), in("wire_diameter", "m"), in("mean_diameter", "m"), in("active_coils", "1")},
			"N/m", "rate of a helical spring", "k = G d^4/(8 D^3 Na)", machinery, of4(SpringRate)},
		{"spring_force", []Param{rate, in("free_length", "m"), in("length", "m")}, "N",
			"force of a spring held at a length", "F = k (L0 - L), at least 0", plain, of3(SpringForce)},
		{"solid_height", []Param{in("wire_diameter", "m"), in("total_coils", "1")}, "m",
			"height of a coil-bound spring with ground ends", "Hs = Nt d", machinery, of2(SolidHeight)},
		{"coil_clearance", []Param{in("installed_length", "m"), in("lift", "m"), in("solid_height", "m")}, "m",
			"what is left at full lift before a spring goes solid", "c = L - x - Hs", plain, of3(CoilClearance)},
		{"clamp_of_set", []Param{count("springs"), rate, in("free_length", "m"), in("installed_length", "m")}, "N",
			"clamp force of equal springs side by side", "F = n k (L0 - L)", plain,
			func(v []float64) (float64, error) { return ClampOfSet(int(v[0]), v[1], v[2], v[3]) }},
		{"clamp_lost", []Param{count("springs"), rate, in("length", "m")}, "N",
			"clamp force lost by shorter springs or a thinner pack", "dF = n k dL", khurmi,
			func(v []float64) (float64, error) { return ClampLost(int(v[0]), v[1], v[2]) }},
		{"clamp_after_wear", []Param{in("clamp", "N"), count("springs"), rate, in("pack_wear", "m")}, "N",
			"clamp force left after the pack has lost height", "F = F0 - n k w, at least 0", khurmi,
			func(v []float64) (float64, error) { return ClampAfterWear(v[0], int(v[1]), v[2], v[3]) }},
		{"wear_before_slip", []Param{in("clamp", "N"), in("needed", "N"), count("springs"), rate}, "m",
			"pack wear after which the clutch slips", "w = (F0 - F)/(n k)", companion,
			func(v []float64) (float64, error) { return WearBeforeSlip(v[0], v[1], int(v[2]), v[3]) }},
		{"lean_angle", []Param{in("gap", "m"), in("free_length", "m")}, "rad",
			"lean of a spring against a square", "atan(e/L0)", plain, of2(LeanAngle)},
		{"lean_share", []Param{in("gap", "m"), in("free_length", "m")}, "1",
			"lean of a spring as a share of its free length", "e/L0", "JIS B 2704-2 (its form)", of2(LeanShare)},
		{"conical_flat_load", []Param{in("outer_diameter", "m"), in("inner_diameter", "m"), in("thickness", "m"), in("cone_height", "m")},
			"N", "force that presses a steel conical spring flat", "F = 4 E h t^3/((1-nu^2) K1 De^2), E = 206 GPa, nu = 0.3",
			"DIN 2092 / EN 16984", of4(steelFlatLoad)},
	}
}

func steelFlatLoad(outerDiameterM, innerDiameterM, thicknessM, coneHeightM float64) (float64, error) {
	disc, err := SteelDisc(outerDiameterM, innerDiameterM, thicknessM, coneHeightM)
	if err != nil {
		return 0, err
	}
	return ConicalFlatLoad(disc)
}

func releaseFunctions() []Function {
	return []Function{
		{"release_lift", []Param{in("lever_travel", "m"), in("free_play", "m"), in("total_ratio", "1")}, "m",
			"lift of the pressure plate for a pull of the lever", "x = (s - f)/i, at least 0", plain, of3(ReleaseLift)},
		{"clearance_per_face", []Param{in("lift", "m"), in("warp", "m"), count("interfaces")}, "m",
			"mean gap at each interface of the released pack", "c = (x - w)/N", plain,
			func(v []float64) (float64, error) { return ClearancePerFace(v[0], v[1], int(v[2])) }},
		{"hydraulic_ratio", []Param{in("master_diameter", "m"), in("slave_diameter", "m")}, "1",
			"force ratio of a hydraulic line", "(ds/dm)^2", "Esposito, Fluid Power with Applications, ex. 3-4", of2(HydraulicRatio)},
		{"hand_force", []Param{in("spring_force", "N"), in("total_ratio", "1"), in("efficiency", "1")}, "N",
			"force at the lever that holds the springs open", "F = Fs/(i e)", plain, of3(HandForce)},
		{"drag_torque", []Param{count("interfaces"), in("viscosity", "Pa·s"), in("slip_speed", "rad/s"),
			in("inner_radius", "m"), in("outer_radius", "m"), in("gap", "m")}, "N·m",
			"torque that oil carries across a released pack, near idle only", "T = N mu omega pi (Ro^4 - Ri^4)/(2 h)",
			"White, Fluid Mechanics (title from memory), prob. 1.54",
			func(v []float64) (float64, error) { return DragTorque(int(v[0]), v[1], v[2], v[3], v[4], v[5]) }},
		{"drag_ratio", []Param{in("cold_viscosity", "Pa·s"), in("hot_viscosity", "Pa·s")}, "1",
			"how many times stronger cold oil drags than hot oil", "mu cold/mu hot", plain, of2(DragRatio)},
		{"dynamic_viscosity", []Param{in("kinematic_viscosity", "m²/s"), in("density", "kg/m³")}, "Pa·s",
			"dynamic viscosity from kinematic", "mu = nu rho", plain, of2(DynamicViscosity)},
		{"kinematic_viscosity", []Param{in("temperature", "K"), in("cold_temperature", "K"), in("cold_viscosity", "m²/s"),
			in("hot_temperature", "K"), in("hot_viscosity", "m²/s")}, "m²/s",
			"viscosity of an oil from two known points", "log log(nu + 0.7) = A - B log T, nu in mm2/s",
			"short form of ASTM D341, from memory",
			func(v []float64) (float64, error) { return KinematicViscosity(v[0], v[1], v[2], v[3], v[4]) }},
	}
}
