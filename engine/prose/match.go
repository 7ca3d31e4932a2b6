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
		if at < len(m.tokens) && m.tokens[at].mark == 0 && !m.tokens[at].filler && !joints[m.tokens[at].word] && m.tokens[at].amount == nil {
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
		case t.word == "now" && (open.words > 0 || m.tokens[i-1].word == "and"): // another matter
			return span{}, false
		case t.mark != 0:
			if t.mark == '(' || t.mark == ')' || t.mark == '=' {
				return span{}, false
			}
			if !open.far {
				others = 0
			}
		case t.role == denies && denials > 0:
			if t.roleAt == 1 {
				denials--
				so.no = !so.no
			}
		case t.role == denies && t.roleAt > 1 && so.no:
		case t.filler && t.role != denies && t.role != denyDoubts && !contrasts[t.word]:
			if fillers++; fillers > mostFillers {
				return span{}, false
			}
		case t.role == none && t.amount == nil && m.inList(i):
		case others > 0 && (t.role == none || open.words > 0 && t.role == doubts) && (open.words > 0 || t.amount == nil) && t.part == m.tokens[so.from].part && !joints[t.word]:
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

// figure is the place of the amount in a find, or -1.
func (m *matcher) figure(f find) int {
	for _, s := range f.all {
		for i := s.from; i < s.to; i++ {
			if m.tokens[i].amount != nil {
				return i
			}
		}
	}
	return -1
}

// lists reports whether a span goes over an "or" or "and" that joins two things.
func (m *matcher) lists(s span) bool {
	return slices.ContainsFunc(m.tokens[s.from:s.to], func(t token) bool { return t.word == "or" || t.word == "and" })
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

// find is one phrase found in a sentence.
type find struct {
	phrase int
	head   span   // what is said to be so
	all    []span // every part of the phrase, the head first
	topic  bool   // the head is a stand-in for what was spoken of before
	flip   role   // how a stand-in is meant: none, denies
	size   int    // words that mean something
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
	try := func(k, from int) {
		p := m.l.phrases[k]
		if head, ok := m.match(p.parts[0], from, mostOther); ok {
			if p.whole && !m.fills(head) {
				return
			}
			if len(p.parts) == 1 {
				out = append(out, find{phrase: k, head: head, all: []span{head}})
			} else {
				out = append(out, m.joined(k, head)...)
			}
		}
	}
	for from, t := range m.tokens {
		if t.mark != 0 {
			continue
		}
		for _, k := range m.l.byStem[t.stem] {
			try(k, from)
		}
		if t.amount != nil {
			for _, k := range append(m.l.byStem[t.amount.class()], m.l.byStem["{thousands}"]...) {
				try(k, from)
			}
		}
	}
	for c, spans := range m.ideas {
		for i, s := range spans {
			if i > 0 && spans[i-1].from == s.from {
				continue
			}
			for _, k := range m.l.byIdea[c] {
				try(k, s.from)
			}
		}
	}
	return out
}

// fills reports whether a span is all that its chunk says.
func (m *matcher) fills(s span) bool {
	for i, t := range m.tokens {
		if t.chunk == m.tokens[s.from].chunk && t.mark == 0 && (i < s.from || i >= s.to) && (!t.filler || t.role != none || joints[t.word]) {
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
		s, ok := m.near(part, head, m.keeps(k, head))
		if !ok {
			return nil
		}
		f.all = append(f.all, s)
	}
	return []find{f}
}

// keeps reports whether a phrase takes its circumstances from the chunk of its head
// where there are any: denials do, and words that stand in for a topic by name.
func (m *matcher) keeps(k int, head span) bool {
	p := m.l.phrases[k]
	return p.aim.kind == signNo || p.topic >= 0 && m.standIn(head)
}

// near finds the place of a part that belongs to the head: in the same part of
// the sentence, and not in a chunk that speaks of something else.
func (m *matcher) near(part []item, head span, denial bool) (span, bool) {
	best, found := span{}, false
	at := m.tokens[head.from]
	own := denial && m.circumstanced(head) // "hot, cold it holds fine": hot is another matter
	for from, t := range m.tokens {
		if t.mark != 0 || t.part != at.part {
			continue
		}
		s, ok := m.match(part, from, mostOther)
		if ok && own && t.chunk != at.chunk {
			continue
		}
		if !ok || s.from < head.to && head.from < s.to || !m.belongs(s, head) {
			continue
		}
		if !found || distanceOf(s, head) < distanceOf(best, head) {
			best, found = s, true
		}
	}
	return best, found
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

func distanceOf(a, b span) int {
	if a.from >= b.to {
		return a.from - b.to
	}
	return max(0, b.from-a.to)
}

// belongs reports whether a circumstance goes with the head: no other head may
// stand in its chunk or in a chunk between them.
func (m *matcher) belongs(s, head span) bool {
	a, b := m.tokens[head.from].chunk, m.tokens[s.from].chunk
	if a == b {
		return !m.parted(s, head)
	}
	if b < a && m.followed(head) {
		return false
	}
	low, high := min(a, b), max(a, b)
	shared := b == a-1 && m.shares(head)
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
// own: "grinds going into first and lurches".
func (m *matcher) shares(head span) bool {
	for i, t := range m.tokens {
		if t.chunk == m.tokens[head.from].chunk {
			return t.word == "and" && i < head.from && !m.circumstanced(head)
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
			if h.from >= low && h.to <= high {
				return true
			}
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
			if len(p.parts) < 2 || len(p.parts[0]) != 1 {
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
	for i, t := range m.tokens {
		if t.part == part && (t.word == "when" || t.word == "once" || t.word == "until" || t.word == "if") && i+1 < len(m.tokens) {
			if slices.ContainsFunc(f.all, func(s span) bool { return m.tokens[min(s.from, len(m.tokens)-1)].chunk == t.chunk }) {
				continue // a circumstance of the find itself
			}
			for k := i + 1; k < len(m.tokens) && m.tokens[k].chunk == t.chunk; k++ {
				if m.circumstance(k) {
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
			!covered(f.all, i) && !bystanders[t.word] && !fragmentWords[t.word] && !m.circumstance(i) {
			return false
		}
	}
	return true
}

// bystanders may stand beside a stand-in without being its subject.
var bystanders = set(`clutch everything problem issue engine fine then first hot cold bad road day good when once after while if until till nice ride`)

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
		marked = marked || openings[t.word]
		if first < 0 {
			first = i
		}
		if !covered[i] && !t.filler && t.role == none && !fragmentWords[t.word] && !contrasts[t.word] && !joints[t.word] && t.amount == nil {
			n++
		}
	}
	if first < 0 || n > 1 || !marked {
		return nil
	}
	return m.instead(topics, span{from: first, to: first}, m.fragmentRole(first, part, last))
}

// openings show that a sentence goes on where the one before ended.
var openings = set(`only mostly mainly especially particularly even never not except worse worst usually always also sometimes`)

// fragmentWords belong to a fragment without being its subject.
var fragmentWords = set(`only mostly mainly especially particularly even never not except unless apart just usually always worse worst bad nothing no any`)

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

// longest drops what is a part of a longer find about something else: "clunks
// into first" inside of "clunks into first only in the morning".
func (m *matcher) longest(finds []find) []find {
	var out []find
	for _, f := range finds {
		if !slices.ContainsFunc(finds, func(g find) bool { return m.swallows(g, f) }) {
			out = append(out, f)
		}
	}
	return out
}

// swallows reports whether f is a part of g, which says something else.
func (m *matcher) swallows(g, f find) bool {
	phrases := m.l.phrases
	a, b := phrases[f.phrase].aim, phrases[g.phrase].aim
	if a.kind == amountOf && b.kind == amountOf && a.id != b.id && m.figure(f) == m.figure(g) {
		return g.size > f.size // one figure means one thing
	}
	if a == b || !sameKind(a, b) || f.topic != g.topic && len(f.all) > 1 {
		return false
	}
	if m.lists(g.head) && !m.lists(f.head) {
		return false // "heavy or gritty" says both
	}
	for _, s := range f.all {
		if !covered(g.all, s.from) || !slices.ContainsFunc(g.all, s.within) {
			return false
		}
	}
	return g.size > f.size
}

// sameKind keeps facts and signs from covering each other: "new springs" says
// something of both.
func sameKind(a, b aim) bool {
	sign := func(k aimKind) bool { return k == signYes || k == signNo || k == vagueOf }
	return sign(a.kind) && sign(b.kind) || a.id == b.id && a.one && b.one
}
