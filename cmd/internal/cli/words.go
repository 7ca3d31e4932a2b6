package cli

import (
	"cmp"
	"io/fs"
	"strings"

	"github.com/spf13/cobra"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// newWords looks words up. Several arguments are one text, so that nobody has to
// quote it.
func newWords(s *session) *cobra.Command {
	return &cobra.Command{
		Use:   "words [TEXT]",
		Short: "Look up signs, causes, checks and facts",
		Example: "  takeup words                     what there is\n" +
			"  takeup words creep               all that speak of creeping\n" +
			"  takeup words steels_warped       one cause: how it shows, how to confirm it, what to do\n" +
			"  takeup words measure_linings     one check: how it is done, what each result means\n" +
			"  takeup words deciban             a measure: decibans, odds, bits, scores",
		ValidArgsFunction: s.anyWord,
		RunE: func(_ *cobra.Command, args []string) error {
			e, err := s.open()
			if err != nil {
				return err
			}
			text := strings.Join(args, " ")
			if text == "" {
				d, err := s.drawing("")
				if err != nil {
					return err
				}
				page := report.Contents(e.Catalog, e.Rules)
				page.Blocks = append(page.Blocks, report.Parts(d)...)
				return s.show(page, report.Words(e.Catalog))
			}
			found := report.Search(e.Catalog, text)
			switch len(found) {
			case 0:
				hint := source.DidYouMean(text, wordIDs(report.Words(e.Catalog)))
				if near := report.Near(e.Catalog, text); hint == "" && len(near) > 0 {
					return s.show(report.List("Nothing speaks of all of \""+text+"\"; the nearest", near), near)
				}
				return wrong("nothing in this book speaks of %q", text).with(cmp.Or(hint, "try one plain word; takeup words alone says what there is"))
			case 1:
				page := report.Entry(e.Catalog, e.Rules, found[0])
				cause, _ := e.Catalog.Cause(found[0].ID)
				d, err := s.drawing(cause.Part)
				if err != nil {
					return err
				}
				page.Blocks = append(page.Blocks, report.Where(d, cause.Part)...)
				page.Blocks = append(page.Blocks, s.page(found[0].ID)...)
				return s.show(page, found[0])
			}
			return s.show(report.List("Words with \""+text+"\"", found), found)
		},
	}
}

// page is the student page of a cause or a check, if the pack has one.
func (s *session) page(id string) []document.Block {
	knowing, _, err := s.folders()
	if err != nil {
		return nil
	}
	for _, folder := range []string{"pages/causes/", "pages/checks/"} {
		if text, err := fs.ReadFile(knowing, folder+id+".md"); err == nil {
			return append([]document.Block{document.Rule()}, report.Page(string(text))...)
		}
	}
	return nil
}

// wordIDs lists the ids that a misspelt one is compared with.
func wordIDs(words []report.Word) []string {
	var ids []string
	for _, w := range words {
		ids = append(ids, w.ID)
	}
	return ids
}
