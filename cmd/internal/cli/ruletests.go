package cli

import (
	"github.com/spf13/cobra"

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
	return &cobra.Command{
		Use:               "cover",
		Short:             "Say what rules, knowledge and tests leave open",
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(_ *cobra.Command, args []string) error {
			_, open, err := s.tested(args)
			if err != nil {
				return err
			}
			gaps := []report.Gap{}
			for _, g := range open {
				gaps = append(gaps, report.Gap(g))
			}
			if err := s.show(report.Covered(gaps), gaps); err != nil {
				return err
			}
			return found(len(gaps))
		},
	}
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
