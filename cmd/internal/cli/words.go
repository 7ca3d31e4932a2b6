package cli

import (
	"strings"

	"github.com/spf13/cobra"

	"example.org/takeup/engine/report"
)

func newWords(s *session) *cobra.Command {
	return &cobra.Command{
		Use:   "words [TEXT]",
		Short: "Look up signs, causes, checks and facts",
		Example: "  takeup words                     what there is\n" +
			"  takeup words creep               all that speak of creeping\n" +
			"  takeup words steels_warped       one cause: how it shows, how to confirm it, what to do",
		ValidArgsFunction: s.anyWord,
		RunE: func(_ *cobra.Command, args []string) error {
			e, err := s.open()
			if err != nil {
				return err
			}
			text := strings.Join(args, " ")
			if text == "" {
				return s.show(report.Contents(e.Catalog, e.Rules), report.Words(e.Catalog))
			}
			found := report.Search(e.Catalog, text)
			switch len(found) {
			case 0:
				return wrong("nothing in this book speaks of %q", text).with(meant(text, wordIDs(report.Words(e.Catalog))))
			case 1:
				return s.show(report.Entry(e.Catalog, e.Rules, found[0]), found[0])
			}
			return s.show(report.List("Words with \""+text+"\"", found), found)
		},
	}
}

func wordIDs(words []report.Word) []string {
	var ids []string
	for _, w := range words {
		ids = append(ids, w.ID)
	}
	return ids
}
