package interview

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/source"
)

// onSign are the answers to one sign, in the order of their numbers.
var onSign = []string{"yes", "no", "probably", "probably not"}

// Answer is what an answer comes to.
type Answer struct {
	Edits    []intake.Edit `json:"edits,omitempty"`
	Families []string      `json:"families,omitempty"` // of the complaint
	// Doubt is a slip that may be none: the answer holds if it is given twice.
	Doubt *Slip `json:"doubt,omitempty"`
}

// Slip is what is wrong with an answer, worded as problems are: lower case,
// without a full stop.
type Slip struct {
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
}

func slip(format string, args ...any) *Slip { return &Slip{Message: fmt.Sprintf(format, args...)} }

// with adds a hint.
func (s *Slip) with(hint string) *Slip {
	s.Hint = hint
	return s
}

// Read reads what was typed in answer to a question. What is typed is data: it
// reaches the file through source.Quote alone. The answer counts only without a
// slip.
func Read(cat *catalog.Catalog, c *intake.Case, q Question, typed string) (Answer, *Slip) {
	typed = strings.TrimSpace(typed)
	var a Answer
	var s *Slip
	switch q.Kind {
	case Complaint:
		a.Families, s = several(q, typed, familyNames(cat))
		if s == nil && len(a.Families) == 0 {
			s = slip("nothing is named").with("skip it if none of them fits")
		}
	case Sign:
		var word string
		if word, s = one(q, typed, nil); s == nil {
			a.Edits = []intake.Edit{{Part: "signs", ID: q.Signs[0], Value: word}}
		}
	case Signs:
		a.Edits, s = onSigns(cat, q, typed)
	case Fact:
		a, s = onFact(cat, q, typed)
	case Reading:
		a, s = onReading(cat, c, q, typed)
	}
	if s == nil && q.Completes {
		a.Edits = append(a.Edits, intake.Edit{Part: "done", ID: q.Check, Value: q.Check})
	}
	return a, s
}

func familyNames(cat *catalog.Catalog) map[string]string {
	names := map[string]string{}
	for _, f := range cat.Families {
		names[f.ID] = f.Name
	}
	return names
}

// short are words for an answer that need no number.
var short = map[string]string{"y": "yes", "n": "no", "true": "yes", "false": "no", "maybe": "probably"}

// none are the ways to say that nothing of a list is so.
var none = []string{"0", "none", "none of these", "nothing", "no", "n"}

// pick finds one option by its number, its id or its name.
func pick(q Question, typed string, names map[string]string) (string, *Slip) {
	word := strings.ToLower(typed)
	if n, err := strconv.Atoi(word); err == nil {
		if n < 1 || n > len(q.Options) {
			return "", slip("there is no answer %d", n).with(fmt.Sprintf("the answers go from 1 to %d", len(q.Options)))
		}
		return q.Options[n-1], nil
	}
	if w, ok := short[word]; ok && slices.Contains(q.Options, w) {
		return w, nil
	}
	var known []string
	for _, id := range q.Options {
		name := strings.ToLower(names[id])
		if word == id || word == name {
			return id, nil
		}
		known = append(known, id)
		if name != "" {
			known = append(known, name)
		}
	}
	s := slip("%s is none of the answers", shown(typed))
	if s.Hint = source.DidYouMean(word, known); s.Hint == "" {
		s.Hint = fmt.Sprintf("type a number from 1 to %d", len(q.Options))
	}
	return "", s
}

// longest bounds how much of an answer a message repeats.
const longest = 40

// shown is an answer as a message repeats it.
func shown(typed string) string {
	r := []rune(strings.Trim(source.Quote(typed), `"`))
	if len(r) > longest {
		r = append(r[:longest], []rune(" ...")...)
	}
	return `"` + string(r) + `"`
}

// one wants exactly one option.
func one(q Question, typed string, names map[string]string) (string, *Slip) {
	if parts := split(typed); len(parts) > 1 && numbers(parts) {
		return "", slip("one answer fits here, found %d", len(parts)).with("type the number of the one that fits best")
	}
	return pick(q, typed, names)
}

// several takes any number of options, each once, in the order of the question.
func several(q Question, typed string, names map[string]string) ([]string, *Slip) {
	if slices.Contains(none, strings.ToLower(typed)) {
		return []string{}, nil
	}
	if id, s := pick(q, typed, names); s == nil {
		return []string{id}, nil
	}
	found := map[string]bool{}
	for _, part := range split(typed) {
		if part == "0" {
			return nil, slip("0 stands for none of these, and others are named beside it").with("type 0 alone, or leave it out")
		}
		id, s := pick(q, part, names)
		if s != nil {
			return nil, s
		}
		found[id] = true
	}
	out := []string{}
	for _, id := range q.Options {
		if found[id] {
			out = append(out, id)
		}
	}
	return out, nil
}

// split parts a list: at commas and semicolons, and at blanks between numbers.
func split(typed string) []string {
	fields := func(s string) []string {
		return strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == ';' || r == '+' || r == '&' })
	}
	parts := fields(strings.ReplaceAll(typed, " and ", ","))
	if blank := strings.Fields(strings.Join(parts, " ")); numbers(blank) {
		return blank
	}
	out := parts[:0]
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

// numbers reports whether all parts are numbers, perhaps with a "?" of doubt.
func numbers(parts []string) bool {
	for _, p := range parts {
		if strings.Trim(strings.TrimSuffix(p, "?"), "0123456789") != "" {
			return false
		}
	}
	return len(parts) > 0
}

// onSigns takes the numbers of the signs that are so; those asked about and not
// named are not. A "?" behind a number makes a yes a probable one.
func onSigns(cat *catalog.Catalog, q Question, typed string) ([]intake.Edit, *Slip) {
	names := map[string]string{}
	for _, id := range q.Signs {
		names[id] = cat.NameOf(id)
	}
	words := map[string]string{}
	var sure, probable []string
	for _, part := range split(typed) {
		if bare, doubt := strings.CutSuffix(part, "?"); doubt {
			probable = append(probable, strings.TrimSpace(bare))
		} else {
			sure = append(sure, part)
		}
	}
	for word, list := range map[string][]string{"yes": sure, "probably": probable} {
		if len(list) == 0 && (word == "probably" || len(probable) > 0) {
			continue
		}
		text := strings.Join(list, ", ")
		if word == "yes" && len(probable) == 0 {
			text = typed
		}
		ids, s := several(q, text, names)
		if s != nil {
			return nil, s
		}
		for _, id := range ids {
			words[id] = word
		}
	}
	if s := contradiction(cat, q.Signs, words); s != nil {
		return nil, s
	}
	var edits []intake.Edit
	for _, id := range q.Signs {
		word := "no"
		if w, named := words[id]; named {
			word = w
		}
		edits = append(edits, intake.Edit{Part: "signs", ID: id, Value: word})
	}
	return edits, nil
}

// contradiction finds two signs that exclude each other, both said to be so.
func contradiction(cat *catalog.Catalog, signs []string, words map[string]string) *Slip {
	for i, a := range signs {
		for _, b := range signs[i+1:] {
			one, _ := cat.Sign(a)
			other, _ := cat.Sign(b)
			if words[a] == "yes" && words[b] == "yes" && (slices.Contains(one.Excludes, b) || slices.Contains(other.Excludes, a)) {
				return slip("%s and %s exclude each other", one.Name, other.Name).with("put a ? behind the number you doubt, or leave it out")
			}
		}
	}
	return nil
}

func onFact(cat *catalog.Catalog, q Question, typed string) (Answer, *Slip) {
	f, _ := cat.Fact(q.ID)
	edit := intake.Edit{Part: "history", ID: q.ID}
	if word, ok := sheetWord(q.ID); ok {
		edit.Part, edit.ID = "machine", word
	}
	names := map[string]string{}
	for _, o := range f.Choices {
		names[o.ID] = o.Name
	}
	var s *Slip
	switch fact.Kind(f.Kind) {
	case fact.YesNo, fact.Choice:
		edit.Value, s = one(q, typed, names)
	case fact.Choices:
		var ids []string
		ids, s = several(q, typed, names)
		edit.Value = source.QuoteAll(ids)
	default:
		value := withUnit(typed, f.Unit)
		var ps source.Problems
		var known fact.Set
		intake.ParseFacts(entryOf(q.ID, source.Quote(value)), cat, &known, &ps)
		edit.Value, s = source.Quote(value), firstSlip(q.ID, typed, ps)
	}
	return Answer{Edits: []intake.Edit{edit}}, s
}

// onReading takes one figure, or several where the reading is one of several parts.
func onReading(cat *catalog.Catalog, c *intake.Case, q Question, typed string) (Answer, *Slip) {
	r, _ := cat.Reading(q.ID)
	values := figuresIn(typed, r.Unit)
	text := source.QuoteAll(values)
	if len(values) == 1 {
		text = source.Quote(values[0])
	}
	var ps source.Problems
	known := c.Known.Clone()
	intake.ParseReadings(entryOf(q.ID, text), cat, &known, &ps)
	a := Answer{Edits: []intake.Edit{{Part: "readings", ID: q.ID, Value: text}}}
	s := firstSlip(q.ID, typed, ps)
	if s == nil && len(ps) > 0 {
		a.Doubt = slipOf(q.ID, ps[0])
	}
	return a, s
}

// figuresIn parts figures at semicolons, and at commas that a blank follows: a
// comma within a figure is a decimal sign. A bare one has the unit of the last.
func figuresIn(typed, unit string) []string {
	parts := strings.Split(strings.ReplaceAll(typed, ", ", ";"), ";")
	last := strings.TrimSpace(parts[len(parts)-1])
	if i := strings.LastIndexAny(last, "0123456789"); i >= 0 && i+1 < len(last) {
		unit = strings.TrimSpace(last[i+1:])
	}
	var out []string
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, withUnit(p, unit))
		}
	}
	return out
}

// withUnit gives a bare number the unit it was asked for in.
func withUnit(typed, unit string) string {
	if typed = strings.TrimSpace(typed); unit != "" && typed != "" && strings.Trim(typed, "0123456789.,+-") == "" {
		return typed + " " + unit
	}
	return typed
}

// entryOf is a map of one entry, as a file would hold it.
func entryOf(key, value string) *source.Node {
	n, _ := source.Parse("", []byte(key+": "+value+"\n"))
	return n
}

// firstSlip is the first error of a value; a value that says nothing is one too.
func firstSlip(id, typed string, ps source.Problems) *Slip {
	if typed == "" || typed == "unknown" {
		return slip("no value in it").with("skip it if it is not known")
	}
	for _, p := range ps {
		if p.Severity == source.Error {
			return slipOf(id, p)
		}
	}
	return nil
}

func slipOf(id string, p source.Problem) *Slip {
	return &Slip{strings.TrimPrefix(p.Message, id+": "), p.Hint}
}
