package document

// Document is one page: a title of plain text and its blocks from top to bottom.
type Document struct {
	Title  string  `json:"title"`
	Blocks []Block `json:"blocks"`
}

// Kind says which fields of a Block are in use.
type Kind string

// The kinds of block, each with the fields it uses.
const (
	KindHeading   Kind = "heading"   // Level, Text
	KindParagraph Kind = "paragraph" // Text
	KindList      Kind = "list"      // Ordered, Tick, Items
	KindBars      Kind = "bars"      // Bars, most likely first
	KindFacts     Kind = "facts"     // Facts
	KindLedger    Kind = "ledger"    // Ledger
	KindTable     Kind = "table"     // Table
	KindFigure    Kind = "figure"    // Figure
	KindNote      Kind = "note"      // Tone, Text
	KindCode      Kind = "code"      // Code
	KindRule      Kind = "rule"      // nothing
)

// Block is one piece of a page. Only the fields named beside its Kind are set.
type Block struct {
	Kind    Kind    `json:"kind"`
	Level   int     `json:"level,omitempty"` // 2 to 4; the title is level 1
	Ordered bool    `json:"ordered,omitempty"`
	Tick    bool    `json:"tick,omitempty"` // steps to tick off on paper
	Tone    Tone    `json:"tone,omitempty"`
	Text    Text    `json:"text,omitempty"`
	Items   []Item  `json:"items,omitempty"`
	Bars    []Bar   `json:"bars,omitempty"`
	Facts   []Fact  `json:"facts,omitempty"`
	Ledger  []Entry `json:"ledger,omitempty"`
	Table   *Grid   `json:"table,omitempty"`
	Figure  *Figure `json:"figure,omitempty"`
	Code    string  `json:"code,omitempty"` // several lines, kept as they are
}

// Style is how a Span stands out from its neighbours.
type Style string

// The styles of a Span. There is no link: a page must read the same on paper.
const (
	StylePlain    Style = ""
	StyleStrong   Style = "strong"
	StyleEmphasis Style = "emphasis"
	StyleCode     Style = "code" // an id, a command, a key
)

// Span is a run of text in one style. Its text holds no line break.
type Span struct {
	Text  string `json:"text"`
	Style Style  `json:"style,omitempty"`
}

// Text is a line of running text: spans that follow each other without a gap.
type Text []Span

// String returns the text without its styles.
func (t Text) String() string {
	s := ""
	for _, span := range t {
		s += span.Text
	}
	return s
}

// Tone says what a note is for.
type Tone string

// The tones of a note.
const (
	Caution Tone = "caution" // somebody or something could get hurt
	Hint    Tone = "hint"    // what to do next
	Doubt   Tone = "doubt"   // what the answer rests on, or does not know
)

// Label is the word every renderer puts in front of a note of this tone.
func (t Tone) Label() string {
	switch t {
	case Caution:
		return "Caution"
	case Hint:
		return "Hint"
	case Doubt:
		return "Doubt"
	}
	return "Note"
}

// Item is an entry of a list, with optional blocks below it.
type Item struct {
	Text   Text    `json:"text"`
	Blocks []Block `json:"blocks,omitempty"`
}

// Bar is an entry of a ranked list.
type Bar struct {
	Label  Text    `json:"label"`
	Share  float64 `json:"share"`          // length of the bar, 0 to 1
	Value  string  `json:"value"`          // the share in words or digits, "46 %"
	Note   Text    `json:"note,omitempty"` // one quieter line below
	Blocks []Block `json:"blocks,omitempty"`
}

// Fact is a label with its value, one line of an aligned pair of columns.
type Fact struct {
	Label string `json:"label"`
	Value Text   `json:"value"`
}

// Entry is one line of a balance sheet.
type Entry struct {
	Label  Text   `json:"label"`
	Amount string `json:"amount"` // a signed number as text, "+6.2 dB"
	Note   Text   `json:"note,omitempty"`
	Total  bool   `json:"total,omitempty"` // the sum of the entries above
}

// Align is the side on which a column of a Grid lines up.
type Align string

// The alignments of a column.
const (
	Left  Align = ""
	Right Align = "right" // numbers
)

// Grid is a table: for wide data only, since narrow screens have to fold it.
// Rows shorter than Head are filled with empty cells; longer ones are cut.
type Grid struct {
	Head  []string   `json:"head"`
	Align []Align    `json:"align,omitempty"` // by column; missing ones are Left
	Rows  [][]string `json:"rows"`
}

// SVG is a drawing made by this project's own code. It is a type of its own so
// that text from a file does not become one by accident; labels inside it go
// through SVGText first.
type SVG string

// Figure is a drawing in two forms: SVG for pages, lines of text for all else.
type Figure struct {
	Caption string `json:"caption"`
	Alt     string `json:"alt,omitempty"` // what there is to see, for readers who cannot
	Drawing string `json:"drawing"`       // several lines of text, at best 60 wide
	SVG     SVG    `json:"svg,omitempty"`
}
