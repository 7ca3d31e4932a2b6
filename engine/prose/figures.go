package prose

import "slices"

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
		case len(a.more) > 0 && isReading && reading.Several:
			c.values = append([]string{a.text}, a.more...)
		case len(a.more) > 0:
			return c, Incomplete
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
		used := ""
		if t.amount != nil && t.amount.class() == "{distance}" {
			used = t.amount.unit
		} else if t.amount == nil {
			used = lang().roads[t.word]
		}
		switch {
		case used == "":
		case st.unit != "" && st.unit != used:
			st.unit = "?"
		default:
			st.unit = used
		}
	}
}
