package mechanics

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

var (
	m5     = Thread{5 * mm, 0.8 * mm}
	m6     = Thread{6 * mm, 1.0 * mm}
	m8     = Thread{8 * mm, 1.25 * mm}
	m8fine = Thread{8 * mm, 1.0 * mm}
)

// ISO 898-1, coarse threads, as reproduced in two trade tables each for proof and for
// tensile loads. The standard rounds M6 8.8 to 11 600 N, hence 1 %.
func TestThreadLoads(t *testing.T) {
	tests := []struct {
		thread  Thread
		areaMM2 float64
		proof   [2]float64 // 8.8, 10.9
		tensile [2]float64
	}{
		{m5, 14.2, [2]float64{8230, 11800}, [2]float64{11350, 14800}},
		{m6, 20.1, [2]float64{11600, 16700}, [2]float64{16100, 20900}},
		{m8, 36.6, [2]float64{21200, 30400}, [2]float64{29200, 38100}},
	}
	for _, tt := range tests {
		area := must[float64](t)(StressArea(tt.thread))
		got(area, nil)(t, "area", tt.areaMM2*mm*mm, 5e-3)
		for i, class := range PropertyClasses() {
			got(ProofLoad(tt.thread, class.ProofPa))(t, "proof "+class.Name, tt.proof[i], 1e-2)
			got(area*class.TensilePa, nil)(t, "tensile "+class.Name, tt.tensile[i], 1e-2)
		}
	}
}

// Wentzell, Machine Design, ex. 6.1 and 6.4 (T1, T2), and three computed rows (T3, T4)
// at 75 % of the proof load.
func TestTorqueFromPreload(t *testing.T) {
	preload := 0.85 * 0.334 * 85000 * lbf
	got(preload, nil)(t, "T1 preload", 24131.5*lbf, 5e-4)
	got(TorqueFromPreload(0.2, 0.75*inch, preload))(t, "T1", 3619.7*lbf*inch, 5e-4)
	got(TorqueFromPreload(0.15, 1.25*inch, 0.9*120000*1.073*lbf))(t, "T2", 21728*lbf*inch, 5e-4)
	got(TorqueFromPreload(0.20, 6*mm, 8700))(t, "T3 dry", 10.44, 1e-3)
	got(TorqueFromPreload(0.15, 6*mm, 8700))(t, "T3 oiled", 7.83, 1e-3)
	got(TorqueFromPreload(0.2, 5*mm, 0.75*8230))(t, "T4 M5", 6.17, 1e-3)
	got(TorqueFromPreload(0.2, 8*mm, 0.75*21200))(t, "T4 M8", 25.44, 1e-3)
	got(ProofShare(10.44, 0.2, 6*mm, 11600))(t, "share of proof", 0.75, 1e-9)
	dry := must[float64](t)(PreloadFromTorque(10, 0.20, 6*mm))
	got(PreloadFromTorque(10, 0.15, 6*mm))(t, "oiled instead of dry", dry*4/3, 1e-12)
	_, err := PreloadFromTorque(10, 0, 6*mm)
	refused(t, err, "nut factor")
}

// VDI 2230 tables: M8x1 (T5, T6) read in a secondary copy, to the last printed digit;
// the coarse threads (T7, T8) from memory, within 2 %.
func TestAssembly(t *testing.T) {
	head := map[Thread][2]float64{m5: {6.9, 5.5}, m6: {8.9, 6.6}, m8: {11.6, 9.0}, m8fine: {11.6, 9.0}}
	const rounding, memory = 0, 2e-2
	tests := []struct {
		thread            Thread
		yield, friction   float64
		preloadKN, torque float64
		tolerance         float64
	}{
		{m8fine, 640, 0.10, 20.7, 22.8, rounding},
		{m8fine, 640, 0.12, 20.2, 26.1, rounding},
		{m8fine, 640, 0.14, 19.7, 29.2, rounding},
		{m8fine, 940, 0.10, 30.4, 33.5, rounding},
		{m8fine, 940, 0.12, 29.7, 38.3, rounding},
		{m8fine, 940, 0.14, 28.9, 42.8, rounding},
		{m6, 640, 0.10, 10.4, 9.0, memory},
		{m6, 640, 0.12, 10.2, 10.1, memory},
		{m6, 640, 0.14, 9.9, 11.3, memory},
		{m5, 640, 0.12, 7.2, 5.9, memory},
		{m8, 640, 0.12, 18.6, 24.6, memory},
	}
	for _, tt := range tests {
		j := Joint{tt.thread, head[tt.thread][0] * mm, head[tt.thread][1] * mm}
		f := must[float64](t)(AssemblyPreload(j, tt.friction, tt.yield*mPa, 0.9))
		m := must[float64](t)(AssemblyTorque(j, tt.friction, f))
		for _, c := range [][2]float64{{f / 1000, tt.preloadKN}, {m, tt.torque}} {
			if math.Abs(c[0]-c[1]) > 0.1001+tt.tolerance*c[1] {
				t.Errorf("%v yield %v mu %v: %.3f, want %.1f", tt.thread, tt.yield, tt.friction, c[0], c[1])
			}
		}
	}
	_, err := AssemblyPreload(Joint{m6, 6 * mm, 6.6 * mm}, 0.1, 640e6, 0.9)
	refused(t, err, "head diameter")
	_, err = StressArea(Thread{1 * mm, 1 * mm})
	refused(t, err, "nominal diameter")
}

// NIST SP 811 test pairs: 10 lbf ft, 88 lbf in, 1 kgf m.
func TestTorqueUnits(t *testing.T) {
	want := map[string][2]float64{"lbf·ft": {10, 13.558}, "lbf·in": {88, 9.943}, "kgf·m": {1, 9.807}, "kgf·cm": {1, 0.0980665}, "N·m": {1, 1}}
	for _, u := range TorqueUnits() {
		got(want[u.Symbol][0]*u.Nm, nil)(t, u.Symbol, want[u.Symbol][1], 1e-4)
	}
}

func unit(t *testing.T, symbol string) TorqueUnit {
	t.Helper()
	for _, u := range TorqueUnits() {
		if u.Symbol == symbol {
			return u
		}
	}
	t.Fatalf("no unit %s", symbol)
	return TorqueUnit{}
}

// Conversions by NIST SP 811. The ranges are made up around them; 8 to 12 N m for M6
// spring screws is common practice.
func TestUnitSlips(t *testing.T) {
	tests := []struct {
		name           string
		figure         float64
		written, meant string
		minNm, maxNm   float64
	}{
		{"inch pounds taken for foot pounds", 88, "lbf·ft", "lbf·in", 8, 12},
		{"kilogram metres taken for newton metres", 1.0, "N·m", "kgf·m", 8, 12},
		{"kilogram centimetres taken for newton metres", 100, "N·m", "kgf·cm", 8, 12},
		{"foot pounds taken for newton metres", 7, "N·m", "lbf·ft", 8, 12},
	}
	for _, tt := range tests {
		written := unit(t, tt.written)
		slips := must[[]UnitSlip](t)(UnitSlips(tt.figure*written.Nm, written, tt.minNm, tt.maxNm))
		if len(slips) == 0 || slips[0].Meant.Symbol != tt.meant {
			t.Errorf("%s: %+v", tt.name, slips)
		} else {
			got(slips[0].ThenNm, nil)(t, tt.name, tt.figure*unit(t, tt.meant).Nm, 1e-12)
		}
	}
	unknown := TorqueUnit{}
	if slips := must[[]UnitSlip](t)(UnitSlips(10, unknown, 8, 12)); slips != nil {
		t.Errorf("inside the range: %+v", slips)
	}
	if slips := must[[]UnitSlip](t)(UnitSlips(10000, unknown, 8, 12)); slips != nil {
		t.Errorf("explained by nothing: %+v", slips)
	}
	slips := must[[]UnitSlip](t)(UnitSlips(120, unknown, 8, 12))
	if len(slips) < 2 || slips[0].Meant.Symbol != "lbf·in" || slips[0].Written.Symbol != "lbf·ft" {
		t.Errorf("unit not known: %+v", slips)
	}
	_, err := UnitSlips(10, unknown, 12, 8)
	refused(t, err, "least torque")
}

// Orders for common patterns: common practice.
func TestTighteningSequence(t *testing.T) {
	want := map[int][]int{
		1: {1}, 2: {1, 2}, 3: {1, 2, 3}, 4: {1, 3, 2, 4}, 5: {1, 3, 5, 2, 4}, 6: {1, 4, 2, 5, 3, 6},
	}
	for n, order := range want {
		passes := must[[]TightenPass](t)(TighteningSequence(n, 3, 9))
		for i, p := range passes {
			if !slices.Equal(p.Order, order) {
				t.Errorf("%d screws: %v, want %v", n, p.Order, order)
			}
			got(p.TorqueNm, nil)(t, "torque", float64(3*(i+1)), 1e-12)
		}
	}
	_, err := TighteningSequence(101, 1, 9)
	refused(t, err, "screws")
}

// Every screw is drawn down once, an even pattern in pairs across the circle, and from
// five screws on never two neighbours in a row.
func TestTighteningIsCrosswise(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(5, 40).Draw(rt, "n")
		order := crosswise(n)
		seen := map[int]bool{}
		for i, screw := range order {
			seen[screw] = true
			if i > 0 && circleDistance(screw, order[i-1], n) < 2 {
				rt.Fatalf("neighbours in a row: %v", order)
			}
			if n%2 == 0 && i%2 == 1 && circleDistance(screw, order[i-1], n) != n/2 {
				rt.Fatalf("pair not across: %v", order)
			}
		}
		if len(seen) != n || !seen[1] || !seen[n] {
			rt.Fatalf("not every screw: %v", order)
		}
	})
}
