package belief

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// maxTableParents keeps a full table at a million rows; more parents are a
// noisy-OR's business.
const maxTableParents = 20

// InvalidError lists everything wrong with a graph or with the findings.
type InvalidError struct {
	// Problems are in the order of the variables, then of the findings.
	Problems []string `json:"problems"`
}

// Error joins the problems, one a line.
func (e *InvalidError) Error() string { return strings.Join(e.Problems, "\n") }

// Check reports every problem of the graph at once as an *InvalidError, or nil:
// parents out of order or named twice, lists of the wrong length, numbers
// outside 0 to 1.
func (g Graph) Check() error {
	var c checker
	for i := range g.Variables {
		c.variable(&g.Variables[i], i)
	}
	return c.err()
}

// checkFindings is Check for findings on a sound graph of n variables.
func checkFindings(n int, findings []Finding) error {
	var c checker
	for i, f := range findings {
		if f.Variable < 0 || f.Variable >= n {
			c.add("finding %d: variable %d does not exist, expected 0 to %d", i, f.Variable, n-1)
		}
		for _, l := range [2]float64{f.Present, f.Absent} {
			if !(l >= 0) || math.IsInf(l, 1) {
				c.add("finding %d: likelihood %v, expected a finite number not below 0", i, l)
			}
		}
	}
	return c.err()
}

// checkVariables is Check for a list of variable indexes.
func checkVariables(n int, lists ...[]int) error {
	var c checker
	for _, list := range lists {
		for _, v := range list {
			if v < 0 || v >= n {
				c.add("variable %d does not exist, expected 0 to %d", v, n-1)
			}
		}
	}
	return c.err()
}

// checker collects problems; at is the variable that is being looked at.
type checker struct {
	problems []string
	at       *Variable
	index    int
}

// add notes one problem.
func (c *checker) add(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	if c.at != nil {
		s = fmt.Sprintf("variable %d %q: %s", c.index, c.at.Name, s)
	}
	c.problems = append(c.problems, s)
}

// err returns the problems as one error, or nil.
func (c *checker) err() error {
	if len(c.problems) == 0 {
		return nil
	}
	return &InvalidError{Problems: c.problems}
}

// variable checks one variable on its own.
func (c *checker) variable(v *Variable, i int) {
	c.at, c.index = v, i
	for k, p := range v.Parents {
		if p < 0 || p >= i {
			c.add("parent %d, expected the index of an earlier variable", p)
		}
		if slices.Index(v.Parents, p) < k {
			c.add("parent %d is listed twice", p)
		}
	}
	if v.Table != nil {
		c.table(v)
		return
	}
	c.probability("leak", -1, v.Leak)
	if len(v.Strengths) != len(v.Parents) {
		c.add("%d strengths, expected one for each of %d parents", len(v.Strengths), len(v.Parents))
	}
	for k, s := range v.Strengths {
		c.probability("strength", k, s)
	}
}

// table checks a variable with a full table.
func (c *checker) table(v *Variable) {
	if len(v.Parents) > maxTableParents {
		c.add("table over %d parents, expected at most %d", len(v.Parents), maxTableParents)
		return
	}
	if want := 1 << len(v.Parents); len(v.Table) != want {
		c.add("table of %d rows, expected %d", len(v.Table), want)
	}
	if len(v.Strengths) != 0 {
		c.add("both a table and strengths, expected one of them")
	}
	for k, p := range v.Table {
		c.probability("table row", k, p)
	}
}

// probability is written so that NaN fails it. A negative k means that there is
// only one such number.
func (c *checker) probability(what string, k int, p float64) {
	if p >= 0 && p <= 1 {
		return
	}
	if k >= 0 {
		what = fmt.Sprintf("%s %d", what, k)
	}
	c.add("%s is %v, expected a probability from 0 to 1", what, p)
}
