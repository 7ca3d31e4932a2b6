package bbcode

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/document"
)

const deepest = 2 // lists in lists; below that, lines with a dash

func list(b document.Block, depth int) string {
	var items []string
	for _, item := range b.Items {
		items = append(items, join(or(prose(item.Text)), nested(item.Blocks, depth+1)))
	}
	return listOf(items, b.Ordered, depth)
}

func bars(in []document.Bar, depth int) string {
	var items []string
	for _, b := range in {
		bar := strings.TrimSpace(document.BarText(b.Share, barCells) + " " + text(b.Value))
		items = append(items, join(or(prose(b.Label)), bar, prose(b.Note), nested(b.Blocks, depth+1)))
	}
	return listOf(items, true, depth)
}

func nested(in []document.Block, depth int) string {
	var out []string
	for _, b := range in {
		out = append(out, block(b, depth))
	}
	return join(out...)
}

func listOf(items []string, ordered bool, depth int) string {
	if len(items) == 0 {
		return ""
	}
	if depth >= deepest {
		return dashes(items, ordered)
	}
	open := "[list]"
	if ordered {
		open = "[list=1]"
	}
	return open + "\n[*]" + strings.Join(items, "\n[*]") + "\n[/list]"
}

func dashes(items []string, ordered bool) string {
	var out []string
	for i, s := range items {
		mark := "- "
		if ordered {
			mark = fmt.Sprintf("%d. ", i+1)
		}
		out = append(out, mark+s)
	}
	return strings.Join(out, "\n")
}

func or(s string) string {
	if s == "" {
		return "…" // boards drop an empty item
	}
	return s
}
