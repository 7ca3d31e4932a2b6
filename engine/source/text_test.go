package source

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestSpan(t *testing.T) {
	for _, c := range []struct {
		name, text     string
		offset, length int
		line, column   int
		runes          int
	}{
		{"plain", "w: é > hot", 4, 3, 1, 8, 3},
		{"end of plain", "w: hot", 3, 1, 1, 7, 1},
		{"past the end", "w: hot", 9, 1, 1, 4, 1},
		{"single", "w: 'a ''b'' c'", 2, 3, 1, 7, 5},
		{"double", `w: "a \"b\" \u00e9c"`, 6, 2, 1, 13, 7},
		{"literal", "w: |\n    a\n\n      b c\n", 5, 3, 4, 7, 3},
		{"literal, clipped", "w: |\n  abc\n  d\n", 1, 9, 2, 4, 2},
		{"literal with indicator", "w: |2\n    a\n  b\n", 2, 1, 2, 5, 1},
		{"folded", "w: >\n  a\n  b\n", 2, 1, 1, 4, 1},
		{"two lines", "w: a\n  b\n", 2, 1, 1, 4, 1},
		{"quoted lines", "w: 'a\n  b'\n", 2, 1, 1, 4, 1},
		{"item", "w: [a, hot]", 0, 1, 1, 8, 1},
	} {
		root, ps := Parse("f", []byte(c.text))
		if len(ps) > 0 {
			t.Fatalf("%s: %v", c.name, ps)
		}
		n := root.Field("w")
		if items := n.Items(); items != nil {
			n = items[1]
		}
		text, _ := n.Scalar()
		pos, runes := text.Span(c.offset, c.length)
		if want := (Pos{"f", c.line, c.column}); pos != want || runes != c.runes || text.At(c.offset, c.length) != want {
			t.Errorf("%s: got %v, %d runes, want %v, %d", c.name, pos, runes, want, c.runes)
		}
	}
}

var writers = map[string]func(string) string{
	"single": func(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" },
	"double": func(s string) string { return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"` },
	"literal": func(s string) string {
		return "|-\n     " + strings.ReplaceAll(s, "\n", "\n     ")
	},
	"plain": func(s string) string { return s },
}

// Every rune of a value is found at its place in the file, however the value is
// written; an escaped one at the start of its escape.
func TestSpanFindsEveryRune(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		style := rapid.SampledFrom([]string{"single", "double", "literal", "plain"}).Draw(t, "style")
		alphabet := `[a-cé日]([a-c é日'"\\]{0,12}[a-c日])?`
		if style == "literal" {
			alphabet = `[a-c]([a-c é'"\n]{0,12}[a-c日])?`
		}
		value := rapid.StringMatching(alphabet).Draw(t, "value")
		file := File{"f", []byte("x: 1\nw: " + writers[style](value) + "\ny: 2\n")}
		root, ps := Parse("f", file.Text)
		if len(ps) > 0 {
			t.Fatalf("%s: %v", file.Text, ps)
		}
		text, _ := root.Field("w").Scalar()
		if text.Value != value {
			t.Skip("the YAML library reads it otherwise: " + text.Value)
		}
		for i, r := range []rune(value) {
			pos, length := text.Span(i, 1)
			rest := []rune(skip(file.Line(pos.Line), pos.Column-1))
			escaped := r == '\'' && style == "single" || (r == '"' || r == '\\') && style == "double"
			switch {
			case r == '\n' && len(rest) == 0:
			case escaped && length == 2 && rest[1] == r:
			case !escaped && length == 1 && len(rest) > 0 && rest[0] == r:
			default:
				t.Fatalf("%q: rune %d (%q) maps to %v+%d: %q", file.Text, i, r, pos, length, string(rest))
			}
		}
	})
}
