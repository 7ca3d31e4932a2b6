package mechanics

// IndexRange is the range of one friction index, without unit.
type IndexRange struct {
	Low  float64 `json:"low"`
	High float64 `json:"high"`
}

func (r IndexRange) holds(v float64) bool { return v >= r.Low && v <= r.High }

// OilClass is one class of JASO T 903 by its three friction indices, which compare an
// oil with reference oils. Indices of different editions must not be compared.
type OilClass struct {
	Edition    int        `json:"edition"` // year
	Name       string     `json:"name"`
	Dynamic    IndexRange `json:"dynamic"` // DFI: how engagement feels
	Static     IndexRange `json:"static"`  // SFI: holding at breakaway
	StopTime   IndexRange `json:"stop"`    // STI: how fast the clutch locks
	FromMemory bool       `json:"from_memory"`
	Source     string     `json:"source"`
}

// OilClasses lists the classes of JASO T 903, most special first within an edition.
// Of 2023 only MA2 could be read; earlier editions are left out. MB is the low-friction
// class, for machines whose clutch does not run in the engine oil.
func OilClasses() []OilClass {
	read, memory := "JASO T 903, read in two secondary copies", "JASO T 903, from memory"
	ma2 := [3]IndexRange{{1.50, 2.50}, {1.60, 2.50}, {1.60, 2.50}}
	return []OilClass{
		{2016, "MA2", ma2[0], ma2[1], ma2[2], false, read},
		{2016, "MA1", IndexRange{1.35, 1.50}, IndexRange{1.45, 1.60}, IndexRange{1.40, 1.60}, false, read},
		{2016, "MA", IndexRange{1.35, 2.50}, IndexRange{1.45, 2.50}, IndexRange{1.40, 2.50}, false, read},
		{2016, "MB", IndexRange{0.40, 1.35}, IndexRange{0.40, 1.45}, IndexRange{0.40, 1.40}, true, memory},
		{2023, "MA2", ma2[0], ma2[1], ma2[2], false, read},
	}
}

// ClassifyOil returns the most special class of an edition whose ranges hold all
// three indices, or false. An oil within MA whose indices are split between MA1 and MA2
// is plain MA. What class an index exactly on an edge belongs to could not be
// read; here the higher class wins.
func ClassifyOil(edition int, dynamic, static, stopTime float64) (OilClass, bool) {
	for _, c := range OilClasses() {
		if c.Edition == edition && c.Dynamic.holds(dynamic) && c.Static.holds(static) && c.StopTime.holds(stopTime) {
			return c, true
		}
	}
	return OilClass{}, false
}
