package report

import (
	"fmt"
	"math"
	"sort"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
)

// Not is the page that says why one cause and not another. Where the machine
// cannot have one of them, that is all there is to say.
func (a Answer) Not(cause, other string) (document.Document, error) {
	for _, id := range []string{cause, other} {
		if _, yes := a.RuledOut(id); yes {
			return a.Why(id)
		}
	}
	c, err := a.Explanation.Against(cause, other)
	if err != nil {
		return document.Document{}, err
	}
	lines := a.before(c)
	for _, l := range c.Lines {
		if l.ID != "prior" {
			lines = append(lines, difference{a.line(c, l), l.Decibans, a.tied(c, l)})
		}
	}
	sort.SliceStable(lines, func(i, j int) bool { return math.Abs(lines[i].decibans) > math.Abs(lines[j].decibans) })
	first, second := a.named(cause), a.named(other)
	return document.New("Why "+first+" and not "+second,
		document.Paragraph(plain(fmt.Sprintf("%s stands at %s, %s at %s. A plus speaks for the first, a minus for the second.",
			capital(first), Percent(c.A.Probability), second, Percent(c.B.Probability)))),
		document.Ledger(append(entries(lines), document.NewTotal(plain("together"), Decibans(c.Total)))...),
		document.Paragraph(plain("In decibans: +10 makes the odds ten times as large, +3 twice, −10 leaves a tenth. "+
			"Each line is rounded to a tenth, so that their sum can miss the total by a little.")),
		document.Note(document.Doubt, plain(decides))), nil
}

// difference is one line of a contrast.
type difference struct {
	label    string
	decibans float64
	why      string
}

// entries lays the lines out. A reason is given once, and only for what weighs
// something; what is nothing is left out.
func entries(lines []difference) []document.Entry {
	var out []document.Entry
	said := map[string]bool{}
	for _, l := range lines {
		if signed(l.decibans) == "0.0" {
			continue
		}
		if said[l.why] || math.Abs(l.decibans) < worthSaying {
			l.why = ""
		}
		said[l.why] = true
		out = append(out, document.NewEntry(plain(l.label), signed(l.decibans), plain(l.why)))
	}
	return out
}

// before is what parted the two before any sign: how common each is, every rule
// about the history, and the causes that lead to them.
func (a Answer) before(c explain.Contrast) []difference {
	x, y := c.A.Balance, c.B.Balance
	out := []difference{{"how often each comes up", x.Base - y.Base, ""}}
	place := map[string]int{}
	for _, side := range []struct {
		sign    float64
		history []explain.Entry
	}{{1, x.History}, {-1, y.History}} {
		for _, h := range side.history {
			at, known := place[h.ID]
			if !known {
				at = len(out)
				place[h.ID] = at
				out = append(out, difference{a.past(h.ID), 0, a.because(h.ID)})
			}
			out[at].decibans += side.sign * h.Decibans
		}
	}
	return append(out, difference{"other causes that lead to them", x.ByOthers - y.ByOthers, ""})
}

// line words one line of a contrast.
func (a Answer) line(c explain.Contrast, l explain.Entry) string {
	if k := place(c.A.Balance, l); k >= 0 {
		return a.observed(k)
	}
	return a.seen(l.ID, l.Answer)
}

// place is where a piece of evidence stands in an account, -1 for nowhere.
func place(b explain.Balance, l explain.Entry) int {
	for k, e := range b.Entries {
		if e.ID == l.ID && e.Answer == l.Answer {
			return k
		}
	}
	return -1
}

// tied gives the reason of the cause that brings the sign of a line. What is not
// there is missed of the cause that it speaks against. Where neither brings it,
// it parts them by way of a third.
func (a Answer) tied(c explain.Contrast, l explain.Entry) string {
	no := l.Answer == "no" || l.Answer == "probably not"
	from := c.A.ID
	if (l.Decibans < 0) != no {
		from = c.B.ID
	}
	chain := a.chain(from, l.ID)
	if len(chain) == 0 {
		return a.byThird(c, l, no)
	}
	if no {
		return capital(a.named(from)) + " would bring it. " + a.because(chain[0])
	}
	for _, e := range a.Evidence {
		if len(chain) == 1 && e.Sign == l.ID && a.listed(e.Rule) {
			return a.because(e.Rule)
		}
	}
	return a.because(chain[0])
}

// byThird says how a sign that neither of two causes brings parts them: it moves
// the cause that does, and that one leads to one of the two, or leaves to it what
// it would have accounted for.
func (a Answer) byThird(c explain.Contrast, l explain.Entry, no bool) string {
	k := place(c.A.Balance, l)
	third, ok := a.mover(c, k, no)
	if !ok {
		return ""
	}
	gains, loses := c.A, c.B
	if l.Decibans < 0 {
		gains, loses = c.B, c.A
	}
	up, down := gains.Balance.Entries[k].Decibans, loses.Balance.Entries[k].Decibans
	name := a.named(third)
	switch {
	case no && -down > up && len(a.chain(third, loses.ID)) > 0:
		return fmt.Sprintf("It speaks against %s, which leads to %s.", name, a.named(loses.ID))
	case no && up > 0:
		return fmt.Sprintf("It speaks against %s, and what that would have accounted for is left to %s.", name, a.named(gains.ID))
	case !no && up > -down && len(a.chain(third, gains.ID)) > 0:
		return fmt.Sprintf("It speaks for %s, which leads to %s.", name, a.named(gains.ID))
	case !no && down < 0:
		return fmt.Sprintf("It speaks for %s, which accounts for what would else need %s.", name, a.named(loses.ID))
	}
	return ""
}

// mover is the third cause that a piece of evidence moved most, among those that
// bring its sign.
func (a Answer) mover(c explain.Contrast, k int, no bool) (id string, ok bool) {
	most := worthSaying
	for _, x := range a.Explanation.Causes {
		if x.ID == c.A.ID || x.ID == c.B.ID {
			continue
		}
		e := x.Balance.Entries[k]
		moved := e.Decibans
		if no {
			moved = -moved
		}
		if moved > most && len(a.chain(x.ID, e.ID)) > 0 {
			id, ok, most = x.ID, true, moved
		}
	}
	return id, ok
}
