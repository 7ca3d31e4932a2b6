package plan

import (
	"cmp"
	"fmt"
	"slices"
)

// Outlook is the plan of a case written out, with what plain habits would take.
type Outlook struct {
	Minutes float64 `json:"expected_minutes"` // to a cured machine
	AtLeast float64 `json:"at_least_minutes"` // if someone told which fault it is
	Plan    Turn    `json:"plan"`
	Habits  []Habit `json:"habits"`
}

// Habit is the expected minutes of a plain way of working on the same problem.
type Habit struct {
	ID      string  `json:"id"`
	Minutes float64 `json:"expected_minutes"`
}

// The ids of the habits.
const (
	HabitOutsideIn       = "outside_in"
	HabitMostLikely      = "most_likely_first"
	HabitMostInformative = "most_informative_first"
)

// Turn is a step and every way on from it. Minutes are expected from here to the
// end, the step included.
type Turn struct {
	Do      Proposal `json:"do"`
	Minutes float64  `json:"expected_minutes"`
	Ways    []Way    `json:"ways,omitempty"`
}

// Way is what to do after some results of a step: of a question those with these
// answers, or whatever no other way names; of a look what it was looked for, or
// that it was not there. Then is nil where the work is over or the plan is cut.
type Way struct {
	Answers        []Answer `json:"answers,omitempty"`
	Else           bool     `json:"else,omitempty"`
	Found          bool     `json:"found,omitempty"`
	Probability    float64  `json:"probability"` // given that the step is taken
	Top            string   `json:"top,omitempty"`
	TopProbability float64  `json:"top_probability,omitempty"`
	Minutes        float64  `json:"expected_minutes"` // from the result to the end
	Then           *Turn    `json:"then,omitempty"`
}

// What is written out: results rarer than rareResult, given the step, share one
// way, and states rarer than rareState, given the case, are cut.
const (
	rareResult = 0.04
	rareState  = 0.03
	trials     = 300 // machines on which the habit that asks is tried
)

// Outline writes out the plan of [Job.Best] for at least one and at most depth
// steps along each way. Results after which the same is done share one way, as
// if the step could not tell them apart. Minutes are rolled back from the ends;
// where the plan is cut stands the estimate of the look-ahead.
func (b *Job) Outline(depth int) (Outlook, error) {
	if err := b.problem.Validate(); err != nil {
		return Outlook{}, err
	}
	n := newBoard(b.problem)
	root := n.root()
	o := Outlook{AtLeast: n.atLeast(root) / root.mass, Plan: b.turn(b.think(b.problem), 1, max(depth, 1))}
	o.Minutes = o.Plan.Minutes
	o.Habits = []Habit{
		{HabitOutsideIn, Evaluate(b.problem, b.OutsideIn)},
		{HabitMostLikely, Evaluate(b.problem, MostLikelyFirst)},
		{HabitMostInformative, Simulate(b.problem, MostInformativeFirst, 1, trials).MeanMinutes},
	}
	return o, nil
}

// thought is a state with the step to take in it and the minutes expected.
type thought struct {
	at      Problem
	step    Step
	minutes float64
}

// think is [Job.Best] with the value that the look-ahead finds.
func (b *Job) think(p Problem) thought {
	l := newLookAhead(p)
	n := l.root()
	best := l.best(n, 0, l.active)
	t := thought{p, l.step(best), best.value / n.mass}
	if first, ok := b.lookFirst(p, t.step); ok {
		t.step = first
	}
	if first, ok := b.upstream(p, t.step); ok {
		t.step = first
	}
	return t
}

// turn writes out a step; chance is how often the state is met.
func (b *Job) turn(t thought, chance float64, depth int) Turn {
	out := Turn{Do: b.at(t.at).proposal(t.step, 0)}
	out.Do.Results = nil // the ways say it
	out.Do.Made = out.Do.Kind == Look && b.made(t.at, out.Do.Check)
	if t.step.Kind == Ask {
		out.Ways = b.asked(t, chance, depth)
	} else {
		out.Ways = b.looked(t, chance, depth)
	}
	out.Minutes = t.step.Minutes
	for _, w := range out.Ways {
		out.Minutes += w.Probability * w.Minutes
	}
	return out
}

// made reports whether a check has been made, before or on the way to a state.
func (b *Job) made(p Problem, check string) bool {
	if slices.Contains(b.Done, check) {
		return true
	}
	q := slices.IndexFunc(b.asks, func(q question) bool { return q.check == check })
	return q >= 0 && at(p.Asked, q)
}

// at is the job further on.
func (b *Job) at(p Problem) *Job {
	c := *b
	c.problem = p
	return &c
}

// looked are the two ways on from a look: it is put right, or the next thing.
func (b *Job) looked(t thought, chance float64, depth int) []Way {
	var out []Way
	for _, o := range t.at.Outcomes(t.step) {
		w := Way{Found: o.Result == Cured && t.step.Kind != Service, Probability: o.Probability, Minutes: o.Minutes}
		if o.Next != nil {
			b.onward(&w, b.think(*o.Next), chance, depth)
		}
		out = append(out, w)
	}
	return out
}

// onward writes out what follows a result, unless it is rare or deep.
func (b *Job) onward(w *Way, next thought, chance float64, depth int) {
	w.Top, w.TopProbability = b.top(next.at)
	if chance *= w.Probability; depth <= 1 || chance < rareState {
		w.Minutes += next.minutes
		return
	}
	turn := b.turn(next, chance, depth-1)
	w.Then = &turn
	w.Minutes += turn.Minutes
}

// top is the likeliest fault of a state.
func (b *Job) top(p Problem) (id string, probability float64) {
	for i, x := range p.Faults {
		if x > probability {
			id, probability = b.faults[i], x
		}
	}
	return id, probability
}

// bunch is the results of a question after which the same is done.
type bunch struct {
	results     []int
	probability float64
	next        thought
}

// asked are the ways on from a question.
func (b *Job) asked(t thought, chance float64, depth int) []Way {
	bunches := b.bunches(t)
	names := b.answersOf(t.step, bunches)
	var out []Way
	for k, u := range bunches {
		w := Way{Answers: names[k], Else: names[k] == nil, Probability: u.probability}
		b.onward(&w, u.next, chance, depth)
		out = append(out, w)
	}
	// what has a name comes first, the likelier before; what is left comes last
	slices.SortStableFunc(out, func(x, y Way) int {
		if x.Else != y.Else {
			return map[bool]int{true: 1, false: -1}[x.Else]
		}
		return cmp.Compare(y.Probability, x.Probability)
	})
	return out
}

// bunches gathers results by the step that follows them; rare ones go together.
func (b *Job) bunches(t thought) []bunch {
	var out []bunch
	place := map[string]int{}
	add := func(key string, o Outcome, next thought) {
		k, there := place[key]
		if !there {
			k = len(out)
			place[key] = k
			out = append(out, bunch{next: next})
		}
		out[k].results = append(out[k].results, o.Result)
		out[k].probability += o.Probability
	}
	for _, o := range t.at.Outcomes(t.step) {
		if o.Probability < rareResult {
			add("rare", o, thought{})
			continue
		}
		next := b.think(*o.Next)
		add(fmt.Sprint(next.step.Kind, next.step.Index), o, next)
	}
	for k := range out {
		if u := &out[k]; len(u.results) > 1 || u.next.at.Faults == nil {
			u.next = b.think(together(t, u.results))
		}
	}
	return out
}

// together is the state after one of several results, nobody knows which.
func together(t thought, results []int) Problem {
	p := t.at
	q := p.Questions[t.step.Index]
	row := make([]float64, len(p.Faults)+1)
	for _, r := range results {
		for f, x := range q.Results[r] {
			row[f] += x
		}
	}
	p.Open = with(p.Open, len(p.Stages), t.step.Opens...)
	p.Asked = with(p.Asked, len(p.Questions), t.step.Index)
	p.weigh(row)
	return p
}

// answersOf names bunches by the answers that all of their results share and no
// other result has. At most one bunch stays without a name; when more would, the
// name is that of the likeliest result.
func (b *Job) answersOf(s Step, bunches []bunch) [][]Answer {
	signs := b.asks[s.Index].signs
	names := make([][]Answer, len(bunches))
	unnamed := -1
	for k, u := range bunches {
		names[k] = shared(signs, u.results)
		if len(names[k]) > 0 && !clash(names[k], signs, bunches, k) {
			continue
		}
		names[k] = nil
		switch {
		case unnamed < 0:
			unnamed = k
		case len(u.results) > len(bunches[unnamed].results):
			names[unnamed], unnamed = answersIn(signs, bunches[unnamed].results[0]), k
		default:
			names[k] = answersIn(signs, u.results[0])
		}
	}
	return names
}

// answersIn spells a joint result out. Bit k of it is sign k being there.
func answersIn(signs []string, result int) []Answer {
	var out []Answer
	for k, id := range signs {
		out = append(out, Answer{id, result>>k&1 == 1})
	}
	return out
}

// shared are the answers that several results have in common.
func shared(signs []string, results []int) []Answer {
	var out []Answer
	for k, a := range answersIn(signs, results[0]) {
		if !slices.ContainsFunc(results, func(r int) bool { return r>>k&1 == 1 != a.Yes }) {
			out = append(out, a)
		}
	}
	return out
}

// clash reports whether a result of another bunch has these answers too.
func clash(name []Answer, signs []string, bunches []bunch, own int) bool {
	for k, u := range bunches {
		for _, r := range u.results {
			has := answersIn(signs, r)
			if k != own && !slices.ContainsFunc(name, func(a Answer) bool { return !slices.Contains(has, a) }) {
				return true
			}
		}
	}
	return false
}
