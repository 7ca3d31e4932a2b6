package cli

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"maps"
	"strings"

	"example.org/takeup/engine"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/interview"
	"example.org/takeup/engine/render/plain"
	"example.org/takeup/engine/render/terminal"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// talk is one interview: plain lines one after the other, nothing redrawn, so
// that it works in a pipe and is spoken in order by a screen reader.
type talk struct {
	*session
	engine *engine.Engine
	bench  engine.Bench
	lines  *bufio.Reader

	file     string
	now      interview.Situation
	steps    []step
	told     map[string]bool // keys and cautions that were shown
	pending  string          // an answer that may be a slip, as typed
	question interview.Question
}

// step is what one answer did, for going back.
type step struct {
	undo     []intake.Edit
	families []string
	skipped  map[string]bool
}

func newTalk(s *session, e *engine.Engine, bench engine.Bench) *talk {
	return &talk{session: s, engine: e, bench: bench, lines: bufio.NewReader(s.in), told: map[string]bool{}, now: interview.Situation{
		Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Derived: e.Derived, Without: bench.Without, Skipped: map[string]bool{},
	}}
}

// say prints a line of talk.
func (t *talk) say(text string) {
	if text != "" {
		t.page(document.New("", document.Paragraph(document.Plain(text))))
	}
}

// page prints a page of talk: with its emphasis on a terminal, as words alone
// elsewhere and for a screen reader.
func (t *talk) page(p document.Document) {
	if p.Title == "" && len(p.Blocks) == 0 {
		return
	}
	width := t.facts.Width(t.width)
	colour, err := t.facts.Colour(t.color, t.facts.Stderr)
	text := ""
	if t.facts.Stderr.Terminal && !t.facts.PlainWords() && err == nil {
		text, err = terminal.Render(p, terminal.Options{Width: width, Colour: colour})
	}
	if text == "" || err != nil {
		text = plain.Render(p, width)
	}
	fmt.Fprintln(t.err, text)
}

// hear reads one line. The last one need not end with a line end.
func (t *talk) hear() (string, bool) {
	fmt.Fprint(t.err, "> ")
	line, err := t.lines.ReadString('\n')
	line = strings.TrimSpace(line)
	if !t.facts.Stdin.Terminal { // so that a record shows what was typed
		fmt.Fprintln(t.err, document.Clean(line))
	}
	fmt.Fprintln(t.err)
	return line, err == nil || line != ""
}

// run asks until nothing is left to ask or somebody has had enough.
func (t *talk) run() error {
	if err := t.reload(true); err != nil {
		return err
	}
	t.warn()
	for {
		q, standing, err := interview.Next(t.now)
		if err != nil {
			return wrong("%s: %s", t.file, err)
		}
		if standing.End != "" {
			if again, err := t.last(standing.End); again || err != nil {
				if err != nil {
					return err
				}
				continue
			}
			return t.close()
		}
		t.question = q
		t.page(report.Ask(t.engine.Catalog, q))
		t.keys()
		more, err := t.turn()
		if err != nil {
			return err
		}
		if !more {
			t.say(report.Over("", t.file))
			return t.close()
		}
	}
}

// keys are shown with the first question only.
func (t *talk) keys() {
	if !t.told["keys"] {
		t.told["keys"] = true
		t.say("(" + report.Keys + ")")
	}
}

// turn takes lines until the question is answered, skipped or taken back. False
// means to stop.
func (t *talk) turn() (bool, error) {
	for {
		typed, ok := t.hear()
		if !ok {
			return false, nil
		}
		switch strings.ToLower(typed) {
		case "":
			continue
		case "q", "quit":
			return false, nil
		case "?", "h", "help":
			if err := t.reason(); err != nil {
				return false, err
			}
			continue
		case "w":
			if err := t.soFar(); err != nil {
				return false, err
			}
			continue
		case "s", "skip", "unknown":
			t.skip()
			return true, nil
		case "b", "back":
			if len(t.steps) == 0 {
				t.say(report.NothingBefore)
				continue
			}
			return true, t.back()
		}
		if done, err := t.answer(typed); done || err != nil {
			return true, err
		}
	}
}

// answer saves what was typed, or says what is wrong with it and waits for more.
func (t *talk) answer(typed string) (bool, error) {
	a, slip := interview.Read(t.engine.Catalog, t.now.Case, t.question, typed)
	if slip != nil {
		t.pending = ""
		t.say(report.Wrong(*slip))
		return false, nil
	}
	if a.Doubt != nil && t.pending != typed {
		t.pending = typed
		t.say(report.Unsure(*a.Doubt))
		return false, nil
	}
	t.pending = ""
	t.remember(t.undo(a.Edits))
	if len(a.Families) > 0 {
		t.now.Families = a.Families
	}
	if len(a.Edits) > 0 {
		if err := intake.Change(t.file, a.Edits); err != nil {
			return false, wrong("%s", err)
		}
		t.say(report.Saved(t.engine.Catalog, t.question, a))
		if err := t.reload(false); err != nil {
			return false, err
		}
	}
	t.warn()
	return true, nil
}

// undo is what brings the file back to what it is now.
func (t *talk) undo(edits []intake.Edit) []intake.Edit {
	if len(edits) == 0 {
		return nil
	}
	text, err := readFile(t.file)
	if err != nil {
		return nil
	}
	return intake.Undo(text, edits)
}

func (t *talk) remember(undo []intake.Edit) {
	t.steps = append(t.steps, step{undo, t.now.Families, maps.Clone(t.now.Skipped)})
}

// skip leaves everything the question is about open.
func (t *talk) skip() {
	t.remember(nil)
	for _, id := range interview.About(t.question) {
		t.now.Skipped[id] = true
	}
	t.say(report.Skipped)
}

func (t *talk) back() error {
	last := t.steps[len(t.steps)-1]
	t.steps = t.steps[:len(t.steps)-1]
	t.now.Families, t.now.Skipped = last.families, last.skipped
	if len(last.undo) == 0 {
		return nil
	}
	if err := intake.Change(t.file, last.undo); err != nil {
		return wrong("%s", err)
	}
	return t.reload(false)
}

// reload reads the case as it is on the disk now: what is saved is what counts.
// Its warnings are told once.
func (t *talk) reload(first bool) error {
	quiet := *t.session
	if !first {
		quiet.err = io.Discard
	}
	c, err := quiet.load(t.engine, t.file)
	if err != nil {
		if !first { // say it after all
			_, err = t.load(t.engine, t.file)
		}
		return err
	}
	t.now.Case = c
	t.now.Open = cmp.Or(t.bench.Open, c.Open)
	t.now.SheetElsewhere = t.machine != "" || !ownSheet(t.file)
	return nil
}

// ownSheet reports whether words of the machine sheet can stand in a case file:
// they do already, or there is no machine in it yet.
func ownSheet(file string) bool {
	text, err := readFile(file)
	if err != nil {
		return false
	}
	root, _ := source.Parse(file, text)
	if root == nil {
		return false
	}
	m := root.Field("machine")
	return m == nil || m.Kind() == source.Map || m.Kind() == source.Empty
}

// warn shows the dangers that have come to light, each once.
func (t *talk) warn() {
	var fresh []string
	for _, id := range interview.Cautions(t.now) {
		if !t.told[id] {
			t.told[id] = true
			fresh = append(fresh, id)
		}
	}
	t.page(report.Warn(t.engine.Catalog, fresh))
}

// reason says why the question is asked and how to tell.
func (t *talk) reason() error {
	prospects, err := interview.Prospects(t.now, t.question)
	if err != nil {
		return wrong("%s: %s", t.file, err)
	}
	t.page(report.Reason(t.engine.Catalog, t.question, prospects))
	return nil
}

func (t *talk) soFar() error {
	a, err := t.answerNow()
	if err == nil {
		t.page(a.SoFar())
	}
	return err
}

// last says that there is nothing left to ask, and lets the last answer be taken
// back all the same.
func (t *talk) last(end interview.End) (again bool, err error) {
	t.say(report.Over(end, t.file))
	for len(t.steps) > 0 {
		t.say(report.LastKeys)
		switch typed, _ := t.hear(); strings.ToLower(typed) {
		case "b", "back":
			return true, t.back()
		case "w":
			if err := t.soFar(); err != nil {
				return false, err
			}
		default:
			return false, nil
		}
	}
	return false, nil
}

// close prints the ranking and the next check on stdout.
func (t *talk) close() error {
	a, err := t.answerNow()
	if err != nil {
		return err
	}
	return t.show(a.Closing(), a.Result())
}

// answerNow reasons about the case as it stands.
func (t *talk) answerNow() (report.Answer, error) {
	d, err := t.engine.Diagnose(t.now.Case, t.bench)
	if err != nil {
		return report.Answer{}, wrong("%s: %s", t.file, err)
	}
	return answerOf(t.engine, d), nil
}
