package plan

import "example.org/takeup/engine/fact"

// upstream puts a proved cause before a proved fault that it leads to: a cable that
// is losing its strands before the slack it has made, or the slack comes back. It
// never opens the machine further than the step it takes the place of.
func (b *Job) upstream(p Problem, next Step) (Step, bool) {
	if next.Kind != Look {
		return Step{}, false
	}
	fault := b.causes(next)[0]
	if !b.confirmed(fault) {
		return Step{}, false
	}
	for i, l := range b.looks {
		cause := b.faults[l.faults[0]]
		if at(p.Done, i) || cause == fault || !b.leads(cause, fault) || !b.confirmed(cause) {
			continue
		}
		s := p.action(i)
		if first, ok := b.upstream(p, s); ok {
			return first, true
		}
		return s, true
	}
	return Step{}, false
}

// leads reports whether one cause brings the other without a detour.
func (b *Job) leads(cause, fault string) bool {
	from, to := b.Network.Index(cause), b.Network.Index(fault)
	for _, l := range b.Network.Links {
		if l.From == from && l.To == to && b.Network.Variables[to].Role == fact.RoleCause {
			return true
		}
	}
	return false
}
