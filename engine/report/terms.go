package report

import (
	"example.org/takeup/engine/document"
)

// term is a word of takeup itself, the same for every pack: how it measures.
type term struct {
	id, name string
	also     string     // what else it is looked up by
	says     []string   // paragraphs
	table    [][]string // the first row is the head; nil for none
}

// terms are met first by whoever looks up least, so they say it with numbers.
var terms = []term{
	{"deciban", "deciban (dban)", "decibel weight evidence logarithm", []string{
		"How much a piece of evidence weighs: ten times the logarithm of the odds. What makes the odds ten times as large adds 10, " +
			"twice as large adds 3; half takes 3 away, a tenth takes 10.",
		"Weights add up where chances would have to be multiplied, so an account of a cause is read like a bill. A fault of one machine in a " +
			"hundred starts at −20. A finding ten times as common with the fault as without lifts it to −10, or 9 %; a second one like it to 0, " +
			"which is 50 %.",
	}, [][]string{
		{"dban", "odds", "chance"}, {"+20", "100 to 1", "99 %"}, {"+10", "10 to 1", "91 %"}, {"+3", "2 to 1", "67 %"}, {"0", "1 to 1", "50 %"},
		{"−3", "1 to 2", "33 %"}, {"−10", "1 to 10", "9 %"}, {"−20", "1 to 100", "1 %"},
	}},
	{"odds", "odds", "chance probability", []string{
		"The chance that something is so, over the chance that it is not. 75 % is 3 to 1, 50 % is 1 to 1, 9 % is 1 to 10.",
		"Evidence multiplies the odds, whatever they were before. That is why the same finding makes a common fault nearly certain and leaves a " +
			"rare one unlikely.",
	}, nil},
	{"bit", "bit", "bits entropy doubt", []string{
		"How much there is to find out, and how much a check can be expected to tell. Two causes that are equally likely are 1 bit of doubt, " +
			"four are 2, eight are 3. A check of 1 bit halves what is in question; one of 0.1 bits leaves nearly all of it.",
		"Bits say nothing about minutes. A check of 0.3 bits in 2 minutes can be the better start than one of 0.8 bits behind a cover.",
	}, nil},
	{"brier_score", "Brier score", "forecast confidence mark", []string{
		"How far a stated confidence was from what came true: the squares of all misses, added up. 0 is sure and right, 2 is sure and wrong.",
		"It pays to say what you hold likely, no more and no less. What was held back counts as \"something else\".",
	}, [][]string{
		{"said", "and right", "and wrong"}, {"95 %", "0.01", "1.80"}, {"80 %", "0.08", "1.28"}, {"60 %", "0.32", "0.72"}, {"40 %", "0.72", "0.32"},
	}},
	{"planner", "planner", "plan advice minutes", []string{
		"The part of takeup that says what to do next. It knows what you were told and no more, and looks for the step that is expected to save " +
			"most minutes on the way to a machine that works, with openings and repairs in vain counted in.",
		"So it looks and adjusts outside before it opens anything, takes a quick look at a likely fault before a long one, and leaves out a check " +
			"whose every result would end in the same repair.",
	}, nil},
	{"torque_units", "units of torque", "kgf lbf ft-lb in-lb newton metre foot inch pound wrench", []string{
		"Manuals and wrenches mix them, and a value read in the wrong one strips a thread or leaves a screw loose. Write the unit beside the " +
			"figure before the wrench is in the hand.",
	}, [][]string{
		{"unit", "in N·m"}, {"1 kgf·m", "9.81"}, {"1 lbf·ft", "1.36"}, {"1 lbf·in", "0.113"}, {"1 kgf·cm", "0.098"},
	}},
}

// termOf finds a term by its id.
func termOf(id string) (term, bool) {
	for _, x := range terms {
		if x.id == id {
			return x, true
		}
	}
	return term{}, false
}

// page is the body of a term's page.
func (x term) page() []document.Block {
	var blocks []document.Block
	for _, p := range x.says {
		blocks = append(blocks, document.Paragraph(plain(p)))
	}
	if len(x.table) > 0 {
		blocks = append(blocks, document.Table(x.table[0], nil, x.table[1:]...))
	}
	return blocks
}

// measures lists the terms, for the page of contents.
func measures() []document.Block {
	var items []document.Item
	for _, x := range terms {
		items = append(items, item(document.Code(x.id), plain(": "+x.name)))
	}
	return []document.Block{heading("Measures"), document.List(items...)}
}
