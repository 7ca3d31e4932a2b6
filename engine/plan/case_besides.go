package plan

import (
	"errors"
	"slices"
	"sort"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
)

// Besides is a look worth taking before the machine is closed: for causes that
// may be there along with what was found. Minutes are those of the look;
// Probability is that one of the causes is there.
type Besides struct {
	Check       string
	Stage       string
	Causes      []string
	Minutes     float64
	Probability float64
}

// Besides lists, most probable first, the looks to take before closing once some
// causes are found: those behind open stages that take less than the opening and
// the test they spare if another cause is there and the complaint needs it. Opened
// are stages open besides those of the situation, skip causes to leave out.
// The error is belief's.
func (b *Job) Besides(found []string, opened []int, skip func(cause string) bool) ([]Besides, error) {
	causes := b.Network.Of(fact.RoleCause)
	p, err := b.given(found, causes)
	if err != nil || p == nil {
		return nil, err
	}
	open := with(b.problem.Open, len(b.stages), opened...)
	var looks []Besides
	for i, v := range causes {
		c, _ := b.Catalog.Cause(b.Network.Variables[v].ID)
		check, stage := b.finders[c.ID].check, b.stage(c.Stage)
		if check == "" || skip(c.ID) || slices.Contains(found, c.ID) || stage != Outside && !open[stage] {
			continue
		}
		looks = gather(looks, Besides{check, c.Stage, []string{c.ID}, c.LookMinutes, p[i]})
	}
	looks = slices.DeleteFunc(looks, func(x Besides) bool { return x.Probability*Found*b.again(x.Stage) <= x.Minutes })
	sort.SliceStable(looks, func(i, j int) bool { return looks[i].Probability > looks[j].Probability })
	return looks, nil
}

// given returns how far the complaint needs each cause besides those found; nil
// if what was found excludes each other, from which nothing follows.
func (b *Job) given(found []string, causes []int) ([]float64, error) {
	var there []belief.Finding
	for _, id := range found {
		there = append(there, belief.Yes(b.Network.Index(id)))
	}
	p, err := b.belief.Given(there, causes)
	var odd *belief.ImpossibleError
	if errors.As(err, &odd) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return b.needed(causes, p), nil
}

// gather adds a look to those that the same check takes at the same stage.
func gather(all []Besides, x Besides) []Besides {
	for k, o := range all {
		if o.Check == x.Check && o.Stage == x.Stage {
			all[k].Causes = append(o.Causes, x.Causes...)
			all[k].Minutes = max(o.Minutes, x.Minutes)
			all[k].Probability = 1 - (1-o.Probability)*(1-x.Probability)
			return all
		}
	}
	return append(all, x)
}

// again is what it takes to open a stage anew and to try the machine.
func (b *Job) again(stage string) float64 {
	minutes := b.problem.TestMinutes
	for _, s := range b.Catalog.StagePath(stage) {
		minutes += s.Minutes
	}
	return minutes
}

// closing is what to look at once a step has found its likeliest cause, as
// proposals. Checks that were made, or that need the machine whole, are none.
func (b *Job) closing(next Step) ([]Proposal, error) {
	if next.Kind != Look {
		return nil, nil
	}
	also := b.Target(next).Causes
	looks, err := b.Besides(also[:1], next.Opens, func(id string) bool {
		return slices.Contains(also, id) || slices.Contains(b.Done, b.finders[id].check)
	})
	var out []Proposal
	for _, x := range looks[:min(len(looks), mostBesides)] {
		out = append(out, Proposal{Kind: Look, Check: x.Check, Cause: x.Causes[0], Causes: x.Causes, Stage: x.Stage, Minutes: x.Minutes})
	}
	return out, err
}
