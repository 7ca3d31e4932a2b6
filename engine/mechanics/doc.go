// Package mechanics holds the mechanics of a wet multi-plate clutch as pure
// functions: numbers in, a number or a small plain struct out.
//
// Everything is in SI base units (metre, newton, newton metre, radian, kelvin,
// pascal, pascal second) and every name carries its unit, as in liftM or clampN.
// Each doc comment gives the formula, its symbols, where it holds and where it
// comes from. A sketch of use:
//
//	radius, err := mechanics.EffectiveRadiusWear(0.050, 0.065)
//	capacity, err := mechanics.TorqueCapacity(0.12, 1100, 14, radius)
//	margin, err := mechanics.SlipMargin(capacity, 60, 1.9, 1.0)
//	judged, err := mechanics.Judge(0.00278, 0.00003, 2, mechanics.AtLeast(0.0028))
//	f, found := mechanics.FindFunction("slip_margin") // the same, by name
//
// The main type for other packages is Function, the registry entry by which data
// files call these formulas by name. An input outside a formula's range gives a
// *DomainError; nothing here panics or returns NaN.
//
// The package deliberately knows no machine, no service limit and no cause of a
// fault; it converts no units and formats nothing. A limit is always the caller's.
package mechanics
