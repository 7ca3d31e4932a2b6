package terminal

import (
	"strings"
	"testing"

	"example.org/takeup/engine/document"
)

func TestConcealAndReveal(t *testing.T) {
	s := "a *b* `c` [d] 1. \\ \u00a0% é \n"
	hidden := conceal(s)
	if strings.ContainsAny(hidden, "*`[]. \\\n\u00a0") {
		t.Errorf("markup left in %q", hidden)
	}
	if got := reveal(hidden); got != s {
		t.Errorf("got %q, want %q", got, s)
	}
	if got := reveal(conceal("\ue02a\ue001")); got != "\ufffd\ufffd" {
		t.Errorf("private characters became %q", got)
	}
}

func TestTrim(t *testing.T) {
	for in, want := range map[string]string{
		"a  ":                        "a",
		"a \x1b[0m":                  "a\x1b[0m",
		"a \x1b[0m \x1b[39m ":        "a\x1b[0m\x1b[39m",
		"\x1b[1ma b\x1b[0m":          "\x1b[1ma b\x1b[0m",
		"\x1b[1mm m":                 "\x1b[1mm m",
		"  ":                         "",
		"\x1b[36m█\x1b[0m░  \x1b[0m": "\x1b[36m█\x1b[0m░\x1b[0m",
	} {
		if got := trim(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

func render(t *testing.T, opt Options, blocks ...document.Block) string {
	t.Helper()
	s, err := Render(document.New("", blocks...), opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestOneBarToALine(t *testing.T) {
	got := render(t, Options{Width: 40}, document.Bars(
		document.NewBar(document.Plain("plates warped"), 0.5, "50\u00a0%"),
		document.NewBar(document.Plain("a label that leaves no room for it"), 0.05, "5\u00a0%"),
	))
	want := "1. ████░░░░  50\u00a0%  plates warped\n" +
		"2. █░░░░░░░   5\u00a0%  a label that leaves\n" +
		"                   no room for it\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// An entry with more to say than its label has its bar below.
func TestValueFollowsLabel(t *testing.T) {
	got := render(t, Options{Width: 40}, document.Bars(
		document.NewBar(document.Plain("plates warped"), 0.5, "50\u00a0%").With(document.Plain("flat within 0.1 mm")),
		document.NewBar(document.Plain("a label that leaves no room for it"), 0.5, "50\u00a0%"),
	))
	want := "1. plates warped  50\u00a0%\n" +
		"   " + strings.Repeat("█", 19) + strings.Repeat("░", 18) + "\n" +
		"   flat within 0.1 mm\n\n" +
		"2. a label that leaves no room for it\n   50\u00a0%\n" +
		"   " + strings.Repeat("█", 19) + strings.Repeat("░", 18) + "\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// A caution is the only thing in red, and it says so in words as well.
func TestCautionStandsOut(t *testing.T) {
	got := render(t, Options{Width: 60, Colour: true}, document.Note(document.Caution, document.Plain("hot oil")))
	if !strings.Contains(got, "31") || !strings.Contains(got, "Caution") {
		t.Errorf("got %q", got)
	}
	if hint := render(t, Options{Width: 60, Colour: true}, document.Note(document.Hint, document.Plain("x"))); strings.Contains(hint, "31m") {
		t.Errorf("got %q", hint)
	}
}

// Every kind of block follows every other with exactly one empty line between.
func TestOneEmptyLineBetweenAnyTwoBlocks(t *testing.T) {
	blocks := []document.Block{
		document.Heading(2, document.Plain("h")), document.Paragraph(document.Plain("p")), document.Rule(),
		document.CodeBlock("c"), document.List(document.NewItem(document.Plain("i"))), document.Note(document.Hint, document.Plain("n")),
		document.Facts(document.NewFact("f", document.Plain("v"))), document.Drawing("c", "d", ""),
	}
	for _, a := range blocks {
		for _, b := range blocks {
			for _, colour := range []bool{false, true} {
				got := render(t, Options{Width: 40, Colour: colour}, a, b)
				if n := strings.Count(got, "\n\n"); n != 1 || strings.HasPrefix(got, "\n") || strings.Contains(got, "\n\n\n") {
					t.Errorf("%s, %s, colour %v: %q", a.Kind, b.Kind, colour, got)
				}
			}
		}
	}
}
