// Package markdown renders a page as Markdown that can be pasted anywhere: the
// core of CommonMark, without HTML, tables or links, quiet enough to be read as
// it stands.
//
//	text := markdown.Render(page) // ends with one line feed
//
// Columns of facts, ledgers and tables become aligned text in a fenced block, a
// ranked list becomes a numbered one with a bar of characters under each label.
// Text from the page never acts as markup.
//
// It does not wrap prose: the place it is pasted to does that.
package markdown
