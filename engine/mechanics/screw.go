package mechanics

import (
	"fmt"
	"math"
	"strings"
)

// Thread is a metric thread, by nominal diameter and pitch in metres.
type Thread struct {
	NominalM float64 `json:"nominal_m"`
	PitchM   float64 `json:"pitch_m"`
}

func (t Thread) check() error {
	return firstOf(positive("pitch", t.PitchM),
		above("nominal diameter", t.NominalM, "twice the pitch", 2*t.PitchM))
}

// pitchDiameterM is d2 and minorDiameterM is d3 of the ISO metric profile (ISO 68-1).
func (t Thread) pitchDiameterM() float64 { return t.NominalM - 0.649519*t.PitchM }
func (t Thread) minorDiameterM() float64 { return t.NominalM - 1.226869*t.PitchM }

func (t Thread) stressDiameterM() float64 { return (t.pitchDiameterM() + t.minorDiameterM()) / 2 }

// CoarseThread returns a thread of the coarse series by its name, such as "M6" or
// "m6". An unknown name is an error that lists the known ones.
// Source: ISO 261 (pitches from memory; the stress areas of ISO 898-1 that follow
// from them are tested).
func CoarseThread(name string) (Thread, error) {
	switch strings.ToLower(strings.TrimSpace(name)) {
	case "m5":
		return Thread{0.005, 0.0008}, nil
	case "m6":
		return Thread{0.006, 0.001}, nil
	case "m8":
		return Thread{0.008, 0.00125}, nil
	case "m10":
		return Thread{0.010, 0.0015}, nil
	}
	return Thread{}, fmt.Errorf("unknown thread %q, expected M5, M6, M8 or M10", name)
}

// StressArea returns the tensile stress area in square metres,
// As = pi/4 ((d2 + d3)/2)^2, with d2 = d - 0.6495 P and d3 = d - 1.2269 P.
// Source: ISO 898-1.
func StressArea(t Thread) (float64, error) {
	if err := t.check(); err != nil {
		return 0, err
	}
	d := t.stressDiameterM()
	return result("stress area", math.Pi/4*d*d)
}

// PropertyClass holds the strength of a screw by the mark on its head, in pascals.
type PropertyClass struct {
	Name      string  `json:"name"`
	ProofPa   float64 `json:"proof_pa"`
	YieldPa   float64 `json:"yield_pa"`
	TensilePa float64 `json:"tensile_pa"`
}

// PropertyClasses lists the classes 8.8 (up to M16) and 10.9.
// Source: ISO 898-1; the stresses are from memory and reproduce its tables of loads.
func PropertyClasses() []PropertyClass {
	return []PropertyClass{
		{"8.8", 580e6, 640e6, 800e6},
		{"10.9", 830e6, 940e6, 1040e6},
	}
}

// ProofLoad returns the load in newtons that a screw must bear without lasting
// stretch, As Sp, for proof stress Sp in pascals. The standard's own table rounds
// it, for M6 8.8 down by half a per cent.
// Source: ISO 898-1.
func ProofLoad(t Thread, proofPa float64) (float64, error) {
	area, err := StressArea(t)
	if err = firstOf(err, positive("proof stress", proofPa)); err != nil {
		return 0, err
	}
	return result("proof load", area*proofPa)
}

// TorqueFromPreload returns the tightening torque in newton metres, T = K d F, for
// nut factor K (no unit; 0.10 oiled to 0.35 zinc, so a range and never one true
// value), nominal diameter d in metres and preload F in newtons.
// Source: Wentzell, Machine Design, ex. 6.1.
func TorqueFromPreload(nutFactor, nominalM, preloadN float64) (float64, error) {
	err := firstOf(inside("nut factor", nutFactor, 0.05, 1), positive("nominal diameter", nominalM),
		notNegative("preload", preloadN))
	if err != nil {
		return 0, err
	}
	return result("torque", nutFactor*nominalM*preloadN)
}

// PreloadFromTorque returns the preload in newtons, F = T/(K d); TorqueFromPreload
// solved for the load. The same torque on an oiled thread (K 0.15) clamps a third
// harder than on a dry one (K 0.20).
func PreloadFromTorque(torqueNm, nutFactor, nominalM float64) (float64, error) {
	err := firstOf(notNegative("torque", torqueNm), inside("nut factor", nutFactor, 0.05, 1),
		positive("nominal diameter", nominalM))
	if err != nil {
		return 0, err
	}
	return result("preload", torqueNm/(nutFactor*nominalM))
}

// ProofShare returns preload over proof load, without unit, for a torque in newton
// metres: above 1 the screw stretches for good. It bounds the screw only; a thread
// in an aluminium boss or on a spring post gives way long before.
func ProofShare(torqueNm, nutFactor, nominalM, proofLoadN float64) (float64, error) {
	preloadN, err := PreloadFromTorque(torqueNm, nutFactor, nominalM)
	if err = firstOf(err, positive("proof load", proofLoadN)); err != nil {
		return 0, err
	}
	return result("share of proof load", preloadN/proofLoadN)
}

// Joint is a screw with its head for the finer model of VDI 2230.
type Joint struct {
	Thread        Thread  `json:"thread"`
	HeadDiameterM float64 `json:"head_diameter_m"` // outer diameter of the bearing face
	HoleDiameterM float64 `json:"hole_diameter_m"` // clearance hole
}

func (j Joint) check(friction float64) error {
	return firstOf(j.Thread.check(), inside("friction coefficient", friction, 0.01, 1),
		positive("hole diameter", j.HoleDiameterM),
		above("head diameter", j.HeadDiameterM, "hole diameter", j.HoleDiameterM))
}

// AssemblyPreload returns the preload in newtons at which tension and twist together
// use a share nu of the yield stress Rp (pascals),
// F = As nu Rp/sqrt(1 + 3 [1.5 (d2/d0)(P/(pi d2) + 1.155 mu)]^2),
// with d0 the diameter of the stress area and mu the friction in the thread.
// VDI 2230 tables use nu = 0.9.
// Source: VDI 2230.
func AssemblyPreload(j Joint, friction, yieldPa, yieldShare float64) (float64, error) {
	err := firstOf(j.check(friction), positive("yield stress", yieldPa),
		positive("share of yield", yieldShare), inside("share of yield", yieldShare, 0, 1))
	if err != nil {
		return 0, err
	}
	area, err := StressArea(j.Thread)
	if err != nil {
		return 0, err
	}
	d2 := j.Thread.pitchDiameterM()
	twist := 1.5 * d2 / j.Thread.stressDiameterM() * (j.Thread.PitchM/(math.Pi*d2) + 1.155*friction)
	return result("assembly preload", area*yieldShare*yieldPa/math.Sqrt(1+3*twist*twist))
}

// AssemblyTorque returns the torque in newton metres for a preload F in newtons,
// M = F (0.16 P + 0.58 d2 mu + mu Dk/2), with one friction coefficient mu in the
// thread and under the head, whose mean friction diameter is Dk = (head + hole)/2.
// Source: VDI 2230.
func AssemblyTorque(j Joint, friction, preloadN float64) (float64, error) {
	if err := firstOf(j.check(friction), notNegative("preload", preloadN)); err != nil {
		return 0, err
	}
	headM := (j.HeadDiameterM + j.HoleDiameterM) / 4
	arm := 0.16*j.Thread.PitchM + friction*(0.58*j.Thread.pitchDiameterM()+headM)
	return result("assembly torque", preloadN*arm)
}
