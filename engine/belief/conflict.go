package belief

import "math"

// impossible names a smallest-by-inclusion set of findings that contradict each
// other: leave one out after another, and keep out those not needed.
func impossible(g Graph, findings []Finding, b Budget) error {
	kept := make([]int, len(findings))
	for i := range kept {
		kept[i] = i
	}
	for i := 0; i < len(kept); {
		without := append(append([]int{}, kept[:i]...), kept[i+1:]...)
		if isImpossible(g, pick(findings, without), b) {
			kept = without
		} else {
			i++
		}
	}
	return &ImpossibleError{Findings: kept, Names: names(g, findings, kept)}
}

// isImpossible reports whether findings surely contradict each other; a set too
// hard to solve counts as possible.
func isImpossible(g Graph, findings []Finding, b Budget) bool {
	ev := gather(len(g.Variables), findings)
	if ev.contradicted >= 0 {
		return true
	}
	p := compile(g, ev, nil)
	return p.within(b) && math.IsInf(newMachine(p).start(), -1)
}

// tooHard names findings whose leaving out makes the rest affordable, taking
// out the one that helps most, again and again.
func tooHard(g Graph, findings []Finding, b Budget, p *program) error {
	e := &TooHardError{Cost: p.plan.cost, Cells: p.plan.cells, Budget: b}
	kept := make([]int, len(findings))
	for i := range kept {
		kept[i] = i
	}
	for len(kept) > 0 {
		worst := dearest(g, findings, kept)
		e.Findings = append(e.Findings, kept[worst])
		kept = append(kept[:worst], kept[worst+1:]...)
		if compile(g, gather(len(g.Variables), pick(findings, kept)), nil).within(b) {
			e.Names = names(g, findings, e.Findings)
			return e
		}
	}
	e.Findings = nil
	return e
}

// dearest returns the place in kept of the finding whose leaving out saves most.
// One greedy order each is enough to compare by.
func dearest(g Graph, findings []Finding, kept []int) int {
	worst, least := 0, math.Inf(1)
	for i := range kept {
		without := append(append([]int{}, kept[:i]...), kept[i+1:]...)
		p := translate(g, gather(len(g.Variables), pick(findings, without)), nil)
		s := newSearcher(&p.lay)
		s.greedy(0, tastes[0])
		if s.weight < least {
			worst, least = i, s.weight
		}
	}
	return worst
}

// pick returns the findings at the given places.
func pick(findings []Finding, which []int) []Finding {
	list := make([]Finding, len(which))
	for i, k := range which {
		list[i] = findings[k]
	}
	return list
}

// names returns the names of the variables of some findings.
func names(g Graph, findings []Finding, which []int) []string {
	list := make([]string, len(which))
	for i, k := range which {
		list[i] = g.Variables[findings[k].Variable].Name
	}
	return list
}
