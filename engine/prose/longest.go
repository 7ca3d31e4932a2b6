package prose

import "slices"

// figure is the place of the amount in a find, or -1.
func (m *matcher) figure(f find) int {
	for _, s := range f.all {
		for i := s.from; i < s.to; i++ {
			if m.tokens[i].amount != nil {
				return i
			}
		}
	}
	return -1
}

// lists reports whether a span goes over an "or" or "and" that joins two things.
func (m *matcher) lists(s span) bool {
	return slices.ContainsFunc(m.tokens[s.from:s.to], func(t token) bool { return t.word == "or" || t.word == "and" })
}

// longest drops what is a part of a longer find about something else: "clunks
// into first" inside of "clunks into first only in the morning".
func (m *matcher) longest(finds []find) []find {
	var out []find
	for _, f := range finds {
		if !slices.ContainsFunc(finds, func(g find) bool { return m.swallows(g, f) }) {
			out = append(out, f)
		}
	}
	return out
}

// swallows reports whether f is a part of g, which says something else.
func (m *matcher) swallows(g, f find) bool {
	phrases := m.l.phrases
	a, b := phrases[f.phrase].aim, phrases[g.phrase].aim
	if a.kind == amountOf && b.kind == amountOf && a.id != b.id && m.figure(f) == m.figure(g) {
		return g.size > f.size // one figure means one thing
	}
	if a == b || !sameKind(a, b) || f.topic != g.topic && len(f.all) > 1 {
		return false
	}
	if m.lists(g.head) && !m.lists(f.head) {
		return false // "heavy or gritty" says both
	}
	for _, s := range f.all {
		if !covered(g.all, s.from) || !slices.ContainsFunc(g.all, s.within) {
			return false
		}
	}
	return g.size > f.size
}

// sameKind keeps facts and signs from covering each other: "new springs" says
// something of both.
func sameKind(a, b aim) bool {
	sign := func(k aimKind) bool { return k == signYes || k == signNo || k == vagueOf }
	return sign(a.kind) && sign(b.kind) || a.id == b.id && a.one && b.one
}
