package sample

import (
	"math/rand/v2"
	"slices"
	"sync"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// Machine is one machine with one fault, all that chance decides drawn. It may
// serve several goroutines.
type Machine struct {
	Fault   string   // the cause that was drawn
	Causes  []string // all causes that are there: the fault and what it led to
	Sheet   fact.Set // its machine sheet
	History fact.Set // all of its past, told or not
	Truth   fact.Set // sheet and history together
	// Network is the graph that the machine was drawn from, built with all of its
	// history: what a judge knows who was told everything.
	Network *network.Network
	Left    Left // drawings thrown away before this one

	sampler *Sampler
	fault   int
	there   []bool   // for each variable: a cause that was there when it was drawn
	right   []string // causes put right since
	more    []int    // further faults, each come by itself
	present []bool   // for each variable of the graph
	owed    []bool   // the same: brought about by the fault
	stray   []bool   // the same: came from nowhere
	acted   [][]bool // the same, for each parent: the link would act
	told    fact.Set
	said    []Answer
	seed    [2]uint64
	once    sync.Once
	values  map[string]fact.Value
}

// Left counts drawings that were left out before a machine came in.
type Left struct {
	Silent        int // no complaint showed
	Contradictory int // signs showed that exclude each other
	Stray         int // no complaint came from the fault
}

// Answer is a sign with its answer.
type Answer struct {
	Sign string
	Yes  bool
}

// priors are those of the causes, in the order of the graph.
func (m *Machine) priors() []float64 {
	var out []float64
	for _, v := range m.Network.Of(fact.RoleCause) {
		out = append(out, m.Network.Graph.Variables[v].Leak)
	}
	return out
}

// walk goes through the graph from causes to signs. Other causes are there only
// if the fault led to them; effects and signs may come from nowhere, as their
// leaks say.
func (m *Machine) walk(r *rand.Rand) {
	n := len(m.Network.Variables)
	m.stray, m.acted = make([]bool, n), make([][]bool, n)
	for v, x := range m.Network.Graph.Variables {
		m.stray[v] = r.Float64() < x.Leak && m.Network.Variables[v].Role != fact.RoleCause
		m.acted[v] = make([]bool, len(x.Parents))
		for k := range x.Parents {
			m.acted[v][k] = r.Float64() < x.Strengths[k]
		}
	}
	m.Fault, m.there = m.Network.Variables[m.fault].ID, nil
	m.settle()
	m.there = m.present
}

// settle works out what is there as the machine stands.
func (m *Machine) settle() {
	m.present, m.owed = m.state(m.right)
	m.Causes = nil
	for v, x := range m.Network.Variables {
		if m.present[v] && x.Role == fact.RoleCause {
			m.Causes = append(m.Causes, x.ID)
		}
	}
}

// PutRight returns the machine with these causes put right: what they alone
// brought about is gone, all else is as it was. Readings are drawn anew.
func (m *Machine) PutRight(causes ...string) *Machine {
	r := &Machine{
		Fault: m.Fault, Sheet: m.Sheet, History: m.History, Truth: m.Truth, Network: m.Network, Left: m.Left,
		sampler: m.sampler, fault: m.fault, more: m.more, there: m.there, right: append(slices.Clone(m.right), causes...),
		stray: m.stray, acted: m.acted, told: m.told, seed: m.seed,
	}
	r.settle()
	for _, a := range m.said {
		r.said = append(r.said, Answer{a.Sign, r.Has(a.Sign)})
	}
	r.complain()
	return r
}

// complain has the owner name a complaint that a cause still brings about, when none
// of those he spoke of is left: whoever gets the machine back uncured says so.
func (m *Machine) complain() {
	if slices.ContainsFunc(m.said, func(a Answer) bool { return a.Yes && m.owed[m.Network.Index(a.Sign)] }) {
		return
	}
	first := true
	m.complaints(func(v int, s catalog.Sign) {
		if first && m.owed[v] {
			m.said, first = append(m.said, Answer{s.ID, true}), false
		}
	})
}

// state is what is there, and what of it a cause brought about, once some
// causes are put right. The drawn links stay as they are, and a cause that
// another led to stays when that one is put right: what is burnt stays burnt.
func (m *Machine) state(right []string) (present, owed []bool) {
	n := len(m.Network.Variables)
	present, owed = make([]bool, n), make([]bool, n)
	for v, x := range m.Network.Graph.Variables {
		if m.there != nil && m.Network.Variables[v].Role == fact.RoleCause {
			here := m.there[v] && !has(right, m.Network.Variables[v].ID)
			present[v], owed[v] = here, here
			continue
		}
		fault := v == m.fault || slices.Contains(m.more, v)
		present[v], owed[v] = m.stray[v] || fault, fault
		for k, parent := range x.Parents {
			if m.acted[v][k] && present[parent] {
				present[v], owed[v] = true, owed[v] || owed[parent]
			}
		}
	}
	return present, owed
}

// Has reports whether a cause, an effect or a sign is there.
func (m *Machine) Has(id string) bool {
	v := m.Network.Index(id)
	return v >= 0 && m.present[v]
}

// Cured reports whether no complaint that a cause brought about is left when
// these causes are put right. What came from nowhere stays and does not count.
func (m *Machine) Cured(right ...string) bool {
	_, owed := m.state(append(slices.Clone(m.right), right...))
	return !m.complains(owed)
}

// Sensible reports whether a `needs` condition does not say no on this machine.
func (m *Machine) Sensible(needs string) bool { return m.sampler.ask(needs, m.Truth) != rule.No }

// complaints visits the complaints that make sense on this machine.
func (m *Machine) complaints(visit func(v int, s catalog.Sign)) {
	for _, s := range m.sampler.cat.Signs {
		if s.Kind == complaint && m.Sensible(s.Needs) {
			visit(m.Network.Index(s.ID), s)
		}
	}
}

// complaint is the kind of sign that a machine is brought in for.
const complaint = "complaint"

func (m *Machine) complains(among []bool) (any bool) {
	m.complaints(func(v int, _ catalog.Sign) { any = any || among[v] })
	return any
}

// owes reports whether a complaint comes from the fault.
func (m *Machine) owes() bool { return m.complains(m.owed) }

func (m *Machine) contradicts() bool {
	for _, s := range m.sampler.cat.Signs {
		for _, x := range s.Excludes {
			if m.Has(s.ID) && m.Has(x) {
				return true
			}
		}
	}
	return false
}

// recall draws what the owner tells of the complaint: signs that show, in the
// order they come to mind, then some that do not, out of the same families. At
// least one of them comes from the fault if any sign does.
func (m *Machine) recall(r *rand.Rand) {
	var shown, denied []Answer
	families := map[string]bool{}
	m.complaints(func(v int, s catalog.Sign) {
		if m.present[v] {
			shown, families[s.Family] = append(shown, Answer{s.ID, true}), true
		}
	})
	m.complaints(func(v int, s catalog.Sign) {
		if !m.present[v] && families[s.Family] {
			denied = append(denied, Answer{s.ID, false})
		}
	})
	manner := m.sampler.manner
	shown = m.owedFirst(reorder(r, shown))
	m.said = append(shown[:min(len(shown), manner.Complaints)], reorder(r, denied)[:min(len(denied), manner.Denied)]...)
}

func (m *Machine) owedFirst(said []Answer) []Answer {
	k := slices.IndexFunc(said, func(a Answer) bool { return m.owed[m.Network.Index(a.Sign)] })
	if k > 0 {
		said[0], said[k] = said[k], said[0]
	}
	return said
}

func reorder(r *rand.Rand, list []Answer) []Answer {
	out := make([]Answer, len(list))
	for i, k := range r.Perm(len(list)) {
		out[i] = list[k]
	}
	return out
}

// Complaints is what the owner tells: signs that show, then signs that do not.
func (m *Machine) Complaints() []Answer { return slices.Clone(m.said) }

// Known is what is known before anything is looked at: the sheet and what is
// told of the history, without the signs.
func (m *Machine) Known() fact.Set { return m.told.Clone() }

// Case is the machine as it is brought in.
func (m *Machine) Case() *intake.Case {
	c := &intake.Case{Title: "a drawn machine", Invented: true, Known: m.Known()}
	c.Observations = Observe(&c.Known, m.said)
	return c
}

// Observe puts answers into a set, where conditions see them, and returns them
// as the observations of a case.
func Observe(known *fact.Set, answers []Answer) []intake.Observation {
	var out []intake.Observation
	for _, a := range answers {
		o := intake.Observation{Sign: a.Sign, Answer: yesNo(a.Yes), Absent: 1}
		if a.Yes {
			o.Present, o.Absent = 1, 0
		}
		known.Put(a.Sign, fact.Value{Kind: fact.YesNo, Yes: a.Yes, Text: o.Answer})
		out = append(out, o)
	}
	return out
}

// Possible reports whether a check makes sense on this machine.
func (m *Machine) Possible(check string) bool {
	c, ok := m.sampler.cat.Check(check)
	return ok && m.Sensible(c.Needs)
}

// Answers are those of a check: every sign it settles that makes sense on this
// machine, in the order of the catalog. Nobody errs: what a check misses or
// mistakes is in the strengths and leaks of its signs.
func (m *Machine) Answers(check string) []Answer {
	c, ok := m.sampler.cat.Check(check)
	if !ok || !m.Sensible(c.Needs) {
		return nil
	}
	var out []Answer
	for _, id := range c.Settles {
		if s, _ := m.sampler.cat.Sign(id); m.Sensible(s.Needs) {
			out = append(out, Answer{id, m.Has(id)})
		}
	}
	return out
}

// Luck is a number of this machine's own, for whoever draws more about it.
func (m *Machine) Luck() uint64 { return m.seed[0] }
