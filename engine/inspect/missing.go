package inspect

import (
	"cmp"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
)

// missing names what would have to be known for the quantities that something
// measured bears on, and for the verdicts that lack a limit.
func (in Input) missing(found Inspection) []Missing {
	var out []Missing
	at := map[string]int{}
	entry := func(words []string) *Missing {
		key := strings.Join(words, " ")
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, Missing{Words: words, Gives: []string{}})
		}
		return &out[i]
	}
	for _, r := range found.Readings {
		c, _ := in.Catalog.Reading(r.ID)
		if words := in.limitWords(c); len(words) > 0 && (r.Limit == nil || r.Limit.General) {
			m := entry(words)
			m.Verdict = append(m.Verdict, r.ID)
		}
	}
	for _, d := range in.Catalog.Derived {
		v := in.Derived.Value(d.ID, in.Known)
		if d.Group != "" && !v.Off && len(v.Missing) > 0 && in.measured(d.ID) {
			m := entry(v.Missing)
			m.Gives = append(m.Gives, d.ID)
		}
	}
	slices.SortStableFunc(out, func(a, b Missing) int {
		return cmp.Or(cmp.Compare(len(a.Words), len(b.Words)), cmp.Compare(len(b.Gives)+len(b.Verdict), len(a.Gives)+len(a.Verdict)))
	})
	return append([]Missing{}, out...)
}

// limitWords are the words of the machine sheet that would give a reading's limits
// and are not known.
func (in Input) limitWords(c catalog.Reading) []string {
	var out []string
	for _, w := range []string{c.Limit, c.LimitMin, c.LimitMax} {
		if w == "" {
			continue
		}
		words := []string{"machine." + w}
		if _, derived := in.Catalog.DerivedOf(w); derived {
			words = in.Derived.Words(w)
		}
		for _, word := range words {
			if !in.Known.Known(word) {
				out = append(out, word)
			}
		}
	}
	return out
}
