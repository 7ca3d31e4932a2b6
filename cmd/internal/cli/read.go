package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/interview"
	"example.org/takeup/engine/prose"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// largestPost is the most of a post that is read, in bytes.
const largestPost = 1 << 20

// newRead turns a post into a draft case, or into the answer to its writer.
func newRead(s *session) *cobra.Command {
	var out string
	var reply, brief bool
	c := &cobra.Command{
		Use:   "read POST",
		Short: "Read a post or a note and write a draft case, or the reply",
		Long: "Reads plain English: a post in a forum, a mail, a note on a job card. Writes a draft case in which every\n" +
			"line ends with the words it was taken from; what is uncertain, left out or not understood stands in\n" +
			"comments. With --reply it writes the answer to the poster instead. \"-\" reads the standard input.",
		Example: "  takeup read post.txt                           the draft, to look at\n" +
			"  takeup read post.txt --out case.yaml           the draft, to work on\n" +
			"  takeup read post.txt --reply --format bbcode   the answer, to paste into the forum\n" +
			"  takeup read - --reply --brief --copy           the same in a few lines, from and to the clipboard",
		RunE: func(_ *cobra.Command, args []string) error {
			if err := count(args, 1, 1, "one text file, or - for the standard input"); err != nil {
				return err
			}
			if reply && out != "" {
				return wrong("--out writes the draft, --reply the answer").with("leave out one of the two")
			}
			if brief && !reply {
				return wrong("--brief is for --reply")
			}
			return s.readPost(args[0], out, reply, brief)
		},
	}
	c.Flags().StringVar(&out, "out", "", "write the draft to this new `file`")
	c.Flags().BoolVar(&reply, "reply", false, "write the answer to the poster")
	c.Flags().BoolVar(&brief, "brief", false, "keep the answer short")
	s.copyFlag(c)
	return c
}

func (s *session) readPost(name, out string, reply, brief bool) error {
	post, err := s.post(name)
	if err != nil {
		return err
	}
	e, err := s.open()
	if err != nil {
		return err
	}
	l, err := s.lexicon(e)
	if err != nil {
		return err
	}
	r := l.Read(post)
	switch {
	case reply:
		return s.reply(e, r, brief)
	case out != "":
		return s.save(r, out)
	case s.format == "json":
		return data.Write(s.out, struct {
			Schema int            `json:"schema"`
			Read   *prose.Reading `json:"reading"`
		}{report.Schema, r})
	}
	return s.give(string(r.Draft()))
}

// post reads the text; a binary file is no post.
func (s *session) post(name string) (string, error) {
	in := io.Reader(s.in)
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			var pathErr *fs.PathError
			if errors.As(err, &pathErr) {
				err = pathErr.Err
			}
			return "", wrong("cannot read %s: %s", name, err)
		}
		defer file.Close()
		in = file
	}
	text, err := io.ReadAll(io.LimitReader(in, largestPost))
	if err != nil {
		return "", wrong("cannot read %s: %s", name, err)
	}
	for _, b := range text {
		if b == 0 {
			return "", wrong("%s is no text", name)
		}
	}
	return string(text), nil
}

// lexicon reads the phrases of the pack in use.
func (s *session) lexicon(e *engine.Engine) (*prose.Lexicon, error) {
	l, ps, err := s.phrases(e)
	if err == nil && ps.HasErrors() {
		err = s.refuse(ps)
	}
	return l, err
}

// phrases is lexicon without an opinion on the problems.
func (s *session) phrases(e *engine.Engine) (*prose.Lexicon, source.Problems, error) {
	knowing, _, err := s.folders()
	if err != nil {
		return nil, nil, err
	}
	l, ps := prose.Load(knowing, e.Catalog)
	for i := range ps {
		ps[i].Pos.File = "knowledge/" + ps[i].Pos.File
	}
	return l, ps, nil
}

// save writes the draft to a file that is not there yet: a case that somebody
// has worked on is not to be lost.
func (s *session) save(r *prose.Reading, name string) error {
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return wrong("%s is there already", name).with("choose another name, or remove it first")
	}
	if err == nil {
		_, err = file.Write(r.Draft())
		err = errors.Join(err, file.Close())
	}
	if err != nil {
		return wrong("cannot write %s: %s", name, err)
	}
	fmt.Fprintln(s.err, report.Drafted(r, name))
	return nil
}

// reply reasons about the draft and answers its writer.
func (s *session) reply(e *engine.Engine, r *prose.Reading, brief bool) error {
	c, ps := intake.Parse(&source.File{Name: "the post", Text: r.Draft()}, e.Catalog, nil)
	if ps.HasErrors() {
		return &failure{code: internal, message: "the draft cannot be read: " + ps.Error()}
	}
	if s.machine != "" {
		m, words, more := intake.LoadMachine(s.machine, e.Catalog)
		if more.HasErrors() {
			return s.refuse(more)
		}
		c.SetMachine(m, words)
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		return wrong("the post: %s", err)
	}
	ask, err := worthAsking(e, c, r)
	if err != nil {
		return wrong("the post: %s", err)
	}
	a := answerOf(e, d)
	return s.show(a.Reply(r, ask, brief), a.Result())
}

// How many questions a reply may need, and how many are tried to find them.
const (
	askBack  = 3
	askTries = 8
)

// worthAsking picks the questions that tell most, of those that a rider can answer
// from memory. What the post brought up without saying when is asked about anyway.
func worthAsking(e *engine.Engine, c *intake.Case, r *prose.Reading) ([]interview.Question, error) {
	sit := interview.Situation{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Derived: e.Derived, Case: c, Skipped: map[string]bool{}}
	for _, m := range r.Vague {
		for _, q := range e.Catalog.Questions {
			for _, sign := range q.Signs {
				sit.Skipped[sign] = sit.Skipped[sign] || q.ID == m.Question
			}
		}
	}
	var out []interview.Question
	for range askTries {
		q, st, err := interview.Next(sit)
		if err != nil || st.End != "" || len(out) == askBack {
			return out, err
		}
		if q.Kind == interview.Complaint && len(r.Vague) == 0 {
			return []interview.Question{q}, nil // the rest waits for this
		}
		if q.Check == "" && q.Kind != interview.Reading && q.Kind != interview.Complaint {
			out = append(out, q)
		}
		for _, id := range interview.About(q) {
			sit.Skipped[id] = true
		}
	}
	return out, nil
}
