package network

import (
	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
)

// Network is the graph of one case. Variables stand in the order of the graph:
// causes first, then effects, then signs.
type Network struct {
	Graph     belief.Graph `json:"graph"`
	Variables []Variable   `json:"variables"`
	Links     []Link       `json:"links"`
	Priors    []Prior      `json:"priors"` // one for each cause, in the order of the catalog

	index map[string]int
	prior map[string]int
}

// newNetwork makes a network without anything in it, with room for its causes and
// for all variables.
func newNetwork(causes, variables int) *Network {
	return &Network{
		Graph:     belief.Graph{Variables: make([]belief.Variable, 0, variables)},
		Variables: make([]Variable, 0, variables), Priors: make([]Prior, 0, causes),
		index: make(map[string]int, variables), prior: make(map[string]int, causes),
	}
}

// Variable is a node of the graph: a cause, an effect or a sign.
type Variable struct {
	ID   string    `json:"id"`
	Role fact.Role `json:"role"`
}

// Link is an arrow of the graph with the rule that draws it. Two rules may
// draw the same arrow; then they share one parent slot of the graph.
type Link struct {
	Rule     string  `json:"rule"`
	From     int     `json:"from"`
	To       int     `json:"to"`
	Slot     int     `json:"slot"` // place among the parents of To
	Strength float64 `json:"strength"`
}

// Prior is the probability of a cause before any sign was looked at: the
// catalog's, then what each history rule made of its odds.
type Prior struct {
	Cause    string  `json:"cause"`
	Base     float64 `json:"base"`
	Steps    []Step  `json:"steps,omitempty"`
	Now      float64 `json:"now"`
	RuledOut string  `json:"ruled_out,omitempty"` // the rule that rules it out
}

// Step is one history rule acting on a prior: its odds were multiplied by By.
type Step struct {
	Rule string  `json:"rule"`
	By   float64 `json:"by"`
}

// Evidence is one observation of a sign with its likelihoods.
type Evidence struct {
	Sign    string  `json:"sign"`
	Answer  string  `json:"answer"`         // yes, no, probably, probably not, or measured
	Rule    string  `json:"rule,omitempty"` // the rule that read it off a measurement
	Present float64 `json:"present"`        // P(observation | sign present), up to a factor
	Absent  float64 `json:"absent"`

	variable int
}

// Yes reports whether the observation speaks for the sign being there.
func (e Evidence) Yes() bool { return e.Present > e.Absent }

// Index returns the place of a variable, or -1.
func (n *Network) Index(id string) int {
	i, ok := n.index[id]
	if !ok {
		return -1
	}
	return i
}

// PriorOf returns the prior of a cause with its history.
func (n *Network) PriorOf(cause string) (Prior, bool) {
	i, ok := n.prior[cause]
	if !ok {
		return Prior{}, false
	}
	return n.Priors[i], true
}

// Of lists the places of all variables of a role, in order.
func (n *Network) Of(role fact.Role) []int {
	var out []int
	for i, v := range n.Variables {
		if v.Role == role {
			out = append(out, i)
		}
	}
	return out
}

// Forward is P(v there) when its parents are there with the probabilities p and
// independently of each other.
func (n *Network) Forward(v int, p []float64) float64 {
	return 1 - n.unfired(v, 1-n.Graph.Variables[v].Leak, p)
}

// Led is Forward without the leak: P(a parent brought v).
func (n *Network) Led(v int, p []float64) float64 { return 1 - n.unfired(v, 1, p) }

// unfired multiplies absent by P(no link to v fires).
func (n *Network) unfired(v int, absent float64, p []float64) float64 {
	x := &n.Graph.Variables[v]
	for k, parent := range x.Parents {
		absent *= 1 - x.Strengths[k]*p[parent]
	}
	return absent
}

// Brings is how likely one variable, being there, brings about each of the others
// by itself, with no other cause and no leak at work. It is walked forward from
// parents to children as if those of one child were independent: good enough to
// name what a cause should show.
func (n *Network) Brings(v int) []float64 {
	p := make([]float64, len(n.Graph.Variables))
	for i := range p {
		p[i] = n.Led(i, p)
		if i == v {
			p[i] = 1
		}
	}
	return p
}
