package document

import (
	"strings"

	"github.com/mattn/go-runewidth"
)

// cells counts ambiguous characters as narrow, whatever the locale says, so that
// the same page has the same lines on every machine.
var cells = runewidth.Condition{StrictEmojiNeutral: true}

// Width is the number of terminal columns s takes, each character counted by
// itself (Unicode Standard Annex 11). A joined emoji may be drawn narrower than
// this, never wider.
func Width(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}

func runeWidth(r rune) int {
	if r < 0x7f {
		return 1
	}
	return cells.RuneWidth(r)
}

// Width is the number of columns the text takes.
func (t Text) Width() int {
	n := 0
	for _, s := range t {
		n += Width(s.Text)
	}
	return n
}

// Wrap is WrapText for text without styles.
func Wrap(s string, width int) []string {
	var out []string
	for _, line := range WrapText(Text{{Text: s}}, width) {
		out = append(out, line.String())
	}
	return out
}

// WrapText breaks text into lines of at most width columns, at blanks where it
// can and inside a word where it must. A no-break space (U+00A0), as between a
// number and its unit, does not break. Runs of blanks become one. An empty text
// gives no line. A width below 2 counts as 2, the widest character.
func WrapText(t Text, width int) []Text {
	width = max(width, 2)
	var out []Text
	var line Text
	used := 0
	for _, w := range words(t) {
		n := w.Width()
		if len(line) > 0 && used+1+n <= width {
			line = append(line, w.lead)
			line, used = append(line, w.Text...), used+1+n
			continue
		}
		if len(line) > 0 {
			out = append(out, line)
		}
		for n > width {
			var head Text
			head, w.Text = split(w.Text, width)
			out, n = append(out, head), w.Text.Width()
		}
		line, used = append(Text(nil), w.Text...), n
	}
	if len(line) > 0 {
		out = append(out, line)
	}
	for i := range out {
		out[i] = merge(out[i])
	}
	return out
}

// word is a run of text without blanks; lead is the blank before it, in the style
// of its neighbours if they share one.
type word struct {
	Text
	lead Span
}

func words(t Text) []word {
	var out []word
	var w word
	flush := func(blank Span) {
		if len(w.Text) > 0 { // perhaps of no width, such as a lone accent
			out = append(out, w)
		}
		w = word{lead: blank}
	}
	for _, s := range t {
		for i, part := range strings.Split(s.Text, " ") {
			if i > 0 {
				flush(Span{Text: " ", Style: s.Style})
			}
			if part != "" {
				w.Text = append(w.Text, Span{Text: part, Style: s.Style})
			}
		}
	}
	flush(Span{})
	for i := range out {
		if i > 0 && !sameStyle(out[i-1].Text, out[i].lead, out[i].Text) {
			out[i].lead.Style = StylePlain
		}
	}
	return out
}

func sameStyle(before Text, blank Span, after Text) bool {
	return before[len(before)-1].Style == blank.Style && after[0].Style == blank.Style
}

// split cuts t after at most width columns, at least one character.
func split(t Text, width int) (head, tail Text) {
	used := 0
	for i, s := range t {
		for j, r := range s.Text {
			n := runeWidth(r)
			if used+n > width {
				head = append(append(head, t[:i]...), Span{Text: s.Text[:j], Style: s.Style})
				return head, append(Text{{Text: s.Text[j:], Style: s.Style}}, t[i+1:]...)
			}
			used += n
		}
	}
	return t, nil
}

// merge joins neighbours of one style and drops empty spans.
func merge(t Text) Text {
	var out Text
	for _, s := range t {
		switch last := len(out) - 1; {
		case s.Text == "":
		case last >= 0 && out[last].Style == s.Style:
			out[last].Text += s.Text
		default:
			out = append(out, s)
		}
	}
	return out
}
