package cli

import (
	"slices"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/build"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// newAssemble is the build sheet of a case.
func newAssemble(s *session) *cobra.Command {
	var from string
	c := &cobra.Command{
		Use:   "assemble CASE",
		Short: "Check the parts as listed and give the build sheet, step by step",
		Example: "  takeup assemble case.yaml\n" +
			"  takeup assemble case.yaml --from basket_off      every step from the basket outwards\n" +
			"  takeup assemble case.yaml --format html          a sheet to print and tick off",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "one case file"); err != nil {
				return err
			}
			return s.assemble(args[0], from)
		},
	}
	c.Flags().StringVar(&from, "from", "", "the `stage` to start at (the deepest this job needs)")
	s.completeFlag(c, "from", s.stages)
	return c
}

func (s *session) assemble(file, from string) error {
	e, d, err := s.diagnose(file, engine.Bench{})
	if err != nil {
		return err
	}
	if ids := stageIDs(e.Catalog); from != "" && !slices.Contains(ids, from) {
		return wrong("unknown stage %q", from).with(source.DidYouMean(from, ids))
	}
	sheet, err := e.Build(d, from)
	if err != nil {
		return wrong("%s: %s", file, err)
	}
	return s.show(answerOf(e, d).Sheet(sheet), struct {
		Schema int          `json:"schema"`
		Sheet  *build.Sheet `json:"sheet"`
	}{report.Schema, sheet})
}
