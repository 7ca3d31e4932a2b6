package document

import "strings"

const gap = 2 // blanks between columns

// Aligned lays a facts, ledger or table block out in columns of monospaced text,
// each line at most width wide and without blanks at its end. What does not fit
// is wrapped inside its column; a table that is still too wide becomes one
// "heading: cell" line per cell. Other kinds give nil.
func Aligned(b Block, width int) []Text {
	switch b.Kind {
	case KindFacts:
		return alignFacts(b.Facts, width)
	case KindLedger:
		return alignLedger(b.Ledger, width)
	case KindTable:
		if b.Table != nil {
			return alignTable(*b.Table, width)
		}
	}
	return nil
}

func alignFacts(facts []Fact, width int) []Text {
	labels := 0
	for _, f := range facts {
		labels = max(labels, Width(f.Label))
	}
	labels = min(labels, width/2)
	var out []Text
	for _, f := range facts {
		left := WrapText(Text{{Text: f.Label}}, labels)
		right := WrapText(f.Value, width-labels-gap)
		out = append(out, beside(left, labels, right)...)
	}
	return out
}

// alignLedger puts the amounts first: they line up at any width and the eye does
// not have to cross the page to find what an amount is for.
func alignLedger(entries []Entry, width int) []Text {
	amounts := 0
	for _, e := range entries {
		amounts = max(amounts, Width(e.Amount))
	}
	amounts = min(amounts, width/2)
	var out []Text
	for _, e := range entries {
		if e.Total {
			out = append(out, Text{{Text: strings.Repeat("─", amounts)}})
		}
		left := WrapText(Text{{Text: e.Amount}}, amounts)
		for i := range left {
			left[i] = pad(left[i], amounts, Right)
		}
		label := e.Label
		if e.Total {
			label = restyle(label, StyleStrong)
		}
		right := WrapText(label, width-amounts-gap)
		right = append(right, WrapText(restyle(e.Note, StyleEmphasis), width-amounts-gap)...)
		out = append(out, beside(left, amounts, right)...)
	}
	return out
}

// restyle gives the plain parts of t a style, to set them off from their
// neighbours.
func restyle(t Text, style Style) Text {
	out := append(Text(nil), t...)
	for i := range out {
		if out[i].Style == StylePlain {
			out[i].Style = style
		}
	}
	return out
}

// beside sets two columns of lines next to each other.
func beside(left []Text, width int, right []Text) []Text {
	var out []Text
	for i := 0; i < max(len(left), len(right)); i++ {
		var line Text
		if i < len(left) {
			line = left[i]
		}
		if i < len(right) {
			line = append(pad(line, width+gap, Left), right[i]...)
		}
		out = append(out, merge(line))
	}
	return out
}

// pad fills t with blanks up to width.
func pad(t Text, width int, align Align) Text {
	n := width - t.Width()
	if n <= 0 {
		return t
	}
	blanks := Span{Text: strings.Repeat(" ", n)}
	if align == Right {
		return append(Text{blanks}, t...)
	}
	return append(append(Text(nil), t...), blanks)
}
