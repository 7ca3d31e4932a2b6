package practice_test

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"example.org/takeup/engine/practice"
)

// exercises are three: two of drag done well and badly, one of noise done well.
func exercises() *practice.Progress {
	return &practice.Progress{Schema: practice.ProgressSchema, Exercises: []practice.Exercise{
		{Seed: 1, Level: 1, Family: "drag", Truth: []string{"free_play_large"}, Named: "steels_warped", Stated: .9, Brier: 1.8, Log: 6, Place: 0, ToCure: 200, Par: 40, Mark: 20, Mistakes: []practice.MistakeKind{practice.WrongCause, practice.TooSure}},
		{Seed: 2, Level: 1, Family: "drag", Truth: []string{"free_play_large"}, Named: "steels_warped", Stated: .9, Brier: 1.8, Log: 6, Place: 2, ToCure: 100, Par: 40, Mark: 30, Mistakes: []practice.MistakeKind{practice.WrongCause}},
		{Seed: 3, Level: 1, Family: "noise", Truth: []string{"cush_springs_worn"}, Named: "cush_springs_worn", Stated: .6, Right: true, Brier: .2, Log: .5, Place: 1, ToCure: 40, Par: 40, Mark: 90, Mistakes: []practice.MistakeKind{}},
	}}
}

func TestReview(t *testing.T) {
	r := exercises().Review()
	near(t, "mark", r.Mark, 140./3, 1e-9)
	near(t, "late", r.Late, 140./3, 1e-9)
	near(t, "stated", r.Stated, .8, 1e-9)
	near(t, "ratio", r.Ratio, 340./120, 1e-9)
	if r.Exercises != 3 || r.Right != 1 || r.Top3 != 2 {
		t.Errorf("counts: %+v", r)
	}
	if len(r.Standings) != 2 || r.Standings[0].Family != "drag" || r.Standings[0].Exercises != 2 {
		t.Errorf("standings, weakest first: %+v", r.Standings)
	}
	if !reflect.DeepEqual(r.Confusions, []practice.Confusion{{Truth: "free_play_large", Named: "steels_warped", Times: 2}}) {
		t.Errorf("confusions: %+v", r.Confusions)
	}
	if r.Mistakes[0] != (practice.Counted{Kind: practice.WrongCause, Times: 2}) {
		t.Errorf("mistakes: %+v", r.Mistakes)
	}
}

func TestLeaning(t *testing.T) {
	l := exercises().Leaning()
	if !(l.Families["drag"] > l.Families["noise"] && l.Families["noise"] >= 1) {
		t.Errorf("families: %v", l.Families)
	}
	if !(l.Causes["free_play_large"] > l.Causes["steels_warped"] && l.Causes["steels_warped"] > 1 && l.Causes["cush_springs_worn"] < 1) {
		t.Errorf("causes: %v", l.Causes)
	}
}

// The next case leans: with everything about the lever done badly, more cases of
// it come up than without any progress.
func TestNextCaseLeans(t *testing.T) {
	b, sheets := shipped(t)
	count := func(lean practice.Leaning) (n int) {
		for seed := range uint64(6) {
			s, err := b.Draw(practice.Order{Seed: seed + 1, Level: 1, Lean: lean}, sheets)
			if err != nil {
				t.Fatal(err)
			}
			if s.Family == "lever" {
				n++
			}
		}
		return n
	}
	lean := practice.Leaning{Families: map[string]float64{"lever": 40}}
	if with, without := count(lean), count(practice.Leaning{}); with <= without+1 {
		t.Errorf("%d cases of the lever with the leaning, %d without", with, without)
	}
}

func TestProgressFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a", "b", "progress.json")
	empty, err := practice.LoadProgress(file)
	if err != nil || len(empty.Exercises) != 0 || empty.NextSeed() != 1 {
		t.Fatalf("%+v, %v", empty, err)
	}
	p := exercises()
	for range 2 { // the second time over the first
		if err := p.Save(file); err != nil {
			t.Fatal(err)
		}
	}
	back, err := practice.LoadProgress(file)
	if err != nil || !reflect.DeepEqual(back, p) {
		t.Errorf("got %+v, %v", back, err)
	}
	left, err := os.ReadDir(filepath.Dir(file))
	if err != nil || len(left) != 1 {
		t.Errorf("files left behind: %v, %v", left, err)
	}
	for text, want := range map[string]string{"{": "is not a progress file", `{"schema": 7}`: "has schema 7"} {
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err := practice.LoadProgress(file); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v", text, err)
		}
	}
}
