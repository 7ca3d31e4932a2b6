package intake

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

func load(t testing.TB, path string) *Case {
	t.Helper()
	c, ps := Load(path, small(t))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	return c
}

func TestGoodCase(t *testing.T) {
	c := load(t, "testdata/good.yaml")
	if c.Title != "Creeps since the cable was changed" || !c.Invented || c.Notes != "Told in two lines." {
		t.Errorf("head: %q %v %q", c.Title, c.Invented, c.Notes)
	}
	if want := (Machine{File: filepath.FromSlash("testdata/sheet.yaml"), Title: "Test 400", Invented: true}); !reflect.DeepEqual(c.Machine, want) {
		t.Errorf("machine: %+v", c.Machine)
	}
	order := []string{
		"machine.actuation", "machine.frictions", "machine.friction.new", "machine.friction.coefficient",
		"machine.limit.free_play_max", "machine.limit.plate_lift", "machine.torque.hub_nut", "machine.selective_plates",
		"opened", "mileage", "onset", "changed", "air_temperature",
		"slips", "creeps_hot", "free_play", "thickness", "nut_torque", "oil_temperature", "stack",
	}
	if !slices.Equal(c.Known.IDs(), order) {
		t.Errorf("known: %v", c.Known.IDs())
	}
	if want := []Done{{"measure_play", 0}, {"measure_play", 12}}; !slices.Equal(c.Done, want) {
		t.Errorf("done: %v", c.Done)
	}
	if !slices.Equal(c.Found, []string{"cable_long"}) || c.Expect == nil || c.Expect.First != "cable_long" || len(c.Expect.Set) != 2 {
		t.Errorf("found %v, expect %+v", c.Found, c.Expect)
	}
}

func TestGoodObservations(t *testing.T) {
	c := load(t, "testdata/good.yaml")
	want := []Observation{
		{Sign: "slips", Answer: "no", Absent: 1},
		{Sign: "creeps_hot", Answer: "yes", Present: 1},
		{Sign: "play_large", Answer: "probably", Present: 0.8, Absent: 0.2},
	}
	for i, o := range c.Observations {
		if o.Pos.Line != 6+i {
			t.Errorf("%s stands at %s", o.Sign, o.Pos)
		}
		o.Pos = source.Pos{}
		if i >= len(want) || o != want[i] {
			t.Errorf("got %+v", o)
		}
	}
	if v, _ := c.Known.Get("slips"); len(c.Observations) != 3 || v.Kind != fact.YesNo || v.Yes {
		t.Errorf("got %d observations, slips %+v", len(c.Observations), v)
	}
}

// Conversions: 1 lbf·ft = 1.355 817 9 N·m and 0 °C = 273.15 K (NIST SP 811,
// 2008, appendix B.8).
func TestGoodValues(t *testing.T) {
	c := load(t, "testdata/good.yaml")
	for id, want := range map[string]fact.Value{
		"opened":                       {Kind: fact.YesNo, Text: "no"},
		"mileage":                      {Kind: fact.Quantity, SI: 18.5e6, Text: "18500 km"},
		"onset":                        {Kind: fact.Choice, Word: "over_weeks", Text: "over_weeks"},
		"changed":                      {Kind: fact.Choices, Words: []string{"cable", "oil"}, Text: "cable, oil"},
		"air_temperature":              {Kind: fact.Quantity, SI: 268.15, Text: "-5 °C"},
		"machine.frictions":            {Kind: fact.Count, SI: 7, Text: "7"},
		"machine.friction.coefficient": {Kind: fact.Count, SI: 0.12, Text: "0.12"},
		"machine.friction.new":         {Kind: fact.Quantity, SI: 0.003, Text: "3.0 mm"},
		"machine.torque.hub_nut":       {Kind: fact.Quantity, SI: 74 * 1.3558179, Text: "74 lbf·ft"},
		"machine.selective_plates":     {Kind: fact.Sizes, Values: []float64{0.0019, 0.002}, Text: "1.9 mm, 2.0 mm"},
		// The sigma of the gauge, of a chosen gauge, a percentage of the
		// reading, and one in degrees, which is a difference and not 274 K.
		"free_play":       {Kind: fact.Reading, SI: 0.011, Values: []float64{0.011}, Sigma: 0.0003, Gauge: "ruler", Text: "11 mm"},
		"thickness":       {Kind: fact.Reading, SI: 0.002945, Values: []float64{0.00294, 0.00295}, Sigma: 0.0003, Gauge: "ruler", Text: "2.94 mm, 2,95 mm"},
		"nut_torque":      {Kind: fact.Reading, SI: 100, Values: []float64{100}, Sigma: 3, Gauge: "torque_wrench", Text: "100 N·m"},
		"oil_temperature": {Kind: fact.Reading, SI: 363.15, Values: []float64{363.15}, Sigma: 1, Gauge: "thermometer", Text: "90 °C"},
	} {
		got, ok := c.Known.Get(id)
		if !ok || got.Pos.Line == 0 || !alike(got, want) {
			t.Errorf("%s: got %+v, want %+v", id, got, want)
		}
	}
}

// alike compares values but for the last bits of conversions and the place.
func alike(a, b fact.Value) bool {
	near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-7*math.Abs(y) }
	return a.Kind == b.Kind && a.Yes == b.Yes && a.Word == b.Word && slices.Equal(a.Words, b.Words) &&
		near(a.SI, b.SI) && near(a.Sigma, b.Sigma) && slices.EqualFunc(a.Values, b.Values, near) && a.Gauge == b.Gauge && a.Text == b.Text
}

// The order of keys in the file does not change what is read, byte for byte.
func TestSameInSameOut(t *testing.T) {
	cat := small(t)
	parse := func(text string) string {
		c, ps := Parse(&source.File{Name: "case.yaml", Text: []byte(text)}, cat, nil)
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		out, err := json.Marshal(c)
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	a := parse("title: x\nhistory: {opened: no}\nsigns: {slips: yes}\nmachine: {actuation: cable}\n")
	b := parse("machine: {actuation: cable}\nsigns: {slips: yes}\nhistory: {opened: no}\ntitle: x\n")
	if a != b || !strings.Contains(a, `"machine.actuation"`) {
		t.Errorf("got\n%s\n%s", a, b)
	}
}

func TestSetMachineForgetsTheOldSheet(t *testing.T) {
	c := load(t, "testdata/good.yaml")
	var words fact.Set
	words.Put("machine.actuation", fact.Value{Kind: fact.Choice, Word: "hydraulic"})
	c.SetMachine(Machine{Title: "Other"}, words)
	if v, _ := c.Known.Get("machine.actuation"); v.Word != "hydraulic" || c.Known.Known("machine.frictions") || !c.Known.Known("mileage") {
		t.Errorf("got %v", c.Known.IDs())
	}
}

func TestLoadMachine(t *testing.T) {
	m, words, ps := LoadMachine("testdata/sheet.yaml", small(t))
	if len(ps) > 0 || m.Title != "Test 400" || words.Len() != 8 {
		t.Errorf("got %+v with %d words, %v", m, words.Len(), ps)
	}
}

func TestParseFactsTakesMachineWords(t *testing.T) {
	root, ps := source.Parse("t", []byte("machine.actuation: cable\nmachine: {limit: {plate_lift: 1 mm}}\nopened: yes\n"))
	var known fact.Set
	ParseFacts(root, small(t), &known, &ps)
	if len(ps) > 0 || !slices.Equal(known.IDs(), []string{"machine.actuation", "machine.limit.plate_lift", "opened"}) {
		t.Errorf("got %v, %v", known.IDs(), ps)
	}
	ParseFacts(nil, small(t), &known, &ps)
	ParseReadings(nil, small(t), &known, &ps)
	if o := ParseSigns(nil, small(t), &known, &ps); len(o)+len(ps) > 0 || known.Len() != 3 {
		t.Errorf("nothing gave %v, %v", o, ps)
	}
}

// The cases and machines that ship must load with the knowledge that ships.
func TestShippedCases(t *testing.T) {
	cat, ps := catalog.Load(os.DirFS("../../knowledge"))
	if ps.HasErrors() {
		t.Skip("the knowledge has problems of its own, which package catalog reports")
	}
	cases, _ := filepath.Glob("../../testdata/cases/*.yaml")
	machines, _ := filepath.Glob("../../testdata/machines/*.yaml")
	if len(cases) == 0 || len(machines) == 0 {
		t.Fatal("found no cases or no machines")
	}
	for _, name := range cases {
		c, ps := Load(name, cat)
		for _, p := range ps {
			t.Errorf("%s (%s)", p, p.Hint)
		}
		if c != nil && (!c.Invented || c.Expect == nil) {
			t.Errorf("%s: expected it to be invented and to say what it shows", name)
		}
	}
	for _, name := range machines {
		m, _, ps := LoadMachine(name, cat)
		for _, p := range ps {
			t.Errorf("%s (%s)", p, p.Hint)
		}
		if !m.Invented {
			t.Errorf("%s: expected it to be invented", name)
		}
	}
}
