package plain

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
)

func list(b document.Block, width int) []document.Text {
	var out []document.Text
	for i, item := range b.Items {
		mark := "- "
		if b.Ordered {
			mark = fmt.Sprintf("%d. ", i+1)
		}
		out = append(out, hang(mark, width, func(width int) []document.Text {
			return append(wrap(item.Text, width), blocks(item.Blocks, width)...)
		})...)
	}
	return out
}

func bars(in []document.Bar, width int) []document.Text {
	var out []document.Text
	for i, b := range in {
		if i > 0 {
			out = append(out, nil)
		}
		label := document.Join(b.Label, document.Plain(", "+b.Value))
		mark := fmt.Sprintf("%d of %d: ", i+1, len(in))
		out = append(out, hang(mark, width, func(width int) []document.Text {
			lines := append(wrap(label, width), wrap(b.Note, width)...)
			return append(lines, blocks(b.Blocks, width)...)
		})...)
	}
	return out
}

func facts(in []document.Fact, width int) []document.Text {
	var out []document.Text
	for _, f := range in {
		out = append(out, wrap(document.Join(document.Plain(f.Label+": "), f.Value), width)...)
	}
	return out
}

func ledger(in []document.Entry, width int) []document.Text {
	var out []document.Text
	for _, e := range in {
		mark := e.Amount + ": "
		if e.Total {
			mark = "in all " + mark
		}
		t := e.Label
		if len(e.Note) > 0 {
			t = document.Join(t, document.Plain(" ("), e.Note, document.Plain(")"))
		}
		out = append(out, hang(mark, width, func(width int) []document.Text { return wrap(t, width) })...)
	}
	return out
}

// table reads each row out: its first cell, then every other cell after its
// heading.
func table(g *document.Grid, width int) []document.Text {
	if g == nil {
		return nil
	}
	var out []document.Text
	for _, row := range g.Rows {
		text, link := "", ""
		for i, c := range row {
			if i >= len(g.Head) || c == "" {
				continue
			}
			if i == 0 {
				text, link = c, ": "
				continue
			}
			text += link + g.Head[i] + " " + c
			link = ", "
		}
		out = append(out, wrap(document.Plain(text), width)...)
	}
	return out
}

func figure(f *document.Figure, width int) []document.Text {
	if f == nil || f.Caption+f.Alt == "" {
		return nil
	}
	text := "Figure, not drawn here: " + f.Caption
	if f.Alt != "" {
		text = "Figure: " + strings.TrimSpace(f.Caption+" "+f.Alt)
	}
	return wrap(document.Plain(text), width)
}

func code(text string, width int) []document.Text {
	if text == "" {
		return nil
	}
	return hang("  ", width, func(width int) []document.Text {
		var out []document.Text
		for _, l := range document.Chop(text, width) {
			out = append(out, document.Text{{Text: l}})
		}
		return out
	})
}
