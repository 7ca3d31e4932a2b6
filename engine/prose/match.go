package prose

import (
	"slices"
	"sort"
)

// span is a run of tokens [from, to) of one sentence. One that is denied in its
// own middle ("the lever does not feel spongy") says the opposite.
type span struct {
	from, to int
	no       bool
}

func (s span) within(t span) bool { return t.from <= s.from && s.to <= t.to }

// How far the words of a phrase may stand apart in a text.
const (
	mostFillers = 6 // little words between two words of a phrase
	mostOther   = 1 // other words in the whole phrase
	mostTokens  = 160
)

// edge stands in a phrase where no noun may follow: "replaced the clutch" and not
// "replaced the clutch lever".
const edge = "|"

// matcher looks for phrases in one sentence.
type matcher struct {
	l      *Lexicon
	tokens []token
	ideas  [][]span // by concept, in the order of their starts
	spent  []bool   // denying words that a find begins with: they deny nothing else
}

// newMatcher finds every concept first, those that others are made of before them.
func newMatcher(l *Lexicon, s sentence) *matcher {
	m := &matcher{l: l, tokens: s.tokens, ideas: make([][]span, len(l.concepts))}
	m.skip()
	for _, c := range l.order {
		for from := range m.tokens {
			start := len(m.ideas[c])
			for _, k := range l.concepts[c].from(m.tokens[from]) {
				if s, ok := m.match(l.concepts[c].ways[k], from, mostOther); ok && !slices.Contains(m.ideas[c][start:], s) {
					m.ideas[c] = append(m.ideas[c], s)
				}
			}
			slices.SortStableFunc(m.ideas[c][start:], func(a, b span) int { return b.to - a.to })
		}
	}
	return m
}

// bind takes the sting out of a "but" that sets nothing against anything: "the
// revs climb but the speed does not".
func (l *Lexicon) bind(ts []token) {
	if l.bound < 0 {
		return
	}
	m := &matcher{l: l, tokens: ts, ideas: make([][]span, len(l.concepts))}
	for from := range ts {
		for _, way := range l.concepts[l.bound].ways {
			if s, ok := m.match(way, from, 0); ok {
				ts[s.from].role, ts[s.from].roleAt = says, 1
			}
		}
	}
}

// skip makes little words of what says nothing here though its words could:
// "in the spring".
func (m *matcher) skip() {
	if m.l.nothing < 0 {
		return
	}
	for from := range m.tokens {
		for _, way := range m.l.concepts[m.l.nothing].ways {
			if s, ok := m.match(way, from, 0); ok && !slices.ContainsFunc(m.tokens[s.from:s.to], func(t token) bool { return t.mark != 0 }) {
				for i := s.from; i < s.to; i++ {
					m.tokens[i].stem, m.tokens[i].filler, m.tokens[i].role, m.tokens[i].amount = "", true, says, nil
				}
			}
		}
	}
}

// match finds the items when they start at token from.
func (m *matcher) match(items []item, from, others int) (span, bool) {
	if real := len(items); real <= 2 || real == 3 && items[2].stem == edge {
		others = 0
	}
	if s, ok := m.rest(items, span{from: from}, from, others, 0); ok {
		return s, true
	}
	if len(items) > 1 {
		return m.rest(items, span{from: from}, from, others, 1)
	}
	return span{}, false
}

// rest matches items at token at or after little words, of which denials may be
// denying words.
func (m *matcher) rest(items []item, so span, at, others, denials int) (span, bool) {
	if len(items) == 0 {
		so.to = at
		return so, true
	}
	var open gap
	for items[0].gap.words > 0 { // never the last: see compile
		open = items[0].gap
		items, others = items[1:], others+open.words
	}
	if items[0].stem == edge {
		if at < len(m.tokens) && m.tokens[at].mark == 0 && !m.tokens[at].filler && !lang().joints[m.tokens[at].word] && m.tokens[at].amount == nil {
			return span{}, false
		}
		return m.rest(items[1:], so, at, others, denials)
	}
	fillers := 0
	for i := at; i < len(m.tokens); i++ {
		for _, got := range m.one(items[0], i) {
			next := so
			next.no = next.no != got.no
			if all, ok := m.rest(items[1:], next, got.to, others, denials); ok {
				return all, true
			}
		}
		if i == so.from { // the first word stands at the start
			return span{}, false
		}
		switch t := m.tokens[i]; {
		case open.far && lang().subjects[t.word]: // a clause of its own
			return span{}, false
		case t.word == "now" && (open.words > 0 || m.tokens[i-1].word == "and"): // another matter
			return span{}, false
		case t.mark != 0:
			if t.mark == '(' || t.mark == ')' || t.mark == '=' {
				return span{}, false
			}
			if t.mark == ':' && open.words > 0 && !open.far {
				return span{}, false
			}
			denials = 0
			if !open.far {
				others = 0
			}
		case t.word == "and" && open.words == 0 && !m.inList(i-1):
			return span{}, false
		case t.role == denies && denials > 0:
			if t.roleAt == 1 {
				denials--
				so.no = !so.no
			}
		case t.role == denies && t.roleAt > 1 && so.no:
		case t.filler && t.role != denies && t.role != denyDoubts && !lang().contrasts[t.word]:
			if fillers++; fillers > mostFillers {
				return span{}, false
			}
		case t.role == none && t.amount == nil && m.inList(i):
		case others > 0 && (t.role == none || open.words > 0 && t.role == doubts) && (open.words > 0 || t.amount == nil) && t.part == m.tokens[so.from].part && !lang().joints[t.word]:
			others--
		default:
			return span{}, false
		}
	}
	return span{}, false
}

// inList reports whether a word is followed by "or" or "and": what is said of one
// thing in a list is said of all.
func (m *matcher) inList(i int) bool {
	if i+2 >= len(m.tokens) || m.tokens[i].filler {
		return false
	}
	return m.tokens[i+1].word == "or" || m.tokens[i+1].word == "and" && !m.tokens[i+2].filler && m.tokens[i+2].role == none
}

// one lists the places of a single item at token i, the longest first.
func (m *matcher) one(it item, i int) []span {
	if it.concept < 0 {
		if t := m.tokens[i]; t.stem == it.stem && t.mark == 0 || t.amount != nil && (t.amount.class() == it.stem || it.stem == "{thousands}" && t.amount.class() == "{distance}" && t.amount.value >= 1000) {
			return []span{{from: i, to: i + 1}}
		}
		return nil
	}
	spans := m.ideas[it.concept]
	from := sort.Search(len(spans), func(k int) bool { return spans[k].from >= i })
	to := from
	for to < len(spans) && spans[to].from == i {
		to++
	}
	return spans[from:to]
}
