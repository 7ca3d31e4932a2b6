package mechanics

import (
	"errors"
	"slices"
	"testing"
)

// SAE J300, 2015 edition, 100 degrees Celsius; the ranges are half open.
func TestSummerGrades(t *testing.T) {
	tests := []struct {
		mm2PerS float64
		want    []string
	}{
		{3.9, nil}, {5.5, []string{"8", "12"}}, {6.5, []string{"12", "16"}}, {8.5, []string{"20"}},
		{9.3, []string{"30"}}, {12.4, []string{"30"}}, {12.5, []string{"40"}}, {16.3, []string{"50"}},
		{21.9, []string{"60"}}, {26.1, nil},
	}
	for _, tt := range tests {
		if names := SummerGradesAt(tt.mm2PerS * 1e-6); !slices.Equal(names, tt.want) {
			t.Errorf("%v mm2/s is %v, want %v", tt.mm2PerS, names, tt.want)
		}
	}
	cranking := map[string][2]float64{"0W": {6200, -35}, "5W": {6600, -30}, "10W": {7000, -25},
		"15W": {7000, -20}, "20W": {9500, -15}, "25W": {13000, -10}}
	for _, w := range WinterGrades() {
		got(w.CrankingPaS*1000, nil)(t, w.Name, cranking[w.Name][0], 1e-12)
		got(w.CrankingK-273.15, nil)(t, w.Name+" at", cranking[w.Name][1], 1e-9)
	}
}

func TestParseOilGrade(t *testing.T) {
	for text, want := range map[string]string{"10W-40": "10W-40", "SAE 10w40": "10W-40", " 20W/50 ": "20W-50",
		"30": "30", "sae 5W": "5W", "0 W - 20": "0W-20"} {
		g, err := ParseOilGrade(text)
		if err != nil || g.String() != want {
			t.Errorf("ParseOilGrade(%q) = %v, %v; want %s", text, g, err, want)
		}
	}
	_, err := ParseOilGrade("10W-45")
	if want := `oil grade "10W-45": "45" is not a grade of SAE J300, expected something like 10W-40`; err == nil || err.Error() != want {
		t.Errorf("message %q, want %q", err, want)
	}
	for text, part := range map[string]string{"": "", "11W-40": "11W", "10W-45": "45", "10W-40W": "40W", "oil": "OIL"} {
		_, err := ParseOilGrade(text)
		var grade *GradeError
		if !errors.As(err, &grade) || grade.Part != part {
			t.Errorf("ParseOilGrade(%q) = %v, want a GradeError about %q", text, err, part)
		}
	}
}

func FuzzParseOilGrade(f *testing.F) {
	for _, seed := range []string{"10W-40", "SAE 30", "W", "0W", "10W--40", "\xff"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		g, err := ParseOilGrade(text)
		if err != nil {
			return
		}
		again, err := ParseOilGrade(g.String())
		if err != nil || again != g {
			t.Errorf("%q reads as %v, which reads as %v, %v", text, g, again, err)
		}
	})
}

// Direction and size only: at -25 degrees Celsius a 10W-40 may drag several hundred times
// as hard as at 100 (SAE J300 limits, density 850 kg/m3 assumed).
func TestColdOilDrags(t *testing.T) {
	g := OilGrade{"10W", "40"}
	cold := must[float64](t)(g.ThickestAt(248.15, 850))
	got(cold, nil)(t, "cold-cranking limit", 7.0, 1e-9)
	hot := must[float64](t)(g.ThickestAt(373.15, 850))
	if ratio := must[float64](t)(DragRatio(cold, hot)); ratio < 200 || ratio > 1000 {
		t.Errorf("cold drags %v times as hard, want several hundred", ratio)
	}
	var grade *GradeError
	if _, err := (OilGrade{Summer: "40"}).ThickestAt(300, 850); !errors.As(err, &grade) {
		t.Errorf("a single grade gives %v, want a GradeError", err)
	}
}

// JASO T 903:2016 MA, MA1, MA2 and 2023 MA2, away from the edges.
func TestClassifyOil(t *testing.T) {
	tests := []struct {
		edition                   int
		dynamic, static, stopTime float64
		want                      string
	}{
		{2016, 2.0, 2.0, 2.0, "MA2"},
		{2016, 1.42, 1.52, 1.50, "MA1"},
		{2016, 1.42, 2.0, 2.0, "MA"}, // indices of MA1 and MA2 mixed
		{2016, 2.0, 1.52, 1.50, "MA"},
		{2016, 1.42, 1.52, 2.0, "MA"},
		{2016, 2.0, 1.52, 2.0, "MA"},
		{2023, 2.0, 2.0, 2.0, "MA2"},
		{2023, 1.42, 1.52, 1.50, ""}, // its MA1 could not be read
		{2016, 3.0, 2.0, 2.0, ""},
		{1998, 2.0, 2.0, 2.0, ""},
	}
	for _, tt := range tests {
		c, found := ClassifyOil(tt.edition, tt.dynamic, tt.static, tt.stopTime)
		if c.Name != tt.want || found != (tt.want != "") {
			t.Errorf("%+v: %q, %v", tt, c.Name, found)
		}
	}
}

// Colvin & Juthe, The Working of Steel, Table 26: the order; blue lies roughly between 290
// and 340 degrees Celsius, within 30.
func TestTemperColours(t *testing.T) {
	colours := TemperColours()
	for i, want := range []string{"straw", "brown", "purple", "blue", "grey"} {
		c := colours[i]
		if c.Name != want || c.Rank != i+1 || c.LowK >= c.HighK || i > 0 && c.LowK <= colours[i-1].LowK {
			t.Errorf("colour %d is %+v, want %s, hotter than the last", i+1, c, want)
		}
	}
	blue, found := FindTemperColour("blue")
	if !found || blue.LowK < 290+273.15-30 || blue.HighK > 340+273.15+30 {
		t.Errorf("blue is %+v", blue)
	}
	if _, found := FindTemperColour("pink"); found {
		t.Error("found a colour called pink")
	}
}
