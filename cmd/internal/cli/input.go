package cli

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.org/takeup/engine"
	"example.org/takeup/engine/figure"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
	"example.org/takeup/knowledge"
	"example.org/takeup/rules"
)

// folders are the two folders of the pack in use.
func (s *session) folders() (knowing, ruling fs.FS, err error) {
	if s.pack == "" {
		return knowledge.Files, rules.Files, nil
	}
	for _, name := range []string{"knowledge", "rules"} {
		dir := filepath.Join(s.pack, name)
		if info, err := os.Stat(dir); err != nil || !info.IsDir() {
			return nil, nil, wrong("pack %s has no folder %s", s.pack, name).with("--pack names a folder that holds knowledge/ and rules/")
		}
	}
	return os.DirFS(filepath.Join(s.pack, "knowledge")), os.DirFS(filepath.Join(s.pack, "rules")), nil
}

// open reads the pack; its problems are printed and errors end the command.
func (s *session) open() (*engine.Engine, error) {
	if err := s.settle(); err != nil {
		return nil, err
	}
	e, ps, err := s.read()
	if err != nil {
		return nil, err
	}
	if ps.HasErrors() {
		return nil, s.refuse(ps)
	}
	return e, nil
}

// read is open without an opinion on the problems.
func (s *session) read() (*engine.Engine, source.Problems, error) {
	knowing, ruling, err := s.folders()
	if err != nil {
		return nil, nil, err
	}
	if s.pack == "" {
		e, ps := engine.OpenFrozen(knowledge.Frozen, knowing, ruling)
		return e, ps, nil
	}
	e, ps := engine.Open(knowing, ruling)
	return e, ps, nil
}

// refuse prints problems and ends the command as unreadable input.
func (s *session) refuse(ps source.Problems) error {
	s.tell(ps)
	return &failure{code: usage}
}

// tell prints problems with the lines they are about.
func (s *session) tell(ps source.Problems) {
	files := map[string]*source.File{}
	for _, p := range ps {
		s.fetch(p.Pos.File, files)
		for _, r := range p.Related {
			s.fetch(r.Pos.File, files)
		}
	}
	ps.Render(s.err, files)
}

// fetch reads a file that a problem names: one of the pack, or a path.
func (s *session) fetch(name string, into map[string]*source.File) {
	if into[name] != nil || name == "" {
		return
	}
	knowing, ruling, err := s.folders()
	if err != nil {
		return
	}
	var file *source.File
	if rest, ok := strings.CutPrefix(name, "knowledge/"); ok {
		file, _ = source.LoadFS(knowing, rest)
	} else if rest, ok := strings.CutPrefix(name, "rules/"); ok {
		file, _ = source.LoadFS(ruling, rest)
	}
	if file == nil {
		file, _ = source.Load(name)
	}
	if file != nil {
		into[name] = file
	}
}

// load reads the case, with another machine sheet where --machine names one.
func (s *session) load(e *engine.Engine, path string) (*intake.Case, error) {
	c, ps := intake.Load(path, e.Catalog)
	if s.machine != "" && c != nil {
		m, words, more := intake.LoadMachine(s.machine, e.Catalog)
		ps = append(ps, more...)
		c.SetMachine(m, words)
	}
	if ps.HasErrors() {
		return nil, s.refuse(ps)
	}
	s.tell(ps) // warnings
	return c, nil
}

// answer opens the pack, reads the case and reasons about it.
func (s *session) answer(path string, bench engine.Bench) (report.Answer, error) {
	e, d, err := s.diagnose(path, bench)
	if err != nil {
		return report.Answer{}, err
	}
	return answerOf(e, d), nil
}

// diagnose is answer before it is made ready for pages.
func (s *session) diagnose(path string, bench engine.Bench) (*engine.Engine, *engine.Diagnosis, error) {
	e, err := s.open()
	if err != nil {
		return nil, nil, err
	}
	if err := checkBench(e.Catalog, bench); err != nil {
		return nil, nil, err
	}
	c, err := s.load(e, path)
	if err != nil {
		return nil, nil, err
	}
	d, err := e.Diagnose(c, bench)
	if err != nil {
		return nil, nil, wrong("%s: %s", path, err)
	}
	return e, d, nil
}

// draw makes the page of an answer a hand-out with the drawing of the pack, where the
// format can show it.
func (s *session) draw(a *report.Answer) (err error) {
	a.Handout = s.format == "html"
	if len(a.Explanation.Causes) == 0 {
		return nil
	}
	first, _ := a.Catalog.Cause(a.Explanation.Causes[0].ID)
	a.Drawing, err = s.drawing(first.Part)
	return err
}

// drawing is the drawing of the pack that holds a part, else the first; nil where the
// format cannot show one.
func (s *session) drawing(part string) (*figure.Drawing, error) {
	if s.format != "html" {
		return nil, nil
	}
	knowing, _, err := s.folders()
	if err != nil {
		return nil, err
	}
	drawings, ps := engine.Figures(knowing)
	if ps.HasErrors() {
		return nil, s.refuse(ps)
	}
	for _, d := range drawings {
		if slices.Contains(d.Parts(), part) {
			return d, nil
		}
	}
	if len(drawings) == 0 {
		return nil, nil
	}
	return drawings[0], nil
}

// answerOf is a diagnosis with the pack it was made with.
func answerOf(e *engine.Engine, d *engine.Diagnosis) report.Answer {
	return report.Answer{
		Catalog: e.Catalog, Rules: e.Rules, Case: d.Case, Firings: d.Firings, Network: d.Network, Evidence: d.Evidence,
		Explanation: d.Explanation, Cautions: d.Cautions, Course: d.Course,
	}
}

// count refuses too few or too many arguments in words.
func count(args []string, least, most int, want string) error {
	if len(args) < least || len(args) > most {
		return wrong("got %s, want %s", arguments(len(args)), want)
	}
	return nil
}

// arguments counts in words, as the messages do.
func arguments(n int) string {
	switch n {
	case 0:
		return "no argument"
	case 1:
		return "one argument"
	}
	return fmt.Sprintf("%d arguments", n)
}
