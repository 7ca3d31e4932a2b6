package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// newDiagnose is the main job. --stage prints JSON whatever --format says: a
// stage has no other form.
func newDiagnose(s *session) *cobra.Command {
	var bench engine.Bench
	var all, brief bool
	var stage string
	c := &cobra.Command{
		Use:   "diagnose CASE",
		Short: "Say what is likely wrong, why, and what to check next",
		Example: "  takeup diagnose case.yaml\n" +
			"  takeup diagnose case.yaml --all                  every cause with its account\n" +
			"  takeup diagnose case.yaml --format bbcode        as a forum post\n" +
			"  takeup diagnose case.yaml --stage firings        what each rule said, as JSON",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "one case file"); err != nil {
				return err
			}
			if names := report.StageNames(); stage != "" && !slices.Contains(names, stage) {
				return wrong("unknown stage %q, want %s", stage, strings.Join(names, ", ")).with(source.DidYouMean(stage, names))
			}
			if all && brief {
				return wrong("--all and --brief cannot go together")
			}
			a, err := s.answer(args[0], bench)
			if err != nil {
				return err
			}
			if value, ok := a.Stage(stage); ok {
				return data.Write(s.out, value)
			}
			if s.format == "json" {
				return data.Write(s.out, a.Result())
			}
			if brief {
				return s.show(a.Brief(), nil)
			}
			if err := s.draw(&a); err != nil {
				return err
			}
			return s.show(a.Diagnosis(all), nil)
		},
	}
	c.Flags().BoolVar(&all, "all", false, "show every cause with its account")
	c.Flags().BoolVar(&brief, "brief", false, "the answer in a few lines, for a message")
	c.Flags().StringVar(&stage, "stage", "", "print a `step` of the reasoning as JSON: "+strings.Join(report.StageNames(), ", "))
	s.benchFlags(c, &bench)
	s.copyFlag(c)
	s.completeFlag(c, "stage", report.StageNames)
	return c
}
