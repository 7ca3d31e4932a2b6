package cli

import (
	"cmp"

	"github.com/spf13/cobra"

	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// newRules groups what is done to a pack rather than to a case.
func newRules(s *session) *cobra.Command {
	c := &cobra.Command{
		Use:   "rules",
		Short: "Check, test and read the rules",
		Example: "  takeup rules check                 does everything hang together\n" +
			"  takeup rules check --pack my       the same for a pack of your own\n" +
			"  takeup rules test                  run the tests beside the rules\n" +
			"  takeup rules cover                 what rules and tests leave open\n" +
			"  takeup rules show ID               one rule with its reason, or all about a word",
		Args: none,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(newRulesCheck(s), newRulesTest(s), newRulesCover(s), newRulesShow(s), newRulesFreeze(s))
	return c
}

// newRulesCheck ends with 1, not 2, when the pack has errors: finding them is the
// job here.
func newRulesCheck(s *session) *cobra.Command {
	return &cobra.Command{
		Use:               "check",
		Short:             "Read knowledge and rules and report every problem",
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 0, 0, "none"); err != nil {
				return err
			}
			if err := s.settle(); err != nil {
				return err
			}
			e, ps, err := s.read()
			if err != nil {
				return err
			}
			_, more, err := s.phrases(e)
			if err != nil {
				return err
			}
			ps = append(ps, more...)
			s.tell(ps)
			if ps.HasErrors() {
				return &failure{code: findings}
			}
			return s.show(report.Checked(e.Catalog, e.Rules, len(ps)), problems(ps))
		},
	}
}

// newRulesShow prints one rule as a reader of a page wants it.
func newRulesShow(s *session) *cobra.Command {
	return &cobra.Command{
		Use:   "show ID",
		Short: "Show one rule with its reason and basis, or all about one word",
		Example: "  takeup rules show tight_cable_slips_hot   one rule\n" +
			"  takeup rules show steels_warped           every rule about a cause, an effect or a sign",
		ValidArgsFunction: s.anyRule,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "the id of a rule or of a word"); err != nil {
				return err
			}
			e, err := s.open()
			if err != nil {
				return err
			}
			r, ok := e.Rules.Rule(args[0])
			if page, about := report.RulesAbout(e.Catalog, e.Rules, args[0]); !ok && about {
				return s.show(page, e.Rules.About(args[0]))
			}
			if !ok {
				hint := source.DidYouMean(args[0], ruleIDs(e.Rules.Rules))
				return wrong("unknown rule %q", args[0]).with(cmp.Or(hint, "a cause, an effect or a sign lists its rules; takeup words finds their ids"))
			}
			return s.show(report.RulePage(e.Catalog, r), r)
		},
	}
}
