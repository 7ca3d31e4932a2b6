package ruletest

import (
	"fmt"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// Trials says which cases Simulate draws and what is asked about each.
type Trials struct {
	Seed       uint64
	Cases      int        // in all, or for each cause when Stratified
	Stratified bool       // every cause equally often, so that rare ones are measured too
	Machines   []fact.Set // machine sheets; cases go round them in turn
	Manner     sample.Manner
	Depths     []Depth
	Budget     belief.Budget // of one judgement: answers that would break it are left out and the case counted as hard
}

// Depth is one amount of looking: whether the history that was told is heeded, and
// which signs get an answer. A sign does when its kind is listed, or when a
// check that settles it stands at a listed stage.
type Depth struct {
	Name    string
	History bool
	Kinds   []string
	Stages  []string
	All     bool // every sign that makes sense on the machine
	// Spontaneous is what the owner tells of the complaint and no more.
	Spontaneous bool
}

// Simulation is how well the knowledge tells its own causes apart. Faults and
// signs are drawn from the network that judges them, so that it measures whether
// the knowledge is separable, not whether it is true.
type Simulation struct {
	Cases         int     `json:"cases"`
	Stray         int     `json:"stray"`         // drawings left out: no complaint came from the fault
	Silent        int     `json:"silent"`        // drawings left out: no complaint showed
	Contradictory int     `json:"contradictory"` // drawings left out: signs showed that exclude each other
	Levels        []Level `json:"levels"`        // one for each depth
}

// Level is what came out at one depth. Causes stand in the order of the catalog,
// without those that were never drawn.
type Level struct {
	Name string `json:"name"`
	Hard int    `json:"hard"` // cases judged without some of the answers: all of them were too much for the budget
	Score
	Causes []CauseScore `json:"causes"`
}

// Score counts how cases ended. Shares are of the cases, 0 to 1. A cause that
// follows from the true one in the case at hand is no mistake and never stands
// in its way; one with the same probability does.
type Score struct {
	Cases int     `json:"cases"`
	First float64 `json:"first"` // share in which the true cause is named first
	Three float64 `json:"three"` // share in which it is among the first three
	Five  float64 `json:"five"`
	Mean  float64 `json:"mean"`  // mean probability of the true cause
	Brier float64 `json:"brier"` // mean over the cases of the squared errors of all causes together (Brier 1950), 0 at best
}

// CauseScore is the score of the cases of one true cause.
type CauseScore struct {
	ID string `json:"id"`
	Score
	ConfusedWith string  `json:"confused_with,omitempty"` // the false cause that is put before it most often
	Share        float64 `json:"share"`                   // how often, of its cases
}

// Simulate draws machines with one fault each and lets the network judge them.
// Causes are drawn by the priors that the history leaves, signs by going through
// the arrows. The error is about the network, or says that a cause never shows.
// It panics without cases or depths.
func Simulate(cat *catalog.Catalog, set *rule.Set, words *fact.Vocabulary, trials Trials) (*Simulation, error) {
	if trials.Cases < 1 || len(trials.Depths) == 0 {
		panic("ruletest: nothing to simulate")
	}
	from, err := sample.New(cat, set, words, trials.Machines, trials.Manner)
	if err != nil {
		return nil, err
	}
	s := &simulation{cat: cat, set: set, trials: trials}
	out := &Simulation{}
	tallies := make([]tally, len(trials.Depths))
	for _, draw := range jobs(cat, from, trials) {
		m, err := draw()
		if err != nil {
			return nil, err
		}
		out.count(m)
		for d := range trials.Depths {
			j, err := s.judge(d, m)
			if err != nil {
				return nil, fmt.Errorf("case %d at depth %s: %w", out.Cases, trials.Depths[d].Name, err)
			}
			tallies[d].add(m, j)
		}
	}
	for d := range tallies {
		out.Levels = append(out.Levels, tallies[d].level(trials.Depths[d].Name, cat))
	}
	return out, nil
}

func (out *Simulation) count(m *sample.Machine) {
	out.Cases++
	out.Stray += m.Left.Stray
	out.Silent += m.Left.Silent
	out.Contradictory += m.Left.Contradictory
}

// jobs lists the machines to draw. A cause that no machine sheet allows is left
// out of a stratified run.
func jobs(cat *catalog.Catalog, from *sample.Sampler, t Trials) (out []func() (*sample.Machine, error)) {
	if !t.Stratified {
		for i := range t.Cases {
			out = append(out, func() (*sample.Machine, error) { return from.Draw(t.Seed, i) })
		}
		return out
	}
	for _, c := range cat.Causes {
		if !from.Fits(c.ID) {
			continue
		}
		for i := range t.Cases {
			out = append(out, func() (*sample.Machine, error) { return from.DrawCause(t.Seed, i, c.ID) })
		}
	}
	return out
}
