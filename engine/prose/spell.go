package prose

import (
	"strings"
	"unicode/utf8"
)

// spelt takes a word of the pack as spelt right.
func (l *Lexicon) spelt(w string) {
	if w != "" && !l.words[w] && strings.IndexFunc(w, func(r rune) bool { return r < 'a' || r > 'z' }) < 0 {
		s := l.stemOf(w)
		l.words[w], l.stems[s], l.stemmed[w] = true, true, s
		l.spelling[len(w)] = append(l.spelling[len(w)], w)
	}
}

// plainWords takes the words of the language, and those that a pack says look
// misspelt and are not, as right; none is what another was meant to be.
func (l *Lexicon) plainWords(files []phraseFile) {
	for _, f := range files {
		for _, t := range f.Plain {
			for _, w := range strings.Fields(t.Value) {
				l.words[w] = true
			}
		}
	}
	for _, list := range []map[string]bool{lang().fillers, lang().dropped, lang().contrasts, lang().joints, lang().about, lang().vague} {
		for w := range list {
			l.words[w] = true
		}
	}
	for _, list := range lang().idioms {
		for _, i := range list {
			for _, w := range i.words {
				l.words[w] = true
			}
		}
	}
	for w := range lang().numbers {
		l.words[w] = true
	}
}

// known returns a word as it is compared, with its stem. A long word that nobody
// knows and that is one slip away from exactly one word of the phrases is taken
// for that word; short words are never corrected, since "cold" and "hold" differ
// by a letter.
func (l *Lexicon) known(w string) (word, st string) {
	if to, ok := l.same[w]; ok {
		return w, stem(to)
	}
	st = stem(w)
	if l.words[w] || utf8.RuneCountInString(w) < 4 || w[0] < 'a' || w[0] > 'z' {
		return w, st
	}
	if l.stems[st] {
		return w, st
	}
	if strings.HasSuffix(w, "s") && l.words[strings.TrimSuffix(w, "s")] {
		return w, l.stemOf(strings.TrimSuffix(w, "s"))
	}
	if l.words[w+"s"] {
		return w, st
	}
	for _, ending := range []string{"ed", "ing", "d"} {
		if base, ok := strings.CutSuffix(w, ending); ok && len(base) > 2 && l.words[base] {
			return w, l.stemOf(base)
		}
	}
	if right := l.correct(w); right != "" {
		return right, l.stemOf(right)
	}
	return w, st
}

// correct finds the one word that w is a slip of, or nothing. Words that share a
// stem count as one. The first letter is hardly ever wrong and must agree.
func (l *Lexicon) correct(w string) string {
	limit := 1
	if len(w) >= 8 {
		limit = 2
	}
	best, bestAt, bestStem := "", limit+1, ""
	for n := len(w) - limit; n <= len(w)+limit; n++ {
		for _, k := range l.spelling[n] {
			if n < 3 || k[0] != w[0] || lang().fillers[k] && n < 5 {
				continue
			}
			if len(w) == 4 && !doubled(w, k) {
				continue
			}
			d := slips(w, k, bestAt)
			switch st := l.stemOf(k); {
			case d < bestAt:
				best, bestAt, bestStem = k, d, st
			case d == bestAt && d <= limit && st != bestStem:
				best = "?"
			}
		}
	}
	if best == "?" || bestAt > limit {
		return ""
	}
	return best
}

// doubled reports whether a short word differs from another by a letter doubled
// or not doubled: "hott", "smel".
func doubled(w, k string) bool {
	long, short := w, k
	if len(k) > len(w) {
		long, short = k, w
	}
	if len(long) != len(short)+1 {
		return false
	}
	for i := 1; i < len(long); i++ {
		if long[i] == long[i-1] && long[:i]+long[i+1:] == short {
			return true
		}
	}
	return false
}

// slips is the optimal string alignment distance of a and b: letters dropped,
// added, changed, or swapped with their neighbour. It stops past limit.
func slips(a, b string, limit int) int {
	if len(a)-len(b) > limit || len(b)-len(a) > limit {
		return limit + 1
	}
	before, last := make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row := make([]int, len(b)+1)
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}
