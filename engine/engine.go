package engine

import (
	"cmp"
	"errors"
	"io/fs"
	"maps"
	"sync"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// Engine is a pack of knowledge and rules, ready to reason. It is not changed
// by use and may serve several goroutines.
type Engine struct {
	Catalog *catalog.Catalog
	Rules   *rule.Set
	Words   *fact.Vocabulary
	Derived *derive.Table
}

// Open reads and checks a pack. The engine is usable only when no problem is
// an error. Paths in the problems start with knowledge/ or rules/.
func Open(knowledge, rules fs.FS) (*Engine, source.Problems) {
	cat, ps := catalog.Load(knowledge)
	words := cat.Vocabulary()
	set, found := rule.Load(rules, words)
	e := &Engine{cat, set, words, derive.New(cat, set, words)}
	if !ps.HasErrors() {
		e.Derived.Check(&ps)
	}
	under("knowledge/", ps)
	under("rules/", found)
	ps = append(ps, found...)
	if !ps.HasErrors() {
		e.ring(&ps)
		e.steps(&ps)
		e.figures(knowledge, &ps)
	}
	return e, ps
}

func under(folder string, ps source.Problems) {
	for i := range ps {
		ps[i].Pos.File = folder + ps[i].Pos.File
		for k := range ps[i].Related {
			ps[i].Related[k].Pos.File = folder + ps[i].Related[k].Pos.File
		}
	}
}

// ring reports causes or effects that lead to one another, whatever the
// conditions: all rules are taken to hold.
func (e *Engine) ring(ps *source.Problems) {
	all := make([]rule.Firing, len(e.Rules.Rules))
	for i, r := range e.Rules.Rules {
		if r.Action == rule.Brings {
			all[i].Verdict = rule.Yes
		}
	}
	_, err := network.Build(e.Catalog, e.Rules, all)
	var cycle *network.CycleError
	if errors.As(err, &cycle) {
		pos := source.Pos{File: "rules"}
		for _, r := range e.Rules.Rules {
			if r.From == cycle.IDs[0] && r.To == cycle.IDs[1] {
				pos = r.Pos
				pos.File = "rules/" + pos.File
			}
		}
		ps.Errorf("R115", pos, 1, "%s", cycle).Hint = "drop the weakest of these rules: a cause cannot lead to itself"
	}
}

// Diagnosis is the answer to one case, with every stage on the way to it.
type Diagnosis struct {
	Case        *intake.Case
	Firings     []rule.Firing
	Network     *network.Network
	Evidence    []network.Evidence
	Explanation *explain.Explanation
	Cautions    []string     // ids, those of danger first
	Course      *plan.Course // what to do next
}

// Bench is what the workshop has: missing tools and the stage already open.
type Bench struct {
	Without []string // tools that are missing
	Open    string   // the deepest stage that is open
	Prices  plan.Prices
}

// Diagnose reasons about one case. The error says that the evidence cannot be,
// or that it is too much for an exact answer.
func (e *Engine) Diagnose(c *intake.Case, bench Bench) (*Diagnosis, error) {
	d, err := e.lay(c)
	if err != nil {
		return nil, err
	}
	e.Derived.Settle(d.Firings, c.Known)
	// Explaining and planning need the same beliefs and nothing of each other.
	var twin *belief.Conditioned
	first := sync.OnceValues(func() (*belief.Conditioned, error) {
		c, err := d.Network.Condition(d.Evidence)
		if err == nil {
			twin = c.Clone()
		}
		return c, err
	})
	second := func() (*belief.Conditioned, error) {
		_, err := first()
		return twin, err
	}
	var wg sync.WaitGroup
	var planErr error
	wg.Go(func() {
		s := e.situation(d, bench)
		s.Belief = second
		d.Course, planErr = plan.Propose(s)
	})
	d.Explanation, err = explain.New(explain.Input{
		Catalog: e.Catalog, Rules: e.Rules, Firings: d.Firings, Network: d.Network, Evidence: d.Evidence,
		Words: e.Words, Known: c.Known, Belief: first,
	})
	wg.Wait()
	if err = cmp.Or(err, planErr); err != nil {
		return nil, err
	}
	d.Cautions = e.cautions(d)
	return d, nil
}

// lay is the way of a case up to its graph with the evidence.
func (e *Engine) lay(c *intake.Case) (*Diagnosis, error) {
	d := &Diagnosis{Case: c, Firings: e.Rules.Fire(e.Derived.Fill(c.Known))}
	var err error
	if d.Network, err = network.Build(e.Catalog, e.Rules, d.Firings); err != nil {
		return nil, err
	}
	var said []network.Evidence
	for _, o := range c.Observations {
		said = append(said, network.Evidence{Sign: o.Sign, Answer: o.Answer, Present: o.Present, Absent: o.Absent})
	}
	d.Evidence = d.Network.Evidence(said, e.Rules, d.Firings)
	return d, nil
}

// prices are those of the case with those of the bench over them.
func (b Bench) prices(c *intake.Case) plan.Prices {
	out := plan.Prices{Of: c.AllPrices()}
	out.Rate = out.Of[intake.HourKey]
	if b.Prices.Rate > 0 {
		out.Rate = b.Prices.Rate
	}
	if len(b.Prices.Of) > 0 {
		out.Of = maps.Clone(out.Of)
		if out.Of == nil {
			out.Of = map[string]float64{}
		}
		maps.Copy(out.Of, b.Prices.Of)
	}
	return out
}

// Outline writes out the plan of a case for up to depth steps along each way. The
// error is belief's or the planner's.
func (e *Engine) Outline(d *Diagnosis, bench Bench, depth int) (plan.Outlook, error) {
	j, err := plan.Lay(e.situation(d, bench))
	if err != nil {
		return plan.Outlook{}, err
	}
	return j.Outline(depth)
}

// barred lists the checks that need the machine whole, once it is open further
// than a stage below theirs: nobody rides with the clutch cover off.
func (e *Engine) barred(open string) []string {
	var ids []string
	for _, c := range e.Catalog.Checks {
		if s, ok := e.Catalog.Stage(c.Stage); ok && s.Whole && e.Catalog.Depth(open) > e.Catalog.Depth(s.ID)+1 {
			ids = append(ids, c.ID)
		}
	}
	return ids
}

func (e *Engine) situation(d *Diagnosis, bench Bench) plan.Situation {
	s := plan.Situation{
		Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Network: d.Network, Evidence: d.Evidence,
		Known: d.Case.Known, Without: bench.Without, Prices: bench.prices(d.Case),
	}
	if open := cmp.Or(bench.Open, d.Case.Open); open != "" {
		s.Open = []string{open}
		s.Done = e.barred(open)
	}
	for _, done := range d.Case.Done {
		s.Done = append(s.Done, done.Check)
	}
	return s
}

// cautionAt is the probability from which a cause's own cautions are shown.
const cautionAt = 0.1

// cautions gathers what the rules demand and what the likely causes carry.
func (e *Engine) cautions(d *Diagnosis) []string {
	var ids []string
	seen := map[string]bool{}
	add := func(id string) {
		if !seen[id] {
			seen[id] = true
			ids = append(ids, id)
		}
	}
	for i, r := range e.Rules.Rules {
		if f := d.Firings[i]; r.Action == rule.Cautions && f.Verdict != rule.Unknown && f.Probability >= 0.5 {
			add(r.To)
		}
	}
	for _, c := range d.Explanation.Causes {
		if c.Probability < cautionAt {
			continue
		}
		cause, _ := e.Catalog.Cause(c.ID)
		for _, id := range cause.Cautions {
			add(id)
		}
	}
	return e.dangerFirst(ids)
}

func (e *Engine) dangerFirst(ids []string) []string {
	var danger, care []string
	for _, id := range ids {
		if c, ok := e.Catalog.Caution(id); ok && c.Severity == "danger" {
			danger = append(danger, id)
		} else {
			care = append(care, id)
		}
	}
	return append(danger, care...)
}
