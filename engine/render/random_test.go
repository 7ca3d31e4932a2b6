package render_test

import (
	"example.org/takeup/engine/document"
	"pgregory.net/rapid"
)

var kinds = []document.Kind{
	document.KindHeading, document.KindParagraph, document.KindList, document.KindBars, document.KindFacts,
	document.KindLedger, document.KindTable, document.KindFigure, document.KindNote, document.KindCode, document.KindRule,
}

// hostile is text that some format, terminal or board would act on.
var hostile = []string{
	"\x1b[31mred\x1b[0m", "\x1b]0;title\x07", "\x1b]8;;http://a.example\x1b\\x", "\u009b31m", "\x1b", "\a\b\r",
	"<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "</title>", "&lt;b&gt;", "&#42;", "<!--", "]]>",
	"[url=http://a.example]x[/url]", "[b]", "[/code]", "[*]", "**bold**", "*", "__u__", "`code`", "```", "~~s~~",
	"# head", "- item", "1. item", "> quote", "---", "| a | b |", "[x](javascript:alert(1))", "![x](http://a.example/y.png)",
	"http://a.example", "www.a.example", "me@a.example", ":smile:", "\u202eabc\u202c", "\u2066x\u2069", "\u200f", "\ufeff",
	"line\nbreak", "para\n\ngraph", "    indented", "tab\there", "\\", "\\*", "{{.}}", "\xff\xfe", "\ue02a\ue001",
	"日本語の長い文章です", "e\u0301", "👩‍🔧", "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen", "46\u00a0%", "", " ", "\u00a0",
}

var texts = rapid.Custom(func(t *rapid.T) string {
	parts := rapid.SliceOfN(rapid.OneOf(rapid.SampledFrom(hostile), rapid.StringN(0, 12, 40)), 0, 4).Draw(t, "parts")
	s := ""
	for _, p := range parts {
		s += p + rapid.SampledFrom([]string{"", " "}).Draw(t, "between")
	}
	return s
})

var styles = rapid.SampledFrom([]document.Style{
	document.StylePlain, document.StyleStrong, document.StyleEmphasis, document.StyleCode, "unheard-of",
})

// spans are built without the constructors, as JSON would.
var spans = rapid.Custom(func(t *rapid.T) document.Text {
	var out document.Text
	for range rapid.IntRange(0, 4).Draw(t, "spans") {
		out = append(out, document.Span{Text: texts.Draw(t, "text"), Style: styles.Draw(t, "style")})
	}
	return out
})

func pages() *rapid.Generator[document.Document] {
	return rapid.Custom(func(t *rapid.T) document.Document {
		return document.Document{Title: texts.Draw(t, "title"), Blocks: drawBlocks(t, 3)}
	})
}

func drawBlocks(t *rapid.T, depth int) []document.Block {
	if depth == 0 {
		return nil
	}
	var out []document.Block
	for range rapid.IntRange(0, 3).Draw(t, "blocks") {
		out = append(out, drawBlock(t, depth))
	}
	return out
}

func drawBlock(t *rapid.T, depth int) document.Block {
	b := document.Block{
		Kind:    rapid.SampledFrom(kinds).Draw(t, "kind"),
		Level:   rapid.IntRange(-1, 9).Draw(t, "level"),
		Ordered: rapid.Bool().Draw(t, "ordered"),
		Tick:    rapid.Bool().Draw(t, "tick"),
		Tone:    rapid.SampledFrom([]document.Tone{document.Caution, document.Hint, document.Doubt, "?"}).Draw(t, "tone"),
		Text:    spans.Draw(t, "text"),
		Code:    texts.Draw(t, "code") + "\n" + texts.Draw(t, "code"),
	}
	n := rapid.IntRange(0, 3).Draw(t, "entries")
	switch b.Kind {
	case document.KindList:
		for range n {
			b.Items = append(b.Items, document.Item{Text: spans.Draw(t, "item"), Blocks: drawBlocks(t, depth-1)})
		}
	case document.KindBars:
		for range n {
			b.Bars = append(b.Bars, document.Bar{
				Label: spans.Draw(t, "label"), Share: rapid.Float64().Draw(t, "share"), Value: texts.Draw(t, "value"),
				Note: spans.Draw(t, "note"), Blocks: drawBlocks(t, depth-1),
			})
		}
	case document.KindFacts:
		for range n {
			b.Facts = append(b.Facts, document.Fact{Label: texts.Draw(t, "label"), Value: spans.Draw(t, "value")})
		}
	case document.KindLedger:
		for range n {
			b.Ledger = append(b.Ledger, document.Entry{
				Label: spans.Draw(t, "label"), Amount: texts.Draw(t, "amount"), Note: spans.Draw(t, "note"),
				Total: rapid.Bool().Draw(t, "total"),
			})
		}
	case document.KindTable:
		row := rapid.SliceOfN(texts, 0, 9)
		b.Table = &document.Grid{Head: row.Draw(t, "head"), Rows: rapid.SliceOfN(row, 0, 3).Draw(t, "rows")}
	case document.KindFigure:
		b.Figure = &document.Figure{
			Caption: texts.Draw(t, "caption"), Alt: texts.Draw(t, "alt"), Drawing: texts.Draw(t, "drawing"), SVG: document.SVG(texts.Draw(t, "svg")),
		}
	}
	return b
}
