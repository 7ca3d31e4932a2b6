package prose

import (
	"slices"
	"sort"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/unit"
)

// settle weighs the claims against each other and writes the entries.
func (st *state) settle() {
	st.addUnits()
	st.over()
	st.fixed(func(c claim) bool { return c.at < st.fix.at || c.at == st.fix.at && c.from < st.fix.from })
	seen := map[string]bool{}
	for _, c := range st.claims {
		key := c.aim.id
		if c.aim.kind == vagueOf || seen[key] {
			continue
		}
		seen[key] = true
		switch c.aim.kind {
		case signYes, signNo:
			st.sign(key)
		case factIs:
			st.fact(key)
		case amountOf:
			st.measured(key)
		}
	}
	st.exclude()
	st.order()
	st.mentions()
	st.out.LeftOut = slices.DeleteFunc(st.out.LeftOut, func(o Omission) bool { return st.has(o.ID) })
}

// addUnits gives distances without a unit the one unit that the post uses.
func (st *state) addUnits() {
	for _, c := range st.bare {
		if word, ok := st.l.vocab.Lookup(c.aim.id); ok && word.Dim == unit.Rotation { // nobody counts it in anything else
			c.values = []string{c.values[0] + " rpm"}
			st.claims = append(st.claims, c)
			continue
		}
		f, _ := st.l.cat.Fact(c.aim.id)
		if f.Unit != "km" || st.unit == "" || st.unit == "?" {
			st.leave(c.aim.id, c.quote, Incomplete)
			continue
		}
		c.values = []string{c.values[0] + " " + st.unit}
		c.doubt, c.why = true, "unit"
		st.claims = append(st.claims, c)
	}
}

func (st *state) of(id string) []claim {
	var out []claim
	for _, c := range st.claims {
		if c.aim.id == id && c.aim.kind != vagueOf {
			out = append(out, c)
		}
	}
	return out
}

func (st *state) has(id string) bool {
	return slices.ContainsFunc(st.out.Entries, func(e Entry) bool { return e.ID == id })
}

// says is whether a claim says that the thing is so.
func (c claim) says() bool {
	switch c.aim.kind {
	case signNo:
		return c.no
	case factIs:
		return (c.aim.value == "yes") != c.no
	}
	return !c.no
}

// agreed keeps the claims that hold in the end: all when they agree, the later
// ones when they tell of a change, none when the post says both.
func agreed(claims []claim) []claim {
	for _, weak := range []func(claim) bool{
		func(c claim) bool { return !c.update },
		func(c claim) bool { return c.partly },
	} {
		if kept := slices.DeleteFunc(slices.Clone(claims), weak); len(kept) > 0 && !sameSide(claims) {
			claims = kept
		}
	}
	last := claims[len(claims)-1]
	var same []claim
	conflict := false
	for _, c := range claims {
		if c.says() == last.says() {
			same = append(same, c)
		} else if c.doubt == last.doubt {
			conflict = true
		} else if !c.doubt { // the sure one counts
			return agreed(slices.DeleteFunc(slices.Clone(claims), func(c claim) bool { return c.doubt }))
		}
	}
	if conflict && !last.strong {
		return nil
	}
	return same
}

// sameSide reports whether all claims say yes, or all say no.
func sameSide(claims []claim) bool {
	return !slices.ContainsFunc(claims, func(c claim) bool { return c.says() != claims[0].says() })
}

func (st *state) sign(id string) {
	claims := agreed(st.of(id))
	if claims == nil {
		st.leave(id, st.of(id)[0].quote, Contrary)
		return
	}
	if !claims[0].says() && !slices.ContainsFunc(claims, func(c claim) bool { return !c.partly || !c.plain }) {
		st.leave(id, claims[0].quote, Unclear) // "when it is warm neutral is easy"
		return
	}
	e := Entry{Part: Signs, ID: id, Sure: true}
	sure := slices.ContainsFunc(claims, func(c claim) bool { return !c.doubt })
	value := map[bool]string{true: "yes", false: "no"}[claims[0].says()]
	if !sure {
		e.Sure = false
		value = map[string]string{"yes": "probably", "no": "probably not"}[value]
	}
	e.Values = []string{value}
	st.out.Entries = append(st.out.Entries, e.quoting(claims))
}

// quoting adds the words, those of at most two places and none twice.
func (e Entry) quoting(claims []claim) Entry {
	for _, c := range claims {
		e.Quotes = slices.DeleteFunc(e.Quotes, func(q string) bool { return strings.Contains(c.quote, q) })
		said := slices.ContainsFunc(e.Quotes, func(q string) bool { return strings.Contains(q, c.quote) })
		if !said && len(e.Quotes) < 2 {
			e.Quotes = append(e.Quotes, c.quote)
		}
		if e.Why == "" {
			e.Why = c.why
		}
	}
	return e
}

// partOf is where a fact stands in a case, and its id there.
func partOf(id string) (part, key string) {
	if len(id) > len("machine.") && id[:len("machine.")] == "machine." {
		return Machine, id[len("machine."):]
	}
	return History, id
}

func (st *state) fact(id string) {
	f, _ := st.l.cat.Fact(id)
	claims := st.of(id)
	part, key := partOf(id)
	e := Entry{Part: part, ID: key, Sure: slices.ContainsFunc(claims, func(c claim) bool { return !c.doubt })}
	switch fact.Kind(f.Kind) {
	case fact.YesNo:
		if claims = agreed(claims); claims == nil {
			st.leave(id, st.of(id)[0].quote, Contrary)
			return
		}
		e.Values = []string{map[bool]string{true: "yes", false: "no"}[claims[0].says()]}
	case fact.Choice:
		v, ok := oneValue(claims)
		if !ok {
			st.leave(id, claims[0].quote, Contrary)
			return
		}
		e.Values = []string{v}
	default:
		for _, c := range claims {
			if !slices.Contains(e.Values, c.aim.value) {
				e.Values = append(e.Values, c.aim.value)
			}
		}
		e.Values, e.Set = inOrder(e.Values, f), true
	}
	st.out.Entries = append(st.out.Entries, e.quoting(claims))
}

// oneValue is the value that all claims name, or the one that those said in
// plain words name.
func oneValue(claims []claim) (string, bool) {
	for _, sureOnly := range []bool{true, false} {
		values := map[string]bool{}
		v := ""
		for _, c := range claims {
			if !sureOnly || !c.doubt {
				values[c.aim.value], v = true, c.aim.value
			}
		}
		if len(values) == 1 {
			return v, true
		}
	}
	return "", false
}

// inOrder puts values in the order in which the catalog lists them.
func inOrder(values []string, f catalog.Fact) []string {
	var out []string
	for _, o := range f.Choices {
		if slices.Contains(values, o.ID) {
			out = append(out, o.ID)
		}
	}
	return out
}

func (st *state) measured(id string) {
	claims := st.of(id)
	last := claims[0]
	for _, c := range claims { // measured anew in an update, or set to it
		if c.update && !last.update || c.update == last.update && c.strong && !last.strong {
			last = c
		}
	}
	e := Entry{ID: id, Values: last.values, Sure: !last.doubt}
	if _, ok := st.l.cat.Reading(id); ok {
		e.Part = Readings
	} else {
		e.Part, e.ID = partOf(id)
	}
	if slices.ContainsFunc(claims, func(c claim) bool {
		return c.update == last.update && c.strong == last.strong && !slices.Equal(c.values, last.values)
	}) {
		e.Sure, e.Why = false, "several"
	}
	st.out.Entries = append(st.out.Entries, e.quoting([]claim{last}))
}

// exclude drops what a "yes" makes impossible to be otherwise. Of two signs that
// exclude each other and are both said to be there, neither can be written down.
func (st *state) exclude() {
	yes := map[string]bool{}
	for _, e := range st.out.Entries {
		if e.Part == Signs && e.Value() == "yes" {
			yes[e.ID] = true
		}
	}
	var kept []Entry
	for _, e := range st.out.Entries {
		other := e.Part == Signs && st.excludedBy(e.ID, yes) != ""
		switch {
		case other && (e.Value() == "no" || e.Value() == "probably not"):
			st.leave(e.ID, e.Quotes[0], NotThisKind)
		case other:
			st.leave(e.ID, e.Quotes[0], Contrary)
		default:
			kept = append(kept, e)
		}
	}
	st.out.Entries = kept
}

func (st *state) excludedBy(id string, yes map[string]bool) string {
	s, _ := st.l.cat.Sign(id)
	for _, o := range st.l.cat.Signs {
		if yes[o.ID] && o.ID != id && (slices.Contains(s.Excludes, o.ID) || slices.Contains(o.Excludes, id)) {
			return o.ID
		}
	}
	return ""
}

// order sorts the entries as a case has them: facts as the catalog lists them,
// signs as the post tells them.
func (st *state) order() {
	place := map[string]int{}
	for i, f := range st.l.cat.Machine {
		place["machine "+f.ID] = i
	}
	for i, f := range st.l.cat.Facts {
		place["history "+f.ID] = i
	}
	for i, r := range st.l.cat.Readings {
		place["readings "+r.ID] = i
	}
	part := map[string]int{Machine: 0, History: 1, Signs: 2, Readings: 3}
	sort.SliceStable(st.out.Entries, func(i, j int) bool {
		a, b := st.out.Entries[i], st.out.Entries[j]
		if a.Part != b.Part {
			return part[a.Part] < part[b.Part]
		}
		return place[a.Part+" "+a.ID] < place[b.Part+" "+b.ID]
	})
}

// mentions lists the complaints for which the post gave no sign that their
// question asks about.
func (st *state) mentions() {
	for _, c := range st.claims {
		if c.aim.kind != vagueOf || c.no {
			continue
		}
		for _, q := range st.l.cat.Questions {
			if q.ID == c.aim.id && !slices.ContainsFunc(q.Signs, st.has) && !slices.ContainsFunc(st.out.Vague, func(m Mention) bool { return m.Question == q.ID }) {
				st.out.Vague = append(st.out.Vague, Mention{q.ID, c.quote})
			}
		}
	}
}
