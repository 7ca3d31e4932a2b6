package belief

import (
	"errors"
	"slices"
)

// Outcome is what learning one variable would do to the targets.
type Outcome struct {
	Variable int `json:"variable"`
	// Present is P(variable present | e).
	Present float64 `json:"present"`
	// IfPresent and IfAbsent hold P(target present | e and that answer), one per
	// target in the order asked; nil when the answer has probability 0.
	IfPresent []float64 `json:"if_present"`
	IfAbsent  []float64 `json:"if_absent"`
}

// Outcomes returns, for each variable of vars, its prediction and the posteriors
// of the targets under either answer.
func Outcomes(g Graph, findings []Finding, vars, targets []int, b Budget) ([]Outcome, error) {
	c, err := Condition(g, findings, b)
	if err != nil {
		return nil, err
	}
	return c.Outcomes(vars, targets)
}

// rare is where the posteriors given "present" are no longer taken as the
// difference between all and "absent": at this probability the difference still
// has ten digits.
const rare = 1e-5

// Outcomes is the method form of the function of the same name. Targets that
// are causes of something (roots, or variables that the findings reach) are
// cheap; for other targets every answer is solved on its own.
func (c *Conditioned) Outcomes(vars, targets []int) ([]Outcome, error) {
	if err := checkVariables(len(c.g.Variables), vars, targets); err != nil {
		return nil, err
	}
	if _, err := c.Result(); err != nil {
		return nil, err
	}
	o := outcomes{c: c, targets: targets, cheap: c.reached(targets)}
	var err error
	if o.now, err = c.Posteriors(targets); err != nil {
		return nil, err
	}
	list := make([]Outcome, len(vars))
	for i, v := range vars {
		if list[i], err = o.of(v); err != nil {
			return nil, err
		}
	}
	return list, nil
}

// outcomes holds what the variables of one call share.
type outcomes struct {
	c       *Conditioned
	targets []int
	now     []float64 // posteriors of the targets
	cheap   bool      // all targets are in the program or independent of it
}

// of finds the cheapest way to the outcome of one variable.
func (o *outcomes) of(v int) (Outcome, error) {
	out := Outcome{Variable: v, Present: o.c.result.Posterior[v]}
	switch {
	case o.c.m.ev.state[v] == present:
		out.IfPresent = o.now
		return out, nil
	case o.c.m.ev.state[v] == absent:
		out.IfAbsent = o.now
		return out, nil
	case !o.cheap:
		return o.solved(out)
	case o.c.m.on[v]:
		// The variable has a table of its own: hold it at either value.
		out.IfPresent = o.read(o.c.ask(weight{v, [2]float64{0, 1}}))
		no, _ := o.c.absence(v)
		out.IfAbsent = o.read(no)
		return out, nil
	}
	no, ok := o.c.absence(v)
	if !ok || out.Present < rare {
		return o.solved(out)
	}
	// "Present" is what is left of all when "absent" is taken out. The share left
	// is at least rare, so the difference keeps its digits.
	out.IfAbsent = o.read(no)
	out.IfPresent = make([]float64, len(o.targets))
	for i, all := range o.now {
		rest := 0.0
		if out.IfAbsent != nil {
			rest = no.p * out.IfAbsent[i]
		}
		out.IfPresent[i] = min(1, max(0, (all-rest)/out.Present))
	}
	return out, nil
}

// solved takes each answer as one more finding.
func (o *outcomes) solved(out Outcome) (Outcome, error) {
	var err error
	if out.IfPresent, err = o.given(Yes(out.Variable)); err != nil {
		return out, err
	}
	out.IfAbsent, err = o.given(No(out.Variable))
	return out, err
}

// given returns the targets' posteriors under one more finding.
func (o *outcomes) given(f Finding) ([]float64, error) {
	p := o.c.result.Posterior[f.Variable]
	if f.Present*p+f.Absent*(1-p) == 0 {
		return nil, nil
	}
	c, err := condition(o.c.g, append(slices.Clone(o.c.findings), f), o.c.keep, o.c.budget)
	var never *ImpossibleError
	if errors.As(err, &never) {
		return nil, nil // possible by rounding only
	}
	if err != nil {
		return nil, err
	}
	return c.Posteriors(o.targets)
}

// read picks the targets; nil when the answer is impossible.
func (o *outcomes) read(a answer) []float64 {
	if a.posterior == nil {
		return nil
	}
	list := make([]float64, len(o.targets))
	for i, t := range o.targets {
		list[i] = a.posterior[t]
	}
	return list
}
