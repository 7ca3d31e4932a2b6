package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/takeup/cmd/internal/term"
)

// TestScripts runs the sessions in testdata/script: first the commands, then the
// files they find in their folder, each after a line "-- name --". The commands
// are a part of the language of rogpeppe/go-internal/testscript:
//
//	exec takeup ARG...      must end with 0
//	exits CODE ARG...       runs takeup, which must end with that code
//	[!] stdout PATTERN      the last answer matches (or does not)
//	[!] stderr PATTERN      the same for the talk
//	stdin FILE              what the next command reads there
//	file FILE PATTERN       a file matches
//	same FILE FILE          two files hold the same bytes
//	env KEY=VALUE
//	cp FROM TO
//
// $DATA is the testdata folder and $LAMP the pack about a bench lamp.
func TestScripts(t *testing.T) {
	data, err := filepath.Abs("../../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(data, "script", "*.txtar"))
	if err != nil || len(files) < 8 {
		t.Fatalf("found %d scripts, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			s := script{T: t, env: map[string]string{"DATA": data, "LAMP": filepath.Join(data, "packs", "lamp")}}
			s.play(string(text))
		})
	}
}

type script struct {
	*testing.T
	env       map[string]string
	in        []byte
	out, talk bytes.Buffer
}

// mark is the line before a file.
var mark = regexp.MustCompile(`(?m)^-- (\S+) --\n`)

func (s *script) play(text string) {
	s.Chdir(s.TempDir())
	names := mark.FindAllStringSubmatchIndex(text, -1)
	commands := text
	for i, m := range names {
		end := len(text)
		if i == 0 {
			commands = text[:m[0]]
		}
		if i+1 < len(names) {
			end = names[i+1][0]
		}
		s.write(text[m[2]:m[3]], []byte(text[m[1]:end]))
	}
	n := 0
	for line := range strings.Lines(commands) {
		n++
		if words := s.words(line); len(words) > 0 {
			s.do(n, words)
		}
	}
}

func (s *script) write(name string, text []byte) {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		s.Fatal(err)
	}
	if err := os.WriteFile(name, text, 0o644); err != nil {
		s.Fatal(err)
	}
}

// word is a run of quoted and unquoted pieces; "#" begins a comment.
var word = regexp.MustCompile(`#.*|(?:'[^']*'|[^\s'])+`)

func (s *script) words(line string) []string {
	var out []string
	for _, w := range word.FindAllString(line, -1) {
		if w[0] == '#' {
			break
		}
		if !strings.Contains(w, "'") { // quotes keep a "$" as it is
			w = os.Expand(w, func(key string) string { return s.env[key] })
		}
		out = append(out, strings.ReplaceAll(w, "'", ""))
	}
	return out
}

func (s *script) do(line int, words []string) {
	s.Helper()
	want := words[0] != "!"
	if !want {
		words = words[1:]
	}
	switch {
	case words[0] == "exec" && words[1] == "takeup":
		s.takeup(line, done, words[2:])
	case words[0] == "exits":
		code, err := strconv.Atoi(words[1])
		if err != nil {
			s.Fatalf("line %d: %v", line, err)
		}
		s.takeup(line, code, words[2:])
	case words[0] == "stdout":
		s.match(line, want, words[1], s.out.String())
	case words[0] == "stderr":
		s.match(line, want, words[1], s.talk.String())
	case words[0] == "stdin":
		s.in = s.read(line, words[1])
	case words[0] == "file":
		s.match(line, want, words[2], string(s.read(line, words[1])))
	case words[0] == "same":
		if a, b := s.read(line, words[1]), s.read(line, words[2]); !bytes.Equal(a, b) {
			s.Errorf("line %d: %s and %s differ\n%s\n%s", line, words[1], words[2], a, b)
		}
	case words[0] == "env":
		key, value, _ := strings.Cut(words[1], "=")
		s.env[key] = value
	case words[0] == "cp":
		s.write(words[2], s.read(line, words[1]))
	default:
		s.Fatalf("line %d: unknown command %q", line, words)
	}
}

func (s *script) read(line int, name string) []byte {
	s.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		s.Fatalf("line %d: %v", line, err)
	}
	return text
}

func (s *script) takeup(line, want int, args []string) {
	s.Helper()
	s.out.Reset()
	s.talk.Reset()
	facts := term.Facts{NoColor: s.env["NO_COLOR"], ForceColor: s.env["FORCE_COLOR"]}
	in := bytes.NewReader(s.in)
	s.in = nil
	if code := runWith(in, args, facts, &s.out, &s.talk); code != want {
		s.Fatalf("line %d: takeup %q ends with %d, want %d\n%s%s", line, args, code, want, s.out.String(), s.talk.String())
	}
}

func (s *script) match(line int, want bool, pattern, text string) {
	s.Helper()
	text = strings.ReplaceAll(text, "\u00a0", " ") // patterns are written with plain blanks
	if regexp.MustCompile("(?m)"+pattern).MatchString(text) != want {
		s.Errorf("line %d: %q found: %v\n%s", line, pattern, !want, text)
	}
}
