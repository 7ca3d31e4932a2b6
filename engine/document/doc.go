// Package document is a page as a tree of blocks: what a report says, before
// anybody decides what it looks like.
//
// The main type is Document, a title and a list of Blocks. A Block is one plain
// struct with a Kind, so that a page prints as JSON and a renderer is one switch.
//
//	page := document.New("Creeps when hot",
//		document.Heading(2, document.Plain("Most likely")),
//		document.Bars(document.NewBar(document.Strong("steel plates warped"), 0.46, "46 %")),
//		document.Note(document.Caution, document.Inline("Let the engine *cool* first.")),
//	)
//
// All text is data. Every constructor passes it through Clean or CleanLines,
// which drop escape sequences, control characters and text-direction overrides;
// the renderers do so again, because a Document may also come from JSON. Inline
// reads a little markup and is for wording written in this project only.
//
// The package also measures text (Width), wraps it (Wrap), lays blocks of
// columns out (Aligned), draws bars (BarText) and escapes Markdown
// (EscapeMarkdown), because more than one renderer needs these.
//
// It does not choose words, colours or page widths, and it has no links: a page
// must read the same on paper.
package document
