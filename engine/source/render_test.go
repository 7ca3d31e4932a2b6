package source

import (
	"strings"
	"testing"

	"github.com/mattn/go-runewidth"
	"pgregory.net/rapid"
)

func render(ps Problems, files ...*File) string {
	byName := map[string]*File{}
	for _, f := range files {
		byName[f.Name] = f
	}
	var b strings.Builder
	ps.Render(&b, byName)
	return b.String()
}

func TestRender(t *testing.T) {
	file := &File{"rules/slip.yaml", []byte("id: a\n    when: oil_tmp > celsius(90)\n\tx:\tdrag\n日本: 温度 high\na: \x1b[31m\u202ered\n" +
		strings.Repeat("word ", 40) + "WRONG " + strings.Repeat("more ", 40) + "\r\n")}
	at := func(line, column int) Pos { return Pos{file.Name, line, column} }
	for _, c := range []struct {
		name    string
		problem Problem
		want    string
	}{
		{"plain", Problem{Code: "R103", Pos: at(2, 11), Length: 7, Message: `unknown fact "oil_tmp"`, Hint: `did you mean "oil_temp"?`}, `
rules/slip.yaml:2:11: error R103: unknown fact "oil_tmp"
    2 |     when: oil_tmp > celsius(90)
      |           ^^^^^^^
  hint: did you mean "oil_temp"?
`},
		{"tabs", Problem{Code: "Y1", Severity: Warning, Pos: at(3, 5), Length: 4, Message: "m"}, `
rules/slip.yaml:3:5: warning Y1: m
    3 |     x:  drag
      |         ^^^^
`},
		{"wide", Problem{Code: "Y1", Pos: at(4, 5), Length: 2, Message: "m"}, `
rules/slip.yaml:4:5: error Y1: m
    4 | 日本: 温度 high
      |       ^^^^
`},
		{"controls", Problem{Code: "Y1", Pos: at(5, 10), Length: 99, Message: "found \x1b[31m"}, `
rules/slip.yaml:5:10: error Y1: found ?[31m
    5 | a: ?[31m?red
      |          ^^^
`},
		{"long", Problem{Code: "Y1", Pos: at(6, 201), Length: 5, Message: "m"}, `
rules/slip.yaml:6:201: error Y1: m
    6 | ... ord word word word word word WRONG more more more more more more more more more more mor ...
      |                                  ^^^^^
`},
		{"past the end", Problem{Code: "Y1", Pos: at(1, 99), Length: 5, Message: "m"}, `
rules/slip.yaml:1:99: error Y1: m
    1 | id: a
      |      ^
`},
		{"no such line", Problem{Code: "Y1", Pos: at(99, 1), Message: "m"}, `
rules/slip.yaml:99:1: error Y1: m
`},
		{"whole file", Problem{Code: "Y1", Pos: Pos{File: "other.yaml"}, Message: "no such file"}, `
other.yaml: error Y1: no such file
`},
		{"related", Problem{Code: "Y1", Pos: at(1, 5), Length: 1, Message: "m", Related: []Related{{at(2, 5), "first given here"}}}, `
rules/slip.yaml:1:5: error Y1: m
    1 | id: a
      |     ^
  see: rules/slip.yaml:2:5: first given here
    2 |     when: oil_tmp > celsius(90)
      |     ^
`},
	} {
		if got := render(Problems{c.problem}, file); got != c.want[1:] {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want[1:])
		}
	}
}

func TestRenderSeparates(t *testing.T) {
	p := Problem{Code: "Y1", Pos: Pos{File: "a"}, Message: "m"}
	if got := render(Problems{p, p}); got != "a: error Y1: m\n\na: error Y1: m\n" {
		t.Errorf("got %q", got)
	}
}

// The caret stands under the marked rune whatever is on the line, no line is
// much wider than asked, and nothing can reach the terminal but text.
func TestCaretLinesUp(t *testing.T) {
	cond := runewidth.Condition{StrictEmojiNeutral: true}
	rapid.Check(t, func(t *rapid.T) {
		before := rapid.StringMatching(`[a-c\t é日\x{1b}\x{200b}]{0,120}`).Draw(t, "before")
		after := rapid.StringMatching(`[a-c\t é日\x{1b}]{0,120}`).Draw(t, "after")
		f := &File{"f", []byte(before + "@" + after)}
		out := render(Problems{{Code: "Y1", Pos: Pos{"f", 1, len([]rune(before)) + 1}, Message: "m"}}, f)
		lines := strings.Split(out, "\n")
		marked, _, _ := strings.Cut(lines[1], "@")
		blank, caret, _ := strings.Cut(lines[2], "^")
		if cond.StringWidth(marked) != len(blank) || caret != "" {
			t.Fatalf("caret is off:\n%s", out)
		}
		if w := cond.StringWidth(lines[1]); w > shownCells+16 {
			t.Fatalf("%d cells wide:\n%s", w, out)
		}
		if strings.ContainsAny(out, "\x1b\t\u200b") {
			t.Fatalf("control character in %q", out)
		}
	})
}
