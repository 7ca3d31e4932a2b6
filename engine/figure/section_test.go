package figure

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.org/takeup/engine/document"
)

func sample() Section {
	friction := Layer{Shape: "lined", Side: "outer", Name: "friction plate", ThicknessM: .003}
	steel := Layer{Shape: "plate", Side: "inner", Name: "steel plate", ThicknessM: .0016}
	wide := friction
	wide.Draw, wide.Note = "short", "wide bore"
	twice := steel
	twice.Mark = Wrong
	return Section{"hub", "basket", []Layer{
		{Shape: "ring", Name: "seat", ThicknessM: .0015}, {Shape: "cone", Name: "spring", ThicknessM: .0015}, wide,
		steel, friction, steel, friction, twice, {Shape: "cap", Side: "inner", Name: "pressure plate"},
	}}
}

func TestWordsCountRuns(t *testing.T) {
	want := "seat, spring, friction plate (wide bore), 2 × (steel plate, friction plate), steel plate, pressure plate"
	if got := sample().Words(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Held plates reach their rail and no other, the wrong one is pointed at, and all
// rails stand in one column.
func TestTextShowsWhoHoldsWhat(t *testing.T) {
	lines := strings.Split(sample().text(), "\n")
	if lines[0] != "    hub     basket" {
		t.Errorf("head %q", lines[0])
	}
	for n, want := range map[int]string{
		3: "  3 ┃     ▒▒▒▒▒━━┫ friction plate (wide bore), 3\u00a0mm",
		4: "  4 ┣━━━━━━━━━━  ┃ steel plate, 1.6\u00a0mm",
		8: "> 8 ┣━━━━━━━━━━  ┃ steel plate, 1.6\u00a0mm",
	} {
		if lines[n] != want {
			t.Errorf("got  %q\nwant %q", lines[n], want)
		}
	}
	for shape, p := range profiles {
		if utf8.RuneCountInString(p) != between {
			t.Errorf("%s is %d wide, want %d", shape, utf8.RuneCountInString(p), between)
		}
	}
}

// Whatever a section holds, names of any text included, its SVG is a drawing and
// nothing more, and stays on the sheet.
func TestSVGIsOnlyADrawing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layer := rapid.Custom(func(t *rapid.T) Layer {
			return Layer{
				Shape:      rapid.SampledFrom([]string{"lined", "plate", "ring", "cone", "cap", "washer", ""}).Draw(t, "shape"),
				Side:       rapid.SampledFrom([]string{"", "inner", "outer"}).Draw(t, "side"),
				Draw:       rapid.SampledFrom([]string{"", "short", "stepped"}).Draw(t, "draw"),
				Name:       rapid.OneOf(rapid.String(), rapid.Just(`"><script>alert(1)</script>`)).Draw(t, "name"),
				Note:       rapid.String().Draw(t, "note"),
				ThicknessM: rapid.Float64Range(-1, 50).Draw(t, "thickness"),
				Mark:       rapid.SampledFrom([]Mark{Fine, Wrong, Missing, Unseen}).Draw(t, "mark"),
			}
		})
		s := Section{rapid.String().Draw(t, "inner"), rapid.String().Draw(t, "outer"), rapid.SliceOfN(layer, 0, 20).Draw(t, "layers")}
		if err := document.CheckSVG(string(s.svg())); err != nil {
			t.Fatalf("%v\n%s", err, s.svg())
		}
		for _, line := range strings.Split(document.CleanLines(s.text()), "\n") {
			if n := document.Plain(line).Width(); n > 56 {
				t.Fatalf("%d wide: %q", n, line)
			}
		}
	})
}
