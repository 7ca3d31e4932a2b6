package plan

import (
	"errors"
	"fmt"
	"math"
)

// slack is how far probabilities may miss their sum by rounding.
const slack = 1e-6

// Validate returns every fault of the problem's own numbers at once, joined,
// or nil.
func (p Problem) Validate() error {
	var c checker
	sum := 0.0
	for i, x := range p.Faults {
		c.probability(x, "fault %d", i)
		sum += x
	}
	if sum > 1+slack {
		c.add("faults: probabilities sum to %g, expected at most 1", sum)
	}
	c.minutes(p.TestMinutes, "test")
	c.minutes(p.ServiceMinutes, "service")
	if p.ServiceMinutes == 0 {
		c.add("service: 0 minutes, expected more, for at 0 nothing else is worth doing")
	}
	p.checkStages(&c)
	p.checkActions(&c)
	p.checkQuestions(&c)
	return errors.Join(c.errs...)
}

// checkStages wants a tree in which parents come first and no open stage lies
// in a shut one.
func (p Problem) checkStages(c *checker) {
	for i, s := range p.Stages {
		c.minutes(s.Minutes, "stage %d", i)
		if s.Parent < Outside || s.Parent >= i {
			c.add("stage %d: parent %d, expected %d or an earlier stage", i, s.Parent, Outside)
		} else if at(p.Open, i) && !p.opened(s.Parent) {
			c.add("stage %d: open inside stage %d, which is shut", i, s.Parent)
		}
	}
	c.flags(len(p.Open), len(p.Stages), "open", "stages")
}

// checkActions wants actions at known stages that cure known faults, each once.
func (p Problem) checkActions(c *checker) {
	for i, a := range p.Actions {
		c.stage(a.Stage, len(p.Stages), "action %d", i)
		c.minutes(a.LookMinutes, "action %d look", i)
		c.minutes(a.RepairMinutes, "action %d repair", i)
		seen := map[int]bool{}
		for _, u := range a.Cures {
			c.probability(u.Probability, "action %d cure", i)
			if u.Fault < 0 || u.Fault >= len(p.Faults) {
				c.add("action %d: cures fault %d, expected 0 to %d", i, u.Fault, len(p.Faults)-1)
			}
			if seen[u.Fault] {
				c.add("action %d: cures fault %d twice, expected once", i, u.Fault)
			}
			seen[u.Fault] = true
		}
	}
	c.flags(len(p.Done), len(p.Actions), "done", "actions")
}

// checkQuestions wants two results or more, for one result tells nothing.
func (p Problem) checkQuestions(c *checker) {
	for i, q := range p.Questions {
		c.stage(q.Stage, len(p.Stages), "question %d", i)
		c.minutes(q.Minutes, "question %d", i)
		if len(q.Results) < 2 {
			c.add("question %d: %d results, expected at least 2", i, len(q.Results))
		}
		p.checkResults(c, i, q)
	}
	c.flags(len(p.Asked), len(p.Questions), "asked", "questions")
}

// checkResults wants a full table whose columns sum to 1.
func (p Problem) checkResults(c *checker, i int, q Question) {
	sums := make([]float64, len(p.Faults)+1)
	for r, row := range q.Results {
		if len(row) != len(sums) {
			c.add("question %d result %d: %d columns, expected %d, one per fault and one for something else", i, r, len(row), len(sums))
			return
		}
		for f, x := range row {
			c.probability(x, "question %d result %d fault %d", i, r, f)
			sums[f] += x
		}
	}
	for f, s := range sums {
		if math.Abs(s-1) > slack {
			c.add("question %d fault %d: results sum to %g, expected 1", i, f, s)
		}
	}
}

// checker gathers what is wrong.
type checker struct{ errs []error }

func (c *checker) add(format string, args ...any) {
	c.errs = append(c.errs, fmt.Errorf(format, args...))
}

// probability refuses NaN too, hence the negated comparison.
func (c *checker) probability(x float64, where string, args ...any) {
	if !(x >= 0 && x <= 1) {
		c.add(where+": probability %g, expected 0 to 1", append(args, x)...)
	}
}

// minutes refuses negative, infinite and undefined times.
func (c *checker) minutes(x float64, where string, args ...any) {
	if !(x >= 0) || math.IsInf(x, 1) {
		c.add(where+": %g minutes, expected 0 or more", append(args, x)...)
	}
}

// stage wants the number of one of n stages, or Outside.
func (c *checker) stage(s, n int, where string, args ...any) {
	if s < Outside || s >= n {
		c.add(where+": stage %d, expected %d to %d", append(args, s, Outside, n-1)...)
	}
}

// flags wants a list of flags to be absent or complete: a short one is more
// likely a mistake than a shorthand.
func (c *checker) flags(got, want int, name, of string) {
	if got != 0 && got != want {
		c.add("%s: %d flags, expected none or %d, one for each of the %s", name, got, want, of)
	}
}
