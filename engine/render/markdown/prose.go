package markdown

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/takeup/engine/document"
)

// prose returns t as one line of Markdown without blanks at its ends.
func prose(t document.Text) string {
	lines := document.WrapText(t, math.MaxInt32) // one line, single blanks
	if len(lines) == 0 {
		return ""
	}
	line := lines[0]
	var b strings.Builder
	for i, s := range line {
		text := document.EscapeMarkdown(s.Text, i == 0)
		switch s.Style {
		case document.StyleCode:
			b.WriteString(code(s.Text))
		case document.StyleStrong:
			b.WriteString(marked("**", text, canMark(line, i)))
		case document.StyleEmphasis:
			b.WriteString(marked("*", text, canMark(line, i)))
		default:
			b.WriteString(text)
		}
	}
	return b.String()
}

func marked(mark, text string, ok bool) string {
	if !ok {
		return text // better unmarked than with stray asterisks
	}
	return mark + text + mark
}

// canMark reports whether asterisks around span i open and close as they should:
// the rules for delimiter runs in CommonMark 0.31, section 6.2. Two marked spans
// without a blank between them would run into one another.
func canMark(line document.Text, i int) bool {
	before, after := ' ', ' '
	if i > 0 {
		before, _ = utf8.DecodeLastRuneInString(line[i-1].Text)
		if line[i-1].Style != document.StylePlain {
			return false
		}
	}
	if i+1 < len(line) {
		after, _ = utf8.DecodeRuneInString(line[i+1].Text)
		if line[i+1].Style != document.StylePlain {
			after = '*'
		}
	}
	first, _ := utf8.DecodeRuneInString(line[i].Text)
	last, _ := utf8.DecodeLastRuneInString(line[i].Text)
	return flanks(before, first) && flanks(after, last)
}

// flanks reports whether a run of asterisks between outer and inner can belong to
// inner.
func flanks(outer, inner rune) bool {
	if unicode.IsSpace(inner) {
		return false
	}
	return !punct(inner) || unicode.IsSpace(outer) || punct(outer)
}

func punct(r rune) bool { return unicode.IsPunct(r) || unicode.IsSymbol(r) }

// code returns s as a code span. Its fence is longer than any run of backticks
// in s, and blanks keep a backtick at the edge from the fence.
func code(s string) string {
	mark := strings.Repeat("`", longestRun(s)+1)
	if strings.HasPrefix(s, "`") || strings.HasSuffix(s, "`") {
		s = " " + s + " "
	}
	return mark + s + mark
}
