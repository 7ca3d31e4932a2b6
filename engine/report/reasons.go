package report

import (
	"sort"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/rule"
)

// reason is what one rule contributes to the account of a cause: the evidence
// that reaches the cause through it, and how far all of that moved the cause.
type reason struct {
	rule     string
	signs    []string // in words, in the order of the evidence
	read     string   // the rule that read its sign off the stack and says more than the sign
	decibans float64
}

// worthSaying is the weight in decibans below which a reason is not told: a
// factor of about 1.26 in the odds.
const worthSaying = 1.0

// reasons gathers the account of a cause by the rule that carries each piece of
// evidence, largest contribution first. Evidence that no rule ties to the cause
// moves it only by what it does to the others, and has an empty rule.
func (a Answer) reasons(c explain.Cause) []reason {
	var out []reason
	place := map[string]int{}
	add := func(id, words string, decibans float64) {
		at, known := place[id]
		if !known {
			at = len(out)
			place[id] = at
			out = append(out, reason{rule: id})
		}
		if words != "" {
			out[at].signs = append(out[at].signs, words)
		}
		out[at].decibans += decibans
	}
	for _, h := range c.Balance.History {
		add(h.ID, "", h.Decibans)
	}
	for k, e := range c.Balance.Entries {
		// A sign that is not there can only speak for a cause by speaking against
		// the others: no rule of the cause's own explains it.
		id := ""
		chain := a.chain(c.ID, e.ID)
		if len(chain) > 0 && a.Evidence[k].Yes() {
			id = chain[0]
		}
		// A piece that speaks the other way than its rule's others is kept apart,
		// so that no sentence says "because" for what it does not explain.
		if e.Decibans < 0 {
			id += "/against"
		}
		add(id, a.observed(k), e.Decibans)
		if id != "" && len(chain) == 1 && a.listed(a.Evidence[k].Rule) {
			out[place[id]].read = a.Evidence[k].Rule
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].decibans > out[j].decibans })
	return out
}

// chain is the rules from a cause to a sign along the strongest way through the
// graph, the cause's own rule first; nil when no way leads there.
func (a Answer) chain(cause, sign string) []string {
	from, to := a.Network.Index(cause), a.Network.Index(sign)
	if from < 0 || to < 0 {
		return nil
	}
	best := make([]float64, len(a.Network.Variables))
	by := make([]int, len(best)) // 1 + the link that was taken
	best[from] = 1
	// As many rounds as the longest way has links settle all of them.
	for changed := true; changed; {
		changed = false
		for i, l := range a.Network.Links {
			if p := best[l.From] * l.Strength; p > best[l.To] && l.To != from {
				best[l.To], by[l.To], changed = p, i+1, true
			}
		}
	}
	var rules []string
	for at := to; by[at] > 0; at = a.Network.Links[by[at]-1].From {
		rules = append([]string{a.Network.Links[by[at]-1].Rule}, rules...)
	}
	return rules
}

// reasonItems words the strongest reasons for a cause, at most n.
func (a Answer) reasonItems(c explain.Cause, n int) []document.Item {
	var out []document.Item
	history := 0
	for _, r := range a.reasons(c) {
		if len(out) == n || r.decibans < worthSaying {
			break
		}
		if len(r.signs) == 0 {
			history++
		}
		if len(r.signs) == 0 && history == n { // leave room for a sign
			continue
		}
		out = append(out, document.NewItem(a.reasonText(r)))
	}
	return out
}

// reasonText is one reason as a line: what was seen, then why it counts.
func (a Answer) reasonText(r reason) document.Text {
	why := a.because(r.rule)
	if r.read != "" && len(r.signs) == 1 {
		why = a.because(r.read)
	}
	if why == "" {
		why = "Speaks against the other causes."
	}
	seen := "History"
	if len(r.signs) > 0 {
		seen = capital(shortened(r.signs))
	}
	return document.Join(document.Strong(seen), plain(" ("+Decibans(r.decibans)+"): "+why))
}

// mostSigns is how many signs one reason names before it counts the rest.
const mostSigns = 3

// shortened lists signs and counts those that would make the line too long. One
// more than mostSigns is still named: "1 more" takes as much room.
func shortened(signs []string) string {
	if len(signs) <= mostSigns+1 {
		return Join(signs)
	}
	rest := counted(len(signs)-mostSigns, "more", "more")
	return Join(append(append([]string(nil), signs[:mostSigns]...), rest))
}

// past names what of the history a rule went by, and what it was.
func (a Answer) past(id string) string {
	r, _ := a.Rules.Rule(id)
	if names := factNames(a.Catalog, r, a.told); len(names) > 0 {
		return "history: " + shortened(names)
	}
	return "history"
}

// factNames names the facts that the condition of a rule asks for, with something
// after each.
func factNames(cat *catalog.Catalog, r rule.Rule, with func(catalog.Fact) string) []string {
	var names []string
	if r.When == nil {
		return nil
	}
	for _, word := range r.When.Words() {
		if f, ok := cat.Fact(word); ok {
			names = append(names, f.Name+with(f))
		}
	}
	return names
}

// told is what is known of a fact, in brackets, or nothing.
func (a Answer) told(f catalog.Fact) string {
	if a.Case == nil {
		return ""
	}
	v, known := a.Case.Known.Get(f.ID)
	if !known {
		return ""
	}
	return bracketed(valueWords(f, v))
}
