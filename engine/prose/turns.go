package prose

import (
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
)

// echo is what a clause says that only repeats the verb of the one before: "...,
// but it doesn't", "I'd expect it to slip, and it does".
type echo uint8

const (
	noEcho echo = iota
	echoYes
	echoNo
)

// echoed looks for such a clause behind a find. "Doesn't it?" asks and says nothing.
func (m *matcher) echoed(f find, s sentence) echo {
	for i := f.covers().to; i < len(m.tokens); i++ {
		t := m.tokens[i]
		if t.mark == 0 && !lang().contrasts[t.word] && t.word != "and" && t.word != "now" {
			continue
		}
		if e, to := m.echoAt(i); e != noEcho && !(s.question && to == len(m.tokens)) {
			return e
		}
	}
	return noEcho
}

// echoAt reads the clause that begins at token i, up to the next mark.
func (m *matcher) echoAt(i int) (e echo, to int) {
	verb, no := -1, false
	for to = i; to < len(m.tokens); to++ {
		t := m.tokens[to]
		opens := t.mark != 0 || lang().contrasts[t.word] || t.word == "and" || t.word == "now"
		switch {
		case opens && verb < 0:
		case t.mark != 0 || lang().contrasts[t.word]:
			return m.echoOf(verb, no), to
		case t.role == denies && t.roleAt > 1:
		case t.role == denies && (lang().verbs[t.word] || t.word == "not" && verb >= 0 || t.word == "never" || t.word == "no" && to+1 < len(m.tokens) && t.roleAt == 1 && m.tokens[to+1].roleAt == 2):
			no = !no
			if lang().verbs[t.word] {
				verb = to
			}
		case lang().verbs[t.word]:
			verb = to
		case verb >= 0 && lang().subjects[t.word]: // "doesn't it"
			return noEcho, to
		case lang().subjects[t.word] || lang().echoes[t.word]:
		default:
			return noEcho, to
		}
	}
	return m.echoOf(verb, no), to
}

func (m *matcher) echoOf(verb int, no bool) echo {
	switch {
	case verb < 0:
		return noEcho
	case no:
		return echoNo
	}
	return echoYes
}

// echoedBack lets a clause that opens a sentence overrule what the sentence before
// told: "... it juddered. It no longer does."
func (st *state) echoedBack(s sentence, at int) {
	m := &matcher{l: st.l, tokens: s.tokens}
	e, to := m.echoAt(0)
	if e != echoNo || s.question && to == len(s.tokens) {
		return
	}
	for i, c := range st.claims {
		if c.at == at-1 && c.complains() {
			st.claims[i].no, st.claims[i].quote, st.claims[i].strong = c.aim.kind == signYes, c.quote+" "+st.quote(s, span{to: to}), true
		}
	}
}

// echo lets the clause behind a find overrule what stands in it: "I thought it
// slipped, but it doesn't".
func (v *verdict) echo(e echo, denied bool) {
	switch {
	case denied && v.drop == "":
		v.drop = Unclear
	case e == echoNo && !v.no, e == echoYes && (v.no || v.drop == Supposed):
		v.no = e == echoNo
		v.doubt = false
		if v.drop == Supposed || v.drop == Former {
			v.drop = ""
		}
	}
}

// weakened reports whether the head stands under "hardly", which is neither yes nor
// no.
func (m *matcher) weakened(f find) bool {
	words := 0
	for k := f.head.from - 1; k >= 0 && words < 3; k-- {
		t := m.tokens[k]
		if t.mark != 0 || t.chunk != m.tokens[f.head.from].chunk {
			return false
		}
		if t.role == weakens && t.roleAt == 1 && !covered(f.all, k) {
			return true
		}
		if !t.filler && t.role == none {
			words++
		}
	}
	return false
}

// deniesItself reports whether a find holds a denying word of its own.
func (m *matcher) deniesItself(f find) bool {
	return slices.ContainsFunc(f.all, func(s span) bool {
		return slices.ContainsFunc(m.tokens[s.from:s.to], func(t token) bool { return t.role == denies })
	})
}

// pastBy reports whether a find that holds its own denial tells of the past: "it had
// never whined".
func (m *matcher) pastBy(f find) bool {
	i := f.head.from
	return i > 0 && m.tokens[i-1].word == "had" || i < len(m.tokens) && m.tokens[i].word == "hadnt"
}

// tangled reports whether a find stands behind words after which neither yes nor no
// can be told.
func (m *matcher) tangled(f find) bool {
	for k := f.head.from - 1; k >= 0; k-- {
		if m.tokens[k].part != m.tokens[f.head.from].part {
			return false
		}
		if m.tokens[k].role == tangles {
			return true
		}
	}
	return false
}

// wouldBe reports whether a find is only what would come to pass: "it would slip if
// ...", "it will slip sooner or later".
func (m *matcher) wouldBe(f find) bool {
	would := false
	for k := f.head.from - 1; k >= 0 && m.tokens[k].chunk == m.tokens[f.head.from].chunk; k-- {
		would = would || lang().woulds[m.tokens[k].word]
	}
	if !would {
		return false
	}
	return slices.ContainsFunc(m.tokens[f.head.to:], func(t token) bool {
		return t.word == "if" || t.word == "sooner" || t.word == "eventually" || t.word == "wrong"
	})
}

// corrected reports whether the writer takes a find back in the same breath.
func (m *matcher) corrected(f find) bool {
	to := f.covers().to
	for _, t := range m.tokens[min(to, len(m.tokens)):min(to+3, len(m.tokens))] {
		if t.role == corrects {
			return true
		}
	}
	return false
}

// guessed reports whether somebody who only has an opinion says what is wrong inside:
// "my mate reckons the bearing is shot".
func (m *matcher) guessed(f find, cat *catalog.Catalog, a aim) bool {
	if s, ok := cat.Sign(a.id); !ok || s.Kind == "complaint" {
		return false
	}
	lay := false
	for k := range f.head.from {
		t := m.tokens[k]
		if t.part != m.tokens[f.head.from].part {
			continue
		}
		if lay && lang().guesses[t.word] {
			return true
		}
		lay = lay || lang().laymen[t.word]
	}
	return false
}

// bygone reports whether a piece of work ended what was found: "it slipped until I
// set the play".
func (m *matcher) bygone(f find) bool {
	for k := f.head.to; k+2 < len(m.tokens); k++ {
		if t := m.tokens[k]; (t.word == "until" || t.word == "till" || t.word == "before") && !covered(f.all, k) {
			who, did := m.tokens[k+1].word, m.tokens[k+2].word
			if (who == "i" || who == "we" || who == "they") && (strings.HasSuffix(did, "ed") || lang().didWork[did]) {
				return !slices.ContainsFunc(f.all, func(s span) bool { return s.from > k && m.tokens[s.from].chunk == m.tokens[k].chunk })
			}
		}
	}
	return false
}

// fixedAt is the token at which a sentence says that all is well again, or -1.
func (m *matcher) fixedAt(s sentence, how role) int {
	if s.question {
		return -1
	}
	for i, t := range m.tokens {
		if t.role != how || t.roleAt != 1 {
			continue
		}
		open := func(t token) bool {
			return t.role == denies || t.role == denyDoubts || t.role == supposes || t.role == plans || t.role == would || t.role == others || t.role == weakens
		}
		if !slices.ContainsFunc(m.tokens[max(0, i-6):i], open) {
			return i
		}
	}
	return -1
}

// fixed takes back the complaints that were told before all was said to be well
// again. What is wrong now is what he says after it.
func (st *state) fixed(told func(claim) bool) {
	st.claims = slices.DeleteFunc(st.claims, func(c claim) bool {
		s, isSign := st.l.cat.Sign(c.aim.id)
		if !told(c) || !isSign || s.Kind != "complaint" || !c.complains() {
			return false
		}
		st.leave(c.aim.id, c.quote, Former)
		return true
	})
}

// complains reports whether a claim says that something is wrong.
func (c claim) complains() bool {
	return c.aim.kind == signYes && !c.no || c.aim.kind == signNo && c.no
}
