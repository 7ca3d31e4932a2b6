package report

import (
	"fmt"
	"slices"

	"example.org/takeup/engine/explain"
)

// Summary is the answer in one or two sentences.
func (a Answer) Summary() string {
	causes := a.faults()
	if len(causes) == 0 {
		return "Nothing in this book can be wrong with this machine."
	}
	first := causes[0]
	if len(a.Evidence) == 0 {
		return fmt.Sprintf("No sign is known yet, so this is only how often each cause comes up: %s first (%s).",
			a.named(first.ID), Percent(first.Probability))
	}
	if s := a.summaryOfSet(); s != "" {
		return s
	}
	if s := a.summaryOfHistory(); s != "" {
		return s
	}
	lead := "Most likely: %s (%s)."
	switch {
	case a.Explanation.Unlisted > first.Probability:
		lead = "Most likely something that is not in this book; of what is, %s (%s) comes first."
	case first.Probability > 0.95:
		lead = "Almost certainly: %s (%s)."
	case first.Probability < standsOut:
		lead = "Nothing stands out yet; first in line is %s (%s)."
	}
	return fmt.Sprintf(lead, a.named(first.ID), Percent(first.Probability)) + a.runnerUp(causes) + a.behind(first.ID)
}

// faults are the causes in their order without the habits and histories that may
// stand behind them: those are told, not found.
func (a Answer) faults() []explain.Cause {
	return slices.DeleteFunc(slices.Clone(a.Explanation.Causes), func(c explain.Cause) bool { return a.cause(c.ID).Behind })
}

// behindAt is the probability from which a habit or a history is named.
const behindAt = 0.4

// behind names the likeliest habit or history that may have led to one of some
// faults.
func (a Answer) behind(faults ...string) string {
	for _, c := range a.Explanation.Causes {
		leads := func(fault string) bool { return a.chain(c.ID, fault) != nil }
		if c.Probability >= behindAt && a.cause(c.ID).Behind && slices.ContainsFunc(faults, leads) {
			return fmt.Sprintf(" What may have led to it: %s (%s).", a.named(c.ID), Percent(c.Probability))
		}
	}
	return ""
}

// What a cause must have to be named before a likelier one: weight from what was
// seen, in decibans (twice the odds), and enough probability to be worth the name.
const (
	leadWeight      = 3.0
	leadProbability = 0.1
)

// lead is the likeliest cause that what was seen speaks for. A fault that is
// likely from the history alone (plates fitted dry) may well be there and yet
// explain nothing of the complaint. Without one it is the likeliest of all. What is
// less likely than nothing in the book does not lead.
func (a Answer) lead() explain.Cause {
	causes := a.faults()
	if asked(causes[0]) >= worthSaying {
		return causes[0]
	}
	for _, c := range causes {
		if c.Probability >= max(leadProbability, a.Explanation.Unlisted) && asked(c) >= leadWeight {
			return c
		}
	}
	return causes[0]
}

// asked is what the evidence moved a cause by, in decibans.
func asked(c explain.Cause) float64 { return c.Balance.Final - c.Balance.Prior() }

// summaryOfHistory words an answer whose likeliest cause is likely from what is
// known of the machine and not from what was seen.
func (a Answer) summaryOfHistory() string {
	first, lead := a.faults()[0], a.lead()
	likely := fmt.Sprintf("%s (%s) rests on what is known of the machine alone; what was seen does not ask for it.",
		capital(a.named(first.ID)), Percent(first.Probability))
	switch {
	case lead.ID == first.ID && asked(first) < worthSaying && first.Probability >= standsOut:
		return "What was seen does not point to one cause yet. " + likely
	case lead.ID == first.ID:
		return ""
	case lead.Probability < standsOut:
		return fmt.Sprintf("Nothing stands out yet; of what would explain it, %s (%s) comes first. ", a.named(lead.ID), Percent(lead.Probability)) + likely
	}
	return fmt.Sprintf("Most likely behind it: %s (%s). ", a.named(lead.ID), Percent(lead.Probability)) + likely
}

// standsOut is the probability below which no cause is called likely.
const standsOut = 0.4

// runnerUp names the second cause, and the third when it is close to it.
func (a Answer) runnerUp(causes []explain.Cause) string {
	if len(causes) < 2 || causes[1].Probability < 0.05 {
		return ""
	}
	if causes[0].Probability > 0.9 {
		if causes[1].Probability < secondAt {
			return ""
		}
		return fmt.Sprintf(" Perhaps besides: %s (%s).", a.named(causes[1].ID), Percent(causes[1].Probability))
	}
	second := fmt.Sprintf("%s (%s)", a.named(causes[1].ID), Percent(causes[1].Probability))
	if len(causes) > 2 && causes[2].Probability > 0.75*causes[1].Probability {
		return fmt.Sprintf(" The others in question are %s and %s (%s).", second, a.named(causes[2].ID), Percent(causes[2].Probability))
	}
	return fmt.Sprintf(" The other candidate is %s.", second)
}

// summaryOfSet words several faults at once: two that are both present with a
// probability of at least p + q - 1 (Frechet's lower bound), or a set of several
// that is likelier than any other.
func (a Answer) summaryOfSet() string {
	if c := a.faults(); len(c) > 1 && c[0].Probability+c[1].Probability-1 >= bothAt {
		return fmt.Sprintf("Most likely two faults at once: %s (%s) and %s (%s).",
			a.named(c[0].ID), Percent(c[0].Probability), a.named(c[1].ID), Percent(c[1].Probability)) + a.behind(c[0].ID, c[1].ID)
	}
	sets := a.Explanation.Sets
	if len(sets) == 0 || sets[0].Probability < setAt {
		return ""
	}
	found := a.found(sets[0].Causes)
	if len(found) < 2 {
		return ""
	}
	together := ""
	if len(found) == len(sets[0].Causes) {
		together = fmt.Sprintf(" (%s for exactly these together)", Percent(sets[0].Probability))
	}
	return fmt.Sprintf("Most likely %s at once: %s%s.", counted(len(found), "fault", "faults"), Join(a.names(found)), together) + a.behind(found...)
}

// found leaves out of causes the habits and histories.
func (a Answer) found(ids []string) []string {
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return a.cause(id).Behind })
}

// names are the names of causes, look-alikes marked.
func (a Answer) names(ids []string) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = a.named(id)
	}
	return out
}
