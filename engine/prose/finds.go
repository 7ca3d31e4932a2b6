package prose

// find is one phrase found in a sentence.
type find struct {
	phrase int
	head   span   // what is said to be so
	all    []span // every part of the phrase, the head first
	topic  bool   // the head is a stand-in for what was spoken of before
	flip   role   // how a stand-in is meant: none, denies
	size   int    // words that mean something
	when   string // its circumstances, where they stand in the sentence before,
	sharp  bool   // which sets them against others
}

// covers is the range of the tokens of a find.
func (f find) covers() span {
	out := f.head
	for _, s := range f.all {
		out.from, out.to = min(out.from, s.from), max(out.to, s.to)
	}
	return out
}

// finds lists the phrases of one part and the heads of those of several.
func (m *matcher) finds() []find {
	var out []find
	for from, t := range m.tokens {
		if t.mark != 0 {
			continue
		}
		keys := append([]string{t.stem}, t.also...)
		if t.amount != nil {
			keys = append(keys, t.amount.class(), "{thousands}")
		}
		for _, key := range keys {
			for _, k := range m.l.byStem[key] {
				out = m.try(out, k, from)
			}
		}
	}
	for c, spans := range m.ideas {
		for i, s := range spans {
			if i > 0 && spans[i-1].from == s.from {
				continue
			}
			for _, k := range m.l.byIdea[c] {
				out = m.try(out, k, s.from)
			}
		}
	}
	return out
}

// try adds what a phrase gives when it begins at a token.
func (m *matcher) try(out []find, k, from int) []find {
	p := m.l.phrases[k]
	head, ok := m.match(p.parts[0], from, mostOther)
	switch {
	case !ok || p.whole && !m.fills(head):
		return out
	case len(p.parts) == 1:
		return append(out, find{phrase: k, head: head, all: []span{head}})
	}
	return append(out, m.joined(k, head)...)
}

// fills reports whether a span is all that its chunk says.
func (m *matcher) fills(s span) bool {
	for i, t := range m.tokens {
		if t.chunk == m.tokens[s.from].chunk && t.mark == 0 && (i < s.from || i >= s.to) && (!t.filler || t.role != none || lang().joints[t.word]) {
			return false
		}
		if i == s.to && t.mark == 0 && t.chunk != m.tokens[s.from].chunk {
			return false // "300 miles since"
		}
	}
	return true
}

// weighs counts the words of a find that mean something.
func (m *matcher) weighs(f find) find {
	for _, s := range f.all {
		for i, t := range m.tokens[s.from:s.to] {
			if t.mark == 0 && (!t.filler || t.role == denies || i == 0 || s.from+i == s.to-1) {
				f.size++
			}
		}
	}
	return f
}

// joined looks for the other parts of a phrase around its head.
func (m *matcher) joined(k int, head span) []find {
	f := find{phrase: k, head: head, all: []span{head}}
	for _, part := range m.l.phrases[k].parts[1:] {
		s, ok := m.near(k, part, head)
		if !ok {
			return nil
		}
		f.all = append(f.all, s)
	}
	return []find{f}
}

// near finds the place of a part that belongs to the head: in the same part of
// the sentence, and not in a chunk that speaks of something else.
func (m *matcher) near(k int, part []item, head span) (span, bool) {
	best, found := span{}, false
	at := m.tokens[head.from]
	own := m.keeps(k, head) && m.circumstanced(head) // "hot, cold it holds fine": hot is another matter
	for from, t := range m.tokens {
		if t.mark != 0 || t.part != at.part {
			continue
		}
		s, ok := m.match(part, from, mostOther)
		if ok && own && t.chunk != at.chunk {
			continue
		}
		if !ok || s.from < head.to && head.from < s.to || !m.belongs(k, s, head) {
			continue
		}
		if !found || distanceOf(s, head) < distanceOf(best, head) {
			best, found = s, true
		}
	}
	return best, found
}

func distanceOf(a, b span) int {
	if a.from >= b.to {
		return a.from - b.to
	}
	return max(0, b.from-a.to)
}

// belongs reports whether a circumstance goes with the head: no other head may
// stand in its chunk or in a chunk between them.
func (m *matcher) belongs(k int, s, head span) bool {
	a, b := m.tokens[head.from].chunk, m.tokens[s.from].chunk
	if a == b {
		return !m.parted(s, head)
	}
	if b < a && m.followed(head) {
		return false
	}
	low, high := min(a, b), max(a, b)
	shared := b == a-1 && m.shares(k, head)
	for c, spans := range m.ideas {
		if !m.l.concepts[c].heads {
			continue
		}
		for _, h := range spans {
			if shared {
				continue
			}
			if at := m.tokens[h.from].chunk; at >= low && at <= high && at != a && !h.within(head) && !h.within(s) {
				return false
			}
		}
	}
	return true
}

// followed reports whether a "when" with a circumstance of its own comes right
// after the chunk of a head.
func (m *matcher) followed(head span) bool {
	own := m.tokens[head.from].chunk
	for i, t := range m.tokens {
		if t.chunk == own+1 && i > head.from {
			return (t.word == "when" || t.word == "once" || t.word == "as") && m.circumstanced(span{i, i + 1, false})
		}
	}
	return false
}

// shares reports whether a head follows an "and" and has no circumstance of its
// own among those that its phrases ask for: "grinds going into first and lurches".
func (m *matcher) shares(k int, head span) bool {
	for i, t := range m.tokens {
		if t.chunk == m.tokens[head.from].chunk {
			return t.word == "and" && i < head.from && !m.timed(k, head, t.chunk)
		}
	}
	return false
}

// parted reports whether another head stands between a circumstance and its head
// in one chunk.
func (m *matcher) parted(s, head span) bool {
	low, high := min(s.to, head.to), max(s.from, head.from)
	for c, spans := range m.ideas {
		if !m.l.concepts[c].heads || m.l.standsIn(c) {
			continue
		}
		for _, h := range spans {
			if h.from >= low && h.to <= high && h.from != head.to { // "knocking noise" is one thing
				return true
			}
		}
	}
	return false
}
