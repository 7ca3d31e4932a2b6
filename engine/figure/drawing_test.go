package figure

import (
	"encoding/xml"
	"os"
	"strings"
	"testing"

	"example.org/takeup/engine/document"
)

const small = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 90">
<title>lamp</title>
<g id="bulb" data-point="10 10" data-mark="40 10"><title>bulb &amp; socket</title><circle r="4"/></g>
<g data-fact="supply" data-is="mains"><g id="plug" data-point="1 1" data-mark="1 1"><rect width="3" height="2"/></g></g>
<g data-fact="supply" data-is="battery cell"><g id="cell" data-point="1 2" data-mark="30 40"><rect width="5" height="2"/></g></g>
<g id="shade" data-unless="shaded"><path d="M0 0 H9"/></g>
</svg>`

func read(t testing.TB, text string) *Drawing {
	t.Helper()
	d, ps := Read("lamp.svg", []byte(text))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	return d
}

func nothing(string) string { return "" }

func TestParts(t *testing.T) {
	d := read(t, small)
	if got := strings.Join(d.Parts(), " "); got != "bulb plug cell shade" {
		t.Errorf("parts %s", got)
	}
	if d.Name("bulb") != "bulb & socket" || d.Name("plug") != "plug" || d.Title() != "lamp" {
		t.Errorf("names %q %q %q", d.Name("bulb"), d.Name("plug"), d.Title())
	}
}

// What is known of the machine decides what is drawn; where nothing is known, what is
// pointed at decides, and else the first kind.
func TestPointChoosesTheMachine(t *testing.T) {
	d := read(t, small)
	for _, c := range []struct {
		part, supply string
		shown        string
		width        string // of the rectangle that tells the kinds apart
	}{
		{"cell", "", "cell", `width="5"`},
		{"bulb", "", "bulb", `width="3"`},
		{"cell", "mains", "", `width="3"`},
		{"plug", "cell", "", `width="5"`},
	} {
		svg, shown := d.Point([]Pointer{{Part: c.part, Number: 1}}, func(fact string) string {
			if fact == "supply" {
				return c.supply
			}
			return ""
		})
		if strings.Join(shown, " ") != c.shown || !strings.Contains(string(svg), c.width) {
			t.Errorf("%+v: shown %v in %s", c, shown, svg)
		}
		if err := document.CheckSVG(string(svg)); err != nil {
			t.Errorf("%+v: %v", c, err)
		}
		for _, ours := range []string{"data-", ` id=`} {
			if strings.Contains(string(svg), ours) {
				t.Errorf("%s is left in %s", ours, svg)
			}
		}
	}
}

func TestPointSharesAMark(t *testing.T) {
	svg, _ := read(t, small).Point([]Pointer{{Part: "bulb", Number: 1}, {Part: "bulb", Number: 3}}, nothing)
	if !strings.Contains(string(svg), ">1 3</text>") {
		t.Errorf("got %s", svg)
	}
	svg, _ = read(t, small).Point(nil, func(string) string { return "no" })
	if strings.Contains(string(svg), "M0 0 H9") || strings.Contains(string(svg), "<text") {
		t.Errorf("got %s", svg)
	}
}

func TestReadRefuses(t *testing.T) {
	for bad, want := range map[string]string{
		"": "refused", "<svg": "cannot be read", "<svg><g></svg>": "cannot be read",
		`<svg><script>alert(1)</script></svg>`: "element script",
		`<svg onload="x()"></svg>`:             "attribute onload",
		`<svg><use href="#a"/></svg>`:          "element use",
		`<svg xmlns:x="http://www.w3.org/1999/xlink"><g x:href="http://a.example"/></svg>`: "attribute",
		`<svg><rect fill="url(#a)"/></svg>`:                                                "address",
		`<svg><style>a{}</style></svg>`:                                                    "element style",
	} {
		d, ps := Read("bad.svg", []byte(bad))
		if d != nil || len(ps) != 1 || !strings.Contains(ps[0].Message, want) || ps[0].Pos.File != "bad.svg" || ps[0].Pos.Line < 1 {
			t.Errorf("%s: %v", bad, ps)
		}
	}
}

// Whatever stands in a drawing, what is shown of it passes the check.
func FuzzRead(f *testing.F) {
	f.Add(small)
	f.Add(`<svg><g id="a" data-mark="1 1"/></svg>`)
	if text, err := os.ReadFile("../../knowledge/figures/clutch.svg"); err == nil {
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, ps := Read("f.svg", []byte(text))
		if d == nil {
			if len(ps) == 0 {
				t.Fatal("no drawing and no problem")
			}
			return
		}
		var all []Pointer
		for i, p := range d.Parts() {
			all = append(all, Pointer{Part: p, Number: i + 1})
		}
		svg, _ := d.Point(all, nothing)
		if err := document.CheckSVG(string(svg)); err != nil {
			t.Fatalf("%v in %s", err, svg)
		}
	})
}

// In the drawing of the built-in pack every part has a name, a place for its mark and
// a point, all on the sheet, and no two marks of one machine cover each other.
func TestMarksOfTheClutch(t *testing.T) {
	text, err := os.ReadFile("../../knowledge/figures/clutch.svg")
	if err != nil {
		t.Fatal(err)
	}
	d := read(t, string(text))
	for _, kind := range []map[string]string{
		{"machine.actuation": "cable", "machine.release": "arm_rack"},
		{"machine.actuation": "cable", "machine.release": "through_rod"},
		{"machine.actuation": "hydraulic", "machine.release": "cam"},
		{"machine.actuation": "hydraulic", "machine.release": "through_rod"},
	} {
		type place3 struct {
			x, y float64
			part string
		}
		var marks []place3
		d.write(d.root, func(n *node, a []xml.Attr) ([]xml.Attr, bool) {
			if !d.drawn(n, nil, func(f string) string { return kind[f] }) {
				return nil, false
			}
			if n.part() == "" {
				return a, true
			}
			x, y, ok := place(n.attr("data-mark"))
			px, py, fine := place(n.attr("data-point"))
			if !ok || !fine || min(x, y, px, py) < 0 || max(x, px) > 480 || max(y, py) > 470 {
				t.Errorf("%s: mark %q, point %q", n.part(), n.attr("data-mark"), n.attr("data-point"))
			}
			if d.Name(n.part()) == n.part() && n.part() != "hub" && strings.Contains(n.part(), "_") {
				t.Errorf("%s has no title", n.part())
			}
			marks = append(marks, place3{x, y, n.part()})
			return a, true
		})
		if len(marks) < 35 {
			t.Errorf("%v: only %d parts", kind, len(marks))
		}
		for i, a := range marks {
			for _, b := range marks[:i] {
				if dx, dy := a.x-b.x, a.y-b.y; dx*dx+dy*dy < 4*markRadius*markRadius {
					t.Errorf("%v: the marks of %s and %s cover each other", kind, a.part, b.part)
				}
			}
		}
	}
}
