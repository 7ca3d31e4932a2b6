package inspect

import (
	"math"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/unit"
)

// Case inspects the measurements of a case.
func Case(in Input) Inspection {
	given := in.Known
	in.Known = in.listed()
	found := Inspection{Readings: []Measurement{}, Groups: []Group{}, Fittings: []Height{}, Missing: []Missing{}}
	for _, r := range in.Catalog.Readings {
		if v, ok := in.Known.Get(r.ID); ok && len(v.Values) > 0 {
			reading := in.reading(r, v)
			if reading.Listed = !given.Known(r.ID); reading.Listed {
				reading.Shows = in.fromStack(r.ID)
			}
			found.Readings = append(found.Readings, reading)
		}
	}
	found.Groups = in.groups()
	found.Fittings = in.fittings()
	found.Missing = in.missing(found)
	return found
}

func (in Input) reading(c catalog.Reading, v fact.Value) Measurement {
	r := Measurement{
		ID: c.ID, Unit: c.Unit, Gauge: v.Gauge, Values: v.Values, Sigma: v.Sigma,
		Limit: in.limit(c), Apart: apart(v.Values, v.Sigma), Shows: in.shows(c.ID),
	}
	r.Counted = counted(c.Sense, v, r.Limit)
	if r.Limit != nil {
		r.Judged = judge(r.Counted, v.Sigma, r.Limit.Limit)
		r.Wear = in.wear(c, r)
	}
	r.Doubts = doubts(c, r)
	return r
}

// limit is the sheet's limit, or the general figure where the sheet is silent.
func (in Input) limit(c catalog.Reading) *Limit {
	var l Limit
	switch c.Sense {
	case "min":
		l.Min, l.HasMin = in.machine(c.Limit)
	case "max":
		l.Max, l.HasMax = in.machine(c.Limit)
	case "range":
		l.Min, l.HasMin = in.machine(c.LimitMin)
		l.Max, l.HasMax = in.machine(c.LimitMax)
	}
	if l.HasMin || l.HasMax {
		return &l
	}
	l.General, l.Basis = true, c.General.Basis
	l.Min, l.HasMin = figure(c.General.Low, c.Unit)
	l.Max, l.HasMax = figure(c.General.High, c.Unit)
	if l.HasMin || l.HasMax {
		return &l
	}
	return nil
}

// machine is a word of the machine sheet, or a derived quantity, that is a number.
func (in Input) machine(word string) (float64, bool) {
	if _, derived := in.Catalog.DerivedOf(word); derived {
		v := in.Derived.Value(word, in.Known)
		return v.SI, v.Known()
	}
	v, ok := in.Known.Get("machine." + word)
	return v.SI, ok && word != ""
}

// figure reads a quantity of the catalog in SI.
func figure(text, symbol string) (float64, bool) {
	u, _ := unit.Find(symbol)
	q, err := unit.ParseAs(text, u.Dim)
	return q.SI, err == nil && text != ""
}

// counted is the one value that is judged: the worst, as the rules take it.
func counted(sense string, v fact.Value, l *Limit) float64 {
	switch {
	case sense == "min":
		return v.Lowest()
	case sense == "max":
		return v.Highest()
	case l == nil:
		return v.Mean()
	case l.HasMax && (!l.HasMin || l.Max-v.Highest() < v.Lowest()-l.Min):
		return v.Highest()
	}
	return v.Lowest()
}

// judge cannot fail: limits and readings are finite by the time they are known.
func judge(value, sigma float64, l mechanics.Limit) *Judged {
	j, err := mechanics.Judge(value, sigma, Coverage, l)
	if err != nil {
		return nil
	}
	below := l.HasMin && (!l.HasMax || value-l.Min < l.Max-value)
	return &Judged{j, below}
}

// wear needs the new size and a service limit of its own on the worn side of it.
func (in Input) wear(c catalog.Reading, r Measurement) *Wear {
	size, ok := in.machine(c.New)
	if !ok || c.Sense != "min" || r.Limit.General || size <= r.Limit.Min {
		return nil
	}
	used, err := mechanics.WearUsed(size, r.Limit.Min, r.Counted)
	if err != nil {
		return nil
	}
	return &Wear{New: size, Used: used}
}

// shows lists what rules read off a reading, directly or through a derived
// quantity.
func (in Input) shows(reading string) []Shown {
	return in.said(func(r rule.Rule) bool { return in.rests(r.When.Words(), reading) })
}

// said lists what rules that show a sign say. Rules that cannot tell say nothing.
func (in Input) said(which func(rule.Rule) bool) []Shown {
	out := []Shown{}
	for i, r := range in.Rules.Rules {
		f := in.Firings[i]
		if r.Action == rule.Shows && f.Verdict != rule.Unknown && which(r) {
			out = append(out, Shown{Rule: r.ID, Sign: r.To, Verdict: f.Verdict, Probability: f.Probability, Causes: in.weights(r.To)})
		}
	}
	return out
}

// rests reports whether one of the words is the reading or is worked out from it.
func (in Input) rests(words []string, reading string) bool {
	return slices.ContainsFunc(words, func(w string) bool {
		if w == reading {
			return true
		}
		_, derived := in.Catalog.DerivedOf(w)
		return derived && slices.Contains(in.Derived.Words(w), reading)
	})
}

// weights are the causes a measured sign moves, those it moves most first.
func (in Input) weights(sign string) []Weight {
	out := []Weight{}
	for _, w := range in.Weighed {
		if w.Sign == sign {
			out = append(out, w.Causes...)
		}
	}
	slices.SortStableFunc(out, func(a, b Weight) int {
		if x, y := math.Abs(a.Decibans), math.Abs(b.Decibans); x != y {
			if x > y {
				return -1
			}
			return 1
		}
		return 0
	})
	return out
}
