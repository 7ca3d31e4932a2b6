package prose

import (
	"slices"
	"strings"
)

// verdict is how a find is meant.
type verdict struct {
	no    bool
	doubt bool
	drop  string // the reason to leave it out, "" to keep it
	wide  span   // the words to quote
}

// Reasons to leave something out; report words them.
const (
	Asked       = "asked"      // a question, not an observation
	OtherOne    = "other"      // about another machine
	Planned     = "planned"    // not done yet
	Supposed    = "supposed"   // said with an if
	Former      = "former"     // as it used to be
	Contrary    = "contrary"   // the post says both
	Incomplete  = "incomplete" // a range or a figure without its unit
	NotThisKind = "excluded"   // another entry makes it impossible
	Impossible  = "impossible" // no case can hold it
	Denied      = "denied"     // said not to be so, of a fact that only a yes can name
	Heard       = "heard"      // what somebody who did not look makes of it
	Unclear     = "unclear"    // a denying word stands near, and does not clearly reach it
)

// judge decides how a find in a sentence is meant.
func (m *matcher) judge(f find, s sentence, a aim) verdict {
	c := f.covers()
	v := verdict{wide: c}
	v.no = m.denied(f, &v)
	unclear := v.drop
	v.drop = ""
	v.doubt = v.doubt || m.doubted(f.head) || f.when != "" && !f.sharp
	if f.when != "" && v.no {
		v.drop = nothingHere // no creep at all: that is said of every time
		return v
	}
	switch {
	case m.elsewhere(c.from):
		v.drop = OtherOne
	case strings.HasPrefix(a.id, "machine."): // speaking of a part shows that it is there
	case m.asked(f.head.from, s):
		v.drop = Asked
	case m.supposed(f):
		v.drop = Supposed
	case m.roleBefore(f.head, wasOnce, 4):
		v.drop = Former
	case m.planned(f.head, a) || a.kind == factIs && m.onOrder(c):
		v.drop = Planned
	case m.guessed(f, m.l.cat, a):
		v.drop = Heard
	}
	if a.kind != signYes && a.kind != signNo && a.kind != vagueOf {
		return v
	}
	if v.drop == "" && m.bygone(f) {
		v.drop = Former
	}
	if e := m.echoed(f, s); e != noEcho {
		v.echo(e, a.kind == signNo && m.deniesItself(f))
		return v
	}
	if v.drop == "" && (unclear != "" || m.corrected(f) || m.tangled(f) || a.kind == signNo && m.deniesItself(f) && (m.limited(f) || m.pastBy(f)) || m.wouldBe(f) || !v.no && m.weakened(f)) {
		v.drop = Unclear
	}
	return v
}

// supposed reports whether the head is what an "if" supposes rather than what
// happens then, or what would happen then. "If it's hot it creeps" supposes nothing.
func (m *matcher) supposed(f find) bool {
	would := false
	for k := f.head.from - 1; k >= 0; k-- {
		t := m.tokens[k]
		would = would || t.word == "would" || t.word == "id" || t.word == "should"
		if t.part != m.tokens[f.head.from].part {
			return false
		}
		if !would && (t.mark != 0 || t.role == says || f.head.from-k > 7) {
			return false
		}
		if t.role == supposes && t.roleAt == 1 {
			return would || !slices.ContainsFunc(f.all[1:], func(s span) bool { return s.from > k && s.to <= f.head.from })
		}
	}
	return false
}

// elsewhere reports whether the words at i speak of another machine.
func (m *matcher) elsewhere(i int) bool {
	away := false
	for k := 0; k <= i && k < len(m.tokens); k++ {
		switch t := m.tokens[k]; {
		case t.role == others && t.roleAt == 1:
			away = true
		case t.role == mine:
			away = false
		}
	}
	return away
}

// asked reports whether the words at i are a question. What is said before the
// question in the same sentence is not, nor what a "why" takes for granted.
func (m *matcher) asked(i int, s sentence) bool {
	for k := i; k >= 0; k-- {
		if k >= len(m.tokens) {
			continue
		}
		t := m.tokens[k]
		if t.role == presumes {
			return false
		}
		if t.role == asks && t.roleAt == 1 {
			return true
		}
		start := k == 0 || m.tokens[k-1].chunk != t.chunk || m.tokens[k-1].mark != 0
		if s.question && start && lang().openers[t.word] {
			return !m.presumedBefore(k)
		}
	}
	return s.question && m.oneClause(i) && !m.presumedBefore(len(m.tokens)-1)
}

// oneClause reports whether the sentence goes on from token i to its end without
// anything new: "it creeps when hot?".
func (m *matcher) oneClause(i int) bool {
	return !slices.ContainsFunc(m.tokens[min(i, len(m.tokens)):], func(t token) bool {
		return t.mark != 0 && t.mark != '/' || t.part != m.tokens[i].part || t.word == "and" || t.word == "so" || t.word == "because"
	})
}

func (m *matcher) presumedBefore(k int) bool {
	return slices.ContainsFunc(m.tokens[:k+1], func(t token) bool { return t.role == presumes })
}

// doubted reports whether the writer is not sure: a doubting word before the
// head in its part of the sentence, or in a part before it that holds nothing
// else ("not sure, but ...").
func (m *matcher) doubted(head span) bool {
	at := m.tokens[head.from]
	for i, t := range m.tokens {
		if t.role != doubts && t.role != denyDoubts || t.roleAt != 1 {
			continue
		}
		switch {
		case t.part == at.part && t.chunk >= at.chunk-1 && t.chunk <= at.chunk && (i < head.from || t.chunk == at.chunk && i-head.to < 5):
			return true
		case t.part == at.part-1 && i < head.from && m.bare(t.part):
			return true
		}
	}
	return false
}

// bare reports whether a part of the sentence says nothing of its own.
func (m *matcher) bare(part int) bool {
	n := 0
	for _, t := range m.tokens {
		if t.part == part && t.mark == 0 && !t.filler && t.role == none && t.amount == nil {
			n++
		}
	}
	return n <= 1
}

// roleBefore reports whether a role stands at most n tokens before the head.
func (m *matcher) roleBefore(head span, r role, n int) bool {
	for k := head.from - 1; k >= 0 && head.from-k <= n; k-- {
		if m.tokens[k].role == r {
			return true
		}
		if m.tokens[k].mark != 0 {
			return false
		}
	}
	return false
}

// planned reports whether something is only intended. "Will" and "should" make
// a plan of work, and say nothing against a complaint.
func (m *matcher) planned(head span, a aim) bool {
	at := m.tokens[head.from]
	for k := head.from - 1; k >= 0; k-- {
		t := m.tokens[k]
		if t.part != at.part || t.mark == ':' || at.chunk-t.chunk > 2 {
			return false
		}
		if t.role == plans && !m.pastBefore(k) || t.role == would && a.kind == factIs {
			return true
		}
	}
	return false
}

// pastBefore reports whether a "before I" at token k speaks of work that was done:
// "before I changed the oil" and not "before I change it".
func (m *matcher) pastBefore(k int) bool {
	for k > 0 && m.tokens[k].roleAt > 1 {
		k--
	}
	if m.tokens[k].word != "before" || k+2 >= len(m.tokens) {
		return false
	}
	w := m.tokens[k+2].word
	return strings.HasSuffix(w, "ed") || w == "did" || w == "had" || w == "took"
}

// onOrder reports whether a plan follows right after the find: "springs are on order".
func (m *matcher) onOrder(c span) bool {
	for i := c.to; i < len(m.tokens) && i < c.to+4 && m.tokens[i].mark == 0; i++ {
		if m.tokens[i].role == plans {
			return true
		}
	}
	return false
}
