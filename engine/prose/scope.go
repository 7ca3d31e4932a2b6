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
)

// mark gives every token its role, its chunk and its part of the sentence.
func (l *Lexicon) mark(ts []token) {
	for i := range ts {
		if ts[i].roleAt == 0 {
			setRoles(ts, i, l.idioms)
		}
		if ts[i].roleAt == 0 {
			setRoles(ts, i, lang().idioms)
		}
	}
	chunk, part := 0, 0
	for i := range ts {
		t := &ts[i]
		switch {
		case t.mark != 0 && t.mark != '/' && !(t.mark == '-' && joined(ts, i)):
			chunk++
		case t.role != says && lang().contrasts[t.word], t.word == "apart" && i+1 < len(ts) && ts[i+1].word == "from":
			part++
			chunk++
		case t.word == "only" && i > 0 && ts[i-1].mark == ',':
			part++
		case t.word == "while" && i > 0 && ts[i-1].mark == ',':
			part++
		case t.word == "and" || lang().joints[t.word]:
			chunk++
		}
		t.chunk, t.part = chunk, part
	}
}

func joined(ts []token, i int) bool {
	return i > 0 && i+1 < len(ts) && ts[i-1].end == ts[i].start && ts[i].end == ts[i+1].start
}

// setRoles looks for an idiom at token i. A figure stands for "#".
func setRoles(ts []token, i int, list map[string][]idiom) {
	for _, idiom := range list[ts[i].word] {
		if i+len(idiom.words) > len(ts) {
			continue
		}
		fits := true
		for k, w := range idiom.words {
			fits = fits && ts[i+k].word == w
		}
		if fits {
			for k := range idiom.words {
				ts[i+k].role, ts[i+k].roleAt = idiom.role, k+1
			}
			return
		}
	}
}

// spend notes the denying words that are a part of what was found: the "no" of
// "no free play" says nothing about the words after it.
func (m *matcher) spend(finds []find, phrases []phrase) {
	m.spent = make([]span, len(m.tokens))
	for _, f := range finds {
		for _, s := range f.all {
			if k := phrases[f.phrase].aim.kind; (k == signYes || k == signNo) && s.from < s.to && m.tokens[s.from].role == denies {
				m.spent[s.from] = s
			}
		}
	}
}

// judge decides how a find in a sentence is meant.
func (m *matcher) judge(f find, s sentence, a aim) verdict {
	c := f.covers()
	v := verdict{wide: c}
	v.no = m.denied(f, &v)
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
	}
	return v
}

// denied reports whether a denying word reaches the find: one before its head in
// the same part of the sentence, or "none" and its like right after it.
func (m *matcher) denied(f find, v *verdict) bool {
	no := f.topic && f.flip == denies
	for _, s := range f.all {
		no = no != s.no
	}
	if m.underNo(f.head.from) {
		no = !no
	}
	if f.topic && m.tokens[f.head.from].role == denies && f.head.from == f.head.to {
		return no // a fragment has weighed its own words
	}
	seen := map[int]bool{}
	for i := f.head.from - 1; i >= 0 && f.head.from-i <= 9; i-- {
		t := m.tokens[i]
		if t.part != m.tokens[f.head.from].part || m.stops(t, i, f.head.from) {
			break
		}
		if t.roleAt != 1 || seen[i] || m.overlaps(f.all, i) || m.elsewhereSpent(i, f.head) {
			continue
		}
		switch t.role {
		case denies:
			if m.reaches(i, f.head.from) {
				no, seen[i] = !no, true
				v.wide.from = min(v.wide.from, i)
			}
		case denyDoubts:
			no, v.doubt, seen[i] = !no, true, true
			v.wide.from = min(v.wide.from, i)
		}
	}
	no = no || m.notThen(f) // "no creep, not when hot" denies once
	if end := m.after(f.covers()); end > 0 && !no {
		v.wide.to = max(v.wide.to, end)
		return true
	}
	return no
}

// notThen reports whether a circumstance behind the head is denied by itself:
// "creeps hot, not cold".
func (m *matcher) notThen(f find) bool {
	if f.topic {
		return false
	}
	for _, s := range f.all[1:] {
		if i := s.from - 1; i >= f.head.to && m.tokens[i].word == "not" && m.tokens[i].role == denies {
			return true
		}
	}
	return false
}

// underNo reports whether token i stands under a heading that denies: "What it does
// not do: slip, drag".
func (m *matcher) underNo(i int) bool {
	no := false
	for k, t := range m.tokens[:i] {
		switch {
		case t.mark == ':':
			return no && k < i
		case t.role == denies && t.roleAt == 1:
			no = !no
		case t.mark != 0 || !t.filler && t.role == none:
			return false // it says something by itself
		}
	}
	return false
}

// elsewhereSpent reports whether the denying word at i belongs to a find that has
// nothing to do with a head.
func (m *matcher) elsewhereSpent(i int, head span) bool {
	if m.spent == nil || m.spent[i].to == 0 || m.orBetween(i, head.from) {
		return false
	}
	return m.spent[i].to <= head.from // else it is the same thing in other words
}

// orBetween reports whether a list goes on from i to j: "no judder, rattle or whine".
func (m *matcher) orBetween(i, j int) bool {
	return slices.ContainsFunc(m.tokens[i:j], func(t token) bool { return t.word == "or" || t.word == "nor" })
}

// overlaps reports whether the idiom that begins at token i is a part of the spans,
// or reaches into them: the "did not" of "did not soak".
func (m *matcher) overlaps(spans []span, i int) bool {
	for k := i; k < len(m.tokens) && (k == i || m.tokens[k].roleAt == k-i+1); k++ {
		if covered(spans, k) {
			return true
		}
	}
	return false
}

func covered(spans []span, i int) bool {
	return slices.ContainsFunc(spans, func(s span) bool { return s.from <= i && i < s.to })
}

// stops reports whether a denying word on the far side of t could not reach over
// it: reasons, other subjects, other clauses.
func (m *matcher) stops(t token, i, head int) bool {
	switch {
	case t.role == presumes && t.roleAt == 1, t.mark == '(' || t.mark == ')' || t.mark == ':':
		return true
	case t.mark == ',' || t.mark == '-':
		return !m.listed(i, head)
	case t.word == "and" || t.word == "because" || t.word == "so" || t.word == "then" || t.word == "plus" || t.word == "since" || t.word == "until" || t.word == "till":
		return true
	case t.word == "when" || t.word == "while" || t.word == "as" || t.word == "after" || t.word == "before" || t.word == "once" || t.word == "which":
		return true
	}
	return false
}

// listed reports whether a comma joins a list that "or" or "nor" closes: "no
// rattle, judder or drag".
func (m *matcher) listed(comma, head int) bool {
	if head-comma > 4 {
		return false
	}
	for i := comma + 1; i < len(m.tokens) && i < comma+8; i++ {
		t := m.tokens[i]
		if t.word == "or" || t.word == "nor" {
			return true
		}
		if t.role == denies || t.word == "and" || lang().contrasts[t.word] || lang().subjects[t.word] {
			return false
		}
	}
	return false
}

// reaches reports whether the denying word at i reaches a head at from. "No" and
// "without" belong to the noun right after them, verbs reach further.
func (m *matcher) reaches(i, from int) bool {
	between := 0
	for k := i + 1; k < from; k++ {
		t := m.tokens[k]
		if t.word == "or" || t.word == "nor" {
			between -= 2
			continue
		}
		if t.mark == 0 && !t.filler && t.role == none {
			between++
		}
	}
	switch m.tokens[i].word {
	case "no", "without", "zero", "none":
		return between <= 2
	}
	return between <= 3
}

// after finds a denial that stands behind: "slip: none", "the rattle has gone".
func (m *matcher) after(c span) int {
	for i := c.to; i < len(m.tokens) && i < c.to+5; i++ {
		t := m.tokens[i]
		if t.part != m.tokens[c.from].part {
			return 0
		}
		if t.role == ends && t.roleAt == 1 {
			return i + 1
		}
		if (t.mark == ':' || t.mark == '=' || t.mark == '-') && i+1 < len(m.tokens) && lang().answerNo[m.tokens[i+1].word] && (i+2 == len(m.tokens) || m.tokens[i+2].mark != 0) {
			return i + 2
		}
		if t.mark != 0 || !t.filler {
			return 0
		}
	}
	return 0
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
	return s.question && m.tokens[i].chunk == m.tokens[len(m.tokens)-1].chunk && !m.presumedBefore(len(m.tokens)-1)
}

func (m *matcher) presumedBefore(k int) bool {
	return slices.ContainsFunc(m.tokens[:k+1], func(t token) bool { return t.role == presumes })
}

// supposed reports whether the head is what an "if" supposes rather than what
// happens then.
func (m *matcher) supposed(f find) bool {
	for k := f.head.from - 1; k >= 0 && f.head.from-k <= 5; k-- {
		t := m.tokens[k]
		if t.mark != 0 || t.part != m.tokens[f.head.from].part || t.role == says {
			return false
		}
		if t.role == supposes && t.roleAt == 1 {
			return true
		}
	}
	return false
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
