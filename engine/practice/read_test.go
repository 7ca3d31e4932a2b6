package practice_test

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/source"
)

var wantPattern = regexp.MustCompile(`# want ([LY]\d+) "(.*?)"(?: # want|\s*$)`)

// wants reads the expectations of a file: line, code, start of the message.
func wants(text string) []string {
	var out []string
	for i, line := range strings.Split(text, "\n") {
		for _, m := range wantPattern.FindAllStringSubmatch(line, -1) {
			out = append(out, fmt.Sprintf("%d %s %s", i+1, m[1], strings.ReplaceAll(m[2], `\"`, `"`)))
		}
	}
	return out
}

// Every file in testdata/bad raises exactly the problems its comments ask for.
func TestBadFiles(t *testing.T) {
	b, _ := shipped(t)
	files, _ := filepath.Glob("testdata/bad/*.yaml")
	if len(files) < 5 {
		t.Fatalf("found %d files", len(files))
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var ps source.Problems
		if strings.HasSuffix(name, ".case.yaml") {
			c, found := intake.Load(name, b.Catalog)
			if found.HasErrors() {
				t.Fatal(found)
			}
			_, ps = b.Scenario(c)
		} else {
			_, ps = practice.ReadWay(&source.File{Name: name, Text: text}, b.Catalog)
		}
		want := wants(string(text))
		for _, p := range ps {
			got := fmt.Sprintf("%d %s %s", p.Pos.Line, p.Code, p.Message)
			i := slices.IndexFunc(want, func(w string) bool { return strings.HasPrefix(got, w) })
			if i < 0 {
				t.Errorf("unexpected %s", p)
				continue
			}
			want = slices.Delete(want, i, i+1)
		}
		for _, w := range want {
			t.Errorf("%s: missing %s", name, w)
		}
	}
}

// A drawn case written as a file and read back is the same exercise: same answers,
// same planner's way.
func TestWrittenCaseIsTheSame(t *testing.T) {
	b, sheets := shipped(t)
	s, err := b.Draw(practice.Order{Seed: 5, Level: 2}, sheets)
	if err != nil {
		t.Fatal(err)
	}
	text := b.YAML(s, `a "quoted": title`)
	c, ps := intake.Parse(&source.File{Name: "case.yaml", Text: text}, b.Catalog, nil)
	if len(ps) > 0 {
		t.Fatalf("%v\n%s", ps, text)
	}
	back, ps := b.Scenario(c)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	if c.Title != `a "quoted": title` || back.Level != 2 || back.Seed != 5 || back.Family != s.Family {
		t.Errorf("head: %q %d %d %s", c.Title, back.Level, back.Seed, back.Family)
	}
	for _, x := range []struct {
		name      string
		got, want []string
	}{
		{"truth", back.Truth, s.Truth}, {"told", back.Told, s.Told}, {"recalled", back.Recalled, s.Recalled}, {"vague", back.Vague, s.Vague},
		{"readings", back.Readings.IDs(), s.Readings.IDs()},
	} {
		slices.Sort(x.got)
		slices.Sort(x.want)
		if !slices.Equal(x.got, x.want) {
			t.Errorf("%s: got %v, want %v", x.name, x.got, x.want)
		}
	}
	if !reflect.DeepEqual(back.Signs, s.Signs) {
		t.Error("the answers differ")
	}
	one, err := b.Walk(s)
	if err != nil {
		t.Fatal(err)
	}
	other, err := b.Walk(back)
	if err != nil {
		t.Fatal(err)
	}
	if one.Minutes != other.Minutes || len(one.Moves) != len(other.Moves) || one.Named[0].Cause != other.Named[0].Cause {
		t.Errorf("the planner works otherwise: %v and %v", one.Named, other.Named)
	}
}

// A case written by hand: truth and results are as given, the rest is drawn, the
// same every time, and a reading speaks for its sign.
func TestCaseByHand(t *testing.T) {
	b, _ := shipped(t)
	file := &source.File{Name: "case.yaml", Text: []byte(`
title: Creeps since the cable
machine: {actuation: cable, limit: {free_play_min: 4 mm, free_play_max: 8 mm}}
history: {changed: [cable]}
signs: {creeps_hot: yes, creeps_cold: yes, neutral_hard_at_rest: no}
readings: {lever_free_play: 14 mm}
found: [free_play_large]
practice: {level: 1, told: [creeps_hot]}
`)}
	read := func() *practice.Scenario {
		c, ps := intake.Parse(file, b.Catalog, nil)
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		s, ps := b.Scenario(c)
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		return s
	}
	s := read()
	if !s.Signs["creeps_cold"].Yes() || s.Signs["neutral_hard_at_rest"].Yes() || !s.Signs["play_large_found"].Yes() || s.Level != 1 {
		t.Errorf("fixed results are not kept")
	}
	if !slices.Equal(s.Told, []string{"creeps_hot"}) || !slices.Equal(s.Recalled, []string{"changed"}) {
		t.Errorf("told %v, recalled %v", s.Told, s.Recalled)
	}
	if !reflect.DeepEqual(s, read()) {
		t.Error("read twice, two exercises")
	}
	at := b.Begin(s)
	m, err := at.Do("measure_free_play")
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Results) == 0 || m.Results[0].Reading != "lever_free_play" {
		t.Errorf("results: %+v", m.Results)
	}
	v, err := b.View(at.Now)
	if err != nil {
		t.Fatal(err)
	}
	if v.First().Cause != "free_play_large" || v.First().Probability < 0.9 {
		t.Errorf("first: %+v", v.First())
	}
}

// What cannot be done is refused with its reason and costs nothing.
func TestRefusals(t *testing.T) {
	b, sheets := shipped(t)
	s, err := b.Draw(practice.Order{Seed: 1, Level: 1, Family: "drag"}, sheets)
	if err != nil {
		t.Fatal(err)
	}
	at := b.Begin(s)
	refusal := func(err error) practice.Refusal {
		e, _ := err.(*practice.MoveError)
		if e == nil {
			return ""
		}
		return e.Reason
	}
	for _, tt := range []struct {
		want practice.Refusal
		do   func() (practice.Move, error)
	}{
		{practice.Unknown, func() (practice.Move, error) { return at.Ask("nonsense") }},
		{practice.MustCheck, func() (practice.Move, error) { return at.Ask("linings_glazed_seen") }},
		{practice.Repeated, func() (practice.Move, error) { return at.Ask(s.Told[0]) }},
		{practice.Unknown, func() (practice.Move, error) { return at.Recall("machine.actuation") }},
		{practice.Unknown, func() (practice.Move, error) { return at.Open("roof") }},
		{practice.Repeated, func() (practice.Move, error) { return at.Open("ride") }},
		{practice.Unknown, func() (practice.Move, error) { return at.Do("nothing") }},
		{practice.Shut, func() (practice.Move, error) { return at.Do("measure_linings") }},
	} {
		if _, err := tt.do(); refusal(err) != tt.want {
			t.Errorf("got %v, want %s", err, tt.want)
		}
	}
	if at.Now.Minutes != 0 || len(at.Moves) != 1 {
		t.Errorf("refused moves took %v minutes", at.Now.Minutes)
	}
	for _, f := range []practice.Forecast{nil, {{Cause: "nobody", Probability: .5}}, {{Cause: "hub_notched", Probability: .7}, {Cause: "steels_warped", Probability: .7}}} {
		if at.Name(f, "") == nil {
			t.Errorf("%v was taken", f)
		}
	}
	if err := at.Name(practice.Forecast{{Cause: "hub_notched", Probability: .7}}, ""); err != nil {
		t.Error(err)
	}
	if _, err := at.Do("creep_test"); refusal(err) != practice.AlreadyOut {
		t.Errorf("after naming: %v", err)
	}
}

// Nothing written makes reading a way panic, and what is read holds no word that
// the book does not know.
func FuzzReadWay(f *testing.F) {
	b, _ := shipped(f)
	for _, text := range []string{"case: x\nmoves:\n- do: creep_test\nnamed:\n- {cause: hub_notched, confidence: 70 %}", "seed: 3\nmoves: [{}]\nnamed: [{}]", "moves: 3\nnamed: x"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, ps := practice.ReadWay(&source.File{Name: "way.yaml", Text: []byte(text)}, b.Catalog)
		if w == nil || ps.HasErrors() {
			return
		}
		if len(w.Forecast) == 0 || w.Forecast.Sum() > 1+1e-9 {
			t.Errorf("no error, and the forecast is %v", w.Forecast)
		}
	})
}
