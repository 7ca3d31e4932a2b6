package prose

import (
	"slices"

	"example.org/takeup/engine/fact"
)

// take turns a find into a claim, or notes why not.
func (st *state) take(m *matcher, f find, v verdict, s sentence, at int) bool {
	p := st.l.phrases[f.phrase]
	c := claim{
		aim: p.aim, idea: p.parts[0][0].concept, no: v.no, doubt: v.doubt, quote: st.quote(s, v.wide), at: at, from: f.head.from,
		update: st.update, strong: turned(s), partly: m.partly(f), plain: len(f.all) == 1,
	}
	if v.drop == nothingHere || p.only && v.no && c.aim.kind != factIs {
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

// answered reads a short "no" or "yes" after a question as its answer.
func (st *state) answered(s sentence, at int) bool {
	st.echoedBack(s, at)
	if len(st.before) == 0 || len(s.tokens) == 0 {
		return false
	}
	w := s.tokens[0].word
	no, yes := lang().answerNo[w] || w == "not" && onlyLittle(s.tokens[1:]), lang().answerYes[w]
	if !no && !yes || w != "not" && len(s.tokens) > 1 && s.tokens[1].mark == 0 && len(s.tokens) > 3 {
		return false
	}
	for _, c := range st.before {
		c.no, c.at = c.no != no, at
		c.quote += " " + st.quote(s, span{to: 1})
		st.out.LeftOut = slices.DeleteFunc(st.out.LeftOut, func(o Omission) bool { return o.ID == c.aim.id && o.Reason == Asked })
		st.claims = append(st.claims, c)
	}
	st.before = nil
	return len(s.tokens) < 3 || w == "not"
}

// onlyLittle reports whether words add nothing: "not at all", "not in the least".
func onlyLittle(ts []token) bool {
	return !slices.ContainsFunc(ts, func(t token) bool {
		return t.mark == 0 && !t.filler && t.role == none && t.word != "least" && t.word != "slightest"
	})
}
