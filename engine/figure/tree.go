package figure

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
)

// Row is one line of a drawn tree. It hangs from the nearest row above it that is
// one step less deep.
type Row struct {
	Depth int
	On    string  // what leads here from the row it hangs from; "" for the first
	Share float64 // how often that is so, 0 to 1: the strength of the line
	Text  string
	Note  string // a quieter line below
	End   bool   // nothing follows: the work is done
}

// Measures of a drawn tree in its own units, as wide as a page is.
const (
	treeWidth  = 480
	treeLeft   = 8
	treeIndent = 22
	rowGap     = 8
	onHeight   = 14 // the line that says what leads to a box
	lineHeight = 14
	boxPad     = 6
	charWidth  = 5.5 // of a letter of 11 units, on the wide side
)

// Tree draws rows from top to bottom as boxes joined by lines: the more often a
// way is taken, the thicker its line.
func Tree(caption, alt string, rows []Row) document.Block {
	var b, lines strings.Builder
	y := 4.0
	joints := map[int]float64{} // by depth: the lower edge of the last box
	for _, r := range rows {
		x := float64(treeLeft + r.Depth*treeIndent)
		if r.On != "" {
			fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" font-size="10" stroke="none" fill="currentColor" fill-opacity=".75">%s</text>`,
				x, y+10, document.SVGText(fit(r.On, x, 10)))
			y += onHeight
		}
		h := r.box(&b, x, y)
		if from, ok := joints[r.Depth-1]; ok {
			fmt.Fprintf(&lines, `<path d="M%.1f %.1f V%.1f H%.1f" stroke-width="%.1f" stroke-opacity=".55"/>`,
				x-treeIndent+10, from, y+h/2, x, 0.8+4*min(max(r.Share, 0), 1))
		}
		joints[r.Depth] = y + h
		y += h + rowGap
	}
	svg := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %.0f" role="img" aria-label="%s" fill="none" stroke="currentColor" stroke-width="1" font-size="11" font-family="sans-serif">%s%s</svg>`,
		treeWidth, y, document.SVGText(alt), lines.String(), b.String())
	return document.Drawing(caption, treeText(rows), document.SVG(svg)).Saying(alt)
}

// box draws one box and returns its height.
func (r Row) box(b *strings.Builder, x, y float64) float64 {
	w := treeWidth - treeLeft - x
	text := document.Wrap(r.Text, int((w-2*boxPad)/charWidth))
	h := float64(2*boxPad + len(text)*lineHeight)
	if r.Note != "" {
		h += lineHeight
	}
	corner, fill := 3, "none"
	if r.End {
		corner, fill = 10, "currentColor"
	}
	fmt.Fprintf(b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" rx="%d" fill="%s" fill-opacity=".08"/>`, x, y, w, h, corner, fill)
	at := y + boxPad + 10
	for _, line := range text {
		fmt.Fprintf(b, `<text x="%.1f" y="%.1f" stroke="none" fill="currentColor">%s</text>`, x+boxPad, at, document.SVGText(line))
		at += lineHeight
	}
	if r.Note != "" {
		fmt.Fprintf(b, `<text x="%.1f" y="%.1f" font-size="10" stroke="none" fill="currentColor" fill-opacity=".75">%s</text>`,
			x+boxPad, at, document.SVGText(fit(r.Note, x+boxPad, 10)))
	}
	return h
}

// fit cuts a line that would run out of the drawing.
func fit(s string, x float64, size float64) string {
	room := int((treeWidth - treeLeft - x) / (charWidth * size / 11))
	if lines := document.Wrap(s, room); len(lines) > 1 {
		return lines[0] + " …"
	}
	return s
}

// treeText is the tree as lines of text.
func treeText(rows []Row) string {
	var b strings.Builder
	for _, r := range rows {
		in := strings.Repeat("  ", r.Depth)
		if r.On != "" {
			b.WriteString(in + r.On + ":\n")
		}
		b.WriteString(in + "- " + r.Text)
		if r.Note != "" {
			b.WriteString(" (" + r.Note + ")")
		}
		b.WriteString("\n")
	}
	return strings.TrimRight(b.String(), "\n")
}
