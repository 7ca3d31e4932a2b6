package cli

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.org/takeup/engine/source"
)

// newRoot is the tree of commands. One line here and one file make a command.
func newRoot(s *session) *cobra.Command {
	root := &cobra.Command{
		Use:   "takeup",
		Short: "Reason about faults of a wet multi-plate motorcycle clutch",
		Long: "takeup reasons about faults of a wet multi-plate motorcycle clutch: what is likely wrong,\n" +
			"why, and what to check next. It weighs what it was told and decides nothing: the machine's\n" +
			"own service manual and a qualified technician do.",
		Example: "  takeup interview                       be asked, one question at a time\n" +
			"  takeup diagnose case.yaml              what is likely wrong\n" +
			"  takeup why case.yaml steels_warped     how one cause stands, line by line\n" +
			"  takeup next case.yaml                  what to check next, in steps\n" +
			"  takeup plan case.yaml                  the whole way, check by check\n" +
			"  takeup assemble case.yaml              how it goes back together\n" +
			"  takeup read post.txt                   a post or a note into a draft case\n" +
			"  takeup words creep                     look up signs, causes, checks",
		Args:          none,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.AddCommand(newPractice(s))
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(flagError)
	root.SetUsageTemplate(usageTemplate)
	s.flags(root.PersistentFlags())
	s.complete(root)
	root.AddCommand(newDiagnose(s), newWhy(s), newNext(s), newPlan(s), newSimulate(s), newInterview(s), newRead(s), newInspect(s), newAssemble(s), newBatch(s), newWords(s), newRules(s))
	return root
}

// usageTemplate puts the examples first and keeps the rest short.
const usageTemplate = `{{if .HasExample}}{{.Example}}

{{end}}usage: {{if .HasAvailableSubCommands}}{{.CommandPath}} COMMAND{{else}}{{.UseLine}}{{end}}
{{if .HasAvailableSubCommands}}
commands:{{range .Commands}}{{if .IsAvailableCommand}}
  {{rpad .Name .NamePadding}} {{.Short}}{{end}}{{end}}
{{end}}{{if .HasAvailableLocalFlags}}
flags:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}{{if .HasAvailableInheritedFlags}}
flags of every command:
{{.InheritedFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}
exit codes: 0 done, 1 findings, 2 usage or unreadable input, 3 fault of the program
`

// flagError adds to cobra's message about flags the flag that was meant.
func flagError(c *cobra.Command, err error) error {
	_, name, found := strings.Cut(err.Error(), "unknown flag: --")
	if !found {
		return wrong("%s", err).with("run " + c.CommandPath() + " --help")
	}
	var names []string
	add := func(f *pflag.Flag) { names = append(names, "--"+f.Name) }
	c.Flags().VisitAll(add)
	c.InheritedFlags().VisitAll(add)
	hint := source.DidYouMean("--"+name, names)
	if hint == "" {
		hint = "run " + c.CommandPath() + " --help"
	}
	return wrong("unknown flag --%s", name).with(hint)
}
