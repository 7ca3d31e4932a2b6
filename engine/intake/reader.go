package intake

import (
	"strings"
	"unicode/utf8"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/source"
)

// machinePrefix stands before the words of the machine sheet.
const machinePrefix = "machine."

// reader carries what every step needs: the words and where problems go.
type reader struct {
	cat   *catalog.Catalog
	ps    *source.Problems
	start int // problems in the list before this file
	spent bool
}

func newReader(cat *catalog.Catalog, ps *source.Problems) *reader {
	return &reader{cat: cat, ps: ps, start: len(*ps)}
}

// errorf reports a problem with a whole key or value. The pointer is valid
// until the next report.
func (r *reader) errorf(code string, at source.Text, format string, args ...any) *source.Problem {
	if r.full(at.Pos) {
		return &source.Problem{}
	}
	pos, length := at.Span(0, utf8.RuneCountInString(at.Value))
	return r.ps.Errorf(code, pos, length, format, args...)
}

// full reports whether to stop, and says so once: the search for similar words
// is too slow to be done for each of a hundred thousand wrong keys.
func (r *reader) full(at source.Pos) bool {
	if !r.spent && len(*r.ps)-r.start >= source.MaxProblems {
		r.spent = true
		r.ps.Errorf(source.CodeTooMany, source.Pos{File: at.File}, 1, "more than %d problems, the rest is not reported", source.MaxProblems-1)
	}
	return r.spent
}

// entries decodes keys and values; keys without value are reported here.
func (r *reader) entries(n *source.Node) []source.Entry {
	var es []source.Entry
	if n != nil && n.Kind() != source.Empty {
		source.Decode(n, &es, r.ps)
	}
	return es
}

// texts decodes a list of words.
func (r *reader) texts(n *source.Node) []source.Text {
	var ts []source.Text
	source.Decode(n, &ts, r.ps)
	kept := ts[:0]
	for _, t := range ts {
		if t.Value != "" { // reported when it was decoded
			kept = append(kept, t)
		}
	}
	return kept
}

// text decodes one word; false means that there is none, which was reported.
func (r *reader) text(n *source.Node) (source.Text, bool) {
	var t source.Text
	if n.Kind() != source.Empty {
		source.Decode(n, &t, r.ps)
	}
	return t, t.Value != ""
}

// isUnknown tells a value that says nothing on purpose.
func isUnknown(n *source.Node) bool {
	t, ok := n.Scalar()
	return ok && t.Value == "unknown"
}

// home says what a known id is and where in a case it belongs. Both are empty
// for an id that nobody knows.
func (r *reader) home(id string) (what, where string) {
	if _, ok := r.cat.Sign(id); ok {
		return "a sign", "signs"
	}
	if _, ok := r.cat.Reading(id); ok {
		return "a reading", "readings"
	}
	if _, ok := r.cat.Check(id); ok {
		return "a check", "done"
	}
	if _, ok := r.cat.Cause(id); ok {
		return "a cause", "found"
	}
	if strings.HasPrefix(id, machinePrefix) {
		id = strings.TrimPrefix(id, machinePrefix)
	} else if _, ok := r.cat.Fact(id); ok {
		return "a fact of the history", "history"
	}
	if _, ok := r.cat.Fact(machinePrefix + id); ok {
		return "a word of the machine sheet", "machine"
	}
	return "", ""
}

// inner says what an id is that no case can hold, or nothing.
func (r *reader) inner(id string) string {
	if _, ok := r.cat.Effect(id); ok {
		return "an effect"
	}
	for _, d := range r.cat.Derived {
		if d.ID == id {
			return "a derived quantity"
		}
	}
	return ""
}

// unknown reports an id that has no place where it stands: known elsewhere, or
// not known at all, in which case what names the kind of id expected.
func (r *reader) unknown(code, what string, at source.Text, known []string) {
	if is, where := r.home(at.Value); is != "" {
		r.errorf(CodeElsewhere, at, "%s is %s; it belongs under %s", at.Value, is, where)
		return
	}
	if is := r.inner(at.Value); is != "" {
		r.errorf(CodeElsewhere, at, "%s is %s; it is worked out and never given", at.Value, is)
		return
	}
	if r.full(at.Pos) {
		return
	}
	r.errorf(code, at, "unknown %s %q", what, at.Value).Hint = didYouMean(at.Value, known)
}

// didYouMean is the hint for a misspelt word, or every word when there are few.
func didYouMean(word string, known []string) string {
	if hint := source.DidYouMean(word, known); hint != "" {
		return hint
	}
	if alike := source.Alike(word, known); len(alike) > 0 {
		return "perhaps " + strings.Join(alike, " or ")
	}
	if len(known) > 0 && len(known) <= 12 {
		return "known: " + strings.Join(known, ", ")
	}
	return ""
}
