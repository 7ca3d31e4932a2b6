package engine_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// parse reads a case in memory.
func parse(cat *catalog.Catalog, text string) (*intake.Case, source.Problems) {
	return intake.Parse(&source.File{Name: "case.yaml", Text: []byte(text)}, cat, nil)
}

// measured is everything of the book that is given as a number, with the line of a
// case that gives it.
func measured(t *testing.T, cat *catalog.Catalog) map[string]struct {
	line, unit string
	span       catalog.Bounds
} {
	t.Helper()
	out := map[string]struct {
		line, unit string
		span       catalog.Bounds
	}{}
	for _, r := range cat.Readings {
		out[r.ID] = struct {
			line, unit string
			span       catalog.Bounds
		}{"readings: {" + r.ID + ": %s}", r.Unit, r.Possible}
	}
	for _, f := range cat.Machine {
		line := "machine: {" + f.ID + ": %s}"
		switch f.Kind {
		case "sizes":
			line = "machine: {" + f.ID + ": [%s]}"
			fallthrough
		case "quantity", "count":
			out["machine."+f.ID] = struct {
				line, unit string
				span       catalog.Bounds
			}{line, f.Unit, f.Possible}
		}
	}
	return out
}

// Every reading and every number of the machine sheet refuses what cannot be:
// negative, of another dimension, a hundred times off. Its bounds themselves pass.
func TestNonsenseIsRefused(t *testing.T) {
	cat := open(t, "..").Catalog
	for id, m := range measured(t, cat) {
		if m.span.High == "" {
			t.Errorf("%s: what it can be at most is not said", id)
			continue
		}
		high, _ := unit.Parse(m.span.High)
		number := strings.TrimSpace(strings.TrimSuffix(m.span.High, high.Unit))
		n, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		refused := map[string]string{
			"negative":          "-" + m.span.High,
			"a hundred times":   strings.Replace(m.span.High, number, fmt.Sprint(n*100), 1),
			"another dimension": "12 cSt",
		}
		if m.unit == "°C" {
			refused["negative"] = "-300 °C"
		}
		for what, text := range refused {
			if _, ps := parse(cat, "title: x\n"+fmt.Sprintf(m.line, text)); !ps.HasErrors() {
				t.Errorf("%s: %s (%s) passes", id, text, what)
			} else if ps[0].Pos.Line != 2 {
				t.Errorf("%s: reported at %s", id, ps[0].Pos)
			}
		}
		for _, text := range []string{m.span.Low, m.span.High} {
			if _, ps := parse(cat, "title: x\n"+fmt.Sprintf(m.line, text)); text != "" && ps.HasErrors() {
				t.Errorf("%s: %s is refused: %v", id, text, ps)
			}
		}
	}
}

// The likely slip is named.
func TestSlipsAreNamed(t *testing.T) {
	cat := open(t, "..").Catalog
	for _, tt := range []struct{ text, hint string }{
		{"readings: {friction_thickness: 2.9 in}", "did you mean 2.9 mm?"},
		{"readings: {friction_thickness: 0.114 mm}", "did you mean 0.114 in?"},
		{"readings: {friction_thickness: 29 mm}", "did you mean 2.9 mm?"},
		{"readings: {spring_free_length: [38 mm, 38 cm]}", "did you mean 38 mm?"},
		{"readings: {hub_nut_torque: 90 kgf·m}", "did you mean 90 N·m or 90 lbf·ft?"},
		{"machine: {torque.spring_screw: 9 kgf·m}", "did you mean 9 N·m or 9 lbf·ft?"},
		{"machine: {torque.spring_screw: 9 lbf·in}", "did you mean 9 N·m or 9 lbf·ft?"},
		{"machine: {torque.spring_screw: 0.9 N·m}", "did you mean 0.9 kgf·m?"},
		{"machine: {torque.hub_nut: 8.5 N·m}", "did you mean 8.5 kgf·m?"},
		{"machine: {spring.rate: 25 lbf/in}", ""},
		{"machine: {frictions: 70}", "did you mean 7?"},
		{"machine: {primary_ratio: 25}", "did you mean 2.5?"},
	} {
		_, ps := parse(cat, "title: x\n"+tt.text)
		switch {
		case tt.hint == "" && ps.HasErrors():
			t.Errorf("%s: %v", tt.text, ps)
		case tt.hint != "" && (len(ps) != 1 || ps[0].Hint != tt.hint):
			t.Errorf("%s: got %v, want the hint %q", tt.text, ps, tt.hint)
			for _, p := range ps {
				t.Log(p.Hint)
			}
		}
	}
}
