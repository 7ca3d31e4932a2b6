package intake

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine/source"
)

// A length means the same in every unit and with either decimal sign.
func TestUnitsAgree(t *testing.T) {
	cat := small(t)
	rapid.Check(t, func(t *rapid.T) {
		um := rapid.IntRange(1, 90000).Draw(t, "um")
		texts := []string{
			fmt.Sprintf("%d um", um),
			fmt.Sprintf("%.4f mm", float64(um)/1e3),
			strings.Replace(fmt.Sprintf("%.4f mm", float64(um)/1e3), ".", ",", 1),
			fmt.Sprintf("%.8f in", float64(um)/25400),
		}
		for _, text := range texts {
			c, ps := Parse(&source.File{Name: "c", Text: []byte("title: x\nreadings: {thickness: \"" + text + "\"}\n")}, cat, nil)
			if len(ps) > 0 {
				t.Fatal(ps)
			}
			v, ok := c.Known.Get("thickness")
			if !ok || math.Abs(v.SI-float64(um)*1e-6) > 1e-9 {
				t.Fatalf("%s: got %v m", text, v.SI)
			}
		}
	})
}

// Every answer ends in the list and, when plain, in the set; an unknown in neither.
func TestAnswersEndWhereTheyBelong(t *testing.T) {
	cat := small(t)
	signs := []string{"creeps_hot", "slips", "play_small"}
	rapid.Check(t, func(t *rapid.T) {
		text := "title: x\nsigns:\n"
		plain, said := 0, 0
		for _, s := range signs {
			a := rapid.SampledFrom([]string{"yes", "no", "true", "false", "probably", "probably not", "unknown"}).Draw(t, s)
			text += "  " + s + ": " + a + "\n"
			if a != "unknown" {
				said++
			}
			if a != "unknown" && !strings.HasPrefix(a, "probably") {
				plain++
			}
		}
		c, ps := Parse(&source.File{Name: "c", Text: []byte(text)}, cat, nil)
		if len(ps) > 0 || c.Known.Len() != plain || len(c.Observations) != said {
			t.Fatalf("%s: got %v and %v, %v", text, c.Known.IDs(), c.Observations, ps)
		}
	})
}

// Whatever is in a case file, reading it ends, every problem has a place in one
// of the files, and a second reading says the same.
func FuzzParseCase(f *testing.F) {
	for _, pattern := range []string{"testdata/*.yaml", "testdata/bad/*.yaml", "../../testdata/cases/*.yaml"} {
		names, _ := filepath.Glob(pattern)
		for _, name := range names {
			if text, err := os.ReadFile(name); err == nil {
				f.Add(text)
			}
		}
	}
	cat := small(f)
	sheet := func(name string) (*source.File, source.Problems) {
		return &source.File{Name: "sheet.yaml", Text: []byte("name: x\nactuation: cable\n")}, nil
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		c, ps := Parse(&source.File{Name: "case.yaml", Text: text}, cat, sheet)
		if c == nil && !ps.HasErrors() {
			t.Fatal("no case and no error")
		}
		for _, p := range ps {
			if p.Pos.File != "case.yaml" && p.Pos.File != "sheet.yaml" || p.Message == "" || p.Code == "" || p.Length < 1 {
				t.Fatalf("a problem that says nothing: %+v", p)
			}
		}
		if _, again := Parse(&source.File{Name: "case.yaml", Text: text}, cat, sheet); again.Error() != ps.Error() {
			t.Fatalf("first %v, then %v", ps, again)
		}
		if c == nil || ps.HasErrors() {
			return
		}
		if c.Title == "" {
			t.Fatal("a case without title passed")
		}
		for _, id := range c.Known.IDs() {
			v, _ := c.Known.Get(id)
			if math.IsNaN(v.SI) || math.IsInf(v.SI, 0) || v.SI < 0 || v.Sigma < 0 {
				t.Fatalf("%s: %+v", id, v)
			}
		}
	})
}

func BenchmarkLoadCase(b *testing.B) {
	cat := small(b)
	text, err := os.ReadFile("testdata/good.yaml")
	if err != nil {
		b.Fatal(err)
	}
	sheet, _ := source.Load("testdata/sheet.yaml")
	open := func(string) (*source.File, source.Problems) { return sheet, nil }
	b.ReportAllocs()
	for range b.N {
		if c, _ := Parse(&source.File{Name: "testdata/good.yaml", Text: text}, cat, open); c == nil {
			b.Fatal("no case")
		}
	}
}
