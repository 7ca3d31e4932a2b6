package figure

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/unit"
)

// Section is a stack of parts cut along its axis, innermost first.
type Section struct {
	Inner  string  `json:"inner"` // what holds the inner plates: "hub"
	Outer  string  `json:"outer"` // what holds the outer ones: "basket"
	Layers []Layer `json:"layers"`
}

// Layer is one part of a section.
type Layer struct {
	Shape      string  `json:"shape"`                 // plate, lined, ring, cone, cap; see catalog.Shapes
	Side       string  `json:"side,omitempty"`        // inner or outer: the edge it is held at
	Name       string  `json:"name"`                  // "steel plate"
	Note       string  `json:"note,omitempty"`        // what sets it apart, "bore larger"
	Draw       string  `json:"draw,omitempty"`        // short: larger bore; stepped: hangs in slots of its own
	ThicknessM float64 `json:"thickness_m,omitempty"` // 0 is drawn as usual and not written
	Usual      float64 `json:"-"`                     // metres, for drawing a part of unknown thickness
	Mark       Mark    `json:"mark,omitempty"`
}

// Mark says what is the matter with a layer.
type Mark string

// The marks of a layer.
const (
	Fine    Mark = ""
	Wrong   Mark = "wrong"   // it differs from what the sheet wants here
	Missing Mark = "missing" // said to be left out
	Unseen  Mark = "unseen"  // nobody has looked
)

// Stack draws a section in both forms.
func Stack(caption string, s Section) document.Block {
	alt := "From the inside out: " + s.Words() + "."
	if wrong := s.wrong(); wrong != nil {
		caption += " Not as it should be: " + strings.Join(wrong, ", ") + "."
	}
	return document.Drawing(caption, s.text(), s.svg()).Saying(alt)
}

// Words says in a line what the section shows, equal runs counted: "friction plate,
// 6 × (steel plate, friction plate), pressure plate".
func (s Section) Words() string {
	var out []string
	for i := 0; i < len(s.Layers); {
		pair, n := s.run(i)
		switch {
		case n > 1 && pair == 1:
			out = append(out, fmt.Sprintf("%d × %s", n, s.Layers[i].words()))
		case n > 1:
			out = append(out, fmt.Sprintf("%d × (%s, %s)", n, s.Layers[i].words(), s.Layers[i+1].words()))
		default:
			pair, n = 1, 1
			out = append(out, s.Layers[i].words())
		}
		i += pair * n
	}
	return strings.Join(out, ", ")
}

// wrong lists the numbers of the marked layers.
func (s Section) wrong() (numbers []string) {
	for i, l := range s.Layers {
		if l.Mark == Wrong || l.Mark == Missing {
			numbers = append(numbers, fmt.Sprint(i+1))
		}
	}
	return numbers
}

// run finds how often one layer, or a pair of layers, repeats from place i on.
func (s Section) run(i int) (width, times int) {
	width, times = 1, s.repeats(i, 1)
	if pairs := s.repeats(i, 2); times == 1 && pairs > 1 {
		return 2, pairs
	}
	return width, times
}

func (s Section) repeats(i, width int) int {
	n := 1
	for at := i + width; at+width <= len(s.Layers); at += width {
		for k := range width {
			if s.Layers[i+k].words() != s.Layers[at+k].words() {
				return n
			}
		}
		n++
	}
	return n
}

// words is the name with what sets it apart.
func (l Layer) words() string {
	text := l.Name
	if l.Note != "" {
		text += " (" + l.Note + ")"
	}
	if l.Mark == Missing {
		text += " left out"
	}
	return text
}

var millimetre, _ = unit.Find("mm")

// size is the thickness as written beside a layer.
func (l Layer) size() string {
	if l.ThicknessM <= 0 {
		return ""
	}
	return unit.Format(l.ThicknessM, millimetre, 3)
}
