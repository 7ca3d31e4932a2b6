package cli

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// practising is what the flags of practice say.
type practising struct {
	seed     uint64
	level    int
	family   string
	scenario string
	progress string
	review   bool
	export   bool
	remove   bool
	dry      bool
}

// newPractice is an exercise at a machine with a hidden fault.
func newPractice(s *session) *cobra.Command {
	var p practising
	c := &cobra.Command{
		Use:   "practice",
		Short: "Practise on a machine with a hidden fault",
		Long: "A machine comes in with a complaint. Ask, check, open, and name the cause with how sure you are.\n" +
			"At the end: what each step told, what the planner would have done, and what to learn from it.\n" +
			"Everything is asked and answered line by line; the talk goes to stderr, the judgement to stdout.",
		Example: "  takeup practice                          the next case, leaning towards what went badly\n" +
			"  takeup practice --level 2 --family drag --seed 7\n" +
			"  takeup practice --scenario case.yaml     a case with its truth written down\n" +
			"  takeup practice --review                 how you stand",
		Args: none,
		RunE: func(*cobra.Command, []string) error { return s.practise(p) },
	}
	f := c.Flags()
	f.Uint64Var(&p.seed, "seed", 0, "`number` of the case (0: the next by your progress)")
	f.IntVar(&p.level, "level", 1, "1 a fault near the surface, 2 any fault, 3 perhaps two and a customer of few words")
	f.StringVar(&p.family, "family", "", "`complaint` to practise")
	f.StringVar(&p.scenario, "scenario", "", "case `file` with found: in it, to practise on")
	f.StringVar(&p.progress, "progress", "", "`file` that progress is kept in (default: in your data folder)")
	f.BoolVar(&p.review, "review", false, "show strengths and confusions, and stop")
	f.BoolVar(&p.export, "export", false, "print the progress as JSON, and stop")
	f.BoolVar(&p.remove, "delete", false, "delete the progress, and stop")
	f.BoolVar(&p.dry, "unrecorded", false, "keep no progress of this case")
	f.SortFlags = false
	fix(c.MarkFlagFilename("scenario", "yaml"))
	s.completeFlag(c, "family", s.families)
	c.AddCommand(newSheet(s), newGrade(s))
	return c
}

func (s *session) practise(p practising) error {
	file := p.progress
	if file == "" {
		var err error
		if file, err = progressFile(); err != nil {
			return wrong("%s", err).with("--progress names a file")
		}
	}
	progress, err := practice.LoadProgress(file)
	if err != nil {
		return wrong("%s", err).with("move the file away, or name another with --progress")
	}
	switch {
	case p.export:
		return data.Write(s.out, progress)
	case p.remove:
		if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return wrong("%s", err)
		}
		return nil
	}
	e, err := s.open()
	if err != nil {
		return err
	}
	t := report.Tutor{Book: s.book(e)}
	if p.review {
		r := progress.Review()
		return s.show(t.Reviewed(r), struct {
			Schema int             `json:"schema"`
			Review practice.Review `json:"review"`
		}{report.Schema, r})
	}
	scenario, err := s.scenario(e, t.Book, p, progress)
	if err != nil {
		return err
	}
	l := newExercise(s, t, scenario, s.in)
	done, err := l.run()
	if err != nil || !done {
		return err
	}
	return l.close(progress, file, p.dry)
}

// progressFile is where progress is kept unless a flag says otherwise: the data
// folder of the user after the base directory specification of freedesktop.org,
// or the system's own folder for settings where that is not in use.
func progressFile() (string, error) {
	if dir := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "takeup", "progress.json"), nil
	}
	if home, err := os.UserHomeDir(); err == nil && filepath.Separator == '/' {
		return filepath.Join(home, ".local", "share", "takeup", "progress.json"), nil
	}
	dir, err := os.UserConfigDir()
	return filepath.Join(dir, "takeup", "progress.json"), err
}

// book is the pack as exercises see it.
func (s *session) book(e *engine.Engine) practice.Book {
	b := practice.Book{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Derived: e.Derived}
	if knowing, _, err := s.folders(); err == nil {
		b.Phrases = practice.Phrases(knowing)
	}
	return b
}

// sheets are the machines to practise on: the one asked for, or those of the pack.
func (s *session) sheets(e *engine.Engine) ([]intake.Sheet, error) {
	if s.machine != "" {
		m, words, ps := intake.LoadMachine(s.machine, e.Catalog)
		if ps.HasErrors() {
			return nil, s.refuse(ps)
		}
		return []intake.Sheet{{Machine: m, Words: words}}, nil
	}
	knowing, _, err := s.folders()
	if err != nil {
		return nil, err
	}
	list, ps := intake.Machines(knowing, e.Catalog)
	if ps.HasErrors() {
		return nil, s.refuse(ps)
	}
	if len(list) == 0 {
		list = []intake.Sheet{{}}
	}
	return list, nil
}

// scenario is the case to practise on: the file that was named, or a drawn one.
func (s *session) scenario(e *engine.Engine, b practice.Book, p practising, progress *practice.Progress) (*practice.Scenario, error) {
	if p.scenario != "" {
		return s.written(e, b, p.scenario)
	}
	o := practice.Order{Seed: p.seed, Level: p.level, Family: p.family}
	if p.seed == 0 {
		o.Seed, o.Lean = progress.NextSeed(), progress.Leaning()
	}
	return s.drawn(e, b, o)
}

// drawn draws a case after checking what was ordered.
func (s *session) drawn(e *engine.Engine, b practice.Book, o practice.Order) (*practice.Scenario, error) {
	if o.Level < 1 || o.Level > practice.Levels {
		return nil, wrong("--level is %d, want 1 to %d", o.Level, practice.Levels)
	}
	if err := checkFamily(e, o.Family); err != nil {
		return nil, err
	}
	sheets, err := s.sheets(e)
	if err != nil {
		return nil, err
	}
	scenario, err := b.Draw(o, sheets)
	if errors.Is(err, practice.ErrNoCase) {
		return nil, wrong("%s", err).with("another --level or --family has more of them")
	}
	return scenario, err
}

// written reads a case file with its truth in it.
func (s *session) written(e *engine.Engine, b practice.Book, path string) (*practice.Scenario, error) {
	c, err := s.load(e, path)
	if err != nil {
		return nil, err
	}
	scenario, ps := b.Scenario(c)
	if ps.HasErrors() {
		return nil, s.refuse(ps)
	}
	s.tell(ps)
	return scenario, nil
}

func checkFamily(e *engine.Engine, id string) error {
	var ids []string
	for _, f := range e.Catalog.Families {
		if f.ID == id || id == "" {
			return nil
		}
		ids = append(ids, f.ID)
	}
	return wrong("unknown complaint %q", id).with(cmp.Or(source.DidYouMean(id, ids), "known: "+report.Join(ids)))
}

// families lists the complaints for completion.
func (s *session) families() []string {
	e, _, err := s.read()
	if err != nil {
		return nil
	}
	var out []string
	for _, f := range e.Catalog.Families {
		out = append(out, f.ID+"\t"+f.Name)
	}
	return out
}
