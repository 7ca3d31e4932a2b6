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
	spent  []span   // by denying word, the find that begins with it: it denies nothing else
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
		return s, !m.splits(items, s)
	}
	if len(items) > 1 {
		return m.rest(items, span{from: from}, from, others, 1)
	}
	return span{}, false
}

// splits reports whether a comma parts the two words of a phrase: "level correct,
// oil clean" holds no "correct oil".
func (m *matcher) splits(items []item, s span) bool {
	return len(items) == 2 && items[0].concept < 0 && items[1].concept < 0 && items[1].gap.words == 0 && items[1].stem != edge &&
		slices.ContainsFunc(m.tokens[s.from:s.to], func(t token) bool { return t.mark == ',' })
}

// walk is where a match stands and what it may still step over.
type walk struct {
	so      span
	others  int  // words other than little ones
	denials int  // denying words
	fillers int  // little words since the last item
	open    gap  // the gap that is being crossed
	just    bool // over the "not" of "not only"
	stepped bool // over another word since the last item
}

// rest matches items at token at or after little words, of which denials may be
// denying words.
func (m *matcher) rest(items []item, so span, at, others, denials int) (span, bool) {
	if len(items) == 0 {
		so.to = at
		return so, true
	}
	w := walk{so: so, others: others, denials: denials}
	for items[0].gap.words > 0 { // never the last: see compile
		w.open = items[0].gap
		items, w.others = items[1:], w.others+w.open.words
	}
	if items[0].stem == edge {
		if m.noun(at) {
			return span{}, false
		}
		return m.rest(items[1:], so, at, w.others, denials)
	}
	for i := at; i < len(m.tokens); i++ {
		for _, got := range m.one(items[0], i) {
			next := w.so
			next.no = next.no != got.no
			if all, ok := m.rest(items[1:], next, got.to, w.others, w.denials); ok {
				return all, true
			}
		}
		if i == so.from || !m.steps(&w, i) { // the first word stands at the start
			return span{}, false
		}
	}
	return span{}, false
}

// noun reports whether a word that could be a noun stands at i, its article apart.
func (m *matcher) noun(i int) bool {
	for i < len(m.tokens) && (lang().articles[m.tokens[i].word] || m.tokens[i].word == "my") {
		i++
	}
	if i >= len(m.tokens) {
		return false
	}
	t := m.tokens[i]
	return t.mark == 0 && !t.filler && !lang().joints[t.word] && t.amount == nil
}

// steps reports whether a match may go on over token i, and keeps the account.
func (m *matcher) steps(w *walk, i int) bool {
	t := m.tokens[i]
	switch {
	case t.mark != 0:
		return m.overMark(w, t.mark)
	case w.open.far && (lang().subjects[t.word] || lang().keeping[t.word]): // a clause of its own
		return false
	case lang().wholly[t.word] && i > 0 && (m.tokens[i-1].role == denies || m.tokens[i-1].word == "not" || lang().nots[m.tokens[i-1].word]): // "won't fully disengage" is not "won't disengage"
		return false
	case t.word == "now" && (w.open.words > 0 || m.tokens[i-1].word == "and"): // another matter
		return false
	case t.word == "and" && (w.so.no || w.open.words == 0 && !m.inList(i-1)): // "isn't frayed and slides" denies no sliding
		return false
	case t.word == "nor" && w.so.no: // "neither glazed nor burnt"
		return true
	case t.role == says && t.roleAt == 1 && lang().justs[t.word], t.role == says && t.roleAt > 1 && w.just: // "is not only heavy"
		w.just = true
		return true
	case t.role == denies && w.denials > 0:
		if t.roleAt == 1 {
			w.denials--
			w.so.no = !w.so.no
		}
		return true
	case t.role == denies && t.roleAt > 1 && w.so.no:
		return true
	case t.filler && t.role != denies && t.role != denyDoubts && !lang().contrasts[t.word]:
		w.fillers++
		return w.fillers <= mostFillers
	case t.role == none && t.amount == nil && m.inList(i):
		return true
	}
	w.others--
	w.stepped = true
	return w.others >= 0 && m.plain(w, t)
}

// plain reports whether a token is a word like any other in the part of the
// sentence in which the match began. In a gap it may be an amount or a doubt too.
func (m *matcher) plain(w *walk, t token) bool {
	inGap := w.open.words > 0
	return (t.role == none || inGap && t.role == doubts) && (inGap || t.amount == nil) &&
		t.part == m.tokens[w.so.from].part && !lang().joints[t.word]
}

// overMark reports whether a match may go on over a mark. What stands behind a
// comma is not denied before it, and other words there are another matter:
// "finds neutral easily, never slips" does not say "neutral never".
func (m *matcher) overMark(w *walk, mark rune) bool {
	if mark == '(' || mark == ')' || mark == '=' || mark == ':' && w.open.words > 0 && !w.open.far || mark == ',' && w.stepped && !w.open.far {
		return false
	}
	w.denials = 0
	if !w.open.far {
		w.others = 0
	}
	return true
}

// inList reports whether a word is followed by "or" or "and": what is said of one
// thing in a list is said of all.
func (m *matcher) inList(i int) bool {
	if i+2 >= len(m.tokens) || m.tokens[i].filler {
		return false
	}
	return m.tokens[i+1].word == "or" || m.tokens[i+1].word == "nor" || m.tokens[i+1].word == "and" && !m.tokens[i+2].filler && m.tokens[i+2].role == none
}

// one lists the places of a single item at token i, the longest first.
func (m *matcher) one(it item, i int) []span {
	if it.concept < 0 {
		if t := m.tokens[i]; t.stem == it.stem && t.mark == 0 || t.amount != nil && (t.amount.class() == it.stem || it.stem == "{thousands}" && t.amount.class() == "{distance}" && t.amount.value >= 1000) {
			return []span{{from: i, to: i + 1}}
		} else if slices.Contains(t.also, it.stem) {
			return []span{{from: i, to: i + 1 + btoi(it.stem != "not" && t.word != "cannot")}}
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
