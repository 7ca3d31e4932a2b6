package report

import (
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/figure"
)

// pointedAt is the probability from which a cause of the list is pointed at.
const pointedAt = 0.05

// figure is the drawing of the machine with the numbers of the list at the parts of
// the causes that got a bar.
func (a Answer) figure(bars []document.Bar, ids []string) []document.Block {
	if a.Drawing == nil || len(ids) == 0 {
		return nil
	}
	var pointers []figure.Pointer
	for i, id := range ids {
		if id == "" || bars[i].Share < pointedAt && i > 0 {
			continue
		}
		pointers = append(pointers, figure.Pointer{Part: a.cause(id).Part, Number: i + 1})
	}
	svg, shown := a.Drawing.Point(pointers, a.choice)
	if len(shown) == 0 {
		return nil
	}
	var parts []string
	for _, part := range shown {
		parts = append(parts, a.Drawing.Name(part))
	}
	caption := "The numbers are those of the list: where to look. No machine is built exactly like this."
	alt := a.Drawing.Title() + ". Pointed at: " + strings.Join(parts, ", ") + "."
	return []document.Block{document.Drawing(caption, "", svg).Saying(alt)}
}

// choice answers a drawing for what is known of the machine.
func (a Answer) choice(id string) string {
	v, known := a.Case.Known.Get(id)
	switch {
	case !known:
		return ""
	case v.Kind == fact.YesNo && v.Yes:
		return "yes"
	case v.Kind == fact.YesNo:
		return "no"
	}
	return v.Word
}
