package ruletest

import (
	"fmt"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// Trials says which cases Simulate draws and what is asked about each.
type Trials struct {
	Seed       uint64
	Cases      int        // in all, or for each cause when Stratified
	Stratified bool       // every cause equally often, so that rare ones are measured too
	Machines   []fact.Set // what is known of each machine; cases go round them in turn
	Depths     []Depth
	Budget     belief.Budget // of one judgement: answers that would break it are left out and the case counted as hard
}

// Depth is one amount of looking: which signs get an answer. A sign does when
// its kind is listed, or when a check that settles it stands at a listed stage.
type Depth struct {
	Name   string
	Kinds  []string
	Stages []string
	All    bool // every sign that makes sense on the machine
	// Spontaneous is how a complaint is told: what shows, and at most Denied
	// signs that do not, out of the families of those that do.
	Spontaneous bool
	Denied      int
}

// Simulation is how well the knowledge tells its own causes apart. Faults and
// signs are drawn from the network that judges them, so that it measures whether
// the knowledge is separable, not whether it is true.
type Simulation struct {
	Cases         int     `json:"cases"`
	Stray         int     `json:"stray"`         // cases in which no complaint comes from the fault: all of them came from nowhere
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

// Simulate draws cases with one fault each and lets the network judge them.
// Causes are drawn by their priors, signs by going through the arrows; drawings
// in which no complaint shows are drawn again. Nothing of the history is known
// but what the machines say. The error is about the network, or says that a
// cause never shows. It panics without cases, machines or depths.
func Simulate(cat *catalog.Catalog, set *rule.Set, words *fact.Vocabulary, trials Trials) (*Simulation, error) {
	if trials.Cases < 1 || len(trials.Machines) == 0 || len(trials.Depths) == 0 {
		panic("ruletest: nothing to simulate")
	}
	var sims []*simulated
	for _, known := range trials.Machines {
		s, err := newSimulated(cat, set, words, known, trials)
		if err != nil {
			return nil, err
		}
		sims = append(sims, s)
	}
	out := &Simulation{}
	tallies := make([]tally, len(trials.Depths))
	for i, job := range jobs(cat, sims, trials) {
		c, err := job.on.drawing(job.cause, random(trials.Seed, i), out)
		if err != nil {
			return nil, err
		}
		out.Cases++
		if !job.on.complains(c.owed) {
			out.Stray++
		}
		for d := range trials.Depths {
			p, hard, err := job.on.judge(d, c)
			if err != nil {
				return nil, fmt.Errorf("case %d at depth %s: %w", i, trials.Depths[d].Name, err)
			}
			tallies[d].add(job.on, c, p)
			if hard {
				tallies[d].hard++
			}
		}
	}
	for d := range tallies {
		out.Levels = append(out.Levels, tallies[d].level(trials.Depths[d].Name, cat))
	}
	return out, nil
}

// job is one case to draw: on a machine, of a cause or (-1) of any.
type job struct {
	on    *simulated
	cause int
}

func jobs(cat *catalog.Catalog, sims []*simulated, t Trials) []job {
	var out []job
	if !t.Stratified {
		for i := range t.Cases {
			out = append(out, job{sims[i%len(sims)], -1})
		}
		return out
	}
	for _, c := range cat.Causes {
		var can []job
		for _, s := range sims {
			if v := s.net.Index(c.ID); s.net.Graph.Variables[v].Leak > 0 {
				can = append(can, job{s, v})
			}
		}
		for i := 0; i < t.Cases && len(can) > 0; i++ {
			out = append(out, can[i%len(can)])
		}
	}
	return out
}
