package interview

import (
	"slices"

	"example.org/takeup/engine/rule"
)

// When to stop: the first cause is settled from this probability on, and a
// question is worth asking from these bits on. Both were set by simulated
// interviews: at 0.05 bits a tenth fewer questions find a tenth fewer causes, at
// 0.02 one more question finds none.
const (
	settledAt = 0.95
	worth     = 0.03
)

// Next picks the question that tells most for its minutes. The complaint comes
// first, then signs of the families it is about until one is there, then whatever
// tells most. Without a question left the standing says why. The error is
// belief's: the evidence cannot be, or is too much for an exact answer.
func Next(s Situation) (Question, Standing, error) {
	d := newDesk(s)
	k, err := newScale(d)
	if err != nil {
		return Question{}, Standing{}, err
	}
	if err := k.imagine(); err != nil {
		return Question{}, Standing{}, err
	}
	all := d.all()
	var st Standing
	st.First, st.Share = k.first()
	st.Left = len(all)
	if q, ok := d.complaint(); ok {
		return q, st, nil
	}
	if narrow := d.narrow(all); len(narrow) > 0 {
		all = narrow
	} else if st.Share >= settledAt && d.complains() {
		st.End = Settled
		return Question{}, st, nil
	}
	best := k.best(all)
	if best.Bits < worth {
		st.End = Nothing
		return Question{}, st, nil
	}
	best.Options = d.choices(best)
	return best, st, nil
}

// complains reports whether a sign is there, at least probably.
func (d *desk) complains() bool {
	for _, o := range d.Case.Observations {
		if o.Present > o.Absent {
			return true
		}
	}
	return false
}

// complaint asks what it is about, unless that shows already.
func (d *desk) complaint() (Question, bool) {
	q := Question{Kind: Complaint, ID: ComplaintID, Minutes: recall}
	for _, f := range d.Catalog.Families {
		q.Options = append(q.Options, f.ID)
	}
	return q, len(q.Options) > 1 && len(d.Families) == 0 && !d.Skipped[ComplaintID] && !d.complains()
}

// narrow keeps the signs of the complaint until one of them is known to be there.
func (d *desk) narrow(all []Question) []Question {
	if d.complains() {
		return nil
	}
	var out []Question
	for _, q := range all {
		if d.inFamilies(q) {
			out = append(out, q)
		}
	}
	return out
}

// best is the question that tells most for its minutes, of those that are worth
// asking. Ties go to the one that stands first in the knowledge.
func (s *scale) best(questions []Question) Question {
	var best Question
	rate := 0.0
	for _, q := range questions {
		q.Bits = gain(s.branches(q))
		if r := q.Bits / q.Minutes; r > rate && q.Bits >= worth {
			best, rate = q, r
		}
	}
	return best
}

// About lists what a question would settle, for Situation.Skipped.
func About(q Question) []string {
	if q.Kind == Sign || q.Kind == Signs {
		return q.Signs
	}
	return []string{q.ID}
}

// Cautions lists what the rules warn of as things stand, in the order of the rules.
func Cautions(s Situation) []string {
	var ids []string
	for i, f := range s.fire(s.Case.Known) {
		if r := s.Rules.Rules[i]; r.Action == rule.Cautions && f.Verdict == rule.Yes && !slices.Contains(ids, r.To) {
			ids = append(ids, r.To)
		}
	}
	return ids
}
