package render_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/render/markdown"
	"example.org/takeup/engine/render/plain"
	"pgregory.net/rapid"
)

var colours = regexp.MustCompile(`\x1b\[[0-9;]*m`)

// Wherever a page comes from, no format lets a control character or a direction
// mark of its text through, leaves blanks at line ends, or breaks UTF-8.
func TestNothingActsOnTheReader(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		for name, s := range formats(t, pages().Draw(rt, "page")) {
			if strings.HasSuffix(name, ".ansi") {
				s = colours.ReplaceAllString(s, "") // our own
			}
			if !utf8.ValidString(s) {
				rt.Errorf("%s: not UTF-8", name)
			}
			if bad := strings.ReplaceAll(s, "\n", ""); document.Clean(bad) != bad {
				rt.Errorf("%s: control character or direction mark in %q", name, s)
			}
			if name == "page.html" { // blanks mean nothing there
				continue
			}
			for _, line := range strings.Split(s, "\n") {
				if strings.TrimRight(line, " \t") != line {
					rt.Errorf("%s: blanks at the end of %q", name, line)
				}
			}
		}
	})
}

func TestNeverWiderThanAsked(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := pages().Draw(rt, "page")
		asked := rapid.IntRange(0, 130).Draw(rt, "width")
		width := max(asked, 40)
		for name, s := range map[string]string{
			"plain":    plain.Render(d, asked),
			"terminal": inTerminal(t, d, asked, false),
			"colour":   colours.ReplaceAllString(inTerminal(t, d, asked, true), ""),
		} {
			for _, line := range strings.Split(s, "\n") {
				if n := document.Width(line); n > width {
					rt.Errorf("%s: %d columns, want at most %d: %q", name, n, width, line)
				}
			}
		}
	})
}

// What the reader sees in colour is what he sees without, headings' underlines
// apart: styles change nothing but the looks.
func TestColourChangesNoWords(t *testing.T) {
	underline := regexp.MustCompile(`(?m)^ *[═─-]+\n`)
	rapid.Check(t, func(rt *rapid.T) {
		d := pages().Draw(rt, "page")
		grey := underline.ReplaceAllString(inTerminal(t, d, 80, false), "")
		bright := underline.ReplaceAllString(colours.ReplaceAllString(inTerminal(t, d, 80, true), ""), "")
		if grey != bright {
			rt.Errorf("without colour\n%s\nwith\n%s", grey, bright)
		}
	})
}

// The words of a paragraph arrive letter by letter, whatever Markdown or glamour
// would make of them.
func TestWordsArriveUnchanged(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := texts.Draw(rt, "text")
		d := document.New("", document.Paragraph(document.Strong(s), document.Code(s), document.Plain(s)))
		words := strings.Join(strings.Fields(strings.Repeat(document.Clean(s), 3)), "")
		for name, got := range map[string]string{
			"terminal": inTerminal(t, d, 80, false),
			"plain":    plain.Render(d, 80),
		} {
			want := words
			if name == "terminal" {
				want = strings.Map(standIn, words)
			}
			if got = strings.Join(strings.Fields(got), ""); got != want {
				rt.Errorf("%s: got %q, want %q", name, got, want)
			}
		}
	})
}

// standIn is what the terminal package does to private characters it needs itself.
func standIn(r rune) rune {
	if r >= '\ue000' && r <= '\ue0ff' {
		return '\ufffd'
	}
	return r
}

func TestMarkdownEndsOnce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := markdown.Render(pages().Draw(rt, "page"))
		if !strings.HasSuffix(s, "\n") || strings.HasSuffix(s, "\n\n") {
			rt.Errorf("end of %q", s)
		}
	})
}

// glamour looks the terminal's colours up in its automatic style and waits up to
// five seconds for an answer; linking it costs every start. So one package may
// import it, and none may ask for that style.
func TestGlamourStaysInItsPlace(t *testing.T) {
	importers := map[string]bool{}
	err := filepath.WalkDir(filepath.FromSlash("../.."), func(path string, _ os.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") {
			return err
		}
		src, err := os.ReadFile(path)
		if strings.Contains(string(src), `"github.com/charmbracelet/glamour`) && !strings.HasSuffix(path, "_test.go") {
			importers[filepath.ToSlash(filepath.Dir(path))] = true
		}
		for _, auto := range []string{"WithAuto" + "Style", "WithEnvironment" + "Config", "Auto" + "Style"} {
			if strings.Contains(string(src), auto) {
				t.Errorf("%s: %s waits for the terminal", path, auto)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(importers) != 1 || !importers["../../engine/render/terminal"] {
		t.Errorf("glamour is imported by %v, want engine/render/terminal alone", importers)
	}
}
