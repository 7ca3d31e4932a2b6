package figure_test

import (
	"strings"
	"testing"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/figure"
)

// A drawn tree is a safe drawing whatever the words, says all of them but what
// does not fit, and stands as lines of text where there is no drawing.
func TestTreeIsSafeAndSaysItAll(t *testing.T) {
	rows := []figure.Row{
		{Text: "Try <script>alert(1)</script> & the lever", Note: "5 min"},
		{Depth: 1, On: "90 %: yes", Share: 0.9, Text: "Put it right", End: true},
		{Depth: 1, On: "10 %: " + strings.Repeat("no such luck ", 20), Share: 0.1, Text: strings.Repeat("look further ", 12)},
	}
	f := figure.Tree("caption", "alt", rows).Figure
	if err := document.CheckSVG(string(f.SVG)); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(f.SVG), "look further"); n != 12 {
		t.Errorf("the drawing looks further %d times, want 12", n)
	}
	if boxes, lines := strings.Count(string(f.SVG), "<rect"), strings.Count(string(f.SVG), "<path"); boxes != 3 || lines != 2 {
		t.Errorf("%d boxes and %d lines, want 3 and 2", boxes, lines)
	}
	for _, want := range []string{"- Try ", "(5 min)", "  90 %: yes:", "  - Put it right"} {
		if !strings.Contains(f.Drawing, want) {
			t.Errorf("no %q in\n%s", want, f.Drawing)
		}
	}
}
