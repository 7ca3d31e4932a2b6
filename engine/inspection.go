package engine

import "example.org/takeup/engine/inspect"

// Inspect judges the measurements of a diagnosed case, each with what it does to
// the causes.
func (e *Engine) Inspect(d *Diagnosis) inspect.Inspection {
	return inspect.Case(inspect.Input{
		Catalog: e.Catalog, Rules: e.Rules, Derived: e.Derived, Known: d.Case.Known, Firings: d.Firings, Weighed: weighed(d),
	})
}

// weighed gathers what every measured sign moves the causes by.
func weighed(d *Diagnosis) []inspect.Weighed {
	var out []inspect.Weighed
	for k, e := range d.Evidence {
		if e.Rule == "" {
			continue
		}
		w := inspect.Weighed{Sign: e.Sign}
		for _, c := range d.Explanation.Causes {
			if k < len(c.Balance.Entries) {
				w.Causes = append(w.Causes, inspect.Weight{Cause: c.ID, Decibans: c.Balance.Entries[k].LeaveOneOut})
			}
		}
		out = append(out, w)
	}
	return out
}
