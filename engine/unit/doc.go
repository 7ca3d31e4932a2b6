// Package unit reads, converts and writes quantities the way a workshop does:
// "0,3 mm", "12 thou", "9 ft-lb", "2 1/2 in", "90 °C".
//
// The main type is [Quantity]: a value in SI units with its [Dimension] and the
// text it came from.
//
//	wear, err := unit.ParseAs("0.3 mm", unit.Length) // wear.SI is 0.0003 metres
//	thou, _ := unit.Find("thou")
//	unit.Format(wear.SI, thou, 3)                    // "11.8 thou"
//	unit.FormatLike(0.00025, wear)                   // "0.25 mm"
//
// What can be read two ways is refused with the ways to say it: "1,234 mm",
// "2 qt", "9 hp", "10 nm".
//
// The package does no arithmetic with quantities, knows no uncertainty, and does
// not tell a temperature from a temperature difference.
package unit
