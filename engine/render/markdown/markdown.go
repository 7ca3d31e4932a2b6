package markdown

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
)

const (
	columns  = 70 // widest line of aligned text; forums cut wider ones
	barCells = 20
)

// Render returns the page as Markdown. It ends with one line feed, and no line
// ends with a blank.
func Render(d document.Document) string {
	d = d.Clean()
	out := oneLine("# ", document.Plain(d.Title))
	out = append(out, "")
	out = append(out, blocks(d.Blocks, columns)...)
	return strings.Trim(strings.Join(out, "\n"), "\n") + "\n"
}

// blocks returns the lines of the blocks, an empty line between two of them.
func blocks(in []document.Block, width int) []string {
	var out []string
	for _, b := range in {
		lines := block(b, width)
		if len(lines) > 0 && len(out) > 0 {
			out = append(out, "")
		}
		out = append(out, lines...)
	}
	return out
}

func block(b document.Block, width int) []string {
	switch b.Kind {
	case document.KindHeading:
		return oneLine(strings.Repeat("#", b.Level)+" ", b.Text)
	case document.KindParagraph:
		return oneLine("", b.Text)
	case document.KindNote:
		return oneLine("> **"+b.Tone.Label()+":** ", b.Text)
	case document.KindList:
		return list(b, width)
	case document.KindBars:
		return bars(b.Bars, width)
	case document.KindFacts, document.KindLedger, document.KindTable:
		return fence(document.Aligned(b, max(width, 20)))
	case document.KindFigure:
		return figure(b.Figure)
	case document.KindCode:
		return fenceText(b.Code)
	case document.KindRule:
		return []string{"---"}
	}
	return nil
}

func oneLine(mark string, t document.Text) []string {
	text := prose(t)
	if text == "" {
		return nil
	}
	return []string{mark + text}
}

func list(b document.Block, width int) []string {
	var out []string
	loose := false
	for i, item := range b.Items {
		mark := "- "
		if b.Ordered {
			mark = fmt.Sprintf("%d. ", i+1)
		}
		// An item without text would make its first nested line a heading or code.
		lines := append([]string{or(prose(item.Text), "…")}, spaced(blocks(item.Blocks, width-len(mark)))...)
		if loose {
			out = append(out, "")
		}
		loose = len(lines) > 1
		out = append(out, hang(mark, lines)...)
	}
	return out
}

// bars writes the figure and its bar in code style on a line of their own.
func bars(in []document.Bar, width int) []string {
	var out []string
	for i, b := range in {
		mark := fmt.Sprintf("%d. ", i+1)
		bar := code(strings.TrimSpace(document.BarText(b.Share, barCells) + " " + b.Value))
		lines := []string{or(prose(b.Label), "…"), "", bar}
		lines = append(lines, spaced(oneLine("", b.Note))...)
		lines = append(lines, spaced(blocks(b.Blocks, width-len(mark)))...)
		if i > 0 {
			out = append(out, "")
		}
		out = append(out, hang(mark, lines)...)
	}
	return out
}

func or(s, instead string) string {
	if s == "" {
		return instead
	}
	return s
}

// spaced puts an empty line before lines, if there are any.
func spaced(lines []string) []string {
	if len(lines) == 0 {
		return nil
	}
	return append([]string{""}, lines...)
}

// hang puts mark before the first line and as many blanks before the others.
func hang(mark string, lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		switch {
		case i == 0:
			out[i] = mark + l
		case l != "":
			out[i] = strings.Repeat(" ", len(mark)) + l
		}
	}
	return out
}

func figure(f *document.Figure) []string {
	if f == nil {
		return nil
	}
	out := fenceText(f.Drawing)
	if caption := oneLine("", document.Emphasis(f.Caption)); caption != nil {
		if out != nil {
			out = append(out, "")
		}
		out = append(out, caption...)
	}
	return out
}

func fence(lines []document.Text) []string {
	var text []string
	for _, l := range lines {
		text = append(text, l.String())
	}
	return fenceText(strings.Join(text, "\n"))
}

// fenceText fences text with more backticks than it holds in a row.
func fenceText(text string) []string {
	if text == "" {
		return nil
	}
	mark := strings.Repeat("`", max(3, longestRun(text)+1))
	out := append([]string{mark + "text"}, strings.Split(text, "\n")...)
	return append(out, mark)
}

func longestRun(s string) int {
	longest, run := 0, 0
	for _, r := range s {
		if r == '`' {
			run++
		} else {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest
}
