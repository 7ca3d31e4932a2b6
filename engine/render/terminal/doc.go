// Package terminal renders a page for a terminal, through Markdown and glamour.
//
//	text, err := terminal.Render(page, terminal.Options{Width: 80, Colour: true})
//
// The package lays the page out itself, to the column: where lines break, how
// lists hang, how long a bar is. What it hands to glamour is Markdown with one
// line per block, in which every blank and every mark of punctuation from the
// page is replaced by a stand-in. So glamour has nothing to wrap, to pad or to
// take for markup; it parses the blocks and styles them, and the stand-ins are
// then put back.
//
// It does not ask the terminal anything: size and colour come from the caller.
package terminal
