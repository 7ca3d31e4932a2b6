package cli

import (
	"github.com/spf13/cobra"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/ruletest"
	"example.org/takeup/engine/source"
)

// newRulesTest runs the tests; one that fails is a finding.
func newRulesTest(s *session) *cobra.Command {
	return &cobra.Command{
		Use:               "test",
		Short:             "Run the tests that stand beside the rules",
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(_ *cobra.Command, args []string) error {
			r, _, err := s.tested(args)
			if err != nil {
				return err
			}
			var failures []report.Failure
			for _, f := range r.Failures {
				failures = append(failures, report.Failure(f))
			}
			if err := s.show(report.Tested(r.Tests, r.Passed, failures), r); err != nil {
				return err
			}
			return found(len(failures))
		},
	}
}

// newRulesCover lists what nothing tries; a gap is a finding, so that a check of
// contributions can fail on it.
func newRulesCover(s *session) *cobra.Command {
	simulate, seed := 0, uint64(1)
	c := &cobra.Command{
		Use:   "cover",
		Short: "Say what rules, knowledge and tests leave open",
		Example: "  takeup rules cover\n" +
			"  takeup rules cover --simulate 10 --machine sheet.yaml    also which causes no check tells apart",
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(_ *cobra.Command, args []string) error {
			_, open, err := s.tested(args)
			if err != nil {
				return err
			}
			if simulate > 0 {
				return s.separated(open, simulate, seed)
			}
			gaps := gapsOf(open)
			if err := s.show(report.Covered(gaps), gaps); err != nil {
				return err
			}
			return found(len(gaps))
		},
	}
	c.Flags().IntVar(&simulate, "simulate", 0, "draw `cases` of each cause and tell which causes are taken for which (a minute for ten)")
	c.Flags().Uint64Var(&seed, "seed", 1, "`number` that names the cases drawn by --simulate")
	return c
}

// separated adds what a simulation tells to what is left open.
func (s *session) separated(open []ruletest.Gap, each int, seed uint64) error {
	e, err := s.open()
	if err != nil {
		return err
	}
	var sheets []fact.Set
	if s.machine != "" {
		_, known, ps := intake.LoadMachine(s.machine, e.Catalog)
		if ps.HasErrors() {
			return s.refuse(ps)
		}
		sheets = append(sheets, known)
	}
	level, more, err := ruletest.Separate(e.Catalog, e.Rules, sheets, each, seed)
	if err != nil {
		return err
	}
	list, first := []report.Apart{}, 0.0
	for _, c := range level.Causes {
		list = append(list, report.Apart{Cause: c.ID, Cases: c.Cases, First: c.First, TakenFor: c.ConfusedWith, Share: c.Share})
		first += c.First / float64(len(level.Causes))
	}
	gaps := gapsOf(append(open, more...))
	data := map[string]any{"schema": 1, "gaps": gaps, "causes": list}
	if err := s.show(report.ToldApart(report.Covered(gaps), first, list), data); err != nil {
		return err
	}
	return found(len(gaps))
}

// gapsOf is a list that prints as [] when it is empty.
func gapsOf(open []ruletest.Gap) []report.Gap {
	gaps := []report.Gap{}
	for _, g := range open {
		gaps = append(gaps, report.Gap(g))
	}
	return gaps
}

// tested runs the tests of the pack and lists what is left open.
func (s *session) tested(args []string) (*ruletest.Report, []ruletest.Gap, error) {
	if err := count(args, 0, 0, "none"); err != nil {
		return nil, nil, err
	}
	e, err := s.open()
	if err != nil {
		return nil, nil, err
	}
	_, ruling, err := s.folders()
	if err != nil {
		return nil, nil, err
	}
	r, ps := ruletest.Run(ruling, e.Catalog, e.Rules)
	for i := range ps {
		ps[i].Pos.File = "rules/" + ps[i].Pos.File
	}
	if ps.HasErrors() {
		return nil, nil, s.refuse(ps)
	}
	return r, ruletest.Gaps(e.Catalog, e.Rules, r), nil
}

// found ends a command that has printed n findings.
func found(n int) error {
	if n == 0 {
		return nil
	}
	return &failure{code: findings}
}

// ruleIDs lists the ids that a misspelt one is compared with.
func ruleIDs(rules []rule.Rule) []string {
	var ids []string
	for _, r := range rules {
		ids = append(ids, r.ID)
	}
	return ids
}

// problems is a list that prints as [] when it is empty.
func problems(ps source.Problems) source.Problems { return append(source.Problems{}, ps...) }
