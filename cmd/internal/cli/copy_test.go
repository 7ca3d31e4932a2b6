package cli

import (
	"bytes"
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/cmd/internal/term"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/render/bbcode"
)

// clipboard finds what was handed to the terminal: OSC 52 as xterm's control
// sequences describe it, the text in base64 (RFC 4648).
var clipboard = regexp.MustCompile("\x1b\\]52;c;([A-Za-z0-9+/=]*)\x07")

// What is copied is the page without colour, in the format asked for, and the
// terminal shows its own page as ever.
func TestCopy(t *testing.T) {
	file := filepath.FromSlash("../../../testdata/posts/04-hydraulic-sinks.txt")
	for _, c := range []struct{ args, term, starts, shows string }{
		{"read --reply", "xterm", "# Re: ", "═"},
		{"read --reply --format bbcode", "xterm", "[b]Re: ", "[b]Re: "},
		{"read", "xterm", "# A draft", "# A draft"},
	} {
		var out, talk bytes.Buffer
		facts := term.Facts{Stdout: term.Stream{Terminal: true, Columns: 80}, Stderr: term.Stream{Terminal: true, Columns: 80}, Term: c.term}
		if code := run(append(strings.Fields(c.args), "--copy", "--color", "never", file), facts, &out, &talk); code != done {
			t.Fatalf("%s ends with %d: %s", c.args, code, talk.String())
		}
		found := clipboard.FindStringSubmatch(talk.String())
		if found == nil {
			t.Fatalf("%s: nothing copied: %q", c.args, talk.String())
		}
		text, err := base64.StdEncoding.DecodeString(found[1])
		if err != nil || !strings.HasPrefix(string(text), c.starts) {
			t.Errorf("%s: copied %q, %v", c.args, text, err)
		}
		if strings.Contains(out.String(), "\x1b") || !strings.Contains(out.String(), c.shows) {
			t.Errorf("%s: shown %q", c.args, out.String())
		}
		if !strings.Contains(talk.String(), "clipboard") {
			t.Errorf("%s: says only %q", c.args, talk.String())
		}
	}
}

// Replies to every post are fit to be pasted: the strictest board takes them, no
// line ends in blanks and no byte acts on a terminal.
func TestRepliesPaste(t *testing.T) {
	files, err := filepath.Glob(filepath.FromSlash("../../../testdata/posts/*.txt"))
	if err != nil || len(files) < 60 {
		t.Fatalf("%d posts, %v", len(files), err)
	}
	s := &session{format: "bbcode", color: term.Never, width: 80}
	e, err := s.open()
	if err != nil {
		t.Fatal(err)
	}
	l, err := s.lexicon(e)
	if err != nil {
		t.Fatal(err)
	}
	hostile := "[b]It [url=x]slips[/url] in top[/b] [list][*] \x1b[31mwhen hot <b>and</b> > the lever is heavy ]] [[ **bold** `x` | a | b |"
	posts := []string{hostile}
	for i, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if i%4 == 0 { // a quarter of them is enough to see every part of a reply
			posts = append(posts, string(text))
		}
	}
	for _, post := range posts {
		for _, brief := range []bool{false, true} {
			for _, s.format = range []string{"bbcode", "markdown", "plain"} {
				var out bytes.Buffer
				s.out = &out
				if err := s.reply(e, l.Read(post), brief); err != nil {
					t.Fatal(err)
				}
				pasted(t, s.format, out.String())
			}
		}
	}
}

func pasted(t *testing.T, format, text string) {
	t.Helper()
	if format == "bbcode" {
		if err := bbcode.Check(text); err != nil {
			t.Errorf("%v in\n%s", err, text)
		}
	}
	if flat := strings.ReplaceAll(text, "\n", ""); document.Clean(flat) != flat {
		t.Errorf("%s: control characters in %q", format, text)
	}
	for line := range strings.Lines(text) {
		if line = strings.TrimSuffix(line, "\n"); strings.TrimRight(line, " \t") != line {
			t.Errorf("%s: blanks at the end of %q", format, line)
		}
	}
}
