package inspect

import (
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// listed adds the readings that a stack gives part by part and that were not given
// as readings. What a part does not say is left out.
func (in Input) listed() fact.Set {
	stack := in.Known.Stack(catalog.StackID)
	if stack == nil {
		return in.Known
	}
	known := in.Known.Clone()
	for _, r := range in.Catalog.Readings {
		if r.Listed.Part == "" || known.Known(r.ID) {
			continue
		}
		v := fact.Value{Kind: fact.Reading, Gauge: r.Gauge}
		for _, i := range stack.Of(r.Listed.Part) {
			if one, ok := stack.Parts[i].Known.Get(r.Listed.Attribute); ok {
				v.Values = append(v.Values, one.SI)
				v.Sigma = max(v.Sigma, one.Sigma)
				v.Gauge = one.Gauge
			}
		}
		if v.Values != nil {
			v.SI = v.Mean()
			known.Put(r.ID, v)
		}
	}
	return known
}

// fromStack lists what rules on the stack read of the signs that a reading settles.
func (in Input) fromStack(reading string) []Shown {
	var signs []string
	for _, r := range in.Rules.Rules {
		if r.Action == rule.Shows && slices.Contains(r.When.Words(), reading) {
			signs = append(signs, r.To)
		}
	}
	return in.said(func(r rule.Rule) bool {
		return slices.Contains(signs, r.To) && slices.Contains(r.When.Words(), catalog.StackID)
	})
}
