package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/report"
)

// newInspect judges measurements, or writes an empty machine sheet to hold them
// against.
func newInspect(s *session) *cobra.Command {
	var working, sheet bool
	c := &cobra.Command{
		Use:   "inspect CASE",
		Short: "Judge measurements against the machine's limits, and what they add up to",
		Example: "  takeup inspect case.yaml\n" +
			"  takeup inspect case.yaml --machine my-machine.yaml\n" +
			"  takeup inspect case.yaml --show-working          formulas, inputs, sources\n" +
			"  takeup inspect --new-machine > my-machine.yaml   a machine sheet to fill in",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if sheet {
				return s.newMachine(args)
			}
			if err := count(args, 1, 1, "one case file"); err != nil {
				return err
			}
			return s.inspect(args[0], working)
		},
	}
	c.Flags().BoolVar(&working, "show-working", false, "show formulas, inputs and sources")
	c.Flags().BoolVar(&sheet, "new-machine", false, "write an empty machine sheet with comments")
	return c
}

func (s *session) inspect(file string, working bool) error {
	e, d, err := s.diagnose(file, engine.Bench{})
	if err != nil {
		return err
	}
	found := e.Inspect(d)
	return s.show(answerOf(e, d).Inspection(found, working), report.Measured{Schema: report.Schema, Inspection: found})
}

func (s *session) newMachine(args []string) error {
	if err := count(args, 0, 0, "no argument beside --new-machine"); err != nil {
		return err
	}
	e, err := s.open()
	if err != nil {
		return err
	}
	_, err = fmt.Fprint(s.out, report.MachineSheet(e.Catalog))
	return err
}
