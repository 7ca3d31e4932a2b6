package prose

import "slices"

// spokenOf reports whether the topic that a phrase leans on has come up. A complaint
// no longer counts where the sentence speaks of another.
func (st *state) spokenOf(m *matcher, f find) bool {
	t := st.l.phrases[f.phrase].topic
	if t < 0 || len(m.ideas[t]) > 0 {
		return true
	}
	return st.heard[t] && !(st.l.concepts[t].topic && m.otherTopic(t, f.head))
}

// otherTopic reports whether a complaint other than t stands before a head.
func (m *matcher) otherTopic(t int, head span) bool {
	for c, spans := range m.ideas {
		if c != t && m.l.concepts[c].topic && !m.l.standsIn(c) && slices.ContainsFunc(spans, func(s span) bool { return s.to <= head.from }) {
			return true
		}
	}
	return false
}

// carried reads the parts of a sentence that lean on what was spoken of before.
func (st *state) carried(m *matcher) []find {
	var out []find
	topics, last := st.topics, st.last
	parts := 0
	for _, t := range m.tokens {
		parts = max(parts, t.part+1)
	}
	for p := range parts {
		out = append(out, m.standIns(topics, p, last)...)
		if heads, denied := st.headsOf(m, p); len(heads) > 0 {
			topics, last = heads, denied
		}
	}
	return out
}

// headsOf lists the complaints that one part of a sentence speaks of.
func (st *state) headsOf(m *matcher, part int) (heads []int, denied role) {
	for c, spans := range m.ideas {
		if !st.l.concepts[c].topic || st.l.standsIn(c) {
			continue
		}
		for _, s := range spans {
			if m.tokens[s.from].part != part || slices.Contains(heads, c) {
				continue
			}
			heads = append(heads, c)
			var v verdict
			if m.denied(find{head: s, all: []span{s}}, &v) {
				denied = denies
			}
		}
	}
	return heads, denied
}

func (st *state) remember(m *matcher) {
	for c, spans := range m.ideas {
		if slices.ContainsFunc(spans, func(s span) bool { return !m.l.concepts[c].topic || !m.insideTopic(s) }) {
			st.heard[c] = true
		}
	}
	parts := 0
	for _, t := range m.tokens {
		parts = max(parts, t.part+1)
	}
	for p := range parts {
		if heads, denied := st.headsOf(m, p); len(heads) > 0 {
			st.topics, st.last = heads, denied
		}
	}
}
