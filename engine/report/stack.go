package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/takeup/engine/catalog"
)

// mostPlaces is how many parts of a stack are pointed at in a line.
const mostPlaces = 4

// readOff says where a rule has read a sign: off a gauge, or in the list of parts.
func (a Answer) readOff(id string) string {
	if !a.listed(id) {
		return "measured"
	}
	if parts := a.pointed(id); parts != "" {
		return "in the stack: " + parts
	}
	return "in the stack"
}

// listed reports whether a rule reads its sign off the stack.
func (a Answer) listed(id string) bool {
	r, _ := a.Rules.Rule(id)
	return r.When != nil && slices.Contains(r.When.Words(), catalog.StackID)
}

// pointed names the parts of the stack that made a rule fire, counted from the inside
// within their kind; nothing when there are too many to be read.
func (a Answer) pointed(id string) string {
	var kinds []string
	numbers := map[string][]string{}
	for _, n := range a.places(id) {
		kind, number := a.part(n - 1)
		if number != "" && slices.Contains(numbers[kind], number) {
			continue
		}
		if !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
		numbers[kind] = append(numbers[kind], number)
	}
	var words []string
	total := 0
	for _, k := range kinds {
		p, _ := a.Catalog.Part(k)
		total += len(numbers[k])
		switch {
		case p.Plural == "" || numbers[k][0] == "":
			words = append(words, p.Name)
		case len(numbers[k]) == 1:
			words = append(words, p.Name+" "+numbers[k][0])
		default:
			words = append(words, p.Plural+" "+Join(numbers[k]))
		}
	}
	if total > mostPlaces {
		return ""
	}
	return Join(words)
}

// places lists the parts that decided for a rule that found something, from 1.
func (a Answer) places(id string) (places []int) {
	for _, f := range a.Firings {
		if f.Rule != id || f.Probability < 0.5 {
			continue
		}
		for _, c := range f.Clauses {
			places = append(places, c.Places...)
		}
	}
	return places
}

// part returns the kind of the part at a place, and its number among its kind; no
// number for a part that is missing.
func (a Answer) part(at int) (kind, number string) {
	s := a.Case.Stack()
	if s == nil || at >= len(s.Parts) {
		return "", ""
	}
	p := s.Parts[at]
	if p.Missing {
		return p.Kind, ""
	}
	return p.Kind, strconv.Itoa(slices.Index(s.Of(p.Kind), at) + 1)
}

// inStack asks for what is not known of the parts of a stack.
func (a Answer) inStack(id string) (string, bool) {
	rest, sheet := strings.CutPrefix(id, catalog.SheetStackID+".")
	if !sheet {
		rest = strings.TrimPrefix(id, catalog.StackID+".")
	}
	kind, attribute, _ := strings.Cut(rest, ".")
	p, ok := a.Catalog.Part(kind)
	if !ok {
		return "", false
	}
	where := ""
	if sheet {
		where = ", as the machine's manual wants it"
	}
	if at, ok := a.Catalog.Attribute(attribute); ok {
		return capital(p.Name) + where + ": " + at.Question, true
	}
	ends := "it"
	if len(p.Between) == 2 {
		from, _ := a.Catalog.Part(p.Between[0])
		to, _ := a.Catalog.Part(p.Between[1])
		ends = from.Name + " and " + to.Name
	}
	return fmt.Sprintf("Is every %s in the list? Then name %s in it too.", p.Name, ends), true
}
