package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/render/plain"
	"example.org/takeup/engine/render/terminal"
	"example.org/takeup/engine/report"
)

// exercise is one case with one student: a line in, a few lines out, nothing
// redrawn, so that it works in a pipe and is spoken in order by a screen reader.
type exercise struct {
	*session
	tutor report.Tutor
	at    *practice.Session
	lines *bufio.Reader

	offered []report.Choice // what the numbers stand for
	shut    string          // a check that waits for a yes to open
	opening string          // a stage that does
	naming  *naming         // an answer that is not complete yet
}

func newExercise(s *session, t report.Tutor, scenario *practice.Scenario, in io.Reader) *exercise {
	return &exercise{session: s, tutor: t, at: t.Begin(scenario), lines: bufio.NewReader(in)}
}

// run talks until a cause is named (true) or the student leaves.
func (l *exercise) run() (done bool, err error) {
	l.page(l.tutor.Story(l.at.Scenario))
	l.say(report.How)
	for {
		typed, ok := l.hear()
		if !ok {
			l.say(report.Left)
			return false, nil
		}
		if typed == "" && l.naming == nil {
			continue
		}
		over, err := l.turn(typed)
		if err != nil || over {
			return len(l.at.Forecast) > 0, err
		}
	}
}

// say prints a paragraph of talk.
func (l *exercise) say(text string) {
	if text != "" {
		l.page(document.New("", document.Paragraph(document.Plain(text))))
	}
}

// page prints a page of talk: laid out for a terminal where there is one, in
// plain words elsewhere.
func (l *exercise) page(p document.Document) {
	width := l.facts.Width(l.width)
	if !l.facts.Stderr.Terminal || l.facts.Accessible != "" {
		fmt.Fprintln(l.err, plain.Render(p, width))
		return
	}
	colour, err := l.facts.Colour(l.color, l.facts.Stderr)
	if err != nil {
		colour = false
	}
	text, err := terminal.Render(p, terminal.Options{Width: width, Colour: colour})
	if err != nil {
		text = plain.Render(p, width)
	}
	fmt.Fprintln(l.err, strings.Trim(text, "\n")+"\n")
}

// hear reads one line. The last one need not end with a line end.
func (l *exercise) hear() (string, bool) {
	fmt.Fprint(l.err, "> ")
	line, err := l.lines.ReadString('\n')
	line = strings.Join(strings.Fields(line), " ")
	if !l.facts.Stdin.Terminal { // so that a record shows what was typed
		fmt.Fprintln(l.err, document.Clean(line))
	}
	fmt.Fprintln(l.err)
	return line, err == nil || line != ""
}

// command is a word that a line may begin with.
type command struct {
	do    func(*exercise, string) (over bool, err error)
	kinds []string // of what it looks for
}

// commands are looked up by the first word of a line.
func (l *exercise) command(word string) (command, bool) {
	search := func(kinds ...string) command {
		return command{func(l *exercise, rest string) (bool, error) { return false, l.search(rest, kinds...) }, kinds}
	}
	page := func(do func(*exercise)) command {
		return command{do: func(l *exercise, _ string) (bool, error) { do(l); return false, nil }}
	}
	switch word {
	case "help", "?":
		return page(func(l *exercise) { l.page(l.tutor.Help()) }), true
	case "ask":
		return search("sign", "fact"), true
	case "history":
		return command{do: (*exercise).history}, true
	case "do":
		return search("check"), true
	case "how":
		return command{do: (*exercise).how}, true
	case "checks":
		return command{do: (*exercise).checks}, true
	case "open":
		return command{do: (*exercise).stages}, true
	case "known":
		return page(func(l *exercise) { l.page(l.tutor.KnownPage(l.at)) }), true
	case "sheet":
		return page(func(l *exercise) { l.page(l.tutor.SheetPage(l.at.Scenario)) }), true
	case "why":
		return command{do: (*exercise).why}, true
	case "hint":
		return command{do: (*exercise).hint}, true
	case "causes":
		return search("cause"), true
	case "name":
		return command{do: (*exercise).name}, true
	case "quit", "exit":
		return command{do: func(l *exercise, _ string) (bool, error) { l.say(report.Left); return true, nil }}, true
	}
	return command{}, false
}

// turn takes one line.
func (l *exercise) turn(typed string) (over bool, err error) {
	if l.naming != nil {
		return l.nameOn(typed)
	}
	if l.shut != "" || l.opening != "" {
		return l.unshut(typed)
	}
	if n, err := strconv.Atoi(typed); err == nil {
		return false, l.pick(n)
	}
	if strings.EqualFold(typed, "give up") {
		return true, l.giveUp()
	}
	if strings.EqualFold(typed, "yes") || strings.EqualFold(typed, "no") {
		l.say(report.NoAnswer)
		return false, nil
	}
	first, rest, _ := strings.Cut(typed, " ")
	if c, ok := l.command(strings.ToLower(first)); ok {
		return c.do(l, rest)
	}
	if report.Verbs(l.tutor.Catalog)[strings.ToLower(first)] {
		return false, l.search(typed, "check")
	}
	return false, l.search(typed, "sign", "fact", "check", "cause")
}

// mostOffered is how long a numbered list may be, unless all was asked for.
const mostOffered = 9

// search offers what fits the words; a single hit is done at once. Where one kind
// of thing was asked for, the whole of a name is a single hit.
func (l *exercise) search(words string, kinds ...string) error {
	all := report.Find(l.tutor.Catalog, l.tutor.Phrases, words, kinds...)
	found := l.sensible(all)
	if len(all) == 1 {
		found = all // called by its name: if it is refused, then with the reason
	}
	if len(kinds) <= 2 {
		if best := report.Naming(found, words); len(best) == 1 {
			found = best
		}
	}
	switch {
	case words == "":
		l.say(report.SayWhat)
		return nil
	case len(found) == 0:
		l.say(report.NotFound(words))
		return nil
	case len(found) == 1 && kinds[0] != "cause":
		l.offered = l.tutor.Choices(found, l.at)
		return l.pick(1)
	}
	l.offer(found[:min(mostOffered, len(found))])
	return nil
}

// sensible leaves out what this machine has not, and what is done already.
func (l *exercise) sensible(found []report.Word) []report.Word {
	var out []report.Word
	for _, w := range found {
		if l.at.Offers(kindOf(w.Kind), w.ID) {
			out = append(out, w)
		}
	}
	return out
}

// kindOf is the move that a word stands for.
func kindOf(kind string) practice.Kind {
	return map[string]practice.Kind{"sign": practice.Ask, "fact": practice.Recall, "check": practice.Do, "stage": practice.Open}[kind]
}

// offer prints a numbered list.
func (l *exercise) offer(found []report.Word) {
	l.offered = l.tutor.Choices(found, l.at)
	l.page(report.Offered(l.offered))
}

// pick does what a number stands for.
func (l *exercise) pick(n int) error {
	if n < 1 || n > len(l.offered) {
		l.say(report.NoNumber(n, len(l.offered)))
		return nil
	}
	c := l.offered[n-1]
	var m practice.Move
	var err error
	switch c.Kind {
	case "sign":
		m, err = l.at.Ask(c.ID)
	case "fact":
		m, err = l.at.Recall(c.ID)
	case "check":
		m, err = l.at.Do(c.ID)
	case "stage":
		m, err = l.at.Open(c.ID)
	case "how":
		l.page(l.tutor.How(c.ID))
		return nil
	case "cause":
		_, err := l.name(c.ID)
		return err
	}
	return l.replied(m, err)
}

// replied prints what a move brought, or why it cannot be made.
func (l *exercise) replied(m practice.Move, err error) error {
	var refused *practice.MoveError
	switch {
	case errors.As(err, &refused):
		if refused.Reason == practice.Shut {
			l.shut = refused.ID
		}
		l.say(l.tutor.Refused(refused, l.at))
		return nil
	case err != nil:
		return err
	}
	l.page(l.tutor.Reply(l.at.Scenario, m))
	return nil
}

// history without words lists what can be asked about the past.
func (l *exercise) history(words string) (bool, error) {
	if words != "" {
		return false, l.search(words, "fact")
	}
	var all []report.Word
	for _, f := range l.tutor.Catalog.Facts {
		all = append(all, report.Word{ID: f.ID, Kind: "fact", Name: f.Name})
	}
	l.offer(l.sensible(all))
	return false, nil
}

// checks without words lists what can be done where the machine is open.
func (l *exercise) checks(words string) (bool, error) {
	if words != "" {
		return false, l.search(words, "check")
	}
	var all []report.Word
	for _, g := range l.tutor.Catalog.Stages { // what takes no opening first
		for _, c := range l.tutor.Catalog.Checks {
			if _, minutes := l.at.Opens(c.Stage); c.Stage == g.ID && minutes <= practice.ShortOpening {
				all = append(all, report.Word{ID: c.ID, Kind: "check", Name: c.Name})
			}
		}
	}
	l.offer(l.sensible(all))
	return false, nil
}

// why looks back at the last step.
func (l *exercise) why(string) (bool, error) {
	i := len(l.at.Moves) - 1
	for i > 0 && l.at.Moves[i].Kind == practice.Hint {
		i--
	}
	step, err := l.at.Step(i)
	if err != nil {
		return false, err
	}
	l.page(l.tutor.Why(step))
	return false, nil
}

func (l *exercise) hint(string) (bool, error) {
	a, err := l.at.Advise()
	if err != nil {
		return false, err
	}
	l.at.Hint()
	l.page(l.tutor.Hinted(a))
	return false, nil
}

// giveUp shows the answer.
func (l *exercise) giveUp() error {
	par, err := l.at.Book.Walk(l.at.Scenario)
	if err != nil {
		return err
	}
	l.page(l.tutor.GivenUp(l.at.Scenario, par))
	return nil
}

// close prints the judgement and keeps the progress.
func (l *exercise) close(progress *practice.Progress, file string, dry bool) error {
	j, err := l.at.Judge()
	if err != nil {
		return err
	}
	if !dry {
		progress.Exercises = append(progress.Exercises, j.Exercise())
		if err := progress.Save(file); err != nil {
			return wrong("the progress cannot be kept: %s", err).with("--progress names another file, --unrecorded keeps none")
		}
	}
	return l.show(l.tutor.Judged(j), struct {
		Schema    int                 `json:"schema"`
		Judgement *practice.Judgement `json:"judgement"`
	}{report.Schema, j})
}
