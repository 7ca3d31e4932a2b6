package unit

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// normalRune maps the many characters that look alike to one of each. One rune
// stays one rune, so that offsets in messages keep their meaning.
func normalRune(r rune) rune {
	switch r {
	case '\u00a0', '\u202f', '\u2007', '\u2009', '\t':
		return ' '
	case '\u2212', '\u2010', '\u2011', '\u2012', '\u2013':
		return '-'
	case '\u03bc': // Greek mu for the micro sign
		return 'µ'
	case 'º', '˚': // ordinal indicator and ring above
		return '°'
	case '″', '”', '“':
		return '"'
	case '⋅', '•', '∙', '*':
		return '·'
	}
	return r
}

func normal(s string) string { return strings.Map(normalRune, s) }

func isSeparator(r rune) bool { return r == ' ' || r == '-' || r == '.' || r == '·' }

// find looks a normalised unit up: as written first, then without regard to
// case, where a single letter or an ambiguous word gets no second chance.
func find(word []rune) *Unit {
	word = trim(word)
	if _, ok := twoMeanings(word); ok || len(word) == 0 {
		return nil
	}
	if u := search(word, false); u != nil || len(word) == 1 {
		return u
	}
	return search(word, true)
}

// trim drops blanks and the full stop of an abbreviation.
func trim(word []rune) []rune {
	return []rune(strings.Trim(strings.TrimRight(string(word), " ."), " "))
}

// twoMeanings finds a spelling that must be refused, and what to write instead.
func twoMeanings(word []rune) (hint string, ok bool) {
	for _, a := range ambiguous {
		// "NM" is how people shout newton metres; only "nm" is in doubt.
		if string(word) == a.name || a.name != "nm" && strings.EqualFold(string(word), a.name) {
			return a.hint, true
		}
	}
	return "", false
}

// search walks the table. It is short, and a map would have to be built at every
// start for a handful of look-ups.
func search(word []rune, foldCase bool) *Unit {
	for i := range units {
		u := &units[i]
		if matches(u.Symbol, word, foldCase) {
			return u
		}
		for _, name := range u.Names {
			if matches(name, word, foldCase) {
				return u
			}
		}
	}
	return nil
}

// matches compares a name from the table with a word. A separator in the name
// matches any run of separators, also an empty one; nothing else does, so that
// "m m" is not a millimetre.
func matches(name string, word []rune, foldCase bool) bool {
	i := 0
	for _, r := range name {
		if isSeparator(r) {
			for i < len(word) && isSeparator(word[i]) {
				i++
			}
			continue
		}
		if i == len(word) || word[i] != r && !(foldCase && unicode.ToLower(word[i]) == unicode.ToLower(r)) {
			return false
		}
		i++
	}
	return i == len(word)
}

// suggest returns a hint for an unknown unit: the nearest names at most one slip
// away (two in long words), or the common units when the word is too short to recognise.
func suggest(word []rune) string {
	lower := []rune(strings.ToLower(string(word)))
	limit := 1
	if len(word) > 5 {
		limit = 2
	}
	type guess struct {
		symbol   string
		distance int
	}
	var found []guess
	for _, u := range units {
		best := limit + 1
		for _, name := range append([]string{u.Symbol}, u.Names...) {
			if n := []rune(strings.ToLower(name)); len(n) > 2 && len(lower) > 2 {
				best = min(best, distance(lower, n))
			}
		}
		if best <= limit {
			found = append(found, guess{strconv.Quote(u.Symbol), best})
		}
	}
	if len(found) == 0 {
		return "units are for example mm, N, N·m, °C, km, min, ml, rpm"
	}
	slices.SortStableFunc(found, func(a, b guess) int { return cmp.Compare(a.distance, b.distance) })
	var symbols []string
	for _, g := range found {
		if g.distance == found[0].distance && len(symbols) < 3 {
			symbols = append(symbols, g.symbol)
		}
	}
	return "did you mean " + strings.Join(symbols, " or ") + "?"
}

// distance is the Levenshtein distance; unit names are a few runes long.
func distance(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j := range b {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
