package cli

import (
	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/rule"
)

// complete gives the flags of every command their values.
func (s *session) complete(root *cobra.Command) {
	s.completeFlag(root, "format", func() []string { return formats })
	s.completeFlag(root, "color", func() []string { return []string{"always", "auto", "never"} })
	fix(root.MarkPersistentFlagDirname("pack"))
	fix(root.MarkPersistentFlagFilename("machine", "yaml"))
}

// completeFlag gives one flag its values, each perhaps with a tab and a
// description.
func (s *session) completeFlag(c *cobra.Command, flag string, values func() []string) {
	fix(c.RegisterFlagCompletionFunc(flag, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return values(), cobra.ShellCompDirectiveNoFileComp
	}))
}

// fix is for errors that only a flag that does not exist can raise.
func fix(err error) {
	if err != nil {
		panic(err)
	}
}

// caseFiles completes one case file.
func (s *session) caseFiles(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"yaml"}, cobra.ShellCompDirectiveFilterFileExt
}

// caseThenCause completes a case file, then one of the causes.
func (s *session) caseThenCause(c *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 1 {
		return s.causes(), cobra.ShellCompDirectiveNoFileComp
	}
	return s.caseFiles(c, args, text)
}

// anyWord completes whatever can be looked up.
func (s *session) anyWord(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return s.words(""), cobra.ShellCompDirectiveNoFileComp
}

// anyRule completes the id of a rule and shows its reason beside it.
func (s *session) anyRule(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return s.fromPack(func(e *engine.Engine) (out []string) {
		for _, r := range e.Rules.Rules {
			out = append(out, described(r))
		}
		return out
	}), cobra.ShellCompDirectiveNoFileComp
}

// described is an id with its description, as shells want it: after a tab.
func described(r rule.Rule) string { return r.ID + "\t" + r.Because }

// causes, stages and tools are what flags and arguments can name.
func (s *session) causes() []string { return s.words("cause") }

func (s *session) stages() []string { return s.words("stage") }

func (s *session) tools() []string {
	return s.fromPack(func(e *engine.Engine) []string { return toolNames(e.Catalog) })
}

// words lists the ids of one kind, or of all, with their names.
func (s *session) words(kind string) []string {
	return s.fromPack(func(e *engine.Engine) (out []string) {
		for _, w := range report.Words(e.Catalog) {
			if kind == "" || w.Kind == kind {
				out = append(out, w.Plainly())
			}
		}
		return out
	})
}

// fromPack offers nothing when the pack cannot be read: a shell that completes
// is no place for problems.
func (s *session) fromPack(list func(*engine.Engine) []string) []string {
	e, ps, err := s.read()
	if err != nil || ps.HasErrors() {
		return nil
	}
	return list(e)
}
