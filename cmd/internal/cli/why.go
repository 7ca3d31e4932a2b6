package cli

import (
	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// newWhy accounts for one cause, or sets it against another.
func newWhy(s *session) *cobra.Command {
	var other string
	c := &cobra.Command{
		Use:   "why CASE [CAUSE]",
		Short: "Account for one cause: what speaks for it and what against",
		Example: "  takeup why case.yaml                                 the first cause\n" +
			"  takeup why case.yaml steels_warped\n" +
			"  takeup why case.yaml steels_warped --not hub_notched   why one and not the other",
		ValidArgsFunction: s.caseThenCause,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 2, "a case file and a cause"); err != nil {
				return err
			}
			a, err := s.answer(args[0], engine.Bench{})
			if err != nil {
				return err
			}
			cause, err := causeOf(a, args)
			if err != nil {
				return err
			}
			if other != "" {
				return s.contrast(a, cause, other)
			}
			page, err := a.Why(cause)
			if err != nil {
				return wrong("%s", err)
			}
			c, _ := a.Explanation.Find(cause)
			return s.show(page, struct {
				Schema int           `json:"schema"`
				Cause  explain.Cause `json:"cause"`
			}{report.Schema, c})
		},
	}
	c.Flags().StringVar(&other, "not", "", "the `cause` to set it against")
	s.completeFlag(c, "not", s.causes)
	return c
}

// causeOf is the cause that was named, or the first of the answer.
func causeOf(a report.Answer, args []string) (string, error) {
	if len(args) == 2 {
		return args[1], knownCause(a, args[1])
	}
	if len(a.Explanation.Causes) == 0 {
		return "", wrong("this machine has no possible cause")
	}
	return a.Explanation.Causes[0].ID, nil
}

// knownCause refuses an id that is no cause, with the one that was meant.
func knownCause(a report.Answer, id string) error {
	if _, ok := a.Catalog.Cause(id); ok {
		return nil
	}
	var ids []string
	for _, c := range a.Catalog.Causes {
		ids = append(ids, c.ID)
	}
	hint := source.DidYouMean(id, ids)
	if alike := source.Alike(id, ids); hint == "" && len(alike) > 0 {
		hint = "causes with such a word: " + report.Join(alike)
	}
	if hint == "" {
		hint = "takeup words finds the id of a cause"
	}
	return wrong("unknown cause %q", id).with(hint)
}

// contrast prints why one cause and not another.
func (s *session) contrast(a report.Answer, cause, other string) error {
	if err := knownCause(a, other); err != nil {
		return err
	}
	if cause == other {
		return wrong("%s is set against itself", cause).with("--not names another cause")
	}
	page, err := a.Not(cause, other)
	if err != nil {
		return wrong("%s", err)
	}
	if _, yes := a.RuledOut(cause); yes {
		return s.showRuledOut(page, a)
	}
	if _, yes := a.RuledOut(other); yes {
		return s.showRuledOut(page, a)
	}
	c, err := a.Explanation.Against(cause, other)
	if err != nil {
		return wrong("%s", err)
	}
	return s.show(page, struct {
		Schema   int              `json:"schema"`
		Contrast explain.Contrast `json:"contrast"`
	}{report.Schema, c})
}

// showRuledOut prints that the machine cannot have one of two causes.
func (s *session) showRuledOut(page document.Document, a report.Answer) error {
	return s.show(page, struct {
		Schema   int             `json:"schema"`
		RuledOut []explain.Ruled `json:"ruled_out"`
	}{report.Schema, a.Explanation.RuledOut})
}
