package interview

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/source"
)

// with is a situation with a case as a file would hold it.
func with(t *testing.T, s Situation, text string) Situation {
	t.Helper()
	c, ps := intake.Parse(&source.File{Name: "c", Text: []byte(text)}, s.Catalog, nil)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	s.Case = c
	return s
}

func next(t *testing.T, s Situation) (Question, Standing) {
	t.Helper()
	q, st, err := Next(s)
	if err != nil {
		t.Fatal(err)
	}
	return q, st
}

// The complaint comes first, then its own signs until one of them is there.
func TestComplaintThenItsSigns(t *testing.T) {
	s := with(t, pack(t, "../.."), "title: a\n")
	q, _ := next(t, s)
	if q.Kind != Complaint || len(q.Options) != len(s.Catalog.Families) {
		t.Fatalf("first is %+v", q)
	}
	s.Families = []string{"slip"}
	if q, _ = next(t, s); !slices.ContainsFunc(q.Signs, func(id string) bool { return family(s, id) == "slip" }) {
		t.Errorf("second is %+v", q)
	}
	s = with(t, s, "title: a\nsigns: {slips_top_gear: no, slips_high_revs: no, slips_snatched: no, slips_loaded: no, slips_light_throttle: no}\n")
	s.Families = []string{"slip"}
	if q, _ = next(t, s); !slices.ContainsFunc(q.Signs, func(id string) bool { return family(s, id) == "slip" }) {
		t.Errorf("after five denials: %+v", q)
	}
	s.Families, s.Skipped = nil, map[string]bool{ComplaintID: true}
	if q, _ = next(t, s); q.Kind == Complaint {
		t.Error("a skipped question is asked again")
	}
}

func family(s Situation, id string) string {
	sign, _ := s.Catalog.Sign(id)
	return sign.Family
}

// What is known, skipped, senseless on the machine or out of reach is not asked.
func TestWhatIsNotAsked(t *testing.T) {
	s := with(t, pack(t, "../.."), "title: a\nmachine: {actuation: cable}\nhistory: {clutch_opened: no}\nsigns: {creeps_hot: yes, bites_near_grip: yes}\ndone: [measure_free_play]\n")
	asked := func(s Situation) map[string]Question {
		out := map[string]Question{}
		for _, q := range All(s) {
			out[q.ID] = q
			for _, id := range q.Signs {
				out[id] = q
			}
		}
		return out
	}
	all := asked(s)
	for _, id := range []string{"creeps_hot", "clutch_opened", "distance_since_open", "soaked", "fluid_falls", "bites_far_out", "lever_free_play", "play_large_found", "steels_warped_found", "machine.actuation"} {
		if q, ok := all[id]; ok {
			t.Errorf("%s is asked: %+v", id, q)
		}
	}
	for _, id := range []string{"creeps_cold", "onset", "cable_frayed_seen", "machine.primary"} {
		if _, ok := all[id]; !ok {
			t.Errorf("%s is not asked", id)
		}
	}
	s.Skipped, s.SheetElsewhere = map[string]bool{"onset": true, "creeps_cold": true}, true
	skipped := asked(s)
	for _, id := range []string{"onset", "creeps_cold", "machine.primary"} {
		if _, ok := skipped[id]; ok {
			t.Errorf("%s is asked", id)
		}
	}
	s.Open = "pack_out"
	open := asked(s)
	if q := open["steels_warped_found"]; q.Check == "" || q.Stage != "pack_out" {
		t.Errorf("with the pack out: %+v", q)
	}
	s.Without = []string{"tape"}
	for _, q := range All(s) {
		if c, _ := s.Catalog.Check(q.Check); slices.Contains(c.Tools, "tape") {
			t.Errorf("%s needs a tape", q.ID)
		}
	}
}

// A reading is asked for where the sheet has a limit to hold it against, else the
// finding itself.
func TestReadingOrFinding(t *testing.T) {
	s := pack(t, "../..")
	kinds := func(text string) map[string]Kind {
		out := map[string]Kind{}
		for _, q := range All(with(t, s, text)) {
			for _, id := range q.Signs {
				out[id] = q.Kind
			}
		}
		return out
	}
	if k := kinds("title: a\nmachine: {actuation: cable, limit.free_play_min: 4 mm, limit.free_play_max: 8 mm}\n")["play_large_found"]; k != Reading {
		t.Errorf("with limits: %q", k)
	}
	if k := kinds("title: a\nmachine: {actuation: cable}\n")["play_large_found"]; k != Sign && k != Signs {
		t.Errorf("without: %q", k)
	}
}

// What readings add up to settles signs as a reading does.
func TestDerivedQuantitiesSettleSigns(t *testing.T) {
	const tall = "title: a\nmachine: {frictions: 7, steels: 6}\n" +
		"readings: {friction_thickness: [3.0 mm, 3.0 mm], steel_thickness: [1.6 mm, 1.6 mm], pack_height: 32.3 mm}\n"
	s := with(t, pack(t, "../.."), tall)
	_, st := next(t, s)
	if st.First != "plate_count_wrong" {
		t.Errorf("a pack a plate taller than its plates: %+v", st)
	}
	blind := s
	blind.Derived = nil
	if _, st = next(t, blind); st.First == "plate_count_wrong" {
		t.Error("the readings alone say it: this test shows nothing")
	}
	for _, q := range All(s) {
		if slices.Contains(q.Signs, "plate_count_wrong_found") {
			t.Errorf("%s asks for what the readings say", q.ID)
		}
	}
}

func TestLampIsSettled(t *testing.T) {
	s := with(t, pack(t, "../../testdata/packs/lamp"), "title: a\nhistory: {supply: battery}\nsigns: {dark: yes}\nreadings: {voltage_ratio: 50 %}\n")
	if q, st := next(t, s); st.End != Settled || st.First != "battery_flat" || q.ID != "" {
		t.Errorf("%+v %+v", q, st)
	}
	s = with(t, s, "title: a\nsigns: {dark: yes}\n")
	q, st := next(t, s)
	if st.End != "" || q.ID != "supply" || q.Kind != Fact || !slices.Equal(q.Options, []string{"battery", "mains"}) {
		t.Errorf("%+v %+v", q, st)
	}
	s.Skipped = map[string]bool{"supply": true, "lit_for": true, "voltage_ratio": true, "low_voltage_found": true, "flickers": true, "lead_loose_found": true}
	if q, st := next(t, s); st.End != Nothing || st.First != "battery_flat" {
		t.Errorf("with everything skipped: %+v %+v", q, st)
	}
}

// The lamp is small enough to work its figures out by hand: with the signs taken
// for themselves, what a reading tells is the mutual information of the fault and
// of "voltage low" as the rules have it.
func TestLampBitsAsWorkedOut(t *testing.T) {
	s := with(t, pack(t, "../../testdata/packs/lamp"), "title: a\nhistory: {supply: battery}\nsigns: {dark: yes}\n")
	k, err := newScale(newDesk(s))
	if err != nil {
		t.Fatal(err)
	}
	if err := k.imagine(); err != nil {
		t.Fatal(err)
	}
	// dark: starved (leak .005, battery .8) brings it with .6, leak .01
	dark := func(starved float64) float64 { return 1 - (1-0.01)*(1-0.6*starved) }
	flat, sound := dark(1-(1-0.005)*(1-0.8)), dark(0.005)
	p := 0.2 * flat / (0.2*flat + 0.8*sound)
	if first, share := k.first(); first != "battery_flat" || math.Abs(share-p) > 1e-12 {
		t.Fatalf("%s has %.6f, want %.6f", first, share, p)
	}
	low := 1 - (1-0.01)*(1-0.95) // voltage low: battery .95, leak .01
	none := k.weights[len(k.weights)-1]
	h := func(p float64) float64 { return -p*math.Log2(p) - (1-p)*math.Log2(1-p) }
	yes := (1-none)*low + none*0.01
	want := h(none) - yes*h(none*0.01/yes) - (1-yes)*h(none*0.99/(1-yes))
	if len(k.suspects) != 1 {
		t.Fatalf("%d suspects", len(k.suspects))
	}
	if got := gain(k.onSigns([]string{"low_voltage_found"})); math.Abs(got-want) > 1e-12 {
		t.Errorf("%.9f bits, want %.9f", got, want)
	}
}

// Bits are between nothing and all the doubt there is; more signs asked along
// never tell less; the same situation gives the same question.
func TestLawsOfInformation(t *testing.T) {
	s := with(t, pack(t, "../.."), "title: a\nmachine: {actuation: cable}\nsigns: {creeps_hot: yes, neutral_hard_at_rest: yes, slips_top_gear: no}\n")
	k, err := newScale(newDesk(s))
	if err != nil {
		t.Fatal(err)
	}
	if err := k.imagine(); err != nil {
		t.Fatal(err)
	}
	doubt := entropy(k.weights)
	for _, q := range k.all() {
		bits := gain(k.branches(q))
		if bits < 0 || bits > doubt+1e-9 {
			t.Errorf("%s tells %g of %g bits", q.ID, bits, doubt)
		}
		for i := range q.Signs {
			if part := gain(k.onSigns(q.Signs[:i])); part > bits+1e-9 && q.Kind != Reading {
				t.Errorf("%s: %g bits with %d signs, %g with all", q.ID, part, i, bits)
			}
		}
	}
	a, _ := next(t, s)
	b, _ := next(t, s)
	if !reflect.DeepEqual(a, b) {
		t.Errorf("%+v, then %+v", a, b)
	}
}

// What an answer would do is what it does when it is given.
func TestProspectsComeTrue(t *testing.T) {
	s := with(t, pack(t, "../.."), "title: a\nmachine: {actuation: cable}\nsigns: {creeps_hot: yes, creeps_cold: yes}\n")
	for _, q := range All(s)[:40] {
		list, err := Prospects(s, q)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for _, p := range list {
			sum += p.Probability
			then := s
			if q.Kind == Fact {
				continue
			}
			c := *s.Case
			c.Known = s.Case.Known.Clone()
			c.Observations = slices.Clone(c.Observations)
			for _, id := range q.Signs {
				o := intake.Observation{Sign: id, Answer: "no", Absent: 1}
				if slices.Contains(p.Yes, id) {
					o = intake.Observation{Sign: id, Answer: "yes", Present: 1}
				}
				c.Observations = append(c.Observations, o)
			}
			then.Case = &c
			k, err := newScale(newDesk(then))
			if err != nil {
				t.Fatal(err)
			}
			if first, share := k.first(); first != p.Top || math.Abs(share-p.TopShare) > 1e-9 {
				t.Errorf("%s %v: %s %.4f, came out as %s %.4f", q.ID, p.Yes, p.Top, p.TopShare, first, share)
			}
		}
		if sum > 1+1e-9 || len(list) > 0 && sum < 0.3 {
			t.Errorf("%s: the likeliest answers have %.3f", q.ID, sum)
		}
	}
}

// The beliefs behind the choice are those of a plain solution.
func TestBeliefsAreExact(t *testing.T) {
	s := with(t, pack(t, "../.."), "title: a\nmachine: {actuation: hydraulic}\nhistory: {onset: sudden}\nsigns: {lever_spongy: yes, creeps_hot: probably}\n")
	k, err := newScale(newDesk(s))
	if err != nil {
		t.Fatal(err)
	}
	r, err := belief.Solve(k.net.Graph, k.findings(), belief.DefaultBudget)
	if err != nil {
		t.Fatal(err)
	}
	for i, v := range k.net.Of(fact.RoleCause) {
		if math.Abs(k.beliefs[i]-r.Posterior[v]) > 1e-9 {
			t.Errorf("%s has %g, want %g", k.net.Variables[v].ID, k.beliefs[i], r.Posterior[v])
		}
	}
}

func TestCautionsOfAnswers(t *testing.T) {
	s := with(t, pack(t, "../.."), "title: a\nsigns: {lever_slack_suddenly: yes}\n")
	if ids := Cautions(s); len(ids) == 0 {
		t.Error("a lever that went slack at once raises no caution")
	}
	if ids := Cautions(with(t, s, "title: a\n")); len(ids) != 0 {
		t.Errorf("nothing known raises %v", ids)
	}
}
