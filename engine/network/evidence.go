package network

import (
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// A measurement can be taken on the wrong part or written down wrongly, so
// that none settles a sign beyond these bounds. A part that is listed was in the
// hand: a slip of the pen is rarer than one of the gauge (both common practice).
const (
	mostMeasured = 0.995
	mostListed   = 0.9995
)

// bounded keeps a probability away from certainty.
func bounded(p float64, r rule.Rule) float64 {
	most := mostMeasured
	if r.When != nil && slices.Contains(r.When.Words(), catalog.StackID) && !r.When.Calls("measured", "total") {
		most = mostListed
	}
	return min(most, max(1-most, p))
}

// Evidence lists what is known of the signs: first what was said, in the order
// given, then what the rules read off the measurements. Several rules may read
// the same sign; one that finds it is enough, so the largest probability
// counts. Signs that are not in the graph are left out.
func (n *Network) Evidence(said []Evidence, set *rule.Set, firings []rule.Firing) []Evidence {
	var all []Evidence
	for _, e := range said {
		if e.variable = n.Index(e.Sign); e.variable >= 0 {
			all = append(all, e)
		}
	}
	read := map[string]int{}
	for i, r := range set.Rules {
		f := firings[i]
		if r.Action != rule.Shows || f.Verdict == rule.Unknown || n.Index(r.To) < 0 {
			continue
		}
		p := bounded(f.Probability, r)
		at, again := read[r.To]
		if !again {
			read[r.To] = len(all)
			all = append(all, Evidence{r.To, "measured", r.ID, p, 1 - p, n.Index(r.To)})
		} else if p > all[at].Present {
			all[at].Rule, all[at].Present, all[at].Absent = r.ID, p, 1-p
		}
	}
	return all
}

// Findings turns evidence into what belief takes, one finding for each piece.
func Findings(evidence []Evidence) []belief.Finding {
	out := make([]belief.Finding, len(evidence))
	for i, e := range evidence {
		out[i] = belief.Finding{Variable: e.variable, Present: e.Present, Absent: e.Absent}
	}
	return out
}

// Condition solves the network under the evidence, with all causes kept so that
// each has a posterior. The error is belief's.
func (n *Network) Condition(evidence []Evidence) (*belief.Conditioned, error) {
	return belief.ConditionKeeping(n.Graph, Findings(evidence), n.Of(fact.RoleCause), belief.DefaultBudget)
}
