package plan

import "fmt"

// Kind is what a step does.
type Kind string

// The kinds of step.
const (
	Look    Kind = "look"    // look at something, repair it if it is bad
	Repair  Kind = "repair"  // repair on suspicion and try it out
	Ask     Kind = "ask"     // ask or test something; nothing is repaired
	Service Kind = "service" // give it to someone else
)

// Results of a look or a repair, in the order of [Problem.Outcomes].
const (
	Cured    = 0
	NotCured = 1
)

// Step is one thing to do next. Index is that of the action or question;
// Opens lists the stages to be opened for it, outermost first. Minutes are
// paid in any case, openings included.
type Step struct {
	Kind    Kind    `json:"kind"`
	Index   int     `json:"index"`
	Opens   []int   `json:"opens,omitempty"`
	Minutes float64 `json:"minutes"`
}

// Outcome is one way in which a step can end. Minutes come on top of the
// step's own (a repair found necessary and its test). Next is the machine
// afterwards, or nil if the work is over.
type Outcome struct {
	Result      int      `json:"result"`
	Probability float64  `json:"probability"`
	Minutes     float64  `json:"minutes"`
	Next        *Problem `json:"-"`
}

// action returns the step of doing action i.
func (p Problem) action(i int) Step {
	a := p.Actions[i]
	opens, minutes := p.opens(a.Stage)
	always, _ := a.minutes(p.TestMinutes)
	kind := Repair
	if a.Observable {
		kind = Look
	}
	return Step{kind, i, opens, minutes + always}
}

// question returns the step of asking question i.
func (p Problem) question(i int) Step {
	opens, minutes := p.opens(p.Questions[i].Stage)
	return Step{Ask, i, opens, minutes + p.Questions[i].Minutes}
}

// service returns the step of giving up.
func (p Problem) service() Step { return Step{Kind: Service, Index: -1, Minutes: p.ServiceMinutes} }

// minutes returns what an action costs always and what it costs on top when it
// cures.
func (a Action) minutes(test float64) (always, cured float64) {
	if a.Observable {
		return a.LookMinutes, a.RepairMinutes + test
	}
	return a.LookMinutes + a.RepairMinutes + test, 0
}

// Outcomes returns every way in which a step can end, impossible ones left
// out: results of a question by row, [Cured] and [NotCured] for an action, the
// one end of a service. A step that is already done panics.
func (p Problem) Outcomes(s Step) []Outcome {
	switch {
	case s.Kind == Service:
		return []Outcome{{Probability: 1}}
	case s.Kind == Ask && !at(p.Asked, s.Index):
		return p.answers(s)
	case s.Kind != Ask && !at(p.Done, s.Index):
		return p.attempt(s)
	}
	panic(fmt.Sprintf("plan: %s %d is done already", s.Kind, s.Index))
}

// answers returns the results of a question, the faults conditioned on each.
func (p Problem) answers(s Step) []Outcome {
	var out []Outcome
	q := p.Questions[s.Index]
	for r, row := range q.Results {
		next := p
		next.Open = with(p.Open, len(p.Stages), s.Opens...)
		next.Asked = with(p.Asked, len(p.Questions), s.Index)
		prob := next.weigh(row)
		if prob > tiny {
			out = append(out, Outcome{Result: r, Probability: prob, Next: &next})
		}
	}
	return out
}

// attempt returns how an action can end. What is left of a fault after it
// failed is what the action misses.
func (p Problem) attempt(s Step) []Outcome {
	a := p.Actions[s.Index]
	left := make([]float64, len(p.Faults)+1)
	for f := range left {
		left[f] = 1
	}
	cured := 0.0
	for _, c := range a.Cures {
		left[c.Fault] -= c.Probability
		cured += c.Probability * p.Faults[c.Fault]
	}
	next := p
	next.Open = with(p.Open, len(p.Stages), s.Opens...)
	next.Done = with(p.Done, len(p.Actions), s.Index)
	var out []Outcome
	if cured > 0 {
		_, extra := a.minutes(p.TestMinutes)
		out = append(out, Outcome{Result: Cured, Probability: cured, Minutes: extra})
	}
	if rest := next.weigh(left); rest > tiny {
		out = append(out, Outcome{Result: NotCured, Probability: rest, Next: &next})
	}
	return out
}

// weigh multiplies the faults (and "something else", the last weight) by
// likelihoods, normalises them in a list of its own and returns the
// probability of what was seen.
func (p *Problem) weigh(likelihood []float64) float64 {
	n := len(p.Faults)
	out := make([]float64, n)
	sum := p.Other() * likelihood[n]
	for f, x := range p.Faults {
		out[f] = x * likelihood[f]
		sum += out[f]
	}
	for f := range out {
		if sum > 0 {
			out[f] /= sum
		}
	}
	p.Faults = out
	return sum
}
