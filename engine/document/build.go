package document

import "fmt"

// New returns a page. The title is data.
func New(title string, blocks ...Block) Document {
	return Document{Title: Clean(title), Blocks: blocks}
}

// Plain returns s, which may come from anywhere, as unmarked text.
func Plain(s string) Text { return span(s, StylePlain) }

// Plainf formats like fmt.Sprintf and returns the result as unmarked text.
func Plainf(format string, args ...any) Text { return Plain(fmt.Sprintf(format, args...)) }

// Strong returns s as text that stands out.
func Strong(s string) Text { return span(s, StyleStrong) }

// Emphasis returns s as text with a slight stress.
func Emphasis(s string) Text { return span(s, StyleEmphasis) }

// Code returns s as text to be typed or read letter by letter.
func Code(s string) Text { return span(s, StyleCode) }

func span(s string, style Style) Text {
	if s = Clean(s); s == "" {
		return nil
	}
	return Text{{Text: s, Style: style}}
}

// Join returns the parts as one text, without adding blanks between them.
func Join(parts ...Text) Text {
	var all Text
	for _, p := range parts {
		all = append(all, p...)
	}
	return all
}

// Heading returns a heading of level 2, 3 or 4; any other level panics.
func Heading(level int, parts ...Text) Block {
	if level < 2 || level > 4 {
		panic(fmt.Sprintf("document: heading level %d, want 2 to 4", level))
	}
	return Block{Kind: KindHeading, Level: level, Text: Join(parts...)}
}

// Paragraph returns the parts as one paragraph.
func Paragraph(parts ...Text) Block { return Block{Kind: KindParagraph, Text: Join(parts...)} }

// Note returns a remark in the given tone. The renderer adds the tone's label.
func Note(tone Tone, parts ...Text) Block {
	return Block{Kind: KindNote, Tone: tone, Text: Join(parts...)}
}

// NewItem returns a list entry with optional blocks below it.
func NewItem(text Text, blocks ...Block) Item { return Item{Text: text, Blocks: blocks} }

// List returns a list with a mark before each item.
func List(items ...Item) Block { return Block{Kind: KindList, Items: items} }

// Numbered returns a list counted from 1.
func Numbered(items ...Item) Block { return Block{Kind: KindList, Ordered: true, Items: items} }

// Checklist returns a list counted from 1 of which every item is to be ticked off
// where the page is printed.
func Checklist(items ...Item) Block {
	return Block{Kind: KindList, Ordered: true, Tick: true, Items: items}
}

// NewBar returns an entry of a ranked list. A share outside 0 to 1 is moved to
// the nearer end, not-a-number to 0.
func NewBar(label Text, share float64, value string, blocks ...Block) Bar {
	return Bar{Label: label, Share: clampShare(share), Value: Clean(value), Blocks: blocks}
}

// With returns the bar with a quieter line below it.
func (b Bar) With(note ...Text) Bar {
	b.Note = Join(note...)
	return b
}

// Bars returns a ranked list; the caller has put the largest share first.
func Bars(bars ...Bar) Block { return Block{Kind: KindBars, Bars: bars} }

// NewFact returns a label with its value.
func NewFact(label string, value ...Text) Fact {
	return Fact{Label: Clean(label), Value: Join(value...)}
}

// Facts returns aligned pairs of label and value.
func Facts(facts ...Fact) Block { return Block{Kind: KindFacts, Facts: facts} }

// NewEntry returns one line of a balance sheet; amount is a signed number as
// text.
func NewEntry(label Text, amount string, note ...Text) Entry {
	return Entry{Label: label, Amount: Clean(amount), Note: Join(note...)}
}

// NewTotal returns the line below the entries that gives their sum.
func NewTotal(label Text, amount string, note ...Text) Entry {
	e := NewEntry(label, amount, note...)
	e.Total = true
	return e
}

// Ledger returns a balance sheet.
func Ledger(entries ...Entry) Block { return Block{Kind: KindLedger, Ledger: entries} }

// Table returns a table with one heading per column. A missing alignment is
// Left, a missing cell is empty, a surplus cell is dropped.
func Table(head []string, align []Align, rows ...[]string) Block {
	g := &Grid{Head: cleanAll(head), Align: append([]Align(nil), align...)}
	for _, r := range rows {
		g.Rows = append(g.Rows, cleanAll(r))
	}
	return Block{Kind: KindTable, Table: g}
}

func cleanAll(in []string) []string {
	out := make([]string, len(in))
	for i, s := range in {
		out[i] = Clean(s)
	}
	return out
}

// Drawing returns a figure: lines of text, and the same as SVG or "" for none.
func Drawing(caption, drawing string, svg SVG) Block {
	return Block{Kind: KindFigure, Figure: &Figure{
		Caption: Clean(caption), Drawing: CleanLines(drawing), SVG: svg,
	}}
}

// Saying returns a figure with a sentence that says what there is to see.
func (b Block) Saying(alt string) Block {
	if b.Figure != nil {
		f := *b.Figure
		f.Alt = Clean(alt)
		b.Figure = &f
	}
	return b
}

// CodeBlock returns text whose lines and blanks are kept.
func CodeBlock(text string) Block { return Block{Kind: KindCode, Code: CleanLines(text)} }

// Rule returns a line across the page.
func Rule() Block { return Block{Kind: KindRule} }
