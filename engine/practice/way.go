package practice

import (
	"errors"
	"strconv"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// Way is a written way through a case: what was asked, opened and done, in
// order, and what was named in the end.
type Way struct {
	Student  string
	Case     source.Text // path of the scenario, from the folder of the way
	Seed     int         // of a drawn case, where there is no path
	Level    int
	Family   string
	Moves    []WrittenMove
	Forecast Forecast
	Reason   string
}

// WrittenMove is one move with where it stands in the file.
type WrittenMove struct {
	Kind Kind
	ID   string
	Text source.Text
}

// rawWay is a way as it is written.
type rawWay struct {
	Pos     source.Pos     `yaml:"-"`
	Student string         `yaml:"student"`
	Case    source.Text    `yaml:"case"`
	Seed    int            `yaml:"seed"`
	Level   int            `yaml:"level"`
	Family  string         `yaml:"family"`
	Moves   []*source.Node `yaml:"moves"`
	Named   []rawNamed     `yaml:"named,required"`
	Reason  string         `yaml:"reason"`
}

// rawNamed is a cause with a confidence.
type rawNamed struct {
	Cause      source.Text `yaml:"cause,required"`
	Confidence source.Text `yaml:"confidence,required"`
}

// moveKeys are how moves are written.
var moveKeys = map[string]Kind{"ask": Ask, "history": Recall, "open": Open, "do": Do}

// ReadWay reads a written way. It is usable only when no problem is an error.
func ReadWay(file *source.File, cat *catalog.Catalog) (*Way, source.Problems) {
	root, ps := source.Parse(file.Name, file.Text)
	if root == nil {
		return nil, ps
	}
	var raw rawWay
	source.Decode(root, &raw, &ps)
	w := &Way{Student: raw.Student, Case: raw.Case, Seed: raw.Seed, Level: raw.Level, Family: raw.Family, Reason: raw.Reason}
	if raw.Case.Value == "" && raw.Seed <= 0 {
		ps.Errorf(CodeWhich, root.Pos(), 1, "neither case nor seed is given").Hint = "case: the path of its file, or seed, level and family of a drawn one"
	}
	for _, n := range raw.Moves {
		if n != nil {
			readMove(n, cat, w, &ps)
		}
	}
	for _, x := range raw.Named {
		readNamed(x, cat, w, &ps)
	}
	if len(w.Forecast) == 0 && !ps.HasErrors() {
		ps.Errorf(CodeNotNamed, root.Pos(), 1, "no cause is named").Hint = "write under named: - {cause: ID, confidence: 70 %}"
	}
	ps.Sort()
	return w, ps
}

func readMove(n *source.Node, cat *catalog.Catalog, w *Way, ps *source.Problems) {
	var entries []source.Entry
	source.Decode(n, &entries, ps)
	for _, e := range entries {
		kind, ok := moveKeys[e.Key.Value]
		t, scalar := e.Value.Scalar()
		switch {
		case !ok:
			wrongWord(ps, CodeMove, e.Key, "move", []string{"ask", "history", "open", "do"})
		case !scalar:
			ps.Errorf(CodeMove, e.Value.Pos(), 1, "%s: expected one id, found %s", e.Key.Value, e.Value.Kind())
		case !hasWord(cat, kind, t.Value):
			wrongWord(ps, CodeWord, t, nouns[kind], words(cat, kind))
		default:
			w.Moves = append(w.Moves, WrittenMove{kind, t.Value, t})
		}
	}
}

var nouns = map[Kind]string{Ask: "sign", Recall: "fact", Open: "stage", Do: "check"}

func wrongWord(ps *source.Problems, code string, t source.Text, noun string, known []string) {
	pos, length := t.Span(0, max(1, len(t.Value)))
	ps.Errorf(code, pos, length, "unknown %s %q", noun, t.Value).Hint = source.DidYouMean(t.Value, known)
}

// words are the ids that a move can be about.
func words(cat *catalog.Catalog, kind Kind) []string {
	var out []string
	switch kind {
	case Ask:
		for _, x := range cat.Signs {
			out = append(out, x.ID)
		}
	case Recall:
		for _, x := range cat.Facts {
			out = append(out, x.ID)
		}
	case Open:
		for _, x := range cat.Stages {
			out = append(out, x.ID)
		}
	case Do:
		for _, x := range cat.Checks {
			out = append(out, x.ID)
		}
	}
	return out
}

func hasWord(cat *catalog.Catalog, kind Kind, id string) bool { return has(words(cat, kind), id) }

func readNamed(x rawNamed, cat *catalog.Catalog, w *Way, ps *source.Problems) {
	if x.Cause.Value == "" || x.Confidence.Value == "" {
		return // reported when it was decoded
	}
	if _, ok := cat.Cause(x.Cause.Value); !ok {
		var ids []string
		for _, c := range cat.Causes {
			ids = append(ids, c.ID)
		}
		wrongWord(ps, CodeWord, x.Cause, "cause", ids)
		return
	}
	p, ok := confidence(x.Confidence.Value)
	if !ok {
		pos, length := x.Confidence.Span(0, len(x.Confidence.Value))
		ps.Errorf(CodeSure, pos, length, "confidence: expected a percentage from 0 to 100, found %q", x.Confidence.Value).Hint = "write 70 %"
		return
	}
	w.Forecast = append(w.Forecast, Share{x.Cause.Value, p})
	if w.Forecast.Sum() > 1+1e-9 {
		pos, length := x.Confidence.Span(0, len(x.Confidence.Value))
		ps.Errorf(CodeSure, pos, length, "the confidences add up to more than 100 %%")
	}
}

// confidence reads 70 or 70 % as 0.7.
func confidence(text string) (float64, bool) {
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x >= 0 && x <= 100) {
		return 0, false
	}
	return x / 100, true
}

// Follow goes a written way on a scenario. A move that cannot be made is left
// out and reported as a warning; stages on the way to a check are opened for it.
func (b Book) Follow(w *Way, s *Scenario) (*Session, source.Problems, error) {
	t := b.Begin(s)
	var ps source.Problems
	for _, m := range w.Moves {
		err := t.make(m)
		var refused *MoveError
		switch {
		case err == nil:
		case errors.As(err, &refused):
			pos, length := m.Text.Span(0, len(m.Text.Value))
			ps.Warnf(CodeRefused, pos, length, "%s %s is left out: %s", nouns[m.Kind], m.ID, refusals[refused.Reason])
		default:
			return nil, ps, err
		}
	}
	return t, ps, t.Name(w.Forecast, w.Reason)
}

// refusals say why a written move is left out.
var refusals = map[Refusal]string{
	NotHere: "it makes no sense on this machine", MustCheck: "no customer can say that, it takes a check",
	Repeated: "it is known or done already", Unknown: "there is no such thing",
}

// make makes a written move.
func (t *Session) make(m WrittenMove) error {
	var err error
	switch m.Kind {
	case Ask:
		_, err = t.Ask(m.ID)
	case Recall:
		_, err = t.Recall(m.ID)
	case Open:
		_, err = t.Open(m.ID)
	case Do:
		_, err = t.Do(m.ID)
		var refused *MoveError
		if errors.As(err, &refused) && refused.Reason == Shut {
			c, _ := t.Book.Catalog.Check(m.ID)
			if _, err = t.Open(c.Stage); err == nil {
				_, err = t.Do(m.ID)
			}
		}
	}
	return err
}

// Everything is every result that could be had on a machine, in the order of the
// catalog: for a teacher's key.
func (b Book) Everything(s *Scenario) []Move {
	t := b.Begin(s)
	for _, g := range b.Catalog.Stages {
		if !has(t.Now.Paid, g.ID) {
			t.Now.Paid = append(t.Now.Paid, g.ID)
		}
	}
	start := t.Now.clone()
	var out []Move
	for _, c := range b.Catalog.Checks {
		t.Now = start.clone() // each check as if it were the first
		if m, err := t.Do(c.ID); err == nil && len(m.Results) > 0 {
			out = append(out, m)
		}
	}
	return out
}

// History is what the customer can say when asked, in the order of the catalog.
func (b Book) History(s *Scenario) []Result {
	var out []Result
	for _, f := range b.Catalog.Facts {
		if v, ok := s.Known.Get(f.ID); ok && !has(s.Recalled, f.ID) && !has(s.Vague, f.ID) && v.Kind != fact.Reading {
			out = append(out, Result{Fact: f.ID, Value: &v})
		}
	}
	return out
}

// Answers is what the customer says of the machine when asked, in the order of
// the catalog, without what is told unasked.
func (b Book) Answers(s *Scenario) []Result {
	var out []Result
	for _, x := range b.Catalog.Signs {
		if e, ok := s.Signs[x.ID]; ok && x.Kind == complaint && !has(s.Told, x.ID) && !has(s.Vague, x.ID) {
			out = append(out, Result{Sign: x.ID, Answer: e.Answer})
		}
	}
	return out
}
