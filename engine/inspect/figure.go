package inspect

import (
	"math"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/mechanics"
)

// groups works out every group of which something is known.
func (in Input) groups() []Group {
	out := []Group{}
	for _, g := range in.Catalog.Groups {
		if group := in.group(g); len(group.Figures) > 0 {
			out = append(out, group)
		}
	}
	return out
}

func (in Input) group(g catalog.Group) Group {
	group := Group{ID: g.ID, Figures: []Figure{}}
	for _, d := range in.Catalog.Derived {
		if d.Group != g.ID || in.better(d.ID) != d.ID {
			continue
		}
		v := in.Derived.Value(d.ID, in.Known)
		if !v.Known() {
			continue
		}
		f := in.figure(d, v.SI, v.Sigma)
		f.Value, f.Measured = v, in.measured(d.ID)
		group.Measured = group.Measured || f.Measured
		group.Figures = append(group.Figures, f)
	}
	in.parts(g, &group)
	return group
}

// better is the derived quantity that stands instead of another in this case, or the
// other itself.
func (in Input) better(id string) string {
	for _, d := range in.Catalog.Derived {
		if d.Instead == id && id != "" && in.Derived.Value(d.ID, in.Known).Known() {
			return d.ID
		}
	}
	return id
}

// measured reports whether a derived quantity rests on a reading.
func (in Input) measured(id string) bool {
	return slices.ContainsFunc(in.Derived.Words(id), func(w string) bool {
		v, ok := in.Known.Get(w)
		return ok && (v.Kind == fact.Reading || v.Stack != nil)
	})
}

// figure picks the outcome a value falls in, and whether the bound next to it lies
// within the uncertainty.
func (in Input) figure(d catalog.Derived, si, sigma float64) (f Figure) {
	for _, o := range d.Means {
		bound, ok := in.Derived.Bound(o.Below, in.Known)
		if o.Below != "" && !ok {
			return Figure{} // what lies past an unknown bound cannot be told
		}
		if o.Below != "" {
			f.Even = f.Even || math.Abs(si-bound) < Coverage*sigma
		}
		if o.Below == "" || si < bound {
			f.Means, f.Warns = o.Says, o.Warn
			return f
		}
	}
	return f
}

// parts adds up what a group marks as parts, and holds the sum against the whole.
func (in Input) parts(g catalog.Group, group *Group) {
	var p Part
	n := 0
	for _, f := range group.Figures {
		d, _ := in.Catalog.DerivedOf(f.ID)
		if d.Part {
			n++
			p.Sum += f.SI
			p.Sigma = math.Hypot(p.Sigma, f.Sigma)
		}
		if f.ID == g.Whole {
			p.Whole, p.RestSigma = f.SI, f.Sigma
		}
	}
	if n == 0 || p.Sum <= 0 {
		return
	}
	for i, f := range group.Figures {
		if d, _ := in.Catalog.DerivedOf(f.ID); d.Part {
			group.Figures[i].Share = f.SI / p.Sum
		}
	}
	if p.Whole > 0 {
		p.Rest, p.RestSigma = p.Whole-p.Sum, math.Hypot(p.RestSigma, p.Sigma)
	}
	group.Parts = &p
}

// fittings searches the choices of parts for every height that is known.
func (in Input) fittings() []Height {
	out := []Height{}
	for _, c := range in.Catalog.Fittings {
		if f, ok := in.fitting(c); ok {
			out = append(out, f)
		}
	}
	return out
}

// plansKept is how many choices are offered.
const plansKept = 3

func (in Input) fitting(c catalog.Fitting) (Height, bool) {
	f := Height{ID: c.ID, Plans: []mechanics.PackPlan{}}
	var ok [4]bool
	f.From, f.Height, f.Sigma, ok[0] = in.height(c)
	f.Low, ok[1] = in.machine(c.Low)
	f.High, ok[2] = in.machine(c.High)
	sizes, there := in.Known.Get("machine." + c.Sizes)
	ok[3] = there && f.Low <= f.High
	if ok != [4]bool{true, true, true, true} {
		return f, false
	}
	_, reading := in.Catalog.Reading(f.From)
	f.Measured = reading || in.measured(f.From)
	fitted, u := in.fitted(c, &f)
	plans, err := mechanics.ChoosePlates(mechanics.SelectivePack{
		HeightM: f.Height, HeightU: f.Sigma, FittedM: fitted, AvailableM: sizes.Values, PlateU: u, MinM: f.Low, MaxM: f.High,
	}, plansKept)
	f.TooMany = err != nil
	f.Plans = append(f.Plans, plans...)
	return f, true
}

// height is the measured height, or what stands in for it.
func (in Input) height(c catalog.Fitting) (from string, si, sigma float64, ok bool) {
	for _, id := range []string{c.Height, in.better(c.Else)} {
		if v, known := in.Known.Get(id); known && len(v.Values) > 0 {
			return id, v.Mean(), v.Sigma, true
		}
		if _, derived := in.Catalog.DerivedOf(id); derived {
			if v := in.Derived.Value(id, in.Known); v.Known() {
				return id, v.SI, v.Sigma, true
			}
		}
	}
	return "", 0, 0, false
}

// fitted lists the parts that can be changed, each with the uncertainty of its
// thickness. Those that were not measured count at the mean of the others, or as new.
func (in Input) fitted(c catalog.Fitting, f *Height) (sizes []float64, u float64) {
	v, _ := in.Known.Get(c.Fitted)
	u = v.Sigma
	like := v.Mean()
	if len(v.Values) == 0 {
		like, _ = in.machine(c.New)
		r, _ := in.Catalog.Reading(c.Fitted)
		g, _ := in.Catalog.Gauge(r.Gauge)
		u, _ = figure(g.Uncertainty, r.Unit)
	}
	sizes = slices.Clone(v.Values)
	n, _ := in.machine(c.Count)
	for len(sizes) < int(n) && like > 0 {
		sizes = append(sizes, like)
		f.Guessed++
	}
	return sizes, u
}
