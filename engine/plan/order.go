package plan

import (
	"fmt"
	"slices"
)

// Sequence is a plan that asks nothing: actions in order, then a service for
// whatever is not cured. Minutes is its expected cost from now on.
type Sequence struct {
	Steps   []Step  `json:"steps"`
	Minutes float64 `json:"minutes"`
}

// BestSequence returns the best order of actions without questions, with the
// place to give up: optimal for a tree of stages if no two actions share a
// fault and repairs take equal time (W. A. Horn 1972); with shared faults it
// orders anew after every action that touches another. It returns the errors
// of [Problem.Validate].
func BestSequence(p Problem) (Sequence, error) {
	if err := p.Validate(); err != nil {
		return Sequence{}, err
	}
	b := newBoard(p)
	n := b.root()
	value := b.nothing(n)
	seq := Sequence{Minutes: value / n.mass}
	for _, i := range b.order.seq {
		step := p.action(i)
		p.Open = with(p.Open, len(p.Stages), step.Opens...)
		seq.Steps = append(seq.Steps, step)
	}
	return seq, nil
}

// Cost returns the expected minutes of doing actions in the given order, each
// until cured, and then giving up. It panics on an action that is done or
// named twice.
func Cost(p Problem, order []int) float64 {
	b := newBoard(p)
	n := b.root()
	spent, mass := 0.0, n.mass
	for _, i := range order {
		if n.done[i] {
			panic(fmt.Sprintf("plan: action %d is done already", i))
		}
		spent += b.try(n, i)
	}
	return (spent + n.mass*p.ServiceMinutes) / mass
}

// SequenceIndependent orders looks at parts that may be bad independently of
// one another, several at once, when the machine is tested after every repair:
// by p / (c (1 - p)), highest first (Srinivas 1995). Probabilities are per
// part, minutes those of looking; the order is of part numbers.
func SequenceIndependent(probability, minutes []float64) []int {
	order := make([]int, len(probability))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		// p/(c q) compared without dividing, so that p = 1 or c = 0 are no trouble
		return compare(probability[j]*minutes[i]*(1-probability[i]), probability[i]*minutes[j]*(1-probability[j]))
	})
	return order
}

// CostIndependent returns the expected minutes of looking in the given order
// at parts that are bad independently, given that at least one is, until the
// machine works; repairs, the same in every order, are left out. NaN if no
// part can be bad.
func CostIndependent(probability, minutes []float64, order []int) float64 {
	// before look k the machine still fails unless all parts from k on are good
	total, good := 0.0, 1.0
	for k := len(order) - 1; k >= 0; k-- {
		good *= 1 - probability[order[k]]
		total += minutes[order[k]] * (1 - good)
	}
	return total / (1 - good)
}
