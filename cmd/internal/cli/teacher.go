package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/render/html"
	"example.org/takeup/engine/render/markdown"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// mostSheets bounds one class set.
const mostSheets = 100

// newSheet writes case sheets for a class, with the key apart.
func newSheet(s *session) *cobra.Command {
	var count, level int
	var seed uint64
	var family, out string
	c := &cobra.Command{
		Use:   "sheet",
		Short: "Write case sheets to print, and the answer key apart",
		Long: "Writes sheet.md and sheet.html to hand out, key.md and key.html for the teacher, and every case as\n" +
			"case-N.yaml, to practise on, to change by hand, or to grade against.",
		Example: "  takeup practice sheet --count 4 --seed 11 --level 2 --out class",
		Args:    none,
		RunE: func(*cobra.Command, []string) error {
			if count < 1 || count > mostSheets {
				return wrong("--count is %d, want 1 to %d", count, mostSheets)
			}
			e, err := s.open()
			if err != nil {
				return err
			}
			b := s.book(e)
			var scenarios []*practice.Scenario
			for i := range count {
				x, err := s.drawn(e, b, practice.Order{Seed: seed + uint64(i), Level: level, Family: family})
				if err != nil {
					return err
				}
				scenarios = append(scenarios, x)
			}
			return s.writeSheets(b, scenarios, out)
		},
	}
	f := c.Flags()
	f.IntVar(&count, "count", 3, "`how many` cases")
	f.Uint64Var(&seed, "seed", 1, "`number` of the first case; the next ones follow")
	f.IntVar(&level, "level", 2, "1, 2 or 3, as for practice")
	f.StringVar(&family, "family", "", "`complaint` of all cases")
	f.StringVar(&out, "out", "cases", "`folder` to write to; files in it are never overwritten")
	f.SortFlags = false
	fix(c.MarkFlagDirname("out"))
	s.completeFlag(c, "family", s.families)
	return c
}

// writeSheets writes all files of a class set, or none when one is there already.
func (s *session) writeSheets(b practice.Book, scenarios []*practice.Scenario, folder string) error {
	t := report.Tutor{Book: b}
	var pars []practice.Par
	for _, x := range scenarios {
		par, err := b.Walk(x)
		if err != nil {
			return err
		}
		pars = append(pars, par)
	}
	files := map[string][]byte{}
	var names []string
	put := func(name string, text []byte) { files[name], names = text, append(names, name) }
	for _, p := range []struct {
		name string
		page document.Document
	}{{"sheet", t.Exercises(scenarios)}, {"key", t.Key(scenarios, pars)}} {
		page, err := html.Render(p.page)
		if err != nil {
			return err
		}
		put(p.name+".md", []byte(markdown.Render(p.page)))
		put(p.name+".html", page)
	}
	for i, x := range scenarios {
		put(fmt.Sprintf("case-%d.yaml", i+1), b.YAML(x, t.CaseTitle(x, i+1)))
	}
	for _, name := range names {
		if _, err := os.Stat(filepath.Join(folder, name)); !errors.Is(err, fs.ErrNotExist) {
			return wrong("%s is there already", filepath.Join(folder, name)).with("--out names another folder")
		}
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return wrong("%s", err)
	}
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(folder, name), files[name], 0o666); err != nil {
			return wrong("%s", err)
		}
		fmt.Fprintln(s.out, filepath.ToSlash(filepath.Join(folder, name)))
	}
	return nil
}

// newGrade judges a way that was written down.
func newGrade(s *session) *cobra.Command {
	return &cobra.Command{
		Use:   "grade WAY",
		Short: "Judge a way that was written down",
		Long: "WAY is a file with the case, the moves in order and what was named:\n\n" +
			"  case: case-1.yaml            # or seed: 7, level: 2, family: drag\n" +
			"  moves:\n" +
			"    - history: changed\n" +
			"    - ask: creeps_hot\n" +
			"    - do: measure_free_play    # stages on the way are opened for it\n" +
			"    - open: cover_off\n" +
			"  named:\n" +
			"    - {cause: free_play_large, confidence: 80 %}\n" +
			"  reason: nothing left at the lever",
		Example:           "  takeup practice grade way.yaml",
		ValidArgsFunction: s.caseFiles,
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "one file with a way"); err != nil {
				return err
			}
			e, err := s.open()
			if err != nil {
				return err
			}
			return s.grade(e, args[0])
		},
	}
}

func (s *session) grade(e *engine.Engine, path string) error {
	b := s.book(e)
	file, ps := source.Load(path)
	if file == nil {
		return s.refuse(ps)
	}
	way, ps := practice.ReadWay(file, e.Catalog)
	if ps.HasErrors() {
		return s.refuse(ps)
	}
	var scenario *practice.Scenario
	var err error
	if way.Case.Value != "" {
		scenario, err = s.written(e, b, filepath.Join(filepath.Dir(path), filepath.FromSlash(way.Case.Value)))
	} else {
		scenario, err = s.drawn(e, b, practice.Order{Seed: uint64(way.Seed), Level: max(1, way.Level), Family: way.Family})
	}
	if err != nil {
		return err
	}
	at, more, err := b.Follow(way, scenario)
	if err != nil {
		return wrong("%s: %s", path, err)
	}
	s.tell(append(ps, more...))
	j, err := at.Judge()
	if err != nil {
		return err
	}
	return s.show(report.Tutor{Book: b}.Graded(j, way.Student), struct {
		Schema    int                 `json:"schema"`
		Student   string              `json:"student,omitempty"`
		Judgement *practice.Judgement `json:"judgement"`
	}{report.Schema, way.Student, j})
}
