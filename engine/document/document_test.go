package document

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Escape sequences have the forms of ECMA-48, sections 5.4 and 5.6; direction
// marks are those of Unicode Standard Annex 9, section 2. From memory.
func TestClean(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"plain", "46\u00a0% of steels", "46\u00a0% of steels"},
		{"colour", "\x1b[31;1mred\x1b[0m", "red"},
		{"title by bell", "\x1b]0;pwned\x07after", "after"},
		{"link by string terminator", "\x1b]8;;http://a.example\x1b\\text\x1b]8;;\x1b\\", "text"},
		{"eight-bit csi", "\u009b31mred", "red"},
		{"eight-bit terminator", "\x1b]0;x\u009cafter", "after"},
		{"unfinished string ends with the line", "\x1b]0;x\nafter", " after"},
		{"charset", "\x1b(Bafter", "after"},
		{"lone escape", "a\x1b", "a"},
		{"bell and backspace", "a\a\bb", "ab"},
		{"line ends", "a\nb\tc\u2028d", "a b c d"},
		{"direction", "a\u202eb\u2066c\u200fd\u061ce", "abcde"},
		{"invisible", "a\u200bb\ufeffc\u00add\U000e0041e", "abcde"},
		{"joiner stays", "👩\u200d🔧", "👩\u200d🔧"},
		{"not utf-8", "a\xffb", "a\ufffdb"},
		{"markup stays", "<b> **x** [url]", "<b> **x** [url]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Clean(c.in); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestCleanLines(t *testing.T) {
	got := CleanLines("\n\n  a  \r\n\tb\x1b[1m\n\nc \n")
	if want := "  a\n    b\n\nc"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func FuzzClean(f *testing.F) {
	for _, s := range []string{"a", "\x1b[31m", "\x1b]0;x\x07", "\u009b", "\xc2", "\x1b\x1b[[", "\u202e", "a\r\nb"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, clean := range []func(string) string{Clean, CleanLines} {
			got := clean(s)
			if clean(got) != got {
				t.Errorf("not stable: %q", got)
			}
			if strings.ContainsAny(got, "\x1b\a\b\r\x7f") {
				t.Errorf("control left in %q", got)
			}
		}
	})
}

func TestInline(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Text
	}{
		{"plain", Text{{Text: "plain"}}},
		{"a **b** c", Text{{Text: "a "}, {"b", StyleStrong}, {Text: " c"}}},
		{"*a*`b`", Text{{"a", StyleEmphasis}, {"b", StyleCode}}},
		{"2 * 3 and 4 * 5", Text{{Text: "2 * 3 and 4 * 5"}}},
		{"open **end", Text{{Text: "open **end"}}},
		{"`a*b*`", Text{{"a*b*", StyleCode}}},
		{"", nil},
	} {
		if diff := cmp.Diff(c.want, Inline(c.in)); diff != "" {
			t.Errorf("%q: %s", c.in, diff)
		}
	}
}

// Whatever the marks, no letter is lost.
func FuzzInline(f *testing.F) {
	f.Add("a **b** *c* `d` ** `")
	f.Fuzz(func(t *testing.T, s string) {
		drop := strings.NewReplacer("*", "", "`", "")
		if got, want := drop.Replace(Inline(s).String()), drop.Replace(Clean(s)); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	})
}

func TestBarText(t *testing.T) {
	for _, c := range []struct {
		share float64
		want  string
	}{
		{0, "░░░░░░░░░░"}, {0.001, "█░░░░░░░░░"}, {0.46, "█████░░░░░"}, {0.999, "█████████░"}, {1, "██████████"},
		{math.NaN(), "░░░░░░░░░░"}, {7, "██████████"}, {-1, "░░░░░░░░░░"},
	} {
		if got := BarText(c.share, 10); got != c.want {
			t.Errorf("%v: got %s, want %s", c.share, got, c.want)
		}
	}
}

func TestHeadingLevelOutsideRangePanics(t *testing.T) {
	for _, level := range []int{1, 5} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("level %d was accepted", level)
				}
			}()
			Heading(level, Plain("x"))
		}()
	}
}

// Cleaning a page is stable, and it leaves a page from the constructors alone.
func TestCleanPage(t *testing.T) {
	d := New("t", Heading(2, Plain("h")), Paragraph(Inline("a **b**")), List(NewItem(Plain("i"), Rule())),
		Bars(NewBar(Plain("l"), 0.5, "50 %").With(Plain("n"))), Facts(NewFact("f", Code("v"))),
		Ledger(NewEntry(Plain("e"), "+1"), NewTotal(Plain("s"), "+1")), Table([]string{"h"}, []Align{Right}, []string{"c"}),
		Drawing("c", "d", "<svg></svg>"), CodeBlock("x\ny"), Note(Hint, Plain("n")))
	if diff := cmp.Diff(d, d.Clean()); diff != "" {
		t.Error(diff)
	}
	dirty := Document{Title: "\x1b[1mt", Blocks: []Block{{Kind: KindHeading, Level: 9, Text: Text{{Text: "\ah"}}},
		{Kind: KindBars, Bars: []Bar{{Share: math.Inf(1), Value: "\u202e1"}}}}}
	want := Document{Title: "t", Blocks: []Block{{Kind: KindHeading, Level: 4, Text: Text{{Text: "h"}}},
		{Kind: KindBars, Bars: []Bar{{Share: 1, Value: "1"}}}}}
	if diff := cmp.Diff(want, dirty.Clean()); diff != "" {
		t.Error(diff)
	}
}

func TestSVGText(t *testing.T) {
	if got, want := SVGText("a<b & \"c\"\x1b[1m"), "a&lt;b &amp; &quot;c&quot;"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

var phrase = rapid.Custom(func(t *rapid.T) Text {
	var out Text
	for range rapid.IntRange(0, 6).Draw(t, "spans") {
		out = append(out, Span{
			Text:  Clean(rapid.StringOf(rapid.RuneFrom([]rune("ab é日👩\u0301\u00a0 -"))).Draw(t, "text")),
			Style: rapid.SampledFrom([]Style{StylePlain, StyleStrong, StyleCode}).Draw(t, "style"),
		})
	}
	return out
})

// Wrapping keeps every letter and its style, and never passes the width.
func TestWrapText(t *testing.T) {
	letters := func(in ...Text) Text {
		var out Text
		for _, s := range Join(in...) {
			s.Text = strings.ReplaceAll(s.Text, " ", "")
			out = append(out, s)
		}
		return merge(out)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := phrase.Draw(t, "text")
		width := rapid.IntRange(-1, 30).Draw(t, "width")
		lines := WrapText(text, width)
		for _, l := range lines {
			if l.Width() > max(width, 2) {
				t.Errorf("%q is %d wide, want at most %d", l, l.Width(), width)
			}
			if s := l.String(); s == "" || strings.Trim(s, " ") != s {
				t.Errorf("line %q", s)
			}
		}
		if diff := cmp.Diff(letters(text), letters(lines...)); diff != "" {
			t.Error(diff)
		}
	})
}

func TestWrapKeepsUnitWithNumber(t *testing.T) {
	got := Wrap("a clearance of 0.12\u00a0mm", 19)
	if diff := cmp.Diff([]string{"a clearance of", "0.12\u00a0mm"}, got); diff != "" {
		t.Error(diff)
	}
}

// Widths by Unicode Standard Annex 11: wide, combining, and ambiguous ones, which
// count as narrow in any locale.
func TestWidth(t *testing.T) {
	for s, want := range map[string]int{"abc": 3, "日本": 4, "e\u0301": 1, "█░": 2, "−": 1, "°C": 2, "46\u00a0%": 4} {
		if got := Width(s); got != want {
			t.Errorf("%q: got %d, want %d", s, got, want)
		}
	}
}

func TestAlignedFits(t *testing.T) {
	cell := rapid.Custom(func(t *rapid.T) string { return phrase.Draw(t, "cell").String() })
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(20, 100).Draw(t, "width")
		row := rapid.SliceOfN(cell, 0, 8)
		b := rapid.SampledFrom([]Block{
			Table(row.Draw(t, "head"), []Align{Left, Right}, rapid.SliceOfN(row, 0, 4).Draw(t, "rows")...),
			Facts(NewFact(cell.Draw(t, "label"), phrase.Draw(t, "value")), NewFact("x", Plain("y"))),
			Ledger(NewEntry(phrase.Draw(t, "label"), cell.Draw(t, "amount"), phrase.Draw(t, "note")), NewTotal(Plain("s"), "+1")),
		}).Draw(t, "block")
		for _, l := range Aligned(b, width) {
			if s := l.String(); Width(s) > width || strings.TrimRight(s, " ") != s {
				t.Errorf("%d columns, want at most %d without blanks at the end: %q", Width(s), width, s)
			}
		}
	})
}

func TestChopKeepsBlanks(t *testing.T) {
	if diff := cmp.Diff([]string{"  ab", "cd", "", "日本", "語"}, Chop("  abcd\n\n日本語", 4)); diff != "" {
		t.Error(diff)
	}
}

// Cases read off CommonMark 0.31, sections 2.4, 2.5, 4.2, 5.2 and 6.2, and off
// GitHub's extensions for links and tables. From memory; the renderers' tests
// run the result through a Markdown reader.
func TestEscapeMarkdown(t *testing.T) {
	for in, want := range map[string]string{
		"10W-40, 0.5 mm": "10W-40, 0.5 mm", "snake_case_id": "snake_case_id", "_x_": `\_x\_`, "**x**": `\*\*x\*\*`,
		"1. x": `1\. x`, "- x": `\- x`, "-5": "-5", "# x": `\# x`, "a # b": "a # b", "> x": `\> x`, "a > b": "a > b",
		"AT&T": "AT&T", "&amp;": `\&amp;`, "http://x": `http\://x`, "10:30": "10:30", "a: b": "a: b", "www.x": `www\.x`,
		"me@x": `me\@x`, "[x](y)": `\[x\](y)`, "<b>": `\<b>`, "a|b": `a\|b`, ":smile:": `\:smile:`, "*": `\*`, "\\": `\\`,
	} {
		if got := EscapeMarkdown(in, true); got != want {
			t.Errorf("%q: got %s, want %s", in, got, want)
		}
	}
}

func BenchmarkWrapText(b *testing.B) {
	text := Inline(strings.Repeat("the **steel plates** of an `invented` machine are warped ", 20))
	b.ReportAllocs()
	for b.Loop() {
		WrapText(text, 80)
	}
}

func BenchmarkClean(b *testing.B) {
	s := strings.Repeat("the steel plates of an invented machine are warped ", 20)
	b.ReportAllocs()
	for b.Loop() {
		Clean(s)
	}
}
