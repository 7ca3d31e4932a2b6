package terminal

import (
	"strings"

	"example.org/takeup/engine/document"
)

// page is what the layout has to know.
type page struct {
	width  int
	colour bool
}

// markdown returns the page as Markdown with one line per block.
func markdown(d document.Document, p page) string {
	var out []string
	if d.Title != "" {
		out = append(out, p.heading(1, document.Plain(d.Title)))
	}
	for _, b := range d.Blocks {
		if text := p.block(b); text != "" {
			out = append(out, text)
		}
	}
	return strings.Join(out, "\n\n") + "\n"
}

func (p page) block(b document.Block) string {
	switch b.Kind {
	case document.KindHeading:
		return p.heading(b.Level, b.Text)
	case document.KindRule:
		return "---"
	case document.KindCode:
		return fenced(verbatim(b.Code, p.width-2))
	}
	return inline(block(b, p.width))
}

// heading is bold with colour, and underlined where there is no bold.
func (p page) heading(level int, t document.Text) string {
	width := min(p.width, widestText)
	lines := document.WrapText(document.Plain(t.String()), width)
	if len(lines) == 0 {
		return ""
	}
	if !p.colour && level < 4 {
		longest := 0
		for _, l := range lines {
			longest = max(longest, l.Width())
		}
		rule := [...]string{1: "═", 2: "─", 3: "-"}[level]
		lines = append(lines, document.Plain(strings.Repeat(rule, max(longest, 1))))
	}
	return strings.Repeat("#", level) + " " + inline(lines)
}

// fenced is a code block, set off by two blanks.
func fenced(lines []document.Text) string {
	text := ""
	for i, l := range lines {
		if i > 0 {
			text += "\n"
		}
		if s := l.String(); s != "" {
			text += "  " + s
		}
	}
	if text == "" {
		return ""
	}
	return "```\n" + conceal(text) + "\n```"
}

// inline is the lines as one line of Markdown.
func inline(lines []document.Text) string {
	var b strings.Builder
	for i, line := range lines {
		if i > 0 {
			b.WriteString(conceal("\n"))
		}
		for j, s := range line {
			if j > 0 {
				b.WriteRune(nothing) // keeps two marks apart
			}
			before, after := marks(s.Style)
			b.WriteString(before + conceal(s.Text) + after)
		}
	}
	return b.String()
}

// marks returns the Markdown around a span. A mark next to a stand-in always
// counts as opening or closing: a stand-in is neither blank nor punctuation.
// Glamour shows a link to a place in the page as its text alone.
func marks(s document.Style) (before, after string) {
	mark := ""
	switch s {
	case document.StyleStrong:
		mark = "**"
	case document.StyleEmphasis:
		mark = "*"
	case document.StyleCode:
		mark = "`"
	case styleBar:
		mark = "~~"
	case styleWarning:
		return "[", "](#caution)"
	default:
		return "", ""
	}
	return mark + string(nothing), string(nothing) + mark
}
