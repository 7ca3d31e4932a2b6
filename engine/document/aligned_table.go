package document

import "strings"

const narrowest = 10 // no column is squeezed below this

func alignTable(g Grid, width int) []Text {
	widths := columnWidths(g)
	if !squeeze(widths, width) {
		return records(g, width)
	}
	out := tableRow(g, g.Head, widths)
	var rule Text
	for i, w := range widths {
		if i > 0 {
			rule = append(rule, Span{Text: strings.Repeat(" ", gap)})
		}
		rule = append(rule, Span{Text: strings.Repeat("─", w)})
	}
	out = append(out, merge(rule))
	for _, r := range g.Rows {
		out = append(out, tableRow(g, r, widths)...)
	}
	return out
}

func columnWidths(g Grid) []int {
	widths := make([]int, len(g.Head))
	for i, h := range g.Head {
		widths[i] = max(1, Width(h))
		for _, r := range g.Rows {
			widths[i] = max(widths[i], Width(cell(r, i)))
		}
	}
	return widths
}

// squeeze takes from the widest column until the row fits, and reports whether it
// came to fit.
func squeeze(widths []int, width int) bool {
	total := -gap
	widest := 0
	for i, w := range widths {
		total += w + gap
		if w > widths[widest] {
			widest = i
		}
	}
	if total <= width {
		return true
	}
	if widths[widest] <= narrowest {
		return false
	}
	widths[widest]--
	return squeeze(widths, width)
}

func tableRow(g Grid, row []string, widths []int) []Text {
	wrapped := make([][]string, len(widths))
	height := 1 // an empty row still takes a line
	for i := range widths {
		wrapped[i] = Wrap(cell(row, i), widths[i])
		height = max(height, len(wrapped[i]))
	}
	var out []Text
	for y := range height {
		line := ""
		for i, w := range widths {
			if i > 0 {
				line += strings.Repeat(" ", gap)
			}
			line += pad(Text{{Text: cell(wrapped[i], y)}}, w, align(g, i)).String()
		}
		out = append(out, merge(Text{{Text: strings.TrimRight(line, " ")}}))
	}
	return out
}

// records is the table for narrow pages: a group of lines per row.
func records(g Grid, width int) []Text {
	var out []Text
	for y, r := range g.Rows {
		if y > 0 {
			out = append(out, nil)
		}
		for i, h := range g.Head {
			if c := cell(r, i); c != "" {
				out = append(out, WrapText(Text{{Text: h + ": " + c}}, width)...)
			}
		}
	}
	return out
}

func cell(row []string, i int) string {
	if i < len(row) {
		return row[i]
	}
	return ""
}

func align(g Grid, i int) Align {
	if i < len(g.Align) {
		return g.Align[i]
	}
	return Left
}
