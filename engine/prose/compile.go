package prose

import (
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// compiler turns the wordings of files into items.
type compiler struct {
	l  *Lexicon
	ps *source.Problems
}

func (c compiler) all(files []phraseFile) {
	c.trade(files)
	for _, f := range files {
		for _, e := range f.Same {
			for _, w := range c.texts(e) {
				c.l.same[w.Value] = e.Key.Value
				c.l.spelt(w.Value)
			}
		}
	}
	for _, f := range files {
		for _, e := range f.Concepts {
			if c.l.conceptIndex(e.Key.Value) >= 0 {
				c.complain(e.Key, "concept %q is taken", e.Key.Value)
				continue
			}
			c.l.concepts = append(c.l.concepts, concept{name: e.Key.Value})
		}
	}
	for _, f := range files {
		c.concepts(f)
	}
	c.sortConcepts()
	for _, f := range files {
		c.file(f)
	}
	c.catalog()
	c.l.fine, c.l.clears, c.l.happens = c.l.conceptIndex("fine"), c.l.conceptIndex("clears"), c.l.conceptIndex("happens")
	for _, i := range []int{c.l.fine, c.l.clears} {
		if i >= 0 {
			c.l.concepts[i].heads = true // what is fine takes its circumstances along
		}
	}
	c.l.nothing, c.l.bound = c.l.conceptIndex("nothing"), c.l.conceptIndex("bound")
	c.l.plainWords(files)
}

// trade takes the words that only this pack uses for what English does otherwise.
func (c compiler) trade(files []phraseFile) {
	list := map[role]string{}
	for _, f := range files {
		for _, t := range f.Little {
			c.l.little[t.Value] = true
			c.l.spelt(t.Value)
		}
		for _, t := range f.Others {
			list[others] += "|" + t.Value
		}
		for _, t := range f.Own {
			list[mine] += "|" + t.Value
		}
	}
	c.l.idioms = compileIdioms(list)
}

// standsIn reports whether a concept stands for what was spoken of before.
func (l *Lexicon) standsIn(c int) bool { return c == l.fine || c == l.clears || c == l.happens }

func (l *Lexicon) conceptIndex(name string) int {
	return slices.IndexFunc(l.concepts, func(c concept) bool { return c.name == name })
}

func (c *concept) add(items []item) {
	if c.first == nil {
		c.first = map[string][]int{}
	}
	key := items[0].stem
	if items[0].concept >= 0 || strings.HasPrefix(key, "{") {
		key = ""
	}
	c.first[key] = append(c.first[key], len(c.ways))
	c.ways = append(c.ways, items)
}

func (c compiler) complain(at source.Text, format string, args ...any) *source.Problem {
	return c.ps.Errorf("K150", at.Pos, max(1, len(at.Value)), format, args...)
}

func (c compiler) texts(e source.Entry) []source.Text {
	var ts []source.Text
	source.Decode(e.Value, &ts, c.ps)
	return ts
}

func (c compiler) concepts(f phraseFile) {
	for _, e := range f.Concepts {
		at := c.l.conceptIndex(e.Key.Value)
		for _, t := range c.texts(e) {
			items := c.items(t, t.Value)
			if len(items) == 0 {
				continue
			}
			c.l.concepts[at].add(items)
			for _, it := range items {
				if it.concept >= 0 {
					c.l.concepts[at].uses = append(c.l.concepts[at].uses, it.concept)
				}
			}
		}
	}
}

// sortConcepts orders them so that those used by others are matched first.
// Concepts that lead to themselves are left where they are and match nothing new.
func (c compiler) sortConcepts() {
	state := make([]int, len(c.l.concepts))
	var visit func(i int)
	visit = func(i int) {
		if state[i] != 0 {
			return
		}
		state[i] = 1
		for _, j := range c.l.concepts[i].uses {
			visit(j)
		}
		c.l.order = append(c.l.order, i)
	}
	for i := range c.l.concepts {
		visit(i)
	}
}

func (c compiler) file(f phraseFile) {
	for _, e := range f.Phrases {
		c.sign(e, signYes)
	}
	for _, e := range f.Denials {
		c.sign(e, signNo)
	}
	for _, e := range f.Facts {
		c.fact(e)
	}
	for _, e := range f.Amounts {
		c.amount(e)
	}
	var questions []string
	for _, q := range c.l.cat.Questions {
		questions = append(questions, q.ID)
	}
	for _, e := range f.Vague {
		if !slices.Contains(questions, e.Key.Value) {
			c.complain(e.Key, "unknown question %q", e.Key.Value).Hint = source.DidYouMean(e.Key.Value, questions)
			continue
		}
		c.add(aim{kind: vagueOf, id: e.Key.Value}, c.texts(e))
	}
}

func (c compiler) sign(e source.Entry, kind aimKind) {
	if _, ok := c.l.cat.Sign(e.Key.Value); !ok {
		var known []string
		for _, s := range c.l.cat.Signs {
			known = append(known, s.ID)
		}
		c.complain(e.Key, "unknown sign %q", e.Key.Value).Hint = source.DidYouMean(e.Key.Value, known)
		return
	}
	c.add(aim{kind: kind, id: e.Key.Value}, c.texts(e))
}

func (c compiler) fact(e source.Entry) {
	f, ok := c.l.cat.Fact(e.Key.Value)
	if !ok {
		c.complain(e.Key, "unknown fact %q", e.Key.Value).Hint = source.DidYouMean(e.Key.Value, c.factIDs())
		return
	}
	for _, v := range e.Value.Fields() {
		if known := valuesOf(f); !slices.Contains(known, v.Key.Value) {
			c.complain(v.Key, "%s: %q is not one of its values", e.Key.Value, v.Key.Value).Hint = source.DidYouMean(v.Key.Value, known)
			continue
		}
		c.add(aim{factIs, e.Key.Value, v.Key.Value, f.Kind != string(fact.Choices)}, c.texts(v))
	}
}

func (c compiler) factIDs() []string {
	var out []string
	for _, f := range c.l.cat.Facts {
		out = append(out, f.ID)
	}
	for _, f := range c.l.cat.Machine {
		out = append(out, "machine."+f.ID)
	}
	return out
}

// valuesOf lists what a fact can be said to be in words.
func valuesOf(f catalog.Fact) []string {
	switch fact.Kind(f.Kind) {
	case fact.YesNo:
		return []string{"yes", "no"}
	case fact.Choice, fact.Choices:
		var out []string
		for _, o := range f.Choices {
			out = append(out, o.ID)
		}
		return out
	}
	return nil
}

func (c compiler) amount(e source.Entry) {
	_, isFact := c.l.cat.Fact(e.Key.Value)
	_, isReading := c.l.cat.Reading(e.Key.Value)
	if !isFact && !isReading {
		c.complain(e.Key, "unknown fact or reading %q", e.Key.Value)
		return
	}
	c.add(aim{kind: amountOf, id: e.Key.Value}, c.texts(e))
}

// catalog adds the phrases that stand beside the facts.
func (c compiler) catalog() {
	each := func(prefix string, list []catalog.Fact) {
		for _, f := range list {
			one := f.Kind != string(fact.Choices)
			c.strings(aim{factIs, prefix + f.ID, "yes", one}, f.Phrases)
			for _, o := range f.Choices {
				c.strings(aim{factIs, prefix + f.ID, o.ID, one}, o.Phrases)
			}
		}
	}
	each("", c.l.cat.Facts)
	each("machine.", c.l.cat.Machine)
}

func (c compiler) strings(a aim, list []string) {
	for _, s := range list {
		c.phrase(a, source.Text{Value: s})
	}
}

func (c compiler) add(a aim, texts []source.Text) {
	for _, t := range texts {
		c.phrase(a, t)
	}
}

// phrase reads one wording and files it.
func (c compiler) phrase(a aim, t source.Text) {
	p := phrase{aim: a, topic: -1}
	text, ok := c.prefixes(t, &p)
	if !ok {
		return
	}
	for _, part := range strings.Split(text, " & ") {
		items := c.items(t, part)
		if len(items) == 0 || items[0].gap.words > 0 {
			c.complain(t, "nothing to look for in %q", t.Value).Hint = "a phrase needs a word that carries meaning"
			return
		}
		p.parts = append(p.parts, items)
	}
	c.enter(p)
}

// prefixes reads the signs before a wording; the topic comes first.
func (c compiler) prefixes(t source.Text, p *phrase) (text string, ok bool) {
	text = t.Value
	if rest, found := strings.CutPrefix(text, "@"); found {
		var name string
		name, text, _ = strings.Cut(rest, " ")
		if p.topic = c.l.conceptIndex(name); p.topic < 0 {
			c.complain(t, "unknown concept @%s", name)
			return "", false
		}
	}
	text, p.only = strings.CutPrefix(text, "+ ")
	text, p.whole = strings.CutPrefix(text, "= ")
	return text, true
}

// enter puts a phrase under the first item of its first part, and notes what its
// concepts are used for.
func (c compiler) enter(p phrase) {
	k := len(c.l.phrases)
	c.l.phrases = append(c.l.phrases, p)
	first := p.parts[0][0]
	if first.concept >= 0 {
		c.l.byIdea[first.concept] = append(c.l.byIdea[first.concept], k)
	} else {
		c.l.byStem[first.stem] = append(c.l.byStem[first.stem], k)
	}
	if p.aim.kind != signYes && p.aim.kind != signNo {
		return
	}
	for _, part := range p.parts[1:] {
		for _, it := range part {
			if it.concept >= 0 {
				c.l.concepts[it.concept].around = true
			}
		}
	}
	if first.concept >= 0 && len(p.parts) > 1 && len(p.parts[0]) == 1 && p.topic < 0 {
		head := &c.l.concepts[first.concept]
		head.heads = true
		head.topic = head.topic || p.aim.kind == signYes && len(p.parts) == 2
	}
}

// items compiles words. Little words go, since a text need not have them.
func (c compiler) items(t source.Text, text string) []item {
	words := strings.Fields(strings.ReplaceAll(strings.ToLower(text), "'", ""))
	out := c.compile(t, words, lang().dropped)
	if len(words) > 1 && (len(out) == 0 || out[0].concept < 0 && (len(out) == 1 || len(out) == 2 && out[1].stem == edge)) {
		return c.compile(t, words, lang().articles) // "dropped it" is more than "dropped"
	}
	return out
}

func (c compiler) compile(t source.Text, words []string, without map[string]bool) []item {
	var out []item
	for _, w := range shortForms(words) {
		w, kept := strings.CutPrefix(w, "!")
		c.l.spelt(w)
		switch {
		case kept:
			out = append(out, item{stem: c.l.stemOf(w), concept: -1})
		case w == edge:
			out = append(out, item{stem: edge, concept: -1})
		case gaps[w].words > 0:
			out = append(out, item{concept: -1, gap: gaps[w]})
		case strings.HasPrefix(w, "<") && strings.HasSuffix(w, ">"):
			i := c.l.conceptIndex(w[1 : len(w)-1])
			if i < 0 {
				var known []string
				for _, k := range c.l.concepts {
					known = append(known, k.name)
				}
				c.complain(t, "unknown concept %s", w).Hint = source.DidYouMean(w[1:len(w)-1], known)
				continue
			}
			out = append(out, item{concept: i})
		case strings.HasPrefix(w, "{"):
			out = append(out, item{stem: w, concept: -1})
		case without[w] && len(words) > 1, w == "in" && without["of"] && len(words) > 2 && w != words[len(words)-1] && !afterLever(words, w):
		default:
			out = append(out, item{stem: c.l.stemOf(w), concept: -1})
		}
	}
	for len(out) > 0 && out[len(out)-1].gap.words > 0 {
		out = out[:len(out)-1]
	}
	return out
}

// shortForms writes "does not" as "doesnt"; a text may have it either way.
func shortForms(words []string) []string {
	var out []string
	for i := 0; i < len(words); i++ {
		if short, ok := lang().short[words[i]]; ok && i+1 < len(words) && words[i+1] == "not" {
			out = append(out, short)
			i++
			continue
		}
		out = append(out, words[i])
	}
	return out
}

// afterLever reports whether "in" says where the lever is.
func afterLever(words []string, w string) bool {
	i := slices.Index(words, w)
	return i > 0 && (words[i-1] == "lever" || words[i-1] == "clutch" || words[i-1] == "pulled" || strings.HasPrefix(words[i-1], "<lever"))
}

// stemOf is the stem of a word of the pack, other words for it brought together.
func (l *Lexicon) stemOf(w string) string {
	if s, ok := l.stemmed[w]; ok {
		return s
	}
	to, ok := l.same[w]
	if !ok {
		to = w
	}
	return stem(to)
}
