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
	if a == b || !sameKind(a, b) || g.topic && !f.topic && len(f.all) > 1 {
		return false
	}
	if a.kind == vagueOf && phrases[g.phrase].topic >= 0 && b.id != a.id && b.kind != vagueOf && !f.topic && m.l.phrases[g.phrase].parts[0][0].concept != m.l.phrases[f.phrase].parts[0][0].concept {
		return false // "no longer slips" says both that and what cured it
	}
	if a.kind != vagueOf && b.kind != vagueOf && m.partOfIdea(f, g) {
		return true // "loses its grip" says nothing of "grips"
	}
	if m.lists(g.head) && !m.lists(f.head) {
		return false // "heavy or gritty" says both
	}
	for i, s := range f.all {
		if i == 0 && len(f.all) > 1 && m.speaksOf(g, phrases[f.phrase].parts[0]) {
			continue // the same idea in other words
		}
		if !covered(g.all, s.from) || !slices.ContainsFunc(g.all, s.within) {
			return false
		}
	}
	return g.size > f.size
}

// partOfIdea reports whether the idea that heads f is only a word of the idea that
// heads g.
func (m *matcher) partOfIdea(f, g find) bool {
	a, b := m.l.phrases[f.phrase].parts[0], m.l.phrases[g.phrase].parts[0]
	return len(a) == 1 && len(b) == 1 && a[0].concept >= 0 && b[0].concept >= 0 && a[0].concept != b[0].concept && !f.topic && !g.topic &&
		f.head.from < f.head.to && f.head.within(g.head) && f.head.to-f.head.from < g.head.to-g.head.from && !m.lists(g.head)
}

// speaksOf reports whether one part of a find is the idea that is all of a head.
func (m *matcher) speaksOf(g find, head []item) bool {
	return len(head) == 1 && head[0].concept >= 0 && slices.ContainsFunc(m.l.phrases[g.phrase].parts, func(p []item) bool {
		return len(p) == 1 && p[0].concept == head[0].concept
	})
}

// sameKind keeps facts and signs from covering each other: "new springs" says
// something of both.
func sameKind(a, b aim) bool {
	sign := func(k aimKind) bool { return k == signYes || k == signNo || k == vagueOf }
	return sign(a.kind) && sign(b.kind) || a.id == b.id && a.one && b.one
}
