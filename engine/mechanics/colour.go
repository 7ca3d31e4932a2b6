package mechanics

// TemperColour is one colour that bright carbon steel takes on when heated in air.
type TemperColour struct {
	Name string `json:"name"`
	Rank int    `json:"rank"` // 1 is the coolest; only this order is firm
	// LowK and HighK span what the sources give, in kelvin. They scatter by 20 to
	// 50 K: alloy, oil film and a long stay at lower heat all move a colour.
	LowK  float64 `json:"low_k"`
	HighK float64 `json:"high_k"`
}

// TemperColours lists the colours from coolest to hottest.
// Source: Colvin & Juthe, The Working of Steel, Table 26, with two later charts
// for the spread.
func TemperColours() []TemperColour {
	return []TemperColour{
		{"straw", 1, 449.15, 511.15},  // 176 to 238 degrees Celsius
		{"brown", 2, 523.15, 533.15},  // 250 to 260
		{"purple", 3, 543.15, 561.15}, // 270 to 288
		{"blue", 4, 563.15, 610.15},   // 290 to 337
		{"grey", 5, 593.15, 644.15},   // 320 to 371
	}
}

// FindTemperColour looks a colour up by name.
func FindTemperColour(name string) (TemperColour, bool) {
	for _, c := range TemperColours() {
		if c.Name == name {
			return c, true
		}
	}
	return TemperColour{}, false
}
