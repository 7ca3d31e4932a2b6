package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
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
		ends = book{cat: a.Catalog}.between(p)
	}
	return fmt.Sprintf("Is every %s in the list? Then name %s in it too.", p.Name, ends), true
}

// part is how a part is written in a stack, what can be said of it and what the rules
// make of that.
func (b book) part(p catalog.Part) []document.Block {
	example := p.ID
	if p.Plural != "" {
		example += " x3"
	}
	facts := []document.Fact{document.NewFact("in a stack", document.Code("- "+example))}
	if len(p.Between) == 2 {
		facts = append(facts, document.NewFact("lies between", plain(b.between(p)+"; a list that names both has every one of it")))
	}
	blocks := []document.Block{document.Paragraph(plain(p.What)), document.Facts(facts...)}
	var said []document.Item
	for _, id := range p.Has {
		a, _ := b.cat.Attribute(id)
		said = append(said, item(document.Code(id), plain(": "+values(a)+". "+a.Question+after(" ", a.How)+unsaid(a))))
	}
	if len(said) > 0 {
		blocks = append(blocks, heading("What can be said of it"), document.List(said...))
	}
	var rules []document.Item
	for _, r := range b.set.Rules {
		if r.When != nil && r.Action == rule.Shows && strings.Contains(r.When.Text, strconv.Quote(p.ID)) {
			rules = append(rules, item(document.Strong(capital(b.cat.NameOf(r.To))), plain(": "+r.Because)))
		}
	}
	if len(rules) > 0 {
		blocks = append(blocks, heading("What the rules see in it"), document.List(rules...))
	}
	return blocks
}

func (b book) between(p catalog.Part) string {
	from, _ := b.cat.Part(p.Between[0])
	to, _ := b.cat.Part(p.Between[1])
	return from.Name + " and " + to.Name
}

// unsaid says what a part is taken for that says nothing.
func unsaid(a catalog.Attribute) string {
	if a.Otherwise == "" {
		return ""
	}
	return " Left out beside one that says otherwise, it counts as " + a.Otherwise + "."
}

// values shows what may be written after an attribute.
func values(a catalog.Attribute) string {
	var all []string
	for _, c := range a.Choices {
		all = append(all, c.ID)
	}
	switch fact.Kind(a.Kind) {
	case fact.YesNo:
		all = []string{"yes", "no"}
	case fact.Reading:
		return "a number in " + a.Unit
	case fact.Label:
		return "a word of your own"
	}
	return listed(all, "or")
}
