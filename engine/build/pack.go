package build

import (
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/figure"
	"example.org/takeup/engine/unit"
)

// Pack is the stack of a machine as a section that can be drawn.
type Pack struct {
	Origin  Origin         `json:"origin"`
	Section figure.Section `json:"section"`

	parts  []fact.Part // what each layer was drawn from
	places []int       // and where that stands in the list, from 1
}

// Origin says where a pack comes from.
type Origin string

// The origins of a pack.
const (
	FromSheet  Origin = "sheet"  // as the machine sheet lists it
	FromCounts Origin = "counts" // from the numbers of parts on the sheet
	FromCase   Origin = "case"   // as the case lists it
)

// layered are the shapes that lie on one another between the two drums.
var layered = []string{"plate", "lined", "ring", "cone", "cap"}

// packs are the stack as it should be and, where the case lists one that differs or
// leaves places open, as it is.
func (j Job) packs() []Pack {
	var out []Pack
	want := j.Known.Stack(catalog.SheetStackID)
	if want != nil {
		out = append(out, j.pack(FromSheet, want))
	}
	if is := j.Known.Stack(catalog.StackID); is != nil {
		p := j.pack(FromCase, is)
		j.mark(&p, out)
		if out == nil || p.doubtful() {
			out = append(out, p)
		}
	}
	if out == nil {
		if counted := j.counted(); counted != nil {
			p := j.pack(FromCounts, counted)
			p.clear()
			out = append(out, p)
		}
	}
	return slices.DeleteFunc(out, func(p Pack) bool { return len(p.Section.Layers) == 0 })
}

// pack draws the layered parts of a stack.
func (j Job) pack(from Origin, s *fact.Stack) Pack {
	p := Pack{Origin: from}
	for _, kind := range j.Catalog.Parts {
		switch kind.Shape {
		case "drum":
			p.Section.Inner = kind.Name
		case "basket":
			p.Section.Outer = kind.Name
		}
	}
	for n, part := range s.Parts {
		kind, known := j.Catalog.Part(part.Kind)
		if part.Kind == fact.UnseenPart {
			p.Section.Layers = append(p.Section.Layers, figure.Layer{Name: "not looked at", Mark: figure.Unseen})
			p.parts, p.places = append(p.parts, part), append(p.places, n+1)
		}
		if known && slices.Contains(layered, kind.Shape) {
			p.Section.Layers = append(p.Section.Layers, j.layer(part, kind, s))
			p.parts, p.places = append(p.parts, part), append(p.places, n+1)
		}
	}
	return p
}

func (j Job) layer(part fact.Part, kind catalog.Part, s *fact.Stack) figure.Layer {
	l := figure.Layer{Shape: kind.Shape, Side: kind.Side, Name: kind.Name, Usual: metres(kind.Thickness)}
	if part.Missing {
		l.Mark = figure.Missing
	}
	var notes []string
	for _, id := range part.Known.IDs() {
		v, _ := part.Known.Get(id)
		a, _ := j.Catalog.Attribute(id)
		if v.Kind == fact.Reading {
			if id == "thickness" || l.ThicknessM == 0 {
				l.ThicknessM = v.Mean()
			}
			continue
		}
		for _, o := range a.Choices {
			if o.ID == v.Word && o.Draw != "" {
				l.Draw = o.Draw
			}
		}
		if v.Kind == fact.YesNo && !v.Yes && l.Mark == figure.Fine {
			l.Mark = figure.Wrong
		}
		if note := remark(a, v); note != "" && (v.Kind == fact.YesNo || differs(id, v, part.Kind, s)) {
			notes = append(notes, note)
		}
	}
	l.Note = strings.Join(notes, ", ")
	return l
}

// remark words what an attribute says, when it is not what goes without saying.
func remark(a catalog.Attribute, v fact.Value) string {
	switch v.Kind {
	case fact.YesNo:
		if !v.Yes {
			return a.Name + ": no"
		}
	case fact.Choice:
		if v.Word != a.Otherwise {
			for _, o := range a.Choices {
				if o.ID == v.Word {
					short, _, _ := strings.Cut(o.Name, ",")
					return a.Name + ": " + short
				}
			}
		}
	case fact.Label:
		if v.Word != a.Otherwise {
			return a.Name + ": " + v.Text
		}
	}
	return ""
}

// differs reports whether another part of the kind says something else.
func differs(id string, v fact.Value, kind string, s *fact.Stack) bool {
	return slices.ContainsFunc(s.Parts, func(p fact.Part) bool {
		other, known := p.Known.Get(id)
		return p.Kind == kind && !p.Missing && known && other.Word != v.Word
	})
}

// mark points at the layers that a rule has found fault with, and at those that are not
// what the sheet wants in their place. Where
// the lists differ in length only the first is marked, since one part too many moves
// all that follow. Without a sheet what can be seen is two plates that turn together.
func (j Job) mark(p *Pack, sheet []Pack) {
	layers := p.Section.Layers
	for i := range layers {
		if layers[i].Mark == figure.Fine && slices.Contains(j.Places, p.places[i]) {
			layers[i].Mark = figure.Wrong
		}
	}
	for i := range layers {
		l := &layers[i]
		switch {
		case l.Mark == figure.Missing || l.Mark == figure.Unseen:
		case len(sheet) == 0:
			if i > 0 && twins(layers[i-1], *l) {
				l.Mark = figure.Wrong
			}
		case i >= len(sheet[0].parts) || p.parts[i].Kind != sheet[0].parts[i].Kind:
			l.Mark = figure.Wrong
			if len(sheet[0].parts) != len(layers) {
				return
			}
		default:
			if notes := j.against(p.parts[i], sheet[0].parts[i]); len(notes) > 0 {
				l.Mark, l.Note = figure.Wrong, strings.Join(notes, ", ")
			}
		}
	}
}

// doubtful reports whether any layer has a mark.
func (p Pack) doubtful() bool {
	return slices.ContainsFunc(p.Section.Layers, func(l figure.Layer) bool { return l.Mark != figure.Fine })
}

// twins are two plates of one kind that lie on each other and turn together.
func twins(a, b figure.Layer) bool {
	return a.Side != "" && a.Shape == b.Shape && a.Side == b.Side && a.Mark == figure.Fine
}

// against words what the list says of a part where the sheet says something else.
// What one of them does not say is no difference, and a thickness is a matter of wear.
func (j Job) against(is, want fact.Part) (notes []string) {
	for _, id := range is.Known.IDs() {
		v, _ := is.Known.Get(id)
		w, said := want.Known.Get(id)
		if !said || v.Kind == fact.Reading || v.Word == w.Word && v.Yes == w.Yes && v.SI == w.SI {
			continue
		}
		a, _ := j.Catalog.Attribute(id)
		note := remark(a, v)
		if note == "" { // the sheet wants something special and this is the usual thing
			note = "not " + remark(a, w)
		}
		notes = append(notes, note)
	}
	return notes
}

// clear draws the plate that lies round a ring with the bore it must have.
func (p *Pack) clear() {
	layers := p.Section.Layers
	for i := 1; i < len(layers); i++ {
		if layers[i].Shape == "lined" && (layers[i-1].Shape == "ring" || layers[i-1].Shape == "cone") {
			layers[i].Draw = "short"
		}
	}
}

// counted lays a pack out from the numbers on the sheet: two kinds that take turns,
// the more numerous first and last, inside them what the sheet says there is, and
// what closes the stack. Without a clear order there is nothing to draw.
func (j Job) counted() *fact.Stack {
	var plates []catalog.Part
	var numbers []int
	s := &fact.Stack{}
	var cap *fact.Part
	for _, kind := range j.Catalog.Parts {
		switch v, known := j.Known.Get("machine." + kind.Sheet); {
		case kind.Shape == "cap":
			cap = &fact.Part{Kind: kind.ID, Side: kind.Side}
		case known && v.Kind == fact.Count && v.SI >= 1 && v.SI <= 50 && slices.Contains(layered, kind.Shape):
			plates, numbers = append(plates, kind), append(numbers, int(v.SI))
		case known && v.Yes && slices.Contains(layered, kind.Shape):
			s.Parts = append(s.Parts, fact.Part{Kind: kind.ID, Side: kind.Side})
		}
	}
	if len(plates) != 2 || numbers[0]-numbers[1] != 1 && numbers[1]-numbers[0] != 1 {
		return nil
	}
	first := 0
	if numbers[1] > numbers[0] {
		first = 1
	}
	for i := range numbers[0] + numbers[1] {
		kind := plates[(first+i)%2]
		s.Parts = append(s.Parts, fact.Part{Kind: kind.ID, Side: kind.Side})
	}
	if cap != nil {
		s.Parts = append(s.Parts, *cap)
	}
	return s
}

// metres is a length that was checked when the knowledge was read, 0 for none.
func metres(text string) float64 {
	q, err := unit.ParseAs(text, unit.Length)
	if err != nil {
		return 0
	}
	return q.SI
}
