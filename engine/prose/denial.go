package prose

import (
	"slices"
	"strings"
)

// How many tokens a denying word reaches, and how far off it still makes unclear
// what is meant.
const (
	nearDenial = 9
	farDenial  = 14
)

// denied reports whether a denying word reaches the find: one before its head in
// the same part of the sentence, or "none" and its like right after it.
func (m *matcher) denied(f find, v *verdict) bool {
	no := f.topic && f.flip == denies
	for _, s := range f.all {
		no = no != s.no
	}
	if m.underNo(f.head.from) {
		no = !no
	}
	if f.topic && m.tokens[f.head.from].role == denies && f.head.from == f.head.to {
		return no // a fragment has weighed its own words
	}
	seen := map[int]bool{}
	for i := f.head.from - 1; i >= 0 && f.head.from-i <= farDenial; i-- {
		t := m.tokens[i]
		if t.part != m.tokens[f.head.from].part || t.roleAt < 2 && m.stops(t, i, f.head.from) {
			break
		}
		if t.roleAt != 1 || seen[i] || m.overlaps(f.all, i) || m.elsewhereSpent(i, f.head) {
			continue
		}
		switch t.role {
		case denies:
			switch {
			case f.head.from-i <= nearDenial && m.reaches(i, f.head.from):
				no, seen[i] = !no, true
				v.wide.from = min(v.wide.from, i)
				if m.loose(i, f.head.from) {
					v.drop = Unclear
				}
			case !lang().nounless[t.word]:
				v.drop = Unclear
			}
		case ends: // "has stopped slipping"
			if k := m.idiomEnd(i); k == f.head.from && m.tokens[k-1].word == "stopped" {
				no, seen[i] = !no, true
			}
		case denyDoubts:
			no, v.doubt, seen[i] = !no, true, true
			v.wide.from = min(v.wide.from, i)
		}
	}
	if no && m.limited(f) {
		v.drop = Unclear
	}
	no = no || m.notThen(f) // "no creep, not when hot" denies once
	if end := m.after(f.covers()); end > 0 && !no {
		v.wide.to = max(v.wide.to, end)
		return true
	}
	return no
}

// idiomEnd is the token after the idiom that begins at i.
func (m *matcher) idiomEnd(i int) int {
	for i++; i < len(m.tokens) && m.tokens[i].roleAt > 1; i++ {
	}
	return i
}

// loose reports whether a denial at i that reaches a head may well be about something
// else: what is told of the past ("it had never slipped"), and clauses with "that"
// whose truth is not in question ("he never told me that it slips").
func (m *matcher) loose(i, head int) bool {
	if i > 0 && m.tokens[i-1].word == "had" || m.tokens[i].word == "hadnt" {
		return true
	}
	for k := m.idiomEnd(i); k < head; k++ {
		if m.tokens[k].word == "that" && m.tokens[k].roleAt < 2 && !lang().opines[m.tokens[k-1].word] {
			return true
		}
	}
	return false
}

// limited reports whether a denial holds for a time or a degree only: "it didn't slip
// until last week", "not as badly as before".
func (m *matcher) limited(f find) bool {
	c := f.covers()
	for i := f.head.to; i < len(m.tokens) && i < c.to+6; i++ {
		t := m.tokens[i]
		if t.mark != 0 || t.part != m.tokens[c.from].part || t.word == "and" {
			return false
		}
		if lang().limits[t.word] {
			return true
		}
		for n := 2; n <= 3 && i+n <= len(m.tokens); n++ {
			if lang().limits[wordsFrom(m.tokens[i:i+n])] {
				return true
			}
		}
	}
	return false
}

func wordsFrom(ts []token) string {
	words := make([]string, len(ts))
	for i, t := range ts {
		words[i] = t.word
	}
	return strings.Join(words, " ")
}

// notThen reports whether a circumstance behind the head is denied by itself:
// "creeps hot, not cold".
func (m *matcher) notThen(f find) bool {
	if f.topic {
		return false
	}
	for _, s := range f.all[1:] {
		if i := s.from - 1; i >= f.head.to && m.tokens[i].word == "not" && m.tokens[i].role == denies {
			return true
		}
	}
	return false
}

// underNo reports whether token i stands under a heading that denies: "What it does
// not do: slip, drag".
func (m *matcher) underNo(i int) bool {
	no := false
	for k, t := range m.tokens[:i] {
		switch {
		case t.mark == ':':
			return no && k < i
		case t.role == denies && t.roleAt == 1:
			no = !no
		case t.mark != 0 || !t.filler && t.role == none:
			return false // it says something by itself
		}
	}
	return false
}

// elsewhereSpent reports whether the denying word at i belongs to a find that has
// nothing to do with a head.
func (m *matcher) elsewhereSpent(i int, head span) bool {
	if m.spent == nil || m.spent[i].to == 0 || m.orBetween(i, head.from) {
		return false
	}
	return m.spent[i].to <= head.from // else it is the same thing in other words
}

// orBetween reports whether a list goes on from i to j: "no judder, rattle or whine".
func (m *matcher) orBetween(i, j int) bool {
	return slices.ContainsFunc(m.tokens[i:j], func(t token) bool { return t.word == "or" || t.word == "nor" })
}

// overlaps reports whether the idiom that begins at token i is a part of the spans,
// or reaches into them: the "did not" of "did not soak".
func (m *matcher) overlaps(spans []span, i int) bool {
	for k := i; k < len(m.tokens) && (k == i || m.tokens[k].roleAt == k-i+1); k++ {
		if covered(spans, k) {
			return true
		}
	}
	return false
}

func covered(spans []span, i int) bool {
	return slices.ContainsFunc(spans, func(s span) bool { return s.from <= i && i < s.to })
}

// stops reports whether a denying word on the far side of t could not reach over
// it: reasons, other subjects, other clauses.
func (m *matcher) stops(t token, i, head int) bool {
	switch {
	case t.role == presumes && t.roleAt == 1, t.mark == '(' || t.mark == ')' || t.mark == ':':
		return true
	case t.mark == ',' || t.mark == '-':
		return !m.listed(i, head)
	case t.word == "and" || t.word == "because" || t.word == "so" || t.word == "then" || t.word == "plus" || t.word == "since" || t.word == "until" || t.word == "till":
		return true
	case t.word == "when" || t.word == "while" || t.word == "as" || t.word == "after" || t.word == "before" || t.word == "once" || t.word == "which":
		return true
	}
	return false
}

// listed reports whether a comma joins a list that "or" or "nor" closes: "no
// rattle, judder or drag".
func (m *matcher) listed(comma, head int) bool {
	if head-comma > 4 {
		return false
	}
	for i := comma + 1; i < len(m.tokens) && i < comma+8; i++ {
		t := m.tokens[i]
		if t.word == "or" || t.word == "nor" {
			return true
		}
		if t.role == denies || t.word == "and" || lang().contrasts[t.word] || lang().subjects[t.word] {
			return false
		}
	}
	return false
}

// reaches reports whether the denying word at i reaches a head at from. "No" and
// "without" belong to the noun right after them, verbs reach further.
func (m *matcher) reaches(i, from int) bool {
	between := 0
	for k := i + 1; k < from; k++ {
		t := m.tokens[k]
		if t.word == "or" || t.word == "nor" {
			between -= 2
			continue
		}
		if t.mark == 0 && !t.filler && t.role == none {
			between++
		}
	}
	if lang().nounless[m.tokens[i].word] {
		return between <= 2
	}
	return between <= 3
}

// twoSided reports whether a span sets one thing against another: the denied verb
// behind "the revs climb but the speed doesn't" belongs to the second.
func (m *matcher) twoSided(c span) bool {
	return slices.ContainsFunc(m.tokens[c.from:min(c.to, len(m.tokens))], func(t token) bool {
		return lang().contrasts[t.word] || lang().joints[t.word]
	})
}

// notAtEnd finds a denied verb that ends its clause: "heavy the lever is not".
func (m *matcher) notAtEnd(i int) int {
	n := i + 1
	if _, verb := lang().short[m.tokens[i].word]; verb && n < len(m.tokens) && m.tokens[n].word == "not" {
		n++
	} else if !lang().nots[m.tokens[i].word] {
		return 0
	}
	if n < len(m.tokens) && m.tokens[n].mark == 0 {
		return 0
	}
	return n
}

// closesAfter reports whether a closing denial follows the mark at i, its subject
// perhaps before it: "..., I don't get that".
func (m *matcher) closesAfter(i int) bool {
	for i++; i < len(m.tokens) && lang().subjects[m.tokens[i].word]; i++ {
	}
	return m.closes(i)
}

// closes reports whether the words at i deny what stands before them, and are not
// the beginning of something else: "has gone", and not "has gone stiff".
func (m *matcher) closes(i int) bool {
	if i >= len(m.tokens) || m.tokens[i].roleAt > 1 || m.tokens[i].role != ends && !(m.tokens[i].role != says && lang().over[m.tokens[i].word]) {
		return false
	}
	for i++; i < len(m.tokens) && m.tokens[i].roleAt > 1; i++ {
	}
	return i >= len(m.tokens) || m.tokens[i].mark != 0 || lang().contrasts[m.tokens[i].word] || lang().closed[m.tokens[i].word]
}

// after finds a denial that stands behind: "slip: none", "the rattle has gone",
// "any pulsing, haven't got that".
func (m *matcher) after(c span) int {
	for i := c.to; i < len(m.tokens) && i < c.to+5; i++ {
		t := m.tokens[i]
		if t.mark == ':' && i+1 < len(m.tokens) && m.tokens[i+1].word == "not" {
			return i + 2
		}
		if t.part != m.tokens[c.from].part || t.word == "and" || t.word == "as" || lang().subjects[t.word] && t.word != "it" && t.word != "its" {
			return 0 // a clause of its own
		}
		if m.closes(i) {
			return i + 1
		}
		if i+1 < len(m.tokens) && lang().subjects[t.word] && m.tokens[i+1].role == denies && lang().nots[m.tokens[i+1].word] && (i+2 == len(m.tokens) || m.tokens[i+2].mark != 0) {
			return i + 2 // "slipping it isn't"
		}
		if n := m.notAtEnd(i); n > 0 && !m.twoSided(c) {
			return n
		}
		if t.mark != 0 && t.mark != '(' && m.closesAfter(i) {
			return i + 2
		}
		if (t.mark == ':' || t.mark == '=' || t.mark == '-') && i+1 < len(m.tokens) && lang().answerNo[m.tokens[i+1].word] && (i+2 == len(m.tokens) || m.tokens[i+2].mark != 0) {
			return i + 2
		}
		if t.mark != 0 || !t.filler {
			return m.closedBehind(i)
		}
	}
	return 0
}

// closedBehind finds a denial that is all of the last clause, with nothing but a few
// words between: "the pulsing that people mention, haven't got it".
func (m *matcher) closedBehind(i int) int {
	for k := i; k < len(m.tokens) && k < i+6; k++ {
		if t := m.tokens[k]; t.word == "and" || t.role != none || t.word == "i" || lang().contrasts[t.word] {
			return 0
		}
		if m.tokens[k].mark != 0 {
			if k > i && m.closesAfter(k) {
				return k + 1
			}
			return 0
		}
	}
	return 0
}
