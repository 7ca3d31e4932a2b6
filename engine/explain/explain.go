package explain

import (
	"sort"
	"sync"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// Input is everything an explanation is made from.
type Input struct {
	Catalog  *catalog.Catalog
	Rules    *rule.Set
	Firings  []rule.Firing
	Network  *network.Network
	Evidence []network.Evidence
	Words    *fact.Vocabulary // with Known, what makes no sense to ask is not waited for; nil asks all
	Known    fact.Set
	// Belief is the network under the evidence with all causes kept; nil has it
	// worked out here. Explaining uses it up: hand out a clone.
	Belief func() (*belief.Conditioned, error)
}

// How much of the detail is worked out.
const (
	setsShown    = 6    // most probable sets
	setsExamined = 30   // partial sets solved in the search for them
	faint        = 0.02 // causes below this do not enter the sets
	accounted    = 6    // causes for which expected signs are worked out
	expectedAt   = 0.6  // a sign that a cause brings so often is expected of it
	missingAt    = 0.5  // and one that it brings so often is missed when the answer was no
	leakAlone    = 0.5  // a sign whose leak acted with this probability is unexplained
)

// work carries the solved graph and the numbers an explanation is made of.
type work struct {
	Input
	causes   []int // possible causes, places in the graph
	findings []belief.Finding
	result   belief.Result
	chain    [][]float64 // posteriors of causes after the first k pieces of evidence
	without  [][]float64 // posteriors of causes with piece k struck out
}

// New solves the graph and explains the answer. The error is belief's: the
// evidence is impossible, or too many findings for an exact answer.
func New(in Input) (*Explanation, error) {
	w := &work{Input: in, findings: network.Findings(in.Evidence)}
	for _, v := range in.Network.Of(fact.RoleCause) {
		if p, _ := in.Network.PriorOf(in.Network.Variables[v].ID); p.RuledOut == "" {
			w.causes = append(w.causes, v)
		}
	}
	ex := &Explanation{}
	if err := together(
		func() error { return w.believe(ex) },
		func() error { return w.account() },
	); err != nil {
		return nil, err
	}
	w.fill(ex)
	for i := range min(accounted, len(ex.Causes)) {
		w.expect(&ex.Causes[i])
	}
	return ex, nil
}

// together runs independent parts at once and returns the first error in the
// order of the parts, so that the answer does not depend on timing.
func together(parts ...func() error) error {
	errs := make([]error, len(parts))
	var wg sync.WaitGroup
	for i, part := range parts {
		wg.Go(func() { errs[i] = part() })
	}
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func (w *work) believe(ex *Explanation) error {
	if w.Belief == nil {
		w.Belief = func() (*belief.Conditioned, error) { return w.Network.Condition(w.Evidence) }
	}
	c, err := w.Belief()
	if err != nil {
		return err
	}
	w.result = c.Partial()
	ex.LogEvidence = w.result.LogEvidence
	if ex.Unlisted, err = c.NoneOf(w.causes); err != nil {
		return err
	}
	now, err := c.Posteriors(w.causes)
	if err != nil {
		return err
	}
	shaker := newShaker(w.Network.Graph, c, w.causes, now) // before the search for sets uses c
	return together(
		func() (err error) { ex.Steadiness, err = shaker.steadiness(); return err },
		func() error { return w.sets(ex, c) },
	)
}

// sets finds the most probable sets of causes.
func (w *work) sets(ex *Explanation, c *belief.Conditioned) error {
	sets, err := c.TopSets(w.likely(), setsShown, setsExamined)
	if err != nil {
		return err
	}
	ex.SetsWhole = sets.Complete
	for _, s := range sets.Sets {
		ex.Sets = append(ex.Sets, Set{w.ids(s.Members), s.Probability})
	}
	return nil
}

// likely lists the causes that sets are made of: those that are not faint.
func (w *work) likely() []int {
	var out []int
	for _, v := range w.causes {
		if w.result.Posterior[v] >= faint {
			out = append(out, v)
		}
	}
	return out
}

func (w *work) ids(places []int) []string {
	out := []string{}
	for _, v := range places {
		out = append(out, w.id(v))
	}
	return out
}

func (w *work) id(v int) string { return w.Network.Variables[v].ID }

// fill ranks the causes and writes the accounts.
func (w *work) fill(ex *Explanation) {
	for i, v := range w.causes {
		ex.Causes = append(ex.Causes, Cause{
			ID: w.id(v), Probability: w.result.Posterior[v], Prior: w.chain[0][i],
			Balance: w.balance(i), Rules: w.spoke(v),
		})
	}
	// Causes that differ by rounding alone stay in the order of the book.
	sort.SliceStable(ex.Causes, func(i, j int) bool {
		return float32(ex.Causes[i].Probability) > float32(ex.Causes[j].Probability)
	})
	for _, e := range w.Evidence {
		s := w.sign(w.Network.Index(e.Sign), e)
		if e.Yes() && s.Leak > leakAlone {
			ex.Unexplained = append(ex.Unexplained, e.Sign)
		}
		ex.Signs = append(ex.Signs, s)
	}
	ex.Effects = w.effects()
	ex.Waiting = w.waiting()
	for _, p := range w.Network.Priors {
		if p.RuledOut != "" {
			ex.RuledOut = append(ex.RuledOut, Ruled{p.Cause, p.RuledOut})
		}
	}
}

// sign accounts for one piece of evidence. A sign that was answered no has no
// shares: nothing brought it.
func (w *work) sign(v int, e network.Evidence) Sign {
	s := Sign{ID: e.Sign, Answer: e.Answer, Rule: e.Rule}
	if e.Yes() {
		s.Shares, s.Leak = w.shares(v), w.leak(v)
	}
	return s
}

// leak is P(v showed for a reason not in the book). A variable without parents
// has no other reason.
func (w *work) leak(v int) float64 {
	if len(w.Network.Graph.Variables[v].Parents) == 0 {
		return w.result.Posterior[v]
	}
	return w.result.LeakShare[v]
}

func (w *work) shares(v int) []Share {
	var out []Share
	for _, l := range w.Network.Links {
		if l.To == v && w.result.Shares[v] != nil {
			out = append(out, Share{w.id(l.From), l.Rule, w.result.Shares[v][l.Slot]})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Share > out[j].Share })
	return out
}

func (w *work) effects() []Effect {
	var out []Effect
	for _, v := range w.Network.Of(fact.RoleEffect) {
		if p := w.result.Posterior[v]; p > 0.5 {
			out = append(out, Effect{w.id(v), p, w.shares(v), w.leak(v)})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Probability > out[j].Probability })
	return out
}

// spoke lists the rules that say something about a cause here: its history, the
// links that lead to it and the links it acts through, by how likely they acted.
func (w *work) spoke(v int) []Spoke {
	var out []Spoke
	p, _ := w.Network.PriorOf(w.id(v))
	for _, s := range p.Steps {
		out = append(out, Spoke{s.Rule, 1})
	}
	var links []Spoke
	for _, l := range w.Network.Links {
		if l.From == v || l.To == v {
			if s := w.result.Shares[l.To]; s != nil {
				links = append(links, Spoke{l.Rule, s[l.Slot]})
			}
		}
	}
	sort.SliceStable(links, func(i, j int) bool { return links[i].Share > links[j].Share })
	return append(out, links...)
}

// expect asks which signs a leading cause should show. What counts is what the
// cause itself brings: a sign that is common for other reasons speaks neither for
// it nor, when it is not there, against it.
func (w *work) expect(c *Cause) {
	chances := w.Network.Brings(w.Network.Index(c.ID))
	answered := map[string]network.Evidence{}
	for _, e := range w.Evidence {
		answered[e.Sign] = e
	}
	for _, s := range w.Network.Of(fact.RoleSign) {
		chance := chances[s]
		e, asked := answered[w.id(s)]
		line := Sign{ID: w.id(s), Answer: e.Answer, Chance: chance}
		switch {
		case asked && !e.Yes() && chance >= missingAt:
			c.Missing = append(c.Missing, line)
		case !asked && chance >= expectedAt:
			c.Expected = append(c.Expected, line)
		}
	}
	byChance := func(list []Sign) {
		sort.SliceStable(list, func(i, j int) bool { return list[i].Chance > list[j].Chance })
	}
	byChance(c.Missing)
	byChance(c.Expected)
}
