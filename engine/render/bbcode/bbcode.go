package bbcode

import (
	"math"
	"strings"

	"example.org/takeup/engine/document"
)

const (
	codeWidth = 70 // columns; boards scroll or cut what is wider
	barCells  = 20
)

// Render returns the page as a post. It ends with one line feed, and no line ends
// with a blank.
func Render(d document.Document) string {
	d = d.Clean()
	var out []string
	if title := tag("b", prose(document.Plain(d.Title))); title != "" {
		out = append(out, title)
	}
	for _, b := range d.Blocks {
		if s := block(b, 0); s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, "\n\n") + "\n"
}

// block returns one block; depth counts the lists around it.
func block(b document.Block, depth int) string {
	switch b.Kind {
	case document.KindHeading:
		return tag("b", prose(document.Plain(b.Text.String())))
	case document.KindParagraph:
		return prose(b.Text)
	case document.KindNote:
		return note(b, depth)
	case document.KindList:
		return list(b, depth)
	case document.KindBars:
		return bars(b.Bars, depth)
	case document.KindFacts, document.KindLedger, document.KindTable:
		return aligned(b)
	case document.KindFigure:
		return figure(b.Figure)
	case document.KindCode:
		return code(b.Code)
	case document.KindRule:
		return "* * *"
	}
	return ""
}

func note(b document.Block, depth int) string {
	text := prose(b.Text)
	if text == "" {
		return ""
	}
	s := "[b]" + b.Tone.Label() + ":[/b] " + text
	if depth > 0 { // some boards close the list at a quotation
		return s
	}
	return tag("quote", s)
}

func aligned(b document.Block) string {
	s := ""
	for _, l := range document.Aligned(b, codeWidth) {
		s += l.String() + "\n"
	}
	return code(strings.TrimRight(s, "\n"))
}

func figure(f *document.Figure) string {
	if f == nil {
		return ""
	}
	return join(code(f.Drawing), tag("i", prose(document.Plain(f.Caption))))
}

func code(s string) string {
	if strings.TrimSpace(s) == "" {
		return ""
	}
	return "[code]\n" + text(strings.Join(document.Chop(s, codeWidth), "\n")) + "\n[/code]"
}

// tag puts s into a tag, nothing for nothing: an empty pair shows on some boards.
func tag(name, s string) string {
	if s == "" {
		return ""
	}
	return "[" + name + "]" + s + "[/" + name + "]"
}

// join sets the parts that are not empty on lines of their own.
func join(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, "\n")
}

// prose returns t as one line. Code has no tag that every board knows: it is left
// unmarked.
func prose(t document.Text) string {
	var b strings.Builder
	for _, line := range document.WrapText(t, math.MaxInt32) {
		for _, s := range line {
			switch s.Style {
			case document.StyleStrong:
				b.WriteString(tag("b", text(s.Text)))
			case document.StyleEmphasis:
				b.WriteString(tag("i", text(s.Text)))
			default:
				b.WriteString(text(s.Text))
			}
		}
	}
	return b.String()
}

var brackets = strings.NewReplacer("[", "(", "]", ")")

func text(s string) string { return brackets.Replace(s) }
