package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/sample"
	"example.org/takeup/engine/trial"
)

// mostMachines bounds a trial; a machine takes a good part of a second.
const mostMachines = 100000

// simulation is what the flags of the command say.
type simulation struct {
	count   int
	seed    uint64
	without []string
	manner  sample.Manner
}

// newSimulate tries the planner on drawn machines.
func newSimulate(s *session) *cobra.Command {
	sim := simulation{manner: sample.Usual}
	c := &cobra.Command{
		Use:   "simulate [SHEET...]",
		Short: "Try the planner against plain habits on drawn machines",
		Long: "Draws machines with a fault, on the machine sheets named or the invented ones of the pack, and\n" +
			"lets the planner and three plain habits work on the same machines.",
		Example: "  takeup simulate --count 100                    a first impression\n" +
			"  takeup simulate sheet.yaml --count 1000        on one machine\n" +
			"  takeup simulate --complaints 1 --denied 0      riders who say little",
		RunE: func(_ *cobra.Command, args []string) error {
			if sim.count < 1 || sim.count > mostMachines {
				return wrong("--count is %d, want 1 to %d", sim.count, mostMachines)
			}
			if sim.manner.Told <= 0 || sim.manner.Told > 1 || sim.manner.Complaints < 1 || sim.manner.Denied < 0 {
				return wrong("want --told above 0 and up to 1, --complaints 1 or more, --denied 0 or more")
			}
			return s.simulate(args, sim)
		},
	}
	c.Flags().IntVar(&sim.count, "count", 1000, "`machines` to draw")
	c.Flags().Uint64Var(&sim.seed, "seed", 1, "`number` that names the machines: the same one, the same machines")
	c.Flags().StringSliceVar(&sim.without, "without", nil, "a `tool` that is missing; repeat for more")
	c.Flags().Float64Var(&sim.manner.Told, "told", sim.manner.Told, "`share` of the history that is told, 0 to 1")
	c.Flags().IntVar(&sim.manner.Complaints, "complaints", sim.manner.Complaints, "most `complaints` told")
	c.Flags().IntVar(&sim.manner.Denied, "denied", sim.manner.Denied, "most `signs` denied")
	s.completeFlag(c, "without", s.tools)
	return c
}

func (s *session) simulate(sheets []string, sim simulation) error {
	e, err := s.open()
	if err != nil {
		return err
	}
	if err := checkBench(e.Catalog, engine.Bench{Without: sim.without}); err != nil {
		return err
	}
	known, err := s.named(e, sheets)
	if err != nil {
		return err
	}
	from, err := sample.New(e.Catalog, e.Rules, e.Words, known, sim.manner)
	if err != nil {
		return wrong("%s", err)
	}
	scores, err := trial.Run(trial.Input{
		Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Sampler: from, Count: sim.count, Seed: sim.seed,
		Without: sim.without, Progress: s.progress(sim.count),
	})
	if err != nil {
		return wrong("%s", err)
	}
	return s.show(report.Trial(scores, sim.seed), struct {
		Schema int           `json:"schema"`
		Seed   uint64        `json:"seed"`
		Scores []trial.Score `json:"scores"`
	}{report.Schema, sim.seed, scores})
}

// named reads machine sheets; without any, those to practise on serve.
func (s *session) named(e *engine.Engine, paths []string) ([]fact.Set, error) {
	var known []fact.Set
	if len(paths) == 0 {
		all, err := s.sheets(e)
		for _, m := range all {
			known = append(known, m.Words)
		}
		return known, err
	}
	for _, path := range paths {
		_, words, ps := intake.LoadMachine(path, e.Catalog)
		if ps.HasErrors() {
			return nil, s.refuse(ps)
		}
		s.tell(ps)
		known = append(known, words)
	}
	return known, nil
}

// progress tells a terminal how far a long trial has come; a file is told nothing.
func (s *session) progress(count int) func(done int) {
	if !s.facts.Stderr.Terminal {
		return nil
	}
	return func(done int) {
		if done == count {
			fmt.Fprintf(s.err, "\r%*s\r", 40, "")
		} else if done%5 == 0 {
			fmt.Fprintf(s.err, "\r%d of %d machines", done, count)
		}
	}
}
