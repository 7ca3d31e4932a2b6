package mechanics

// FrictionRange is the published range of the coefficient of friction of a lining
// against smooth steel or cast iron. A zero range was not given by the source.
type FrictionRange struct {
	Lining  string  `json:"lining"`
	WetLow  float64 `json:"wet_low"`  // in oil
	WetHigh float64 `json:"wet_high"` // in oil
	DryLow  float64 `json:"dry_low"`
	DryHigh float64 `json:"dry_high"`
	Source  string  `json:"source"`
}

// Design reduces test values of friction: the same source advises to use only
// half to three quarters of them.
const juvinall = "Juvinall & Marshek, Fundamentals of Machine Component Design, friction material table (title from memory)"

// FrictionRanges lists linings found in clutches, best known first. A lining's real
// coefficient depends on oil, temperature and wear, so these are ranges to
// stay within, never one true value.
func FrictionRanges() []FrictionRange {
	return []FrictionRange{
		{"paper", 0.10, 0.14, 0, 0, juvinall},
		{"cork", 0.15, 0.25, 0.30, 0.50, juvinall},
		{"sintered metal", 0.05, 0.08, 0.15, 0.45, juvinall},
		{"moulded", 0.06, 0.09, 0.25, 0.45, juvinall},
		{"woven", 0.08, 0.10, 0.25, 0.45, juvinall},
	}
}
