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

// Where is the drawing with a mark at one part, on the page about a word.
func Where(d *figure.Drawing, part string) []document.Block {
	if d == nil || part == "" {
		return nil
	}
	svg, shown := d.Point([]figure.Pointer{{Part: part, Number: 1}}, unknown)
	if len(shown) == 0 {
		return nil
	}
	return []document.Block{document.Drawing("Where it is found: "+d.Name(part)+". No machine is built exactly like this.", "", svg).Saying(d.Title() + ".")}
}

// Parts is the drawing with a number at every part, and their names.
func Parts(d *figure.Drawing) []document.Block {
	if d == nil {
		return nil
	}
	number := func(parts []string) (all []figure.Pointer) {
		for i, part := range parts {
			all = append(all, figure.Pointer{Part: part, Number: i + 1, Plain: true})
		}
		return all
	}
	_, shown := d.Point(number(d.Parts()), unknown) // one kind of machine has not all of them
	svg, shown := d.Point(number(shown), unknown)
	var items []document.Item
	for _, part := range shown {
		items = append(items, item(plain(d.Name(part))))
	}
	return []document.Block{heading("The parts"), document.Drawing("No machine is built exactly like this.", "", svg).Saying(d.Title() + "."), document.Numbered(items...)}
}

// unknown answers a drawing when there is no machine.
func unknown(string) string { return "" }

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
