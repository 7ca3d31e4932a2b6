package belief

import (
	"fmt"
	"strings"
)

// Budget limits one run. The cost is known before the run starts.
type Budget struct {
	// MaxCost is the largest number of multiply-adds of a forward pass; all
	// posteriors take about three times that. A billion is about a second.
	MaxCost float64 `json:"max_cost"`
	// MaxCells is the largest number of table entries held at once, lists of the
	// steps included; an entry takes 16 bytes (its value and its adjoint).
	MaxCells float64 `json:"max_cells"`
}

// DefaultBudget allows about a second and half a gigabyte.
var DefaultBudget = Budget{MaxCost: 5e8, MaxCells: 1 << 25}

// ImpossibleError says that the findings have probability 0 in the graph.
type ImpossibleError struct {
	// Findings are indexes into the findings given: a set that is already
	// impossible, and no longer so if any one of it is left out.
	Findings []int `json:"findings"`
	// Names are the names of their variables, in the same order.
	Names []string `json:"names"`
}

// Error names the findings that cannot occur together.
func (e *ImpossibleError) Error() string {
	return "findings that cannot occur together: " + strings.Join(e.Names, ", ")
}

// TooHardError says that an exact answer would cost more than the budget.
type TooHardError struct {
	Cost   float64 `json:"cost"`  // multiply-adds of a forward pass
	Cells  float64 `json:"cells"` // table entries
	Budget Budget  `json:"budget"`
	// Findings are indexes into the findings given: leaving these out makes the
	// rest affordable. It is empty when no such set was found.
	Findings []int    `json:"findings"`
	Names    []string `json:"names"` // their variables' names
}

// Error gives the cost, the budget and the findings that are too many.
func (e *TooHardError) Error() string {
	s := fmt.Sprintf("an exact answer takes %.2g steps and %.2g table entries, allowed are %.2g and %.2g",
		e.Cost, e.Cells, e.Budget.MaxCost, e.Budget.MaxCells)
	if len(e.Names) > 0 {
		s += "; affordable without " + strings.Join(e.Names, ", ")
	}
	return s
}
