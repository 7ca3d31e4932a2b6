package interview

import (
	"cmp"
	"slices"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
)

// Prospect is what one answer would do.
type Prospect struct {
	Yes         []string `json:"yes,omitempty"`   // signs that are so, all others asked about are not
	Value       string   `json:"value,omitempty"` // of a fact, as a case file has it
	Probability float64  `json:"probability"`     // as the choice of the question saw it
	Top         string   `json:"top"`             // the cause that would come first
	TopShare    float64  `json:"top_probability"` // exact, as a diagnosis would give it
}

// mostProspects bounds the answers that are followed to their end.
const mostProspects = 4

// Prospects follows the likeliest answers to a question, likeliest first, each as
// if it had been given. An answer that cannot be is left out.
func Prospects(s Situation, q Question) ([]Prospect, error) {
	if q.Kind == Complaint {
		return nil, nil
	}
	k, err := newScale(newDesk(s))
	if err != nil {
		return nil, err
	}
	if err := k.imagine(); err != nil {
		return nil, err
	}
	branches := k.branches(q)
	total := 0.0
	for _, b := range branches {
		total += b.share()
	}
	slices.SortStableFunc(branches, func(a, b branch) int { return cmp.Compare(b.share(), a.share()) })
	var out []Prospect
	for _, b := range branches[:min(len(branches), mostProspects)] {
		then := s
		then.Case = k.suppose(q, b)
		next, err := newScale(newDesk(then))
		if err != nil {
			continue
		}
		p := Prospect{Yes: b.yes, Value: b.value, Probability: b.share() / total}
		p.Top, p.TopShare = next.first()
		out = append(out, p)
	}
	return out, nil
}

// suppose is the case with one more answer. A figure that would settle signs is
// supposed by those signs.
func (s *scale) suppose(q Question, b branch) *intake.Case {
	c := *s.Case
	c.Known = s.known.Clone()
	c.Observations = slices.Clone(c.Observations)
	if q.Kind == Fact {
		f, _ := s.Catalog.Fact(q.ID)
		for _, v := range answersTo(s.desk, f) {
			if v.Text == b.value {
				c.Known.Put(q.ID, v.Value)
			}
		}
		return &c
	}
	for _, id := range q.Signs {
		o := intake.Observation{Sign: id, Answer: "no", Absent: 1}
		if slices.Contains(b.yes, id) {
			o = intake.Observation{Sign: id, Answer: "yes", Present: 1}
		}
		c.Observations = append(c.Observations, o)
		c.Known.Put(id, fact.Value{Kind: fact.YesNo, Yes: o.Present == 1, Text: o.Answer})
	}
	return &c
}
