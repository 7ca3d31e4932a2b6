// Package network builds the graph that belief solves from the catalog and the
// rules that fired.
//
// Its main type is Network: the causes, effects and signs as variables, the
// links between them with the rule behind each, the priors with what history
// did to them, and the evidence in the order it was given.
//
//	net, err := network.Build(cat, set, firings)
//	evidence := net.Evidence(observations, set, firings)
//	result, err := belief.Solve(net.Graph, network.Findings(evidence), belief.DefaultBudget)
//
// It does no inference and words nothing.
package network
