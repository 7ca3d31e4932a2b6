package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/takeup/engine/fact"
)

// finding is what a look at a stack gives: yes, no or cannot tell, with the places
// in the list that decided, or with the words that would.
type finding struct {
	known, yes bool
	places     []int
	waits      []string
}

func found(places ...int) finding { return finding{known: true, yes: true, places: places} }

func notFound(places ...int) finding { return finding{known: true, places: places} }

// waiting stops the evaluation of a leaf that needs a number nobody knows yet.
type waiting struct{ words []string }

func (w waiting) Error() string { return fmt.Sprintf("waits for %v", w.words) }

// open names the kinds of which a list may not hold every part.
func open(s *fact.Stack, kinds []string) (words []string) {
	for _, k := range kinds {
		if !s.IsWhole(k) {
			words = append(words, s.ID+"."+k)
		}
	}
	return words
}

// unsaid names an attribute that is not known of a part.
func unsaid(s *fact.Stack, at int, attribute string) string {
	return s.ID + "." + s.Parts[at].Kind + "." + attribute
}

// saying reports whether an attribute is known and has the value.
func saying(p fact.Part, attribute, value string) (is, known bool) {
	v, known := p.Known.Get(attribute)
	return known && wordOf(v) == value, known
}

func wordOf(v fact.Value) string {
	switch {
	case v.Kind == fact.YesNo && v.Yes:
		return "yes"
	case v.Kind == fact.YesNo:
		return "no"
	case v.Kind == fact.Count:
		return fmt.Sprint(v.SI)
	}
	return v.Word
}

// missing looks for a kind of which there is no part.
func missing(s *fact.Stack, kinds []string) finding {
	var f finding
	for _, k := range kinds {
		if len(s.Of(k)) > 0 {
			continue
		}
		said := slices.IndexFunc(s.Parts, func(p fact.Part) bool { return p.Kind == k && p.Missing })
		switch {
		case said >= 0:
			return found(said)
		case s.IsWhole(k):
			return found()
		}
		f.waits = append(f.waits, s.ID+"."+k)
	}
	f.known = f.waits == nil
	return f
}

// some looks for a part that has the value. With no part there is nothing to tell.
func some(s *fact.Stack, kinds []string, attribute, value string) finding {
	var f finding
	for _, i := range s.Of(kinds...) {
		is, known := saying(s.Parts[i], attribute, value)
		switch {
		case is:
			f.places = append(f.places, i)
		case !known:
			f.waits = append(f.waits, unsaid(s, i, attribute))
		}
	}
	if f.places != nil {
		return found(f.places...)
	}
	f.waits = append(f.waits, open(s, kinds)...)
	f.known = f.waits == nil && len(s.Of(kinds...)) > 0
	return f
}

// mixed looks for two parts that differ. The places are those of the fewer.
func mixed(s *fact.Stack, kinds []string, attribute string) finding {
	var f finding
	by := map[string][]int{}
	for _, i := range s.Of(kinds...) {
		v, known := s.Parts[i].Known.Get(attribute)
		if !known {
			f.waits = append(f.waits, unsaid(s, i, attribute))
			continue
		}
		by[wordOf(v)] = append(by[wordOf(v)], i)
	}
	if len(by) > 1 {
		return found(fewest(by)...)
	}
	f.waits = append(f.waits, open(s, kinds)...)
	f.known = f.waits == nil && len(s.Of(kinds...)) > 1
	return f
}

// fewest returns all places but those of the most frequent value; of several that are
// equally frequent, the one that comes first in the list counts as right.
func fewest(by map[string][]int) (places []int) {
	most, first := "", math.MaxInt
	for value, at := range by {
		if n := len(by[most]); len(at) > n || len(at) == n && at[0] < first {
			most, first = value, at[0]
		}
	}
	for value, at := range by {
		if value != most {
			places = append(places, at...)
		}
	}
	slices.Sort(places)
	return places
}

// together looks for two parts of one kind that follow each other with none of the
// other kinds between.
func together(s *fact.Stack, kinds []string) finding {
	last := -1
	var places []int
	for i, p := range s.Parts {
		switch {
		case p.Kind == fact.UnseenPart:
			last = -1
		case p.Missing || !slices.Contains(kinds, p.Kind):
		default:
			if last >= 0 && s.Parts[last].Kind == p.Kind {
				places = append(places, last, i)
			}
			last = i
		}
	}
	if places != nil {
		return found(slices.Compact(places)...)
	}
	f := finding{waits: open(s, kinds)}
	f.known = f.waits == nil && len(s.Of(kinds...)) > 0
	return f
}

// outermost looks at the last part of the kinds.
func outermost(s *fact.Stack, kinds []string, attribute, value string) finding {
	if words := open(s, kinds); words != nil {
		return finding{waits: words}
	}
	all := s.Of(kinds...)
	if len(all) == 0 {
		return finding{}
	}
	at := all[len(all)-1]
	is, known := saying(s.Parts[at], attribute, value)
	if !known {
		return finding{waits: []string{unsaid(s, at, attribute)}}
	}
	return finding{known: true, yes: is, places: []int{at}}
}

// before looks for a part of the first kinds that lies further in than one of the others.
func before(s *fact.Stack, first, then []string) finding {
	inner, outer := s.Of(first...), s.Of(then...)
	if len(inner) == 0 || len(outer) == 0 {
		return finding{}
	}
	if a, b := inner[0], outer[len(outer)-1]; a < b {
		return found(a, b)
	}
	return notFound(inner[0], outer[len(outer)-1])
}

// beside looks at the parts next to those of some kinds, inwards and outwards. Parts
// held at neither edge, such as rings inside a plate, are passed over.
func beside(s *fact.Stack, kinds, next []string, attribute, value string) finding {
	var f finding
	whole := s.IsWhole(next...)
	for _, at := range s.Of(kinds...) {
		for _, step := range []int{-1, +1} {
			i := neighbour(s, at, step)
			switch {
			case i < 0 && !whole:
				f.waits = append(f.waits, open(s, next)...)
			case i < 0 || !slices.Contains(next, s.Parts[i].Kind):
			default:
				is, known := saying(s.Parts[i], attribute, value)
				if is {
					return found(i)
				}
				if !known {
					f.waits = append(f.waits, unsaid(s, i, attribute))
				}
				f.places = append(f.places, i)
			}
		}
	}
	f.known = f.waits == nil && len(s.Of(kinds...)) > 0
	return f
}

// neighbour finds the nearest part held at an edge, or -1 at the end of what was seen.
func neighbour(s *fact.Stack, at, step int) int {
	for i := at + step; i >= 0 && i < len(s.Parts); i += step {
		switch p := s.Parts[i]; {
		case p.Kind == fact.UnseenPart:
			return -1
		case !p.Missing && p.Side != "":
			return i
		}
	}
	return -1
}

// unlike compares the parts of some kinds, one by one, with those of another stack. What
// the other does not say is not compared, and stacks of different count are not.
func unlike(s, other *fact.Stack, kinds []string, attribute string) finding {
	if words := append(open(s, kinds), open(other, kinds)...); words != nil {
		return finding{waits: words}
	}
	these, those := s.Of(kinds...), other.Of(kinds...)
	if len(these) != len(those) {
		return finding{}
	}
	var f finding
	compared := false
	for n, i := range these {
		want, said := other.Parts[those[n]].Known.Get(attribute)
		if !said || s.Parts[i].Kind != other.Parts[those[n]].Kind {
			continue
		}
		compared = true
		is, known := saying(s.Parts[i], attribute, wordOf(want))
		switch {
		case !known:
			f.waits = append(f.waits, unsaid(s, i, attribute))
		case !is:
			f.places = append(f.places, i)
		}
	}
	switch {
	case f.places != nil:
		return found(f.places...)
	case !compared && len(those) > 0:
		return finding{waits: []string{unsaid(other, those[0], attribute)}}
	}
	f.known = f.waits == nil && compared
	return f
}

// outOfOrder compares the order of the kinds with that of another stack of the same parts.
func outOfOrder(s, other *fact.Stack, kinds []string) finding {
	if words := append(open(s, kinds), open(other, kinds)...); words != nil {
		return finding{waits: words}
	}
	for _, k := range kinds {
		if len(s.Of(k)) != len(other.Of(k)) {
			return finding{}
		}
	}
	var places []int
	those := other.Of(kinds...)
	for n, i := range s.Of(kinds...) {
		if s.Parts[i].Kind != other.Parts[those[n]].Kind {
			places = append(places, i)
		}
	}
	return finding{known: len(those) > 0, yes: places != nil, places: places}
}

// count is how many parts there are of some kinds.
func count(s *fact.Stack, kinds []string) (any, error) {
	if words := open(s, kinds); words != nil {
		return nil, waiting{words}
	}
	return float64(len(s.Of(kinds...))), nil
}

// measured gathers what was measured on the parts of some kinds.
func measured(s *fact.Stack, kinds []string, attribute string) (any, error) {
	all := fact.Value{Kind: fact.Reading}
	var words []string
	for _, i := range s.Of(kinds...) {
		v, known := s.Parts[i].Known.Get(attribute)
		if !known {
			words = append(words, unsaid(s, i, attribute))
			continue
		}
		all.Values = append(all.Values, v.SI)
		all.Sigma = max(all.Sigma, v.Sigma)
	}
	if words != nil {
		return nil, waiting{words}
	}
	if all.Values == nil {
		return nil, waiting{open(s, kinds)}
	}
	all.SI = all.Mean()
	return all, nil
}

// total adds up what was measured on the parts of some kinds, with the uncertainty of
// as many independent readings.
func total(s *fact.Stack, kinds []string, attribute string) (any, error) {
	if words := open(s, kinds); words != nil {
		return nil, waiting{words}
	}
	if _, err := measured(s, kinds, attribute); err != nil {
		return nil, err
	}
	sum := fact.Value{Kind: fact.Reading}
	variance := 0.0
	for _, i := range s.Of(kinds...) {
		v, _ := s.Parts[i].Known.Get(attribute)
		sum.SI += v.SI
		variance += v.Sigma * v.Sigma
	}
	sum.Values, sum.Sigma = []float64{sum.SI}, math.Sqrt(variance)
	return sum, nil
}
