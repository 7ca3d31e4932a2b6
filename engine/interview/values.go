package interview

import (
	"math"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/unit"
)

// value is one answer to a question about a fact, with how often it is given when
// nothing else is known. The shares of one question add up to 1.
type value struct {
	fact.Value
	share float64
}

// steps is how many figures stand for a range.
const steps = 7

// answersTo lists the answers that a fact can have here. Of a set, nothing and
// each word alone stand for all that can be ticked; of a figure, a few places
// spread over its usual range. Where the knowledge gives no shares, all answers
// are alike.
func answersTo(d *desk, f catalog.Fact) []value {
	var out []value
	switch kind := fact.Kind(f.Kind); kind {
	case fact.YesNo:
		yes := f.Share
		if yes == 0 {
			yes = 0.5
		}
		out = []value{
			{fact.Value{Kind: kind, Yes: true, Text: "yes"}, yes},
			{fact.Value{Kind: kind, Text: "no"}, 1 - yes},
		}
	case fact.Choice:
		for _, o := range d.options(f) {
			out = append(out, value{fact.Value{Kind: kind, Word: o.ID, Text: o.ID}, o.Share})
		}
	case fact.Choices:
		out = ticks(d.options(f))
	case fact.Quantity, fact.Count:
		out = figures(f)
	}
	sum := 0.0
	for _, v := range out {
		sum += v.share
	}
	for i := range out {
		out[i].share /= sum
	}
	return out
}

// options are those that are possible here, with a share each.
func (d *desk) options(f catalog.Fact) []catalog.Option {
	var out []catalog.Option
	for _, o := range f.Choices {
		if d.verdict(o.Needs) == rule.No {
			continue
		}
		if o.Share == 0 {
			o.Share = 1 / float64(len(f.Choices))
		}
		out = append(out, o)
	}
	return out
}

// ticks weighs nothing and each word alone as if they were independent.
func ticks(options []catalog.Option) []value {
	none := value{fact.Value{Kind: fact.Choices, Words: []string{}}, 1}
	for _, o := range options {
		none.share *= 1 - o.Share
	}
	out := []value{none}
	for _, o := range options {
		out = append(out, value{fact.Value{Kind: fact.Choices, Words: []string{o.ID}, Text: o.ID}, none.share * o.Share / (1 - o.Share)})
	}
	return out
}

// figures are spread evenly over the ratio of the ends, as distances and times
// are; over the difference when the range reaches down to nothing.
func figures(f catalog.Fact) []value {
	low, high, err := f.Range()
	if err != nil || high <= low {
		return nil
	}
	u, _ := unit.Find(f.Unit)
	var out []value
	for i := range steps {
		at := (float64(i) + 0.5) / steps
		si := low + at*(high-low)
		if low > 0 {
			si = low * math.Pow(high/low, at)
		}
		v := fact.Value{Kind: fact.Kind(f.Kind), SI: si, Text: unit.Format(si, u, 2)}
		out = append(out, value{v, 1})
	}
	return out
}
