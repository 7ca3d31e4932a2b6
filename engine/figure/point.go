package figure

import (
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/takeup/engine/document"
)

// Pointer is a number to be put at a part.
type Pointer struct {
	Part   string
	Number int
	Plain  bool // the number alone: the part keeps its colour
}

// Facts answers for the values of choices ("cable") and yes-or-no facts ("yes", "no");
// the empty text says that a fact is not known.
type Facts func(fact string) string

// The colours of marks: those of the page, or a pair that reads on any ground.
const (
	markInk   = "var(--mark, #b3470f)"
	markFill  = "var(--mark-soft, #f6d9c6)"
	markText  = "var(--mark-text, #ffffff)"
	quietLine = "var(--quiet, #5b6068)"
)

// markRadius is half the height of the disc with the number.
const markRadius = 9.5

// Point returns the drawing with a number at each part, and the parts that are in it;
// a part that this machine does not have is left out. Several numbers of one part
// share a mark. Without pointers the drawing is as it stands.
func (d *Drawing) Point(pointers []Pointer, facts Facts) (document.SVG, []string) {
	numbers, plain := map[string][]string{}, map[string]bool{}
	for _, p := range pointers {
		numbers[p.Part] = append(numbers[p.Part], strconv.Itoa(p.Number))
		plain[p.Part] = p.Plain
	}
	var shown []string
	var marks strings.Builder
	body := d.write(d.root, func(n *node, attrs []xml.Attr) ([]xml.Attr, bool) {
		if !d.drawn(n, numbers, facts) {
			return nil, false
		}
		if n == d.root {
			return quiet(attrs, len(pointers) > 0), true
		}
		here := numbers[n.part()]
		if n.part() == "" || len(here) == 0 {
			return attrs, true
		}
		if !slices.Contains(shown, n.part()) {
			shown = append(shown, n.part())
			marks.WriteString(mark(n, strings.Join(here, " ")))
		}
		if plain[n.part()] {
			return attrs, true
		}
		return dressed(attrs), true
	})
	return document.SVG(strings.TrimSuffix(body, "</svg>") + marks.String() + "</svg>"), shown
}

// drawn reports whether this machine has a group. Where the sheet does not say, the
// kind of machine that has the parts pointed at is drawn, and else the first kind.
func (d *Drawing) drawn(n *node, numbers map[string][]string, facts Facts) bool {
	if fact := n.attr("data-unless"); fact != "" && facts(fact) == "no" {
		return false
	}
	fact := n.attr("data-fact")
	if fact == "" {
		return true
	}
	value := facts(fact)
	if value == "" {
		value = d.guess(fact, numbers)
	}
	return slices.Contains(strings.Fields(n.attr("data-is")), value)
}

// guess picks a value for a choice that nobody knows.
func (d *Drawing) guess(fact string, numbers map[string][]string) string {
	first, pointed := "", ""
	d.root.each(func(n *node) {
		if n.attr("data-fact") != fact {
			return
		}
		value := strings.Fields(n.attr("data-is") + " ")
		if len(value) == 0 {
			return
		}
		if first == "" {
			first = value[0]
		}
		n.each(func(k *node) {
			if pointed == "" && k.part() != "" && numbers[k.part()] != nil {
				pointed = value[0]
			}
		})
	})
	if pointed != "" {
		return pointed
	}
	return first
}

// dressed gives a part the colour of the marks.
func dressed(attrs []xml.Attr) []xml.Attr {
	out := []xml.Attr{attribute("stroke", markInk), attribute("stroke-width", "1.8"), attribute("fill", markFill), attribute("color", markInk)}
	for _, a := range attrs {
		if !slices.Contains([]string{"stroke", "stroke-width", "fill", "color"}, a.Name.Local) {
			out = append(out, a)
		}
	}
	return out
}

// quiet steps the drawing back behind its marks.
func quiet(attrs []xml.Attr, marked bool) []xml.Attr {
	if !marked {
		return attrs
	}
	out := []xml.Attr{attribute("color", quietLine)}
	return append(out, attrs...)
}

func attribute(name, value string) xml.Attr {
	return xml.Attr{Name: xml.Name{Local: name}, Value: value}
}

// mark is the number with a leader to the part.
func mark(n *node, text string) string {
	x, y, ok := place(n.attr("data-mark"))
	if !ok {
		return ""
	}
	var b strings.Builder
	if px, py, ok := place(n.attr("data-point")); ok && (px != x || py != y) {
		fmt.Fprintf(&b, `<path d="M%g %g L%g %g" stroke="%s" stroke-width="1.2" fill="none"/><circle cx="%g" cy="%g" r="2.2" stroke="none" fill="%s"/>`, x, y, px, py, markInk, px, py, markInk)
	}
	wide := markRadius + 4*float64(len(text)-1)
	fmt.Fprintf(&b, `<rect x="%g" y="%g" width="%g" height="%g" rx="%g" stroke="none" fill="%s"/>`, x-wide, y-markRadius, 2*wide, 2*markRadius, markRadius, markInk)
	fmt.Fprintf(&b, `<text x="%g" y="%g" text-anchor="middle" font-size="13" font-weight="bold" stroke="none" fill="%s">%s</text>`, x, y+4.5, markText, document.SVGText(text))
	return b.String()
}

// place reads "x y".
func place(text string) (x, y float64, ok bool) {
	n, err := fmt.Sscanf(text, "%g %g", &x, &y)
	return x, y, n == 2 && err == nil
}
