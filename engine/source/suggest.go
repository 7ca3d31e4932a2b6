package source

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Suggest returns the words of known that word may be a misspelling of, nearest
// first, at most three. Distance is optimal string alignment (insert, delete,
// replace, swap neighbours), at most 1 for words under 5 letters, 2 up to 8, 3
// above; case does not count and blanks and hyphens equal underscores. A
// word nobody could recognise gets no suggestion: silence beats a wrong guess.
func Suggest(word string, known []string) []string {
	type guess struct {
		word     string
		distance int
	}
	w := fold(word)
	limit := allowed(utf8.RuneCountInString(word))
	var found []guess
	for _, k := range known {
		if k == word {
			continue
		}
		if d := distance(w, fold(k), limit); d <= limit {
			found = append(found, guess{k, d})
		}
	}
	slices.SortFunc(found, func(a, b guess) int {
		return cmp.Or(cmp.Compare(a.distance, b.distance), cmp.Compare(a.word, b.word))
	})
	var out []string
	for _, g := range found {
		if found[0].distance == 0 && g.distance > 0 {
			break // the word itself, written another way
		}
		if len(out) < 3 && !slices.Contains(out, g.word) {
			out = append(out, g.word)
		}
	}
	return out
}

// allowed is the greatest distance for a word of n letters. One letter is not
// enough to recognise anything by.
func allowed(n int) int {
	switch {
	case n < 2:
		return 0
	case n < 5:
		return 1
	case n <= 8:
		return 2
	}
	return 3
}

// fold takes away the differences that people do not see.
func fold(s string) []rune {
	return []rune(strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s)))
}

// distance is the optimal string alignment distance, or limit+1 as soon as it
// is known to be larger.
func distance(a, b []rune, limit int) int {
	if len(a)-len(b) > limit || len(b)-len(a) > limit {
		return limit + 1
	}
	before := make([]int, len(b)+1) // two rows up, for swaps
	above := make([]int, len(b)+1)
	row := make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := range a {
		row[0] = i + 1
		best := row[0]
		for j := range b {
			change := 1
			if a[i] == b[j] {
				change = 0
			}
			row[j+1] = min(above[j+1]+1, row[j]+1, above[j]+change)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
			best = min(best, row[j+1])
		}
		// A swap reaches back two rows, but that row is at most one better than
		// this one: past limit+1 nothing can come back under the limit.
		if best > limit+1 {
			return limit + 1
		}
		before, above, row = above, row, before
	}
	return above[len(b)]
}

// DidYouMean is the hint line for a misspelt word, or "" when no known word is
// near enough to be worth a guess.
func DidYouMean(word string, known []string) string {
	if near := Suggest(word, known); len(near) > 0 {
		return "did you mean " + strings.Join(near, " or ") + "?"
	}
	return ""
}

// didYouMean is the same for keys, which are shown in quotes.
func didYouMean(words []string) string {
	if len(words) == 0 {
		return ""
	}
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	last := len(quoted) - 1
	if last == 0 {
		return "did you mean " + quoted[0] + "?"
	}
	return "did you mean " + strings.Join(quoted[:last], ", ") + " or " + quoted[last] + "?"
}

// Alike returns the ids of known that share most parts with a word that is no
// misspelling of any: "rattles_idle" for rattle_idle_lever_out. Parts lie between
// underscores and are taken for the same when one begins with the other, four
// letters or more. At most three, those that leave least over first.
func Alike(word string, known []string) []string {
	type guess struct {
		word         string
		shared, left int
	}
	parts := strings.Split(string(fold(word)), "_")
	var found []guess
	for _, k := range known {
		own := strings.Split(k, "_")
		shared := 0
		for _, p := range parts {
			if slices.ContainsFunc(own, func(o string) bool { return samePart(p, o) }) {
				shared++
			}
		}
		if shared > 0 && k != word {
			found = append(found, guess{k, shared, len(own) - shared})
		}
	}
	slices.SortFunc(found, func(a, b guess) int {
		return cmp.Or(cmp.Compare(b.shared, a.shared), cmp.Compare(a.left, b.left), cmp.Compare(a.word, b.word))
	})
	var out []string
	for _, g := range found {
		if g.shared < found[0].shared || len(out) == 3 {
			break
		}
		if !slices.Contains(out, g.word) {
			out = append(out, g.word)
		}
	}
	return out
}

func samePart(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	return len(a) >= 4 && strings.HasPrefix(b, a)
}
