package prose

import "slices"

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
	from   int // token of its head
	update bool
	strong bool // says that something changed: "no longer", "now"
	partly bool // holds only under some circumstance
	plain  bool // names no circumstance itself
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
	fix    claim        // where all was last said to be well again; at is -1 for nowhere
}

// Read finds what a post says. The same post gives the same Reading.
func (l *Lexicon) Read(post string) *Reading {
	text, cut := clean(post)
	st := &state{l: l, text: text, out: &Reading{Cut: cut}, heard: map[int]bool{}, fix: claim{at: -1}}
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
	if from := m.fixedAt(s, fixes); from >= 0 {
		st.fix = claim{at: at, from: from}
	}
	if from := m.fixedAt(s, mends); from >= 0 {
		st.fixed(func(c claim) bool { return c.at == at && c.from < from })
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
		return t.word == "longer" || t.word == "now" || t.word == "anymore" || t.word == "again" || t.word == "stopped" || t.role == ends || lang().over[t.word] && t.role != says
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
