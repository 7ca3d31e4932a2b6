package belief

// Graph is a directed acyclic graph of yes/no variables, parents before
// children.
type Graph struct {
	Variables []Variable `json:"variables"`
}

// Variable is one yes/no variable: a root with a prior, a leaky noisy-OR of its
// parents, or a full table over them. All numbers are probabilities, 0 to 1.
type Variable struct {
	Name string `json:"name"`
	// Parents are indexes into Graph.Variables, each below the variable's own.
	Parents []int `json:"parents,omitempty"`
	// Leak is P(present | no parent present); for a root, its prior.
	Leak float64 `json:"leak"`
	// Strengths holds one net strength per parent: P(the link fires | that
	// parent present), leak excluded. It is empty for a root or a table.
	Strengths []float64 `json:"strengths,omitempty"`
	// Table, when not nil, replaces Leak and Strengths: P(present | parents) in
	// 2^len(Parents) rows. Bit i of the row number is parent i being present, so
	// row 0 is "none", row 1 "only Parents[0]", row 2 "only Parents[1]".
	Table []float64 `json:"table,omitempty"`
}

// Finding is evidence on one variable as a pair of likelihoods: yes {1, 0}, no
// {0, 1}, soft {p, 1-p}. Several findings on one variable multiply. Equal
// likelihoods say nothing and change nothing but P(e).
type Finding struct {
	Variable int `json:"variable"`
	// Present and Absent are P(what was seen | present) and P(... | absent): finite,
	// not negative. Only their ratio moves a posterior.
	Present float64 `json:"present"`
	Absent  float64 `json:"absent"`
}

// Yes is the finding that variable v is present.
func Yes(v int) Finding { return Finding{Variable: v, Present: 1} }

// No is the finding that variable v is absent.
func No(v int) Finding { return Finding{Variable: v, Absent: 1} }

// Soft is the finding whose likelihood is p if v is present and 1-p if absent.
func Soft(v int, p float64) Finding { return Finding{Variable: v, Present: p, Absent: 1 - p} }

// noisy reports whether the variable is a noisy-OR with at least one parent.
func (v *Variable) noisy() bool { return v.Table == nil && len(v.Parents) > 0 }

// root reports whether the variable has no parents.
func (v *Variable) root() bool { return len(v.Parents) == 0 }

// prior is a root's P(present), from its table when it has one.
func (v *Variable) prior() float64 {
	if v.Table != nil {
		return v.Table[0]
	}
	return v.Leak
}
