package sample

import (
	"errors"
	"fmt"
	"math/rand/v2"

	"example.org/takeup/engine/fact"
)

// Given returns machine i of a seed of which the truth is known already: its
// sheet, its past, its faults (one or several that came by themselves) and, by
// id, signs that are there or not. What is left open is drawn. Nothing is drawn
// again: no complaint need show. The error says that there is no fault, or that
// one is unknown or cannot be on this machine.
func (s *Sampler) Given(seed uint64, i int, sheet, past fact.Set, faults []string, signs map[string]bool) (*Machine, error) {
	m := s.bring(sheet, past)
	for k, id := range faults {
		v := m.Network.Index(id)
		if _, ok := s.cat.Cause(id); !ok {
			return nil, fmt.Errorf("unknown cause %q", id)
		}
		if m.Network.Graph.Variables[v].Leak <= 0 {
			return nil, fmt.Errorf("cause %s cannot be on this machine", id)
		}
		if k == 0 {
			m.fault = v
		} else {
			m.more = append(m.more, v)
		}
	}
	if len(faults) == 0 {
		return nil, errors.New("no fault is given")
	}
	r := rand.New(rand.NewPCG(seed, uint64(i)))
	m.walk(r)
	for _, x := range s.cat.Signs {
		if there, given := signs[x.ID]; given {
			v := m.Network.Index(x.ID)
			m.present[v], m.owed[v] = there, m.owed[v] && there
		}
	}
	m.told = m.tell(r)
	m.recall(r)
	m.seed = [2]uint64{r.Uint64(), r.Uint64()}
	return m, nil
}

// Owes reports whether a cause brought an effect or a sign about, as against its
// having come from nowhere.
func (m *Machine) Owes(id string) bool {
	v := m.Network.Index(id)
	return v >= 0 && m.owed[v]
}

// Contradicts reports whether signs show that exclude each other. Drawn machines
// never do; given ones may.
func (m *Machine) Contradicts() bool { return m.contradicts() }
