package cli

import (
	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/report"
)

// deepest is the most steps that a plan is written out for along one way: its
// length doubles with every one.
const deepest = 8

// newPlan is the plan of a case written out.
func newPlan(s *session) *cobra.Command {
	var bench engine.Bench
	var depth int
	c := &cobra.Command{
		Use:   "plan CASE",
		Short: "Write the plan out: check, result, what next, and what it takes",
		Example: "  takeup plan case.yaml\n" +
			"  takeup plan case.yaml --depth 2                  the first two steps of every way\n" +
			"  takeup plan case.yaml --format html > plan.html  with the plan as a drawing",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "one case file"); err != nil {
				return err
			}
			if depth < 1 || depth > deepest {
				return wrong("--depth is %d, want 1 to %d", depth, deepest)
			}
			return s.plan(args[0], bench, depth)
		},
	}
	c.Flags().IntVar(&depth, "depth", 4, "`steps` to write out along each way")
	s.benchFlags(c, &bench)
	return c
}

func (s *session) plan(file string, bench engine.Bench, depth int) error {
	e, d, err := s.diagnose(file, bench)
	if err != nil {
		return err
	}
	o, err := e.Outline(d, bench, depth)
	if err != nil {
		return wrong("%s: %s", file, err)
	}
	a := answerOf(e, d)
	a.Handout = s.format == "html"
	return s.show(a.Plan(o), struct {
		Schema  int          `json:"schema"`
		Outlook plan.Outlook `json:"outlook"`
	}{report.Schema, o})
}
