package mechanics

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A rectangular limit of 1.5 gives 0.866: a published worked example of a chemistry
// uncertainty guide; the rule is that of NIST TN 1297.
func TestRectangular(t *testing.T) {
	got(Rectangular(1.5))(t, "a = 1.5", 0.8660, 1e-4)
	got(Combine(3, 4, 12))(t, "root sum of squares", 13, 1e-12)
	_, err := Combine(1, -1)
	refused(t, err, "standard uncertainty")
}

// Computed rows G1 to G4 (millimetres): least 2.80, calliper +-0.05, micrometer +-0.004,
// calliper with its resolution, feeler between 0.15 and 0.20.
func TestGaugeUncertainty(t *testing.T) {
	within := func(what string, v, want float64) {
		t.Helper()
		if math.Abs(v-want) > 1e-4/2 {
			t.Errorf("%s = %.6f, want %.5f", what, v, want)
		}
	}
	calliper := must[float64](t)(GaugeUncertainty(0.05, 0))
	within("G1 u", calliper, 0.02887)
	micrometer := must[float64](t)(GaugeUncertainty(0.004, 0))
	within("G2 U", 2*micrometer, 0.00462)
	within("G3 u", must[float64](t)(GaugeUncertainty(0.05, 0.05)), 0.03227)
	value, standard, err := Bracketed(0.15, 0.20)
	if err != nil {
		t.Fatal(err)
	}
	within("G4 middle", value, 0.175)
	within("G4 u", standard, 0.01443)

	for _, tt := range []struct {
		u, inside, past float64
	}{{calliper, 2.8577, 2.7423}, {micrometer, 2.8046, 2.7954}} {
		for _, c := range []struct {
			reading float64
			want    Verdict
		}{{tt.inside + 1e-4, Inside}, {tt.inside - 1e-4, TooClose}, {2.80, TooClose}, {tt.past + 1e-4, TooClose}, {tt.past - 1e-4, Past}} {
			j := must[Judgement](t)(Judge(c.reading, tt.u, 2, AtLeast(2.80)))
			if j.Verdict != c.want {
				t.Errorf("reading %v, u %.5f: %v, want %v", c.reading, tt.u, j.Verdict, c.want)
			}
		}
	}
}

// Coverage by the normal distribution: NIST TN 1297 gives 95.45 % for k = 2 and 90 %
// for k = 1.645, so one tail is 2.275 % and 5 %.
func TestPastProbability(t *testing.T) {
	got(PastProbability(12, 1, AtLeast(10)))(t, "k = 2", 0.02275, 1e-3)
	got(PastProbability(11.645, 1, AtLeast(10)))(t, "k = 1.645", 0.05, 1e-3)
	got(PastProbability(8, 1, AtMost(10)))(t, "greatest value", 0.02275, 1e-3)
	got(PastProbability(10, 1, Between(8, 12)))(t, "both tails", 0.0455, 1e-3)
	got(PastProbability(10, 1, AtLeast(10)))(t, "on the limit", 0.5, 1e-12)
	got(PastProbability(10, 0, AtLeast(10)))(t, "exact, on the limit", 0, 0)
	got(PastProbability(9.9, 0, AtLeast(10)))(t, "exact, past", 1, 0)
}

func TestJudge(t *testing.T) {
	tests := []struct {
		reading float64
		limit   Limit
		want    Verdict
	}{
		{0.10, AtMost(0.15), Inside},
		{0.14, AtMost(0.15), TooClose},
		{0.18, AtMost(0.15), Past},
		{30.0, Between(29.8, 30.2), Inside},
		{30.19, Between(29.8, 30.2), TooClose},
		{29.7, Between(29.8, 30.2), Past},
		{30.0, Between(29.99, 30.01), TooClose}, // a range narrower than the gauge can tell
	}
	for _, tt := range tests {
		if j := must[Judgement](t)(Judge(tt.reading, 0.01, 2, tt.limit)); j.Verdict != tt.want {
			t.Errorf("%v against %+v: %v, want %v", tt.reading, tt.limit, j.Verdict, tt.want)
		}
	}
	_, err := Judge(1, 0.1, 0, AtLeast(1))
	refused(t, err, "coverage factor")
	_, err = Judge(1, 0.1, 2, Limit{})
	refused(t, err, "limit")
	_, err = Judge(1, 0.1, 2, Between(2, 1))
	refused(t, err, "lower limit")
	_, err = Judge(math.NaN(), 0.1, 2, AtLeast(1))
	refused(t, err, "reading")
	text, err := json.Marshal(Judgement{Verdict: TooClose})
	if want := `{"verdict":"too close to call","room":0,"expanded":0,"past_probability":0}`; err != nil || string(text) != want {
		t.Errorf("JSON %s, %v; want %s", text, err, want)
	}
}

// The probability falls as the part gets thicker, never jumps, and fits the verdict.
func TestPastProbabilityIsMonotoneAndSmooth(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		u := rapid.Float64Range(0.001, 0.1).Draw(rt, "u")
		reading := rapid.Float64Range(2, 4).Draw(rt, "reading")
		step := rapid.Float64Range(0, 0.01).Draw(rt, "step")
		a, err1 := PastProbability(reading, u, AtLeast(3))
		b, err2 := PastProbability(reading+step, u, AtLeast(3))
		j, err3 := Judge(reading, u, 2, AtLeast(3))
		if err := firstOf(err1, err2, err3); err != nil {
			rt.Fatal(err)
		}
		// The steepest slope of the normal distribution is 1/(u sqrt(2 pi)).
		if b > a || a-b > step/(u*math.Sqrt(2*math.Pi))+1e-12 {
			rt.Fatalf("from %v to %v the probability goes from %v to %v", reading, reading+step, a, b)
		}
		if j.Verdict == Inside && a > 0.0228 || j.Verdict == Past && a < 0.9772 {
			rt.Fatalf("verdict %v with probability %v", j.Verdict, a)
		}
	})
}

// Computed by hand: mean 3, deviation sqrt(10/4).
func TestMeanOf(t *testing.T) {
	r := must[Repeats](t)(MeanOf([]float64{1, 2, 3, 4, 5}))
	got(r.Mean, nil)(t, "mean", 3, 1e-12)
	got(r.Deviation, nil)(t, "deviation", math.Sqrt(2.5), 1e-12)
	got(r.Standard, nil)(t, "of the mean", math.Sqrt(0.5), 1e-12)
	if r = must[Repeats](t)(MeanOf([]float64{7})); r != (Repeats{Mean: 7}) {
		t.Errorf("one reading: %+v", r)
	}
	_, err := MeanOf([]float64{1, math.Inf(1)})
	refused(t, err, "reading")
}

// DIN 862 and 863 as read in a secondary copy: 50 and 20 um for callipers, 4 and 5 um
// for micrometers.
func TestInstruments(t *testing.T) {
	want := map[string]float64{"calliper, 0.1 mm": 50e-6, "calliper, 0.05 mm": 50e-6, "calliper, 0.02 mm": 20e-6,
		"calliper, digital 0.01 mm": 20e-6, "micrometer, 50 to 100 mm": 5e-6, "micrometer, 0 to 50 mm": 4e-6}
	for _, i := range Instruments() {
		if i.LimitM != want[i.Name] || i.ResolutionM <= 0 || i.Source == "" {
			t.Errorf("%+v, want limit %v", i, want[i.Name])
		}
		delete(want, i.Name)
	}
	if len(want) > 0 {
		t.Errorf("missing %v", want)
	}
}

// Computed: a lining of 3.0 mm with limit 2.6, a play of 0.1 with limit 0.5.
func TestWearUsed(t *testing.T) {
	got(WearUsed(3.0, 2.6, 2.9))(t, "lining", 0.25, 1e-9)
	got(WearLeft(3.0, 2.6, 2.9))(t, "lining left", 0.75, 1e-9)
	got(WearUsed(0.1, 0.5, 0.3))(t, "play", 0.5, 1e-9)
	got(WearLeft(3.0, 2.6, 2.5))(t, "past it", -0.25, 1e-9)
	_, err := WearLeft(3, 3, 2)
	refused(t, err, "limit")
}
