// Package plain renders a page as words alone: for screen readers, mail and log
// files.
//
//	text := plain.Render(page, 72)
//
// There is no markup, no escape sequence, no bar and no box drawing. A rank is
// said as "1 of 5", an amount stands before what it is for, and a table is read
// out row by row. A drawing is left out: its caption and the sentence
// beside it have to say what it shows.
//
// It does not align columns; the terminal and Markdown packages do.
package plain
