package intake

import (
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// answers lists what can be said of a sign, with the likelihoods of saying it
// when the sign is there and when it is not. "Probably" is a witness right four
// times in five, a likelihood ratio of 4 or 6.0 decibans (common practice).
var answers = []struct {
	word            string
	present, absent float64
}{
	{"yes", 1, 0},
	{"no", 0, 1},
	{"probably", 0.8, 0.2},
	{"probably not", 0.2, 0.8},
}

// ParseSigns reads the answers about signs. A plain yes or no goes into the set
// as well, where conditions see it; "probably" is evidence only. A nil node
// gives nothing; `unknown` leaves a sign out.
func ParseSigns(n *source.Node, cat *catalog.Catalog, into *fact.Set, ps *source.Problems) []Observation {
	return newReader(cat, ps).signs(n, into)
}

func (r *reader) signs(n *source.Node, into *fact.Set) []Observation {
	var seen []Observation
	yes := map[string]source.Text{}
	for _, e := range r.entries(n) {
		o, ok := r.sign(e)
		if !ok {
			continue
		}
		seen = append(seen, o)
		if o.Present == 1 || o.Absent == 1 {
			into.Put(o.Sign, fact.Value{Kind: fact.YesNo, Yes: o.Present == 1, Text: o.Answer, Pos: o.Pos})
		}
		if o.Present == 1 {
			r.contradiction(e.Key, yes)
			yes[o.Sign] = e.Key
		}
	}
	return seen
}

func (r *reader) sign(e source.Entry) (Observation, bool) {
	if _, ok := r.cat.Sign(e.Key.Value); !ok {
		r.unknown(CodeSign, "sign", e.Key, r.signIDs())
		return Observation{}, false
	}
	if isUnknown(e.Value) {
		return Observation{}, false
	}
	t, ok := r.text(e.Value)
	if !ok {
		return Observation{}, false
	}
	return r.answer(e.Key.Value, t)
}

// answer takes true and false for yes and no, as everywhere.
func (r *reader) answer(sign string, t source.Text) (Observation, bool) {
	word := map[string]string{"true": "yes", "false": "no"}[t.Value]
	if word == "" {
		word = t.Value
	}
	known := []string{"unknown"}
	for _, a := range answers {
		if a.word == word {
			return Observation{sign, a.word, a.present, a.absent, t.Pos}, true
		}
		known = append(known, a.word)
	}
	r.errorf(CodeAnswer, t, "%s: expected yes, no, probably, probably not or unknown, found %q", sign, t.Value).Hint = didYouMean(t.Value, known)
	return Observation{}, false
}

// contradiction compares a yes with every yes before it. One of the two signs
// saying that they exclude each other is enough.
func (r *reader) contradiction(at source.Text, yes map[string]source.Text) {
	for _, s := range r.cat.Signs {
		first, said := yes[s.ID]
		if !said || s.ID == at.Value || !r.excludes(at.Value, s.ID) {
			continue
		}
		p := r.errorf(CodeContradiction, at, "%s and %s cannot both be yes", at.Value, s.ID)
		p.Hint = "look again, or write probably for the one you doubt"
		p.Related = []source.Related{{Pos: first.Pos, Message: s.ID + " is yes here"}}
	}
}

func (r *reader) excludes(a, b string) bool {
	one, _ := r.cat.Sign(a)
	other, _ := r.cat.Sign(b)
	for _, x := range one.Excludes {
		if x == b {
			return true
		}
	}
	for _, x := range other.Excludes {
		if x == a {
			return true
		}
	}
	return false
}

func (r *reader) signIDs() []string {
	out := make([]string, len(r.cat.Signs))
	for i, s := range r.cat.Signs {
		out[i] = s.ID
	}
	return out
}
