package prose

// frame is when the end of a sentence says that things happen ("once it's warmed
// up ..."): the next sentence may go on without saying it again.
type frame struct {
	ideas map[int]string // circumstances and their words
	sharp bool           // set against another time in the same sentence
}

// framing reads the circumstances that a "when", "once" or "after" opens in the last
// part of a sentence.
func (st *state) framing(m *matcher, of sentence) frame {
	if len(m.tokens) == 0 {
		return frame{}
	}
	last := m.tokens[len(m.tokens)-1].part
	out := frame{ideas: map[int]string{}, sharp: last > 0}
	for c, spans := range m.ideas {
		if !m.l.concepts[c].around || m.l.concepts[c].heads {
			continue
		}
		for _, s := range spans {
			if t := m.tokens[s.from]; t.part == last && m.opensWhen(t.chunk) && t.role == none {
				out.ideas[c] = st.quote(of, s)
				break
			}
		}
	}
	return out
}

// framed finds complaints that take their circumstances from the sentence before:
// those about which the sentence itself says nothing of when and how. Unless the
// sentence before sets one time against another they are doubtful.
func (m *matcher) framed(finds []find, fr frame) []find {
	if len(fr.ideas) == 0 {
		return nil
	}
	var out []find
	for _, f := range finds {
		p := m.l.phrases[f.phrase]
		if p.aim.kind != vagueOf || f.topic || m.lists(f.head) {
			continue
		}
		for _, k := range m.l.byIdea[p.parts[0][0].concept] {
			q := m.l.phrases[k]
			if q.aim.kind != signYes || len(q.parts) != 2 || len(q.parts[0]) != 1 || len(q.parts[1]) != 1 {
				continue
			}
			c := q.parts[1][0].concept
			if when := fr.ideas[c]; when != "" && !m.timed(k, f.head, -1) {
				out = append(out, find{phrase: k, head: f.head, all: []span{f.head}, when: when, sharp: fr.sharp})
			}
		}
	}
	return out
}

// timed reports whether the chunk has a circumstance that any phrase beginning like
// phrase k asks for; -1 stands for the whole sentence.
func (m *matcher) timed(k int, head span, chunk int) bool {
	for _, other := range m.l.byIdea[m.l.phrases[k].parts[0][0].concept] {
		for _, part := range m.l.phrases[other].parts[1:] {
			for from, t := range m.tokens {
				if chunk >= 0 && t.chunk != chunk {
					continue
				}
				if s, ok := m.match(part, from, mostOther); ok && (s.to <= head.from || s.from >= head.to) {
					return true
				}
			}
		}
	}
	return false
}
