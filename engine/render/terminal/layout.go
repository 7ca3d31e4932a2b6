package terminal

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
)

// Two styles of our own beside those of a document.
const (
	styleBar     document.Style = "bar"     // the filled part of a bar
	styleWarning document.Style = "warning" // the label of a caution
)

// widestBar keeps bars short enough to be compared at a glance.
const widestBar = 40

// layout returns the lines of the blocks, an empty one between two blocks.
func layout(in []document.Block, width int) []document.Text {
	var out []document.Text
	for _, b := range in {
		lines := block(b, width)
		if len(out) > 0 && len(lines) > 0 {
			out = append(out, nil)
		}
		out = append(out, lines...)
	}
	return out
}

func block(b document.Block, width int) []document.Text {
	prose := min(width, widestText)
	switch b.Kind {
	case document.KindHeading: // inside an item; page headings are done in markdown
		return document.WrapText(document.Strong(b.Text.String()), prose)
	case document.KindParagraph:
		return document.WrapText(b.Text, prose)
	case document.KindNote:
		return note(b, prose)
	case document.KindList:
		return list(b, prose)
	case document.KindBars:
		return bars(b.Bars, prose)
	case document.KindFacts, document.KindLedger:
		return document.Aligned(b, prose)
	case document.KindTable:
		return document.Aligned(b, width)
	case document.KindFigure:
		return figure(b.Figure, width)
	case document.KindCode:
		return verbatim(b.Code, width)
	case document.KindRule:
		return []document.Text{{{Text: strings.Repeat("─", prose)}}}
	}
	return nil
}

func note(b document.Block, width int) []document.Text {
	label := document.Span{Text: b.Tone.Label(), Style: document.StyleStrong}
	if b.Tone == document.Caution {
		label.Style = styleWarning
	}
	blanks := strings.Repeat(" ", max(1, 9-len(label.Text))) // "Caution" and two blanks
	mark := document.Text{label, {Text: blanks}}
	return document.Hang(mark, width, func(width int) []document.Text {
		return document.WrapText(b.Text, width)
	})
}

func list(b document.Block, width int) []document.Text {
	var out []document.Text
	loose := false
	for i, item := range b.Items {
		mark := "• "
		if b.Ordered {
			mark = number(i, len(b.Items))
		}
		lines := document.Hang(document.Text{{Text: mark}}, width, func(width int) []document.Text {
			return append(document.WrapText(item.Text, width), layout(item.Blocks, width)...)
		})
		if loose {
			out = append(out, nil)
		}
		loose = len(item.Blocks) > 0
		out = append(out, lines...)
	}
	return out
}

// number is the mark of entry i, counted from 0, as wide as that of the last.
func number(i, of int) string {
	return fmt.Sprintf("%*d. ", len(fmt.Sprint(of)), i+1)
}

// bars lays out one bar to a line where no entry has more to say than its label,
// and in a paragraph each otherwise.
func bars(in []document.Bar, width int) []document.Text {
	var out []document.Text
	figures := 0
	for _, b := range in {
		if len(b.Note) > 0 || len(b.Blocks) > 0 {
			return barParagraphs(in, width)
		}
		figures = max(figures, document.Plain(b.Value).Width())
	}
	for i, b := range in {
		figure := document.Strong(b.Value)
		mark := document.Join(document.Text{{Text: number(i, len(in))}}, drawn(b.Share, width/5),
			document.Text{{Text: strings.Repeat(" ", 2+figures-figure.Width())}}, figure, document.Text{{Text: "  "}})
		out = append(out, document.Hang(mark, width, func(width int) []document.Text {
			return document.WrapText(b.Label, width)
		})...)
	}
	return out
}

func barParagraphs(in []document.Bar, width int) []document.Text {
	var out []document.Text
	for i, b := range in {
		if i > 0 {
			out = append(out, nil)
		}
		mark := document.Text{{Text: number(i, len(in))}}
		out = append(out, document.Hang(mark, width, func(width int) []document.Text {
			return bar(b, width)
		})...)
	}
	return out
}

// drawn is a bar of some cells.
func drawn(share float64, cells int) document.Text {
	full := document.BarCells(share, cells)
	return document.Text{
		{Text: strings.Repeat("█", full), Style: styleBar},
		{Text: strings.Repeat("░", cells-full)},
	}
}

func bar(b document.Bar, width int) []document.Text {
	out := append(labelled(b.Label, b.Value, width), drawn(b.Share, min(width, widestBar)))
	out = append(out, document.WrapText(b.Note, width)...)
	if below := layout(b.Blocks, width); len(below) > 0 {
		out = append(append(out, nil), below...)
	}
	return out
}

// labelled is the label with the value after its last word, or on a line of its
// own where there is no room.
func labelled(label document.Text, value string, width int) []document.Text {
	lines := document.WrapText(label, width)
	figure := document.Strong(value)
	if last := len(lines) - 1; last >= 0 && lines[last].Width()+2+figure.Width() <= width {
		lines[last] = document.Join(lines[last], document.Text{{Text: "  "}}, figure)
		return lines
	}
	return append(lines, document.WrapText(figure, width)...)
}

func figure(f *document.Figure, width int) []document.Text {
	if f == nil {
		return nil
	}
	out := verbatim(f.Drawing, width)
	return append(out, document.WrapText(document.Emphasis(f.Caption), min(width, widestText))...)
}

func verbatim(text string, width int) []document.Text {
	if text == "" {
		return nil
	}
	var out []document.Text
	for _, l := range document.Chop(text, width) {
		out = append(out, document.Text{{Text: l}})
	}
	return out
}
