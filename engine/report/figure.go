package report

import (
	"slices"
	"strconv"
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
	caption := "The numbers are those of the list: where to look. No machine is built exactly like this."
	alt := a.Drawing.Title() + ": " + a.numbered(pointers, shown) + "."
	return []document.Block{document.Drawing(caption, "", svg).Saying(alt)}
}

// numbered names the parts with their numbers: "1, 3 friction plates; 2 clutch springs".
func (a Answer) numbered(pointers []figure.Pointer, shown []string) string {
	var order []string
	numbers := map[string][]string{}
	for _, p := range pointers {
		if !slices.Contains(shown, p.Part) {
			continue
		}
		if numbers[p.Part] == nil {
			order = append(order, p.Part)
		}
		numbers[p.Part] = append(numbers[p.Part], strconv.Itoa(p.Number))
	}
	for i, part := range order {
		order[i] = strings.Join(numbers[part], ", ") + nbsp + a.Drawing.Name(part)
	}
	return strings.Join(order, "; ")
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
