package source

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"
)

// shownCells is how many terminal cells of a line are shown; longer lines are
// cut around the caret.
const shownCells = 88

// tabCells is the tab stop used when a line with tabs is shown.
const tabCells = 4

// Render writes every problem with the line it is about and a row of carets
// under the offending runes. Files are looked up by name; a problem whose file
// or line is not there is shown without its line.
func (ps Problems) Render(w io.Writer, files map[string]*File) {
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s\n", p)
		snippet(&b, p.Pos, p.Length, files)
		for _, r := range p.Related {
			fmt.Fprintf(&b, "  see: %s\n", clean(r.Pos.String()+": "+r.Message))
			snippet(&b, r.Pos, 1, files)
		}
		if p.Hint != "" {
			fmt.Fprintf(&b, "  hint: %s\n", clean(p.Hint))
		}
	}
	io.WriteString(w, b.String())
}

// snippet shows the line and carets; a blank line would show nothing worth seeing.
func snippet(b *strings.Builder, pos Pos, length int, files map[string]*File) {
	f := files[pos.File]
	if f == nil || pos.Line < 1 {
		return
	}
	line := f.Line(pos.Line)
	if strings.TrimSpace(line) == "" {
		return
	}
	shown, from, cells := window(line, max(pos.Column, 1)-1, max(length, 1))
	fmt.Fprintf(b, "%5d | %s\n", pos.Line, strings.TrimRight(shown, " "))
	fmt.Fprintf(b, "%5s | %s%s\n", "", strings.Repeat(" ", from), strings.Repeat("^", cells))
}

// cell is one rune as shown and the terminal cells it takes.
type cell struct {
	text  string
	width int
}

// window lays out a line in cells, cuts it around the marked runes and returns
// the text with the first marked cell and how many to mark.
func window(line string, start, length int) (text string, from, marked int) {
	cells := layout(line)
	start = min(start, len(cells))
	end := min(start+length, len(cells))
	first, last := 0, len(cells)
	if width(cells) > shownCells {
		first, last = cut(cells, start)
	}
	end = min(end, last)
	var b strings.Builder
	if first > 0 {
		b.WriteString("... ")
		from = len("... ")
	}
	for _, c := range cells[first:last] {
		b.WriteString(c.text)
	}
	if last < len(cells) {
		b.WriteString(" ...")
	}
	from += width(cells[first:start])
	return b.String(), from, max(1, width(cells[start:max(start, end)]))
}

// cut picks the cells to show: a third of the window before the caret, the rest
// after it.
func cut(cells []cell, start int) (first, last int) {
	first = start
	for room := shownCells / 3; first > 0 && room >= cells[first-1].width; first-- {
		room -= cells[first-1].width
	}
	last = first
	for room := shownCells; last < len(cells) && room >= cells[last].width; last++ {
		room -= cells[last].width
	}
	return first, last
}

// layout turns runes into cells: tabs become blanks up to the next stop, wide
// characters take two cells, combining ones none.
func layout(line string) []cell {
	// A condition of our own: the library's default reads the locale, and the
	// same input must give the same bytes everywhere.
	cond := runewidth.Condition{StrictEmojiNeutral: true}
	cells := make([]cell, 0, len(line))
	column := 0
	for _, r := range line {
		c := cell{string(r), 1}
		switch {
		case r == '\t':
			c.width = tabCells - column%tabCells
			c.text = strings.Repeat(" ", c.width)
		case hidden(r):
			c.text = "?"
		default:
			c.width = cond.RuneWidth(r)
		}
		column += c.width
		cells = append(cells, c)
	}
	return cells
}

func width(cells []cell) int {
	n := 0
	for _, c := range cells {
		n += c.width
	}
	return n
}

// hidden tells runes that would move the cursor, change colours or reorder the
// text: controls, and format characters such as bidirectional overrides.
func hidden(r rune) bool {
	return unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) || r == unicode.ReplacementChar
}

// clean makes text from a file safe to print on one line.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if hidden(r) {
			return '?'
		}
		return r
	}, s)
}
