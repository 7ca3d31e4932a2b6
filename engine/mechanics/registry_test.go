package mechanics

import (
	"errors"
	"math"
	"regexp"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// dimensions gives the exponents of metre, kilogram, second and kelvin of each unit.
var dimensions = map[string][4]float64{
	"1": {}, "rad": {}, "m": {1}, "m²": {2}, "m²/s": {2, 0, -1}, "m/s": {1, 0, -1}, "kg": {0, 1}, "kg·m": {1, 1},
	"kg/m³": {-3, 1}, "K": {0, 0, 0, 1}, "rad/s": {0, 0, -1}, "N": {1, 1, -2}, "N·m": {2, 1, -2}, "N/m": {0, 1, -2},
	"Pa": {-1, 1, -2}, "Pa·s": {-1, 1, -1}, "W": {2, 1, -3},
}

// samples holds arguments inside the range of each function and the result of the Go
// function that stands behind the name.
func samples(t *testing.T) map[string]struct {
	args []float64
	want float64
} {
	f := must[float64](t)
	type sample = struct {
		args []float64
		want float64
	}
	return map[string]sample{
		"rubbing_interfaces":        {[]float64{7, 6}, 12},
		"effective_radius_wear":     {[]float64{.05, .07}, f(EffectiveRadiusWear(.05, .07))},
		"effective_radius_pressure": {[]float64{.05, .07}, f(EffectiveRadiusPressure(.05, .07))},
		"torque_capacity":           {[]float64{.12, 1100, 14, .06}, f(TorqueCapacity(.12, 1100, 14, .06))},
		"torque_capacity_wear":      {[]float64{.12, 1100, 14, .05, .07}, f(TorqueCapacityWear(.12, 1100, 14, .05, .07))},
		"torque_capacity_pressure":  {[]float64{.12, 1100, 14, .05, .07}, f(TorqueCapacityPressure(.12, 1100, 14, .05, .07))},
		"clamp_needed":              {[]float64{100, .12, 14, .06}, f(ClampNeeded(100, .12, 14, .06))},
		"clamp_from_pressure":       {[]float64{2e5, .05, .07}, f(ClampFromPressure(2e5, .05, .07))},
		"torque_at_clutch":          {[]float64{60, 1.9, 1.2}, f(TorqueAtClutch(60, 1.9, 1.2))},
		"slip_margin":               {[]float64{200, 60, 1.9, 1.2}, f(SlipMargin(200, 60, 1.9, 1.2))},
		"power":                     {[]float64{60, 500}, 30000},
		"spring_rate":               {[]float64{8e10, .002, .014, 6}, f(SpringRate(8e10, .002, .014, 6))},
		"spring_force":              {[]float64{2e4, .04, .03}, f(SpringForce(2e4, .04, .03))},
		"solid_height":              {[]float64{.002, 8}, f(SolidHeight(.002, 8))},
		"coil_clearance":            {[]float64{.03, .002, .016}, f(CoilClearance(.03, .002, .016))},
		"clamp_of_set":              {[]float64{5, 2e4, .04, .03}, f(ClampOfSet(5, 2e4, .04, .03))},
		"clamp_lost":                {[]float64{5, 2e4, .001}, f(ClampLost(5, 2e4, .001))},
		"clamp_after_wear":          {[]float64{1000, 5, 2e4, .001}, f(ClampAfterWear(1000, 5, 2e4, .001))},
		"wear_before_slip":          {[]float64{1000, 800, 5, 2e4}, f(WearBeforeSlip(1000, 800, 5, 2e4))},
		"lean_angle":                {[]float64{.002, .04}, f(LeanAngle(.002, .04))},
		"lean_share":                {[]float64{.002, .04}, f(LeanShare(.002, .04))},
		"conical_flat_load":         {[]float64{.05, .0254, .002, .0014}, f(steelFlatLoad(.05, .0254, .002, .0014))},
		"release_lift":              {[]float64{.075, .015, 40}, f(ReleaseLift(.075, .015, 40))},
		"clearance_per_face":        {[]float64{.0015, .0001, 14}, f(ClearancePerFace(.0015, .0001, 14))},
		"hydraulic_ratio":           {[]float64{.014, .035}, f(HydraulicRatio(.014, .035))},
		"hand_force":                {[]float64{1200, 20, .75}, f(HandForce(1200, 20, .75))},
		"drag_torque":               {[]float64{14, .07, 100, .05, .07, .0002}, f(DragTorque(14, .07, 100, .05, .07, .0002))},
		"drag_ratio":                {[]float64{7, .012}, f(DragRatio(7, .012))},
		"dynamic_viscosity":         {[]float64{1e-5, 850}, f(DynamicViscosity(1e-5, 850))},
		"kinematic_viscosity":       {[]float64{340, 313.15, 1e-4, 373.15, 1.4e-5}, f(KinematicViscosity(340, 313.15, 1e-4, 373.15, 1.4e-5))},
		"play_angle":                {[]float64{.001, .05}, f(AngleFromPlay(.001, .05))},
		"wheel_angle":               {[]float64{.02, 8}, f(AngleAtWheel(.02, 8))},
		"chain_lash":                {[]float64{.03, .6, .09}, f(ChainLash(.03, .6, .09))},
		"sprocket_radius":           {[]float64{.015875, 45}, f(SprocketRadius(.015875, 45))},
		"unbalance_force":           {[]float64{.01, .07, 500}, f(UnbalanceForce(.01, .07, 500))},
		"permissible_unbalance":     {[]float64{.04, 3, 500}, f(PermissibleUnbalance(.04, 3, 500))},
		"stress_area":               {[]float64{.006, .001}, f(StressArea(m6))},
		"proof_load":                {[]float64{.006, .001, 580e6}, f(ProofLoad(m6, 580e6))},
		"torque_from_preload":       {[]float64{.2, .006, 8700}, f(TorqueFromPreload(.2, .006, 8700))},
		"preload_from_torque":       {[]float64{10, .2, .006}, f(PreloadFromTorque(10, .2, .006))},
		"proof_share":               {[]float64{10, .2, .006, 11600}, f(ProofShare(10, .2, .006, 11600))},
		"gauge_uncertainty":         {[]float64{5e-5, 5e-5}, f(GaugeUncertainty(5e-5, 5e-5))},
		"wear_used":                 {[]float64{.003, .0026, .0029}, f(WearUsed(.003, .0026, .0029))},
		"wear_left":                 {[]float64{.003, .0026, .0029}, f(WearLeft(.003, .0026, .0029))},
	}
}

func TestFunctionsCallWhatTheyName(t *testing.T) {
	all := samples(t)
	for _, f := range Functions() {
		s, ok := all[f.Name]
		if !ok {
			t.Errorf("%s has no sample", f.Name)
			continue
		}
		got(f.Call(s.args))(t, f.Name, s.want, 1e-12)
		delete(all, f.Name)
	}
	for name := range all {
		t.Errorf("%s is not a function", name)
	}
}

func TestFunctionsAreDescribed(t *testing.T) {
	snake := regexp.MustCompile(`^[a-z]+(_[a-z]+)*$`)
	seen := map[string]bool{}
	for _, f := range Functions() {
		if seen[f.Name] || !snake.MatchString(f.Name) {
			t.Errorf("name %q is taken or not snake_case", f.Name)
		}
		seen[f.Name] = true
		if f.Doc == "" || f.Formula == "" || f.Source == "" || len(f.Params) == 0 {
			t.Errorf("%s is not described: %+v", f.Name, f)
		}
		for _, p := range append(slices.Clone(f.Params), Param{Name: "result", Unit: f.Result}) {
			if !snake.MatchString(p.Name) || !slices.Contains(Units(), p.Unit) {
				t.Errorf("%s: parameter %+v", f.Name, p)
			}
		}
	}
	for _, u := range Units() {
		if _, ok := dimensions[u]; !ok {
			t.Errorf("unit %s has no dimensions", u)
		}
	}
}

// A formula with its units right gives the same physical result whatever the size of
// the metre, the kilogram, the second and the kelvin. Two functions hold material or
// empirical constants with units inside and cannot pass.
func TestFunctionsAreHomogeneous(t *testing.T) {
	constants := map[string]bool{"conical_flat_load": true, "kinematic_viscosity": true}
	all := samples(t)
	rapid.Check(t, func(rt *rapid.T) {
		var scale [4]float64
		for i := range scale {
			scale[i] = rapid.Float64Range(0.5, 2).Draw(rt, "scale")
		}
		factor := func(unit string) float64 {
			v := 1.0
			for i, exponent := range dimensions[unit] {
				v *= math.Pow(scale[i], exponent)
			}
			return v
		}
		for _, f := range Functions() {
			if constants[f.Name] {
				continue
			}
			args := slices.Clone(all[f.Name].args)
			for i, p := range f.Params {
				args[i] *= factor(p.Unit)
			}
			v, err := f.Call(args)
			if want := all[f.Name].want * factor(f.Result); err != nil || !near(v, want, 1e-9) {
				rt.Fatalf("%s gives %v, %v in scaled units, want %v", f.Name, v, err, want)
			}
		}
	})
}

// Whatever the numbers, a call gives a finite result or one of the two errors.
func TestCallIsTotal(t *testing.T) {
	functions := Functions()
	odd := rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 10),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1, 2, math.MaxFloat64, 5e-324}))
	rapid.Check(t, func(rt *rapid.T) {
		f := functions[rapid.IntRange(0, len(functions)-1).Draw(rt, "function")]
		args := rapid.SliceOfN(odd, len(f.Params), len(f.Params)).Draw(rt, "args")
		v, err := f.Call(args)
		var domain *DomainError
		if err != nil && (!errors.As(err, &domain) || v != 0) {
			rt.Fatalf("%s%v = %v, %v", f.Name, args, v, err)
		}
		if !isFinite(v) {
			rt.Fatalf("%s%v = %v without an error", f.Name, args, v)
		}
	})
}

func TestCallRefuses(t *testing.T) {
	f, found := FindFunction("torque_capacity")
	if !found {
		t.Fatal("no torque_capacity")
	}
	_, err := f.Call([]float64{0.1, 1000})
	if want := "torque_capacity takes 4 numbers, got 2"; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
	_, err = f.Call([]float64{0.1, 1000, 7.5, 0.06})
	refused(t, err, "interfaces")
	if _, found := FindFunction("torque"); found {
		t.Error("found a function called torque")
	}
}
