package prose

import (
	"slices"
	"strings"
	"unicode"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
)

// claim is one thing said in the post, before claims are weighed against each other.
type claim struct {
	aim    aim
	idea   int // the concept it is about, -1 for none
	values []string
	no     bool
	doubt  bool
	why    string
	quote  string
	at     int // sentence
	update bool
	strong bool // says that something changed: "no longer", "now"
	partly bool // holds only under some circumstance
}

// state is what carries over from sentence to sentence.
type state struct {
	l      *Lexicon
	text   string
	claims []claim
	out    *Reading
	topics []int // concepts spoken of last
	last   role  // whether they were denied
	update bool
	said   int          // finds of the best sentence so far
	unit   string       // the unit of road distances in this post
	before []claim      // what the last question asked, for a "no" or "yes" after it
	frame  frame        // when the sentence before said that things happen
	bare   []claim      // distances without a unit
	former []claim      // what used to be so
	overs  []claim      // complaints that are over
	heard  map[int]bool // every idea that has come up
}

// Read finds what a post says. The same post gives the same Reading.
func (l *Lexicon) Read(post string) *Reading {
	text, cut := clean(post)
	st := &state{l: l, text: text, out: &Reading{Cut: cut}, heard: map[int]bool{}}
	sentences := l.split(st.text)
	adopted := -1
	for i := range sentences {
		ts := sentences[i].tokens
		if len(ts) > mostTokens {
			st.out.Unread = append(st.out.Unread, st.quote(sentences[i], span{from: mostTokens, to: len(ts)}))
			sentences[i].tokens = ts[:mostTokens]
		}
		l.bind(sentences[i].tokens)
		l.mark(sentences[i].tokens)
		if has(sentences[i], adopts) {
			adopted = i
		}
	}
	if slices.ContainsFunc(sentences, func(s sentence) bool { return has(s, mine) }) {
		adopted = -1 // there are two
	}
	for i, s := range sentences {
		adopt(s.tokens, i <= adopted, adopted >= 0)
		st.sentence(s, i)
	}
	st.settle()
	if st.out.Title == "" {
		st.out.Title = st.firstLine()
	}
	st.out.admit(l.cat)
	return st.out
}

func has(s sentence, r role) bool {
	return slices.ContainsFunc(s.tokens, func(t token) bool { return t.role == r })
}

// adopt takes another's machine for the one spoken of, where the writer looks after
// it: all that is said up to there, and "his" after it.
func adopt(ts []token, before, after bool) {
	for i := range ts {
		if ts[i].role == others && (before || after && ts[i].word == "his") {
			ts[i].role = none
		}
	}
}

// sentence reads one sentence.
func (st *state) sentence(s sentence, at int) {
	switch {
	case begins(s, lang().updates):
		st.update = true
	case begins(s, lang().originals):
		st.update = false
	}
	st.noteUnit(s)
	if st.answered(s, at) {
		return
	}
	m := newMatcher(st.l, s)
	finds := st.understand(m)
	verdicts := make([]verdict, len(finds))
	for i, f := range finds {
		verdicts[i] = m.judge(f, s, st.l.phrases[f.phrase].aim)
	}
	st.before = nil
	n, first := 0, len(s.tokens) // what it is worth, and where its first complaint stands
	counted := map[string]bool{}
	for i, f := range finds {
		if verdicts[i].drop == "" && follows(finds, verdicts, f) {
			verdicts[i].drop = Supposed
		}
		a := st.l.phrases[f.phrase].aim
		if st.take(m, f, verdicts[i], s, at) && !counted[a.id] {
			counted[a.id] = true
			n += worthOf(a, verdicts[i].no)
			if a.kind == signYes && !verdicts[i].no {
				first = min(first, f.head.from)
			}
		}
	}
	st.remember(m)
	st.frame = st.framing(m, s)
	if n > st.said {
		st.said, st.out.Title = n, st.titleOf(s, first)
	}
	if len(finds) == 0 && meaningful(s) {
		st.out.Unread = append(st.out.Unread, st.quote(s, span{to: len(s.tokens)}))
	}
}

// understand finds the phrases of a sentence, those that lean on earlier ones
// included, and keeps of several that overlap the one that says most.
func (st *state) understand(m *matcher) []find {
	finds := append(m.finds(), st.carried(m)...)
	finds = slices.DeleteFunc(finds, func(f find) bool { return !st.spokenOf(m, f) })
	for i := range finds {
		finds[i] = m.weighs(finds[i])
	}
	finds = m.longest(finds)
	m.spend(finds, st.l.phrases)
	return append(finds, m.framed(finds, st.frame)...)
}

// worthOf is how much a find counts for the title: what is wrong before what only
// brings it up, and that before what was done or is not wrong.
func worthOf(a aim, no bool) int {
	switch {
	case a.kind == signYes && !no:
		return 100
	case a.kind == vagueOf && !no:
		return 30
	}
	return 1
}

// spokenOf reports whether the topic that a phrase leans on has come up.
func (st *state) spokenOf(m *matcher, f find) bool {
	t := st.l.phrases[f.phrase].topic
	return t < 0 || st.heard[t] || len(m.ideas[t]) > 0
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

// follows reports whether a find is what would follow from something supposed:
// "if it slips the plates are worn".
func follows(finds []find, verdicts []verdict, f find) bool {
	for i, g := range finds {
		if verdicts[i].drop == Supposed && g.head.to <= f.head.from {
			return true
		}
	}
	return false
}

// take turns a find into a claim, or notes why not.
func (st *state) take(m *matcher, f find, v verdict, s sentence, at int) bool {
	p := st.l.phrases[f.phrase]
	c := claim{
		aim: p.aim, idea: p.parts[0][0].concept, no: v.no, doubt: v.doubt, quote: st.quote(s, v.wide), at: at,
		update: st.update, strong: turned(s), partly: m.partly(f),
	}
	if v.drop == nothingHere {
		return false
	}
	if f.when != "" {
		c.why, c.quote = "before", f.when+" … "+c.quote
	}
	if c.aim.kind == amountOf && v.drop == "" {
		if c, v.drop = st.amount(m, f, c); v.drop == nothingHere {
			return false
		}
	}
	if v.drop == "" && c.aim.kind == factIs && v.no && (p.only || !st.yesNo(c.aim.id)) {
		v.drop = Denied
	}
	switch {
	case v.drop == Former:
		st.former = append(st.former, c)
	case v.drop == Asked:
		st.before = append(st.before, c)
	case v.drop == "" && c.aim.kind == vagueOf && c.no && c.strong:
		st.overs = append(st.overs, c)
	}
	if v.drop == "" {
		st.claims = append(st.claims, c)
		return true
	}
	if c.aim.kind != vagueOf {
		st.leave(c.aim.id, c.quote, v.drop)
	}
	return false
}

// over takes back what was said of complaints that are said to be over: "it no
// longer creeps".
func (st *state) over() {
	for _, c := range st.overs {
		for _, old := range append(slices.Clone(st.claims), st.former...) {
			if old.idea == c.idea && old.aim.kind == signYes && !old.no && (old.at <= c.at || c.update && !old.update) {
				old.no, old.doubt, old.strong, old.update, old.quote, old.at = true, c.doubt, true, c.update, c.quote, c.at
				st.claims = append(st.claims, old)
			}
		}
	}
}

func (st *state) leave(id, quote, reason string) {
	if !slices.ContainsFunc(st.out.LeftOut, func(o Omission) bool { return o.ID == id && o.Reason == reason }) {
		st.out.LeftOut = append(st.out.LeftOut, Omission{id, quote, reason})
	}
}

func (st *state) yesNo(id string) bool {
	f, _ := st.l.cat.Fact(id)
	return fact.Kind(f.Kind) == fact.YesNo
}

// nothingHere says that a find has no amount of its own after all.
const nothingHere = "nothing"

// amount reads the amount out of a find.
func (st *state) amount(m *matcher, f find, c claim) (claim, string) {
	if c.no {
		return c, nothingHere
	}
	r := f.covers()
	for i := r.from; i < r.to; i++ {
		a := m.tokens[i].amount
		if a == nil || !st.fits(c.aim.id, *a) {
			continue
		}
		reading, isReading := st.l.cat.Reading(c.aim.id)
		switch {
		case a.text == "":
			return c, Incomplete
		case a.unit == "":
			c.values = []string{a.text}
			st.bare = append(st.bare, c)
			return c, nothingHere
		case a.upper != "" && isReading && reading.Several:
			c.values = []string{a.text, a.upper}
		case a.upper != "":
			return c, Incomplete
		default:
			c.values = []string{a.text}
		}
		c.doubt = c.doubt || a.loose
		c.strong = c.strong || m.setTo(i)
		if a.loose {
			c.why = "about"
		}
		return c, ""
	}
	return c, nothingHere
}

// setTo reports whether something was brought to the amount at token i.
func (m *matcher) setTo(i int) bool {
	if i == 0 || m.tokens[i-1].word != "to" && m.tokens[i-1].word != "at" {
		return false
	}
	return slices.ContainsFunc(m.tokens[max(0, i-6):i], func(t token) bool {
		return t.word == "set" || t.word == "reset" || t.word == "adjusted" || t.word == "readjusted"
	})
}

// fits reports whether an amount can be one of a fact or reading. A bare number
// may still get its unit from the rest of the post.
func (st *state) fits(id string, a amount) bool {
	word, ok := st.l.vocab.Lookup(id)
	return ok && (a.unit == "" || a.dim == word.Dim)
}

// noteUnit remembers whether this writer counts in miles or in kilometres.
func (st *state) noteUnit(s sentence) {
	for _, t := range s.tokens {
		if t.amount != nil && t.amount.class() == "{distance}" {
			if st.unit != "" && st.unit != t.amount.unit {
				st.unit = "?"
			} else if st.unit == "" {
				st.unit = t.amount.unit
			}
		}
	}
}

// answered reads a short "no" or "yes" after a question as its answer.
func (st *state) answered(s sentence, at int) bool {
	if len(st.before) == 0 || len(s.tokens) == 0 {
		return false
	}
	w := s.tokens[0].word
	no, yes := lang().answerNo[w], lang().answerYes[w]
	if !no && !yes || len(s.tokens) > 1 && s.tokens[1].mark == 0 && len(s.tokens) > 3 {
		return false
	}
	for _, c := range st.before {
		c.no, c.at = c.no != no, at
		c.quote += " " + st.quote(s, span{to: 1})
		st.out.LeftOut = slices.DeleteFunc(st.out.LeftOut, func(o Omission) bool { return o.ID == c.aim.id && o.Reason == Asked })
		st.claims = append(st.claims, c)
	}
	st.before = nil
	return len(s.tokens) < 3
}

// begins reports whether one of the words heads a sentence, with a mark behind it
// or all by itself.
func begins(s sentence, words map[string]bool) bool {
	for i, t := range s.tokens[:min(3, len(s.tokens))] {
		if words[t.word] {
			return len(s.tokens) <= 3 || i+1 < len(s.tokens) && (s.tokens[i+1].mark != 0 || i+2 < len(s.tokens) && s.tokens[i+2].mark != 0)
		}
	}
	return false
}

// turned reports whether a sentence says that something has changed.
func turned(s sentence) bool {
	for i, t := range s.tokens {
		if t.word == "more" && i > 0 && s.tokens[i-1].word == "no" {
			return true
		}
	}
	return slices.ContainsFunc(s.tokens, func(t token) bool {
		return t.word == "longer" || t.word == "now" || t.word == "anymore" || t.word == "again" || t.word == "stopped" || t.role == ends
	})
}

// meaningful tells a sentence that says something from a greeting.
func meaningful(s sentence) bool {
	n := 0
	for _, t := range s.tokens {
		if t.mark == 0 && !t.filler && !lang().smallTalk[t.word] && t.role == none {
			n++
		}
	}
	return n > 1
}

// quote is the words of a span as they were typed, on one line.
func (st *state) quote(s sentence, w span) string { return st.quoteTo(s, w, 90) }

// quoteTo is quote in at most n characters.
func (st *state) quoteTo(s sentence, w span, n int) string {
	w.from, w.to = max(0, w.from), min(len(s.tokens), max(w.to, w.from+1))
	text := document.Clean(st.text[s.tokens[w.from].start:s.tokens[w.to-1].end])
	return shortenTo(strings.Join(strings.Fields(text), " "), n)
}

func shortenTo(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	cut := string(r[:n-1])
	if at := strings.LastIndexByte(cut, ' '); at > len(cut)*2/3 { // between words
		cut = cut[:at]
	}
	return strings.TrimRight(cut, " ,.") + "…"
}

// longestTitle is in characters.
const longestTitle = 78

// titleOf is a sentence; of a long one, what begins with the part that holds the
// complaint at token first.
func (st *state) titleOf(s sentence, first int) string {
	title := st.quoteTo(s, span{to: len(s.tokens)}, longestTitle)
	if first >= len(s.tokens) || !strings.HasSuffix(title, "…") {
		return title
	}
	from := first
	for from > 0 && s.tokens[from-1].part == s.tokens[first].part {
		from--
	}
	for from < first && (s.tokens[from].mark != 0 || lang().contrasts[s.tokens[from].word]) {
		from++
	}
	r := []rune(st.quoteTo(s, span{from: from, to: len(s.tokens)}, longestTitle))
	r[0] = unicode.ToUpper(r[0])
	return string(r)
}

func (st *state) firstLine() string {
	line, _, _ := strings.Cut(strings.TrimSpace(st.text), "\n")
	return shortenTo(strings.Join(strings.Fields(line), " "), longestTitle)
}
