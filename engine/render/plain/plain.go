package plain

import (
	"strings"

	"example.org/takeup/engine/document"
)

const narrowest = 40 // columns; what is asked below this gets this

// Render returns the page as lines of at most width columns, at least 40. No line
// ends with a blank, and the text ends with one line feed.
func Render(d document.Document, width int) string {
	width = max(width, narrowest)
	d = d.Clean()
	out := wrap(document.Plain(d.Title), width)
	for _, b := range d.Blocks {
		lines := block(b, width)
		if len(lines) == 0 {
			continue
		}
		if len(out) > 0 {
			out = append(out, nil)
			if b.Kind == document.KindHeading && b.Level == 2 {
				out = append(out, nil) // the only sign of a new part
			}
		}
		out = append(out, lines...)
	}
	var b strings.Builder
	for _, l := range out {
		b.WriteString(strings.TrimRight(l.String(), " ") + "\n")
	}
	return b.String()
}

func blocks(in []document.Block, width int) []document.Text {
	var out []document.Text
	for _, b := range in {
		out = append(out, block(b, width)...)
	}
	return out
}

func block(b document.Block, width int) []document.Text {
	switch b.Kind {
	case document.KindHeading, document.KindParagraph:
		return wrap(b.Text, width)
	case document.KindNote:
		return wrap(document.Join(document.Plain(b.Tone.Label()+": "), b.Text), width)
	case document.KindList:
		return list(b, width)
	case document.KindBars:
		return bars(b.Bars, width)
	case document.KindFacts:
		return facts(b.Facts, width)
	case document.KindLedger:
		return ledger(b.Ledger, width)
	case document.KindTable:
		return table(b.Table, width)
	case document.KindFigure:
		return figure(b.Figure, width)
	case document.KindCode:
		return code(b.Code, width)
	}
	return nil // a rule is only a gap
}

func wrap(t document.Text, width int) []document.Text { return document.WrapText(t, width) }

// hang is document.Hang for a mark without style.
func hang(mark string, width int, lay func(int) []document.Text) []document.Text {
	return document.Hang(document.Text{{Text: mark}}, width, lay)
}
