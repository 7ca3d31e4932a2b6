package network_test

import (
	"math"
	"testing"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/network"
)

// What a cause brings does not depend on how common the others or the leaks are.
func TestBringsLeavesOthersOut(t *testing.T) {
	graph := func(prior, leak float64) *network.Network {
		return &network.Network{Graph: belief.Graph{Variables: []belief.Variable{
			{Name: "worn", Leak: prior},
			{Name: "oil", Leak: prior},
			{Name: "less grip", Parents: []int{0, 1}, Strengths: []float64{0.8, 0.5}, Leak: leak},
			{Name: "slips", Parents: []int{2}, Strengths: []float64{0.9}, Leak: leak},
			{Name: "smells", Parents: []int{1, 3}, Strengths: []float64{0.4, 0.5}, Leak: leak},
		}}}
	}
	for _, net := range []*network.Network{graph(0.01, 0.01), graph(0.9, 0.6)} {
		// slips: 0.5*0.9; smells: 1 - (1-0.4)*(1-0.5*0.45)
		for v, want := range []float64{0, 1, 0.5, 0.45, 0.535} {
			if got := net.Brings(1)[v]; math.Abs(got-want) > 1e-12 {
				t.Errorf("oil brings %s with %v, want %v", net.Graph.Variables[v].Name, got, want)
			}
		}
	}
}
