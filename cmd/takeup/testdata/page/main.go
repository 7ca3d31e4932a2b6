// Command page links the terminal renderer and prints one page. It is the
// yardstick that BenchmarkProcess holds the whole program against.
package main

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/render/terminal"
)

func main() {
	page := document.New("One page")
	for range 12 {
		page.Blocks = append(page.Blocks, document.Heading(2, document.Plain("Heading")),
			document.Paragraph(document.Plain(strings.Repeat("A line of text that wraps. ", 8))))
	}
	text, err := terminal.Render(page, terminal.Options{Width: 80})
	fmt.Print(text, err)
}
