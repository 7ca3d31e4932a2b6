package sample

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// Manner is how machines come in.
type Manner struct {
	Told       float64 // share of the history that the owner tells, 0 to 1; 0: there is no history at all
	Complaints int     // most complaints told
	Denied     int     // most signs denied, out of the families of what shows
	Strays     bool    // keep machines on which no complaint comes from the fault
}

// Usual is a talkative owner: two thirds of the history, up to four
// complaints and three things that do not happen (common practice).
var Usual = Manner{Told: 0.67, Complaints: 4, Denied: 3}

// Sampler draws machines. It is not changed by use and may serve several
// goroutines.
type Sampler struct {
	cat      *catalog.Catalog
	rules    *rule.Set
	manner   Manner
	sheets   []fact.Set
	needs    map[string]*rule.Condition
	readings []gauge // in the order of the catalog, those that can be drawn
	derived  *derive.Table
}

// New prepares a pack. Machines are drawn on the sheets in turn; none counts
// as one machine of which nothing is known. The error is about a `needs`
// condition that cannot be read.
func New(cat *catalog.Catalog, rules *rule.Set, words *fact.Vocabulary, sheets []fact.Set, manner Manner) (*Sampler, error) {
	if len(sheets) == 0 {
		sheets = []fact.Set{{}}
	}
	s := &Sampler{cat: cat, rules: rules, manner: manner, sheets: sheets, needs: map[string]*rule.Condition{}, derived: derive.New(cat, rules, words)}
	parse := func(owner, needs string) error {
		if needs == "" || s.needs[needs] != nil {
			return nil
		}
		c, err := rules.Parse(needs, words)
		if err != nil {
			return fmt.Errorf("%s: needs: %w", owner, err)
		}
		s.needs[needs] = c
		return nil
	}
	for _, n := range s.conditions() {
		if err := parse(n.owner, n.needs); err != nil {
			return nil, err
		}
	}
	s.readings = s.gauges()
	return s, nil
}

type needing struct{ owner, needs string }

// conditions lists every `needs` of the catalog.
func (s *Sampler) conditions() (all []needing) {
	for _, f := range s.cat.Facts {
		all = append(all, needing{f.ID, f.Needs})
		for _, o := range f.Choices {
			all = append(all, needing{f.ID + " " + o.ID, o.Needs})
		}
	}
	for _, x := range s.cat.Signs {
		all = append(all, needing{x.ID, x.Needs})
	}
	for _, c := range s.cat.Checks {
		all = append(all, needing{c.ID, c.Needs})
	}
	return all
}

// ask returns what a `needs` condition says about what is known; yes without one.
func (s *Sampler) ask(needs string, known fact.Set) rule.Verdict {
	return s.rules.Ask(s.needs[needs], known).Verdict
}

const (
	patience = 2000 // drawings after which a fault is taken to show nothing
	pasts    = 16   // histories out of which one that suits a given fault is picked
)

// Draw returns machine i of a seed, its fault drawn by the priors that its
// history leaves. The error says that no complaint ever shows.
func (s *Sampler) Draw(seed uint64, i int) (*Machine, error) {
	return s.draw(seed, i, func(r *rand.Rand, sheet fact.Set) *Machine {
		m := s.bring(sheet, s.history(r, sheet))
		if m.fault = pick(m.priors(), r.Float64()); m.fault < 0 {
			return nil
		}
		return m
	}, "any fault")
}

// DrawCause returns machine i of a seed with a given fault, on the first sheet
// from the i-th on that can have it. The history suits the fault: it is one of
// sixteen, picked by how much it speaks for the fault. The error says that
// the fault is unknown, fits no machine or never shows.
func (s *Sampler) DrawCause(seed uint64, i int, cause string) (*Machine, error) {
	if _, ok := s.cat.Cause(cause); !ok {
		return nil, fmt.Errorf("unknown cause %q", cause)
	}
	for k := range s.sheets {
		if m := s.bring(s.sheets[(i+k)%len(s.sheets)], fact.Set{}); m.Network.Graph.Variables[m.Network.Index(cause)].Leak > 0 {
			i += k
			break
		} else if k == len(s.sheets)-1 {
			return nil, fmt.Errorf("cause %s fits none of the machines", cause)
		}
	}
	return s.draw(seed, i, func(r *rand.Rand, sheet fact.Set) *Machine { return s.suited(r, sheet, cause) }, "cause "+cause)
}

// Fits reports whether a cause can be on one of the sheets.
func (s *Sampler) Fits(cause string) bool {
	for _, sheet := range s.sheets {
		m := s.bring(sheet, fact.Set{})
		if v := m.Network.Index(cause); v >= 0 && m.Network.Graph.Variables[v].Leak > 0 {
			return true
		}
	}
	return false
}

// suited draws a history with the odds that it gives the cause.
func (s *Sampler) suited(r *rand.Rand, sheet fact.Set, cause string) *Machine {
	some := make([]*Machine, pasts)
	weights := make([]float64, pasts)
	for k := range some {
		m := s.bring(sheet, s.history(r, sheet))
		m.fault = m.Network.Index(cause)
		some[k], weights[k] = m, m.Network.Graph.Variables[m.fault].Leak
	}
	if k := pick(weights, r.Float64()); k >= 0 {
		return some[k]
	}
	return nil
}

// draw draws until a complaint shows and no two signs exclude each other.
func (s *Sampler) draw(seed uint64, i int, begin func(*rand.Rand, fact.Set) *Machine, what string) (*Machine, error) {
	r := rand.New(rand.NewPCG(seed, uint64(i)))
	var left Left
	for range patience {
		m := begin(r, s.sheets[i%len(s.sheets)])
		if m == nil {
			continue
		}
		m.walk(r)
		switch m.told = m.tell(r); {
		case !m.complains(m.present):
			left.Silent++
		case m.contradicts():
			left.Contradictory++
		case !s.manner.Strays && !m.owes():
			left.Stray++
		default:
			m.recall(r)
			m.Left, m.seed = left, [2]uint64{r.Uint64(), r.Uint64()}
			return m, nil
		}
	}
	return nil, fmt.Errorf("no complaint shows in %d drawings of %s", patience, what)
}

// bring returns a machine with its network, no fault drawn yet.
func (s *Sampler) bring(sheet, history fact.Set) *Machine {
	truth := sheet.Clone()
	for _, id := range history.IDs() {
		v, _ := history.Get(id)
		truth.Put(id, v)
	}
	net, err := network.Build(s.cat, s.rules, s.rules.Fire(truth))
	if err != nil {
		panic("sample: " + err.Error()) // a ring of rules, which opening the pack refuses
	}
	return &Machine{sampler: s, Sheet: sheet, History: history, Truth: truth, Network: net}
}

// pick returns the place at which u, from 0 to 1, falls among the weights; -1
// when all are 0.
func pick(weights []float64, u float64) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	last := -1
	for i, w := range weights {
		if w <= 0 {
			continue
		}
		if last = i; u*sum < w {
			break
		}
		u -= w / sum
	}
	return last
}

// has reports whether id is in the list.
func has(list []string, id string) bool { return slices.Contains(list, id) }
