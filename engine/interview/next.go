package interview

import (
	"cmp"
	"slices"
	"sync"

	"example.org/takeup/engine/rule"
)

// When to stop: the first cause is settled from this probability on, and a
// question is worth asking from these bits on.
var (
	settledAt = 0.95
	worth     = 0.02
	standsOut = 0.5 // a first cause below this does not stand out: then fainter causes count too
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
	best, err := k.best(all)
	if err == nil && best.Bits < worth && st.Share < standsOut && d.complains() {
		k.widen()
		best, err = k.best(all)
	}
	if err != nil {
		return Question{}, st, err
	}
	if best.Bits < worth {
		st.End = Nothing
		return Question{}, st, nil
	}
	best.Prospects = k.prospects(best.branches)
	best.Options = d.choices(best.Question)
	return best.Question, st, nil
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

// bounded is a question with what it tells at most for its minutes.
type bounded struct {
	weighed
	most  float64 // bits per minute
	place int
}

// best weighs what can be answered from memory, then those checks that could
// still tell more for their minutes: none tells more than all the doubt there is.
func (s *scale) best(questions []Question) (weighed, error) {
	var memory, checks []Question
	for _, q := range questions {
		if q.Check == "" {
			memory = append(memory, q)
		}
	}
	best, err := s.better(weighed{}, memory)
	if err != nil {
		return best, err
	}
	for _, q := range questions {
		if q.Check != "" && doubt(s.now) > best.rate()*q.Minutes {
			checks = append(checks, q)
		}
	}
	return s.better(best, checks)
}

// better weighs questions in the order of what they tell at most, until none of
// the rest can tell more for its minutes than the best so far. Ties go to the one
// that stands first in the knowledge.
func (s *scale) better(best weighed, questions []Question) (weighed, error) {
	list, err := s.bounds(questions)
	if err != nil {
		return best, err
	}
	slices.SortStableFunc(list, func(a, b bounded) int { return cmp.Or(cmp.Compare(b.most, a.most), a.place-b.place) })
	for _, b := range list {
		if b.most <= best.rate() {
			break
		}
		if b.branches == nil && b.Kind != Fact {
			if b.weighed, err = s.weigh(b.Question); err != nil {
				return best, err
			}
		}
		if b.rate() > best.rate() && b.Bits >= worth {
			best = b.weighed
		}
	}
	return best, nil
}

// rate is bits per minute; 0 for no question.
func (w weighed) rate() float64 {
	if w.Minutes == 0 {
		return 0
	}
	return w.Bits / w.Minutes
}

// bounds works the facts out, and beside them what every sign tells alone.
func (s *scale) bounds(questions []Question) ([]bounded, error) {
	list := make([]bounded, len(questions))
	var wg sync.WaitGroup
	var onFacts error
	wg.Go(func() {
		for i, q := range questions {
			if q.Kind != Fact {
				continue
			}
			w, err := s.weigh(q)
			onFacts = cmp.Or(onFacts, err)
			list[i] = bounded{w, w.Bits / q.Minutes, i}
		}
	})
	err := s.foresee(questions)
	wg.Wait()
	if err = cmp.Or(err, onFacts); err != nil {
		return nil, err
	}
	for i, q := range questions {
		if q.Kind != Fact {
			list[i] = bounded{weighed{Question: q}, s.most(q) / q.Minutes, i}
		}
	}
	return list, nil
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
	for i, f := range s.Rules.Fire(s.Case.Known) {
		if r := s.Rules.Rules[i]; r.Action == rule.Cautions && f.Verdict == rule.Yes && !slices.Contains(ids, r.To) {
			ids = append(ids, r.To)
		}
	}
	return ids
}
