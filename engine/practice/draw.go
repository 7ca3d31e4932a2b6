package practice

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"sync"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// Order says what case is wanted.
type Order struct {
	Seed   uint64
	Level  int     // 1 to Levels
	Family string  // of complaints; any when empty
	Lean   Leaning // towards what the student is weak in
}

// manner is how much is told unasked at a level, and what can be there.
type manner struct {
	sample.Manner
	facts   int     // most facts told unasked
	vague   float64 // share of what the customer cannot speak to
	double  float64 // share of machines drawn with two faults; fewer of them can be solved
	moves   int     // the planner needs no more than these
	minutes float64 // nor more than these; 0: any
}

// manners by level. Level 1 is a fault near the surface and a customer who
// tells all that matters; at level 3 there may be two faults, a customer of few
// words, and some things nobody remembers.
var manners = [Levels + 1]manner{
	1: {Manner: sample.Manner{Told: 1, Complaints: 4, Denied: 2}, facts: 6, moves: 10, minutes: 60},
	2: {Manner: sample.Manner{Told: 1, Complaints: 2, Denied: 1}, facts: 3, vague: 0.1, moves: 16},
	3: {Manner: sample.Manner{Told: 1, Complaints: 2}, facts: 1, vague: 0.25, double: 0.65, moves: 24},
}

// How long Draw looks for a case.
const (
	mostDrawn  = 6000 // machines
	mostWalked = 300  // of them worked on by the planner
)

// ErrNoCase says that no case of the kind wanted came up.
var ErrNoCase = errors.New("no such case came up in thousands of drawings")

// Draw returns a case that can be solved: the planner, told no more than the
// student, names the truth. The same order on the same sheets and knowledge gives
// the same case.
func (b Book) Draw(o Order, sheets []intake.Sheet) (*Scenario, error) {
	if o.Level < 1 || o.Level > Levels {
		return nil, fmt.Errorf("level %d: want 1 to %d", o.Level, Levels)
	}
	d, err := b.drawing(o, sheets)
	if err != nil {
		return nil, err
	}
	next := 0
	for walked := 0; walked < mostWalked; {
		some, err := d.some(&next, min(runtime.GOMAXPROCS(0), mostWalked-walked))
		if err != nil {
			return nil, err
		}
		if len(some) == 0 {
			break
		}
		if s, err := b.solvable(some, manners[o.Level]); s != nil || err != nil {
			return s, err
		}
		walked += len(some)
	}
	return nil, ErrNoCase
}

// some draws the next few candidates; none once too many machines were drawn.
func (d *drawing) some(next *int, n int) ([]*Scenario, error) {
	var out []*Scenario
	for ; len(out) < n && *next < mostDrawn; *next++ {
		s, err := d.scenario(*next)
		if err != nil {
			return nil, err
		}
		if s != nil {
			out = append(out, s)
		}
	}
	return out, nil
}

// solvable returns the first of some candidates that the planner solves within
// the bounds of the level, or nil. It walks through them side by side; which one
// is taken does not depend on who is ready first.
func (b Book) solvable(some []*Scenario, man manner) (*Scenario, error) {
	pars, errs := make([]Par, len(some)), make([]error, len(some))
	var wg sync.WaitGroup
	for i, s := range some {
		wg.Go(func() { pars[i], errs[i] = b.Begin(s).walkOn(bounds{moves: man.moves, strict: true}) })
	}
	wg.Wait()
	for i, s := range some {
		if errs[i] != nil {
			return nil, errs[i]
		}
		if pars[i].Solved() && (man.minutes == 0 || pars[i].Minutes <= man.minutes) {
			return s, nil
		}
	}
	return nil, nil
}

// drawing draws the candidates for one order.
type drawing struct {
	Book
	order   Order
	sheets  []intake.Sheet
	sampler *sample.Sampler
	most    float64 // the largest weight that the leaning gives
}

func (b Book) drawing(o Order, sheets []intake.Sheet) (*drawing, error) {
	if len(sheets) == 0 {
		return nil, errors.New("no machine to practise on")
	}
	words := make([]fact.Set, len(sheets))
	for i, s := range sheets {
		words[i] = s.Words
	}
	d := &drawing{Book: b, order: o, sheets: sheets, most: 1}
	for _, w := range o.Lean.Families {
		d.most = max(d.most, w)
	}
	most := 1.0
	for _, w := range o.Lean.Causes {
		most = max(most, w)
	}
	d.most *= most
	var err error
	d.sampler, err = sample.New(b.Catalog, b.Rules, b.Words, words, manners[o.Level].Manner)
	return d, err
}

// scenario is candidate i, or nil when it is not what was ordered.
func (d *drawing) scenario(i int) (*Scenario, error) {
	r := rand.New(rand.NewPCG(d.order.Seed, 1<<32+uint64(i)))
	// The stream of a level is its own, or the levels would share their faults.
	seed := d.order.Seed*Levels + uint64(d.order.Level)
	m, err := d.sampler.Draw(seed, i)
	if err != nil {
		return nil, err
	}
	faults := []string{m.Fault}
	if r.Float64() < manners[d.order.Level].double {
		if m, faults, err = d.second(m, seed, i, r); m == nil || err != nil {
			return nil, err
		}
	}
	told := m.Complaints()
	if len(told) == 0 {
		return nil, nil
	}
	x, _ := d.Catalog.Sign(told[0].Sign)
	if d.order.Family != "" && x.Family != d.order.Family || r.Float64()*d.most > d.leans(m.Fault, x.Family) {
		return nil, nil
	}
	s := &Scenario{
		Invented: true, Machine: d.sheets[i%len(d.sheets)].Machine, Level: d.order.Level, Seed: d.order.Seed, Family: x.Family,
		Known: m.Truth.Clone(), Truth: faults, Signs: map[string]network.Evidence{},
	}
	d.fill(s, m)
	d.tell(s, m, r)
	return s, nil
}

// leans is how much a case is wanted, up to d.most.
func (d *drawing) leans(cause, family string) float64 {
	w := weight(d.order.Lean.Causes, cause)
	if d.order.Family == "" {
		w *= weight(d.order.Lean.Families, family)
	}
	return w
}

// second puts a further fault into a machine, by the priors. Each of the two
// must leave a complaint behind when the other alone is put right; where it does
// not, there is no such machine.
func (d *drawing) second(m *sample.Machine, seed uint64, i int, r *rand.Rand) (*sample.Machine, []string, error) {
	var ids []string
	var weights []float64
	for _, v := range m.Network.Of(fact.RoleCause) {
		if id := m.Network.Variables[v].ID; !has(m.Causes, id) {
			ids, weights = append(ids, id), append(weights, m.Network.Graph.Variables[v].Leak)
		}
	}
	faults := []string{m.Fault, ids[pick(weights, r.Float64())]}
	both, err := d.sampler.Given(seed, i, m.Sheet, m.History, faults, nil)
	if err != nil || both.Contradicts() || both.Cured(faults[0]) || both.Cured(faults[1]) {
		return nil, nil, err
	}
	return both, faults, nil
}

// pick returns the place at which u, from 0 to 1, falls among the weights.
func pick(weights []float64, u float64) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	for i, w := range weights {
		if u -= w / sum; u < 0 {
			return i
		}
	}
	return len(weights) - 1
}

// fill takes over from a drawn machine what is not fixed yet: signs, readings,
// and what the faults led to.
func (b Book) fill(s *Scenario, m *sample.Machine) {
	for _, x := range b.Catalog.Signs {
		if _, fixed := s.Signs[x.ID]; !fixed && m.Sensible(x.Needs) {
			s.Signs[x.ID] = yes(x.ID, m.Has(x.ID))
		}
	}
	for _, c := range b.Catalog.Checks {
		values := m.Readings(c.ID)
		for _, id := range c.Gives {
			if v, drawn := values[id]; drawn && !s.Readings.Known(id) {
				s.Readings.Put(id, v)
			}
		}
	}
	for _, id := range m.Causes {
		if !s.Fault(id) {
			s.Brought = append(s.Brought, id)
		}
	}
}

// tell picks what the customer speaks of unasked, and what nobody remembers.
func (d *drawing) tell(s *Scenario, m *sample.Machine, r *rand.Rand) {
	man := manners[s.Level]
	for _, a := range m.Complaints() {
		s.Told = append(s.Told, a.Sign)
	}
	s.Recalled = d.notable(s, m, man.facts)
	d.word(s, r)
	for _, x := range d.Catalog.Facts {
		if s.Known.Known(x.ID) && !has(s.Recalled, x.ID) && r.Float64() < man.vague {
			s.Vague = append(s.Vague, x.ID)
		}
	}
	for _, x := range d.Catalog.Signs {
		if x.Kind == complaint && !has(s.Told, x.ID) && r.Float64() < man.vague {
			s.Vague = append(s.Vague, x.ID)
		}
	}
}

// notable lists what of the past is worth telling: what speaks for a cause
// first, then what else is out of the ordinary, in the order of the catalog.
func (d *drawing) notable(s *Scenario, m *sample.Machine, most int) []string {
	speaks := map[string]bool{}
	for i, f := range d.Fire(s.Known) {
		if r := d.Rules.Rules[i]; f.Verdict == rule.Yes && r.Action == rule.Raises {
			for _, id := range r.When.Words() {
				speaks[id] = true
			}
		}
	}
	var first, then []string
	for _, x := range d.Catalog.Facts {
		v, known := m.History.Get(x.ID)
		odd := v.Kind == fact.YesNo && v.Yes || v.Kind == fact.Choices && len(v.Words) > 0 || v.Kind == fact.Choice
		switch {
		case !known || !odd && !speaks[x.ID]:
		case speaks[x.ID]:
			first = append(first, x.ID)
		default:
			then = append(then, x.ID)
		}
	}
	return d.withReasons(append(first, then...), most, s)
}

// withReasons cuts a list of facts, keeping with each the facts that it needs:
// what the work was on makes no sense without that there was some.
func (d *drawing) withReasons(list []string, most int, s *Scenario) []string {
	var out []string
	known := fact.Set{}
	for _, id := range s.Known.IDs() {
		if _, isFact := d.Catalog.Fact(id); isFact && strings.HasPrefix(id, "machine.") {
			v, _ := s.Known.Get(id)
			known.Put(id, v)
		}
	}
	for range 2 { // a fact may come before the one it needs
		for _, id := range list {
			x, _ := d.Catalog.Fact(id)
			if len(out) < most && !has(out, id) && (x.Needs == "" || d.Holds(x.Needs, known)) {
				v, _ := s.Known.Get(id)
				known.Put(id, v)
				out = append(out, id)
			}
		}
	}
	slices.SortFunc(out, func(a, b string) int { return d.place(a) - d.place(b) })
	return out
}

// place is where a fact stands in the catalog.
func (b Book) place(id string) int {
	return slices.IndexFunc(b.Catalog.Facts, func(f catalog.Fact) bool { return f.ID == id })
}

// word picks how the customer puts what is told, out of the phrases of riders.
func (b Book) word(s *Scenario, r *rand.Rand) {
	s.Words = map[string]string{}
	put := func(id string, phrases []string) {
		if len(phrases) > 0 {
			s.Words[id] = phrases[r.IntN(len(phrases))]
		}
	}
	for _, id := range s.Told {
		if s.Signs[id].Yes() {
			put(id, b.Phrases[id])
		}
	}
	for _, id := range s.Recalled {
		f, _ := b.Catalog.Fact(id)
		v, _ := s.Known.Get(id)
		if v.Kind == fact.YesNo && v.Yes {
			put(id, f.Phrases)
		}
		for _, o := range f.Choices {
			if v.Kind == fact.Choice && v.Word == o.ID {
				put(id, o.Phrases)
			}
		}
	}
}
