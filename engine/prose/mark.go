package prose

import "slices"

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
	concede(ts)
	chunk, part := 0, 0
	for i := range ts {
		t := &ts[i]
		switch {
		case t.mark != 0 && t.mark != '/' && !(t.mark == '-' && joined(ts, i)):
			chunk++
		case t.role != says && t.roleAt < 2 && !(t.role == denies && t.word == "yet") && lang().contrasts[t.word], t.word == "apart" && i+1 < len(ts) && ts[i+1].word == "from":
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

// concede takes the supposing out of a "whether" that nobody wonders about: "it is
// there whether the lever is in or out".
func concede(ts []token) {
	for i := range ts {
		if ts[i].word == "whether" && !slices.ContainsFunc(ts[max(0, i-3):i], func(t token) bool { return t.role != none || lang().wonders[t.word] }) &&
			(i > 0 || slices.ContainsFunc(ts[1:min(len(ts), 9)], func(t token) bool { return t.word == "or" })) {
			ts[i].role, ts[i].roleAt = none, 0
		}
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
