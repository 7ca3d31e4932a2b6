package report

import (
	"strings"

	"example.org/takeup/engine/document"
)

// Page turns a student page of the knowledge folder into blocks. Pages are kept
// plain on purpose: headings, paragraphs and lists of one level, with emphasis.
// They stand under a heading of their own, since the entry above them is parted
// by the same questions.
func Page(markdown string) []document.Block {
	return append([]document.Block{heading("The page for students")}, pageBlocks(markdown)...)
}

func pageBlocks(markdown string) []document.Block {
	var blocks []document.Block
	var items []document.Item
	for _, part := range strings.Split(strings.ReplaceAll(markdown, "\r", ""), "\n\n") {
		part = strings.TrimSpace(part)
		switch {
		case part == "" || strings.HasPrefix(part, "# "): // the title is the page's own
		case strings.HasPrefix(part, "## "):
			head, rest, _ := strings.Cut(part, "\n")
			blocks = append(blocks, document.Heading(3, plain(strings.TrimPrefix(head, "## "))))
			blocks = append(blocks, pageBlocks(rest)...)
		case strings.HasPrefix(part, "- "):
			items = nil
			for _, line := range strings.Split(part[2:], "\n- ") {
				items = append(items, document.NewItem(prose(line)))
			}
			blocks = append(blocks, document.List(items...))
		default:
			blocks = append(blocks, document.Paragraph(prose(part)))
		}
	}
	return blocks
}

// prose joins the lines of a paragraph and marks what stands between stars.
func prose(text string) document.Text {
	var out document.Text
	for i, piece := range strings.Split(strings.Join(strings.Fields(text), " "), "*") {
		if i%2 == 1 {
			out = document.Join(out, document.Emphasis(piece))
		} else {
			out = document.Join(out, plain(piece))
		}
	}
	return out
}
