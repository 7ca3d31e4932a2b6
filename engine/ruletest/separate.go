package ruletest

import (
	"fmt"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// Separate simulates each cause the given number of times, tells the history and
// answers every sign there is, and says how often the cause comes out first. The
// gaps are the causes that stay behind one other cause in at least half of their
// cases: no check separates the two. Without sheets the machine is unknown.
func Separate(cat *catalog.Catalog, set *rule.Set, sheets []fact.Set, each int, seed uint64) (Level, []Gap, error) {
	s, err := Simulate(cat, set, cat.Vocabulary(), Trials{
		Seed: seed, Cases: each, Stratified: true, Machines: sheets,
		Manner: sample.Manner{Told: 1},
		Depths: []Depth{{Name: "everything", All: true, History: true}},
		Budget: belief.Budget{MaxCost: 2e7, MaxCells: 4e6},
	})
	if err != nil {
		return Level{}, nil, err
	}
	var gaps []Gap
	for _, c := range s.Levels[0].Causes {
		if c.Share >= 0.5 {
			gaps = append(gaps, Gap{"unseparated", c.ID, fmt.Sprintf("cause %s: with every check answered %s stays before it in %.0f of %d cases", c.ID, c.ConfusedWith, c.Share*float64(c.Cases), c.Cases)})
		}
	}
	return s.Levels[0], gaps, nil
}
