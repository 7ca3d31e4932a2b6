package prose

import (
	"slices"
	"strings"
)

// keeps reports whether a phrase takes its circumstances from the chunk of its head
// where there are any: denials do, and words that stand in for a topic by name.
func (m *matcher) keeps(k int, head span) bool {
	p := m.l.phrases[k]
	return p.aim.kind == signNo || p.topic >= 0 && m.standIn(head)
}

// standIn reports whether a head is one of the words that stand for a topic.
func (m *matcher) standIn(head span) bool {
	for _, c := range []int{m.l.fine, m.l.clears} {
		if c >= 0 && slices.Contains(m.ideas[c], head) {
			return true
		}
	}
	return false
}

// standIns finds stand-ins for what was spoken of before: "it happens in top",
// "fine when cold", "only uphill". Topics are the concepts spoken of last.
func (m *matcher) standIns(topics []int, part int, last role) []find {
	var out []find
	for _, c := range []int{m.l.fine, m.l.clears, m.l.happens} {
		if c < 0 {
			continue
		}
		for _, s := range m.ideas[c] {
			if m.tokens[s.from].part == part {
				topics := m.before(s.from, part, topics)
				flip := none
				if c != m.l.happens {
					flip = denies
				}
				for _, f := range m.instead(topics, s, flip) {
					if m.alone(f) {
						out = append(out, f)
					}
				}
			}
		}
	}
	if len(out) == 0 && len(topics) > 0 {
		out = m.fragment(topics, part, last)
	}
	return out
}

// insideTopic reports whether a span is a part of a longer one that names another
// topic: the "jumps" of "the needle jumps" is no jump of the machine.
func (m *matcher) insideTopic(s span) bool {
	for c, spans := range m.ideas {
		if m.l.concepts[c].topic && !m.l.standsIn(c) && slices.ContainsFunc(spans, func(t span) bool { return s.within(t) && t.to-t.from > s.to-s.from }) {
			return true
		}
	}
	return false
}

// before lists the topics that a stand-in at token i can mean: those named in its
// own part of the sentence before it, or else those spoken of earlier.
func (m *matcher) before(i, part int, earlier []int) []int {
	var own []int
	for c, spans := range m.ideas {
		if m.l.concepts[c].topic && !m.l.standsIn(c) && slices.ContainsFunc(spans, func(s span) bool { return s.to <= i && m.tokens[s.from].part == part }) {
			own = append(own, c)
		}
	}
	if len(own) == 0 && len(earlier) == 0 { // "cold it is fine but when hot it creeps"
		for c, spans := range m.ideas {
			if m.l.concepts[c].topic && !m.l.standsIn(c) && len(spans) > 0 {
				own = append(own, c)
			}
		}
	}
	if len(own) > 0 {
		return own
	}
	return earlier
}

// instead joins circumstances to a stand-in as if it were the topic's own word:
// those of its own chunk, or else those of the chunk before.
func (m *matcher) instead(topics []int, at span, flip role) []find {
	var here, before []find
	for _, c := range topics {
		for _, k := range m.l.byIdea[c] {
			p := m.l.phrases[k]
			if len(p.parts) < 2 || len(p.parts[0]) != 1 || lang().unlesses[p.parts[1][0].stem] {
				continue
			}
			for _, f := range m.joined(k, at) {
				f.topic, f.flip = true, flip
				switch own, c := m.tokens[at.from].chunk, m.tokens[f.all[1].from].chunk; {
				case at.from == at.to || c == own || flip == none && c > own:
					here = append(here, f)
				case c == own-1 || c == own+1 && m.opensWhen(c):
					before = append(before, f)
				}
			}
		}
	}
	if len(here) > 0 {
		return here
	}
	return before
}

// opensWhen reports whether a chunk begins with "when" or its like.
func (m *matcher) opensWhen(chunk int) bool {
	for _, t := range m.tokens {
		if t.chunk == chunk {
			return t.word == "when" || t.word == "once" || t.word == "after" || t.word == "until" || t.word == "as" || t.word == "while"
		}
	}
	return false
}

// partly reports whether a "when" with a circumstance limits what was found.
func (m *matcher) partly(f find) bool {
	c := f.covers()
	part := m.tokens[min(c.from, len(m.tokens)-1)].part
	own := m.tokens[min(f.head.from, len(m.tokens)-1)].chunk
	for i, t := range m.tokens {
		if t.part == part && t.chunk >= own-2 && t.chunk <= own+1 && (t.word == "when" || t.word == "once" || t.word == "until" || t.word == "if") && i+1 < len(m.tokens) {
			if slices.ContainsFunc(f.all, func(s span) bool { return m.tokens[min(s.from, len(m.tokens)-1)].chunk == t.chunk }) {
				continue // a circumstance of the find itself
			}
			for k := i + 1; k < len(m.tokens) && m.tokens[k].chunk == t.chunk; k++ {
				if m.circumstance(k) || m.tokens[k].amount != nil {
					return true
				}
			}
		}
	}
	return false
}

// alone reports whether a stand-in is all that its chunk is about: "the lever is
// fine when cold" says nothing of what was spoken of before.
func (m *matcher) alone(f find) bool {
	for i, t := range m.tokens {
		if t.chunk == m.tokens[f.head.from].chunk && t.mark == 0 && !t.filler && t.role == none && t.amount == nil &&
			!covered(f.all, i) && !lang().bystanders[t.word] && !m.l.subject(t.stem) && !lang().fragmentWords[t.word] && !m.circumstance(i) {
			return false
		}
	}
	return true
}

// subject reports whether a word is what the whole pack is about.
func (l *Lexicon) subject(st string) bool {
	return slices.ContainsFunc(strings.Fields(l.cat.Subject), func(w string) bool { return !lang().fillers[w] && stem(w) == st })
}

// circumstanced reports whether the chunk of a head has a circumstance of its own.
func (m *matcher) circumstanced(head span) bool {
	for i, t := range m.tokens {
		if t.chunk == m.tokens[head.from].chunk && (i < head.from || i >= head.to) && m.circumstance(i) {
			return true
		}
	}
	return false
}

// circumstance reports whether token i is a part of any idea that is no head.
func (m *matcher) circumstance(i int) bool {
	for c, spans := range m.ideas {
		if !m.l.concepts[c].heads && slices.ContainsFunc(spans, func(s span) bool { return s.from <= i && i < s.to }) && m.l.concepts[c].around {
			return true
		}
	}
	return false
}

// fragment reads a part of a sentence that holds nothing but circumstances.
func (m *matcher) fragment(topics []int, part int, last role) []find {
	first, n := -1, 0
	covered := make([]bool, len(m.tokens))
	for c, spans := range m.ideas {
		for _, s := range spans {
			if m.tokens[s.from].part != part {
				continue
			}
			if m.l.concepts[c].heads && !m.l.standsIn(c) {
				return nil
			}
			for i := s.from; i < s.to; i++ {
				covered[i] = true
			}
		}
	}
	marked := part > 0
	for i, t := range m.tokens {
		if t.part != part || t.mark != 0 {
			continue
		}
		marked = marked || lang().openings[t.word]
		if first < 0 {
			first = i
		}
		if !covered[i] && !t.filler && t.role == none && !lang().fragmentWords[t.word] && !lang().contrasts[t.word] && !lang().joints[t.word] && t.amount == nil {
			n++
		}
	}
	if m.clause(part) {
		return nil
	}
	if most := 1 + 2*btoi(first >= 0 && lang().openings[m.tokens[first].word]); first < 0 || n > most || !marked {
		return nil
	}
	return m.instead(topics, span{from: first, to: first}, m.fragmentRole(first, part, last))
}

// clause reports whether a part of a sentence has a subject and a denial of its own:
// "but it has never been left standing" is no fragment like "but never uphill".
func (m *matcher) clause(part int) bool {
	subject := false
	for _, t := range m.tokens {
		if t.part != part {
			continue
		}
		if subject && t.role == denies {
			return true
		}
		subject = subject || lang().subjects[t.word]
	}
	return false
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// fragmentRole says how a fragment is meant: as what went before, the other way
// round after "except", and plainly after "only" or "not".
func (m *matcher) fragmentRole(first, part int, last role) role {
	for i := first; i < len(m.tokens) && m.tokens[i].part == part && i < first+4; i++ {
		switch t := m.tokens[i]; {
		case t.word == "only" || t.word == "mostly" || t.word == "mainly" || t.word == "especially" || t.word == "particularly" || t.word == "worse" || t.word == "worst" || t.word == "usually":
			return none
		case t.word == "except" || t.word == "unless" || t.word == "apart":
			if last == denies {
				return none
			}
			return denies
		case t.role == denies:
			return denies
		}
	}
	return last
}
