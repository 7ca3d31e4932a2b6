package document

import "strings"

// room is the least number of columns worth indenting into.
const room = 16

// Hang puts mark before the first of the lines that lay returns for the columns
// left, and as many blanks before the others. Where fewer than 16 columns would
// be left, as in a deeply nested list, the mark stands on a line of its own and
// the others are not indented: no line gets wider than width.
func Hang(mark Text, width int, lay func(width int) []Text) []Text {
	n := mark.Width()
	if width-n < room {
		return append(WrapText(mark, width), lay(width)...)
	}
	lines := lay(width - n)
	if len(lines) == 0 {
		return []Text{mark}
	}
	out := []Text{merge(Join(mark, lines[0]))}
	for _, l := range lines[1:] {
		if len(l) > 0 {
			l = merge(Join(Text{{Text: strings.Repeat(" ", n)}}, l))
		}
		out = append(out, l)
	}
	return out
}

// Chop returns the lines of text, wider ones cut into pieces of at most width
// columns. Unlike Wrap it keeps blanks: it is for drawings and code. A width
// below 2 counts as 2.
func Chop(text string, width int) []string {
	var out []string
	for _, line := range strings.Split(text, "\n") {
		rest := Text{{Text: line}}
		for rest.Width() > max(width, 2) {
			var head Text
			head, rest = split(rest, max(width, 2))
			out = append(out, strings.TrimRight(head.String(), " "))
		}
		out = append(out, strings.TrimRight(rest.String(), " "))
	}
	return out
}
