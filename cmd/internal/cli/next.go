package cli

import (
	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/report"
)

// newNext is the advice of the planner with the steps of the check.
func newNext(s *session) *cobra.Command {
	var bench engine.Bench
	c := &cobra.Command{
		Use:   "next CASE",
		Short: "Say what to check next, in steps",
		Example: "  takeup next case.yaml\n" +
			"  takeup next case.yaml --open cover_off           the cover is off already\n" +
			"  takeup next case.yaml --without \"dial gauge\"     without that tool",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "one case file"); err != nil {
				return err
			}
			a, err := s.answer(args[0], bench)
			if err != nil {
				return err
			}
			return s.show(a.Next(), struct {
				Schema int          `json:"schema"`
				Course *plan.Course `json:"course"`
			}{report.Schema, a.Course})
		},
	}
	s.benchFlags(c, &bench)
	return c
}
