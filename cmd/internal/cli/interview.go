package cli

import (
	"github.com/spf13/cobra"

	"example.org/takeup/engine"
)

// newInterview asks and saves. Questions go to stderr, so that stdout holds the
// answer alone.
func newInterview(s *session) *cobra.Command {
	var bench engine.Bench
	var out string
	c := &cobra.Command{
		Use:   "interview [CASE]",
		Short: "Ask one question at a time and save every answer in a case file",
		Long: "Asks one question at a time, the most telling first, and saves every answer at once: the\n" +
			"complaint, the history, what can be seen, tried and measured without opening the machine. Instead of an\n" +
			"answer, ? tells why it is asked and how to tell, s skips it, b goes back, w shows the ranking so far, and\n" +
			"q or the end of the input stops. Without CASE it starts a new one.",
		Example: "  takeup interview                                 a new case, its file named after the complaint\n" +
			"  takeup interview case.yaml                       go on with a case\n" +
			"  takeup interview --machine sheet.yaml --out case.yaml",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 0, 1, "one case file or none"); err != nil {
				return err
			}
			if len(args) == 1 && out != "" {
				return wrong("--out is for a new case").with("leave it out: answers are saved in " + args[0])
			}
			e, err := s.open()
			if err != nil {
				return err
			}
			if err := checkBench(e.Catalog, bench); err != nil {
				return err
			}
			t := newTalk(s, e, bench)
			if len(args) == 1 {
				t.file = args[0]
			} else if err := t.begin(out); err != nil || t.file == "" {
				return err
			}
			return t.run()
		},
	}
	c.Flags().StringVar(&out, "out", "", "`file` for the new case (made from its title if not given)")
	s.benchFlags(c, &bench)
	return c
}
