package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/cmd/internal/term"
)

// talked matches what README shows of an exercise: a comment with the arguments and
// the file of what is typed, and the block with all that is said and printed.
var talked = regexp.MustCompile("(?s)(<!-- exercise takeup (.*?) < (\\S+) -->\n```\n)(.*?)(```\n)")

// What README shows of an exercise is how it goes, talk and judgement.
func TestReadmeShowsAnExercise(t *testing.T) {
	t.Setenv("XDG_DATA_HOME", t.TempDir())
	t.Chdir("../../..")
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	m := talked.FindSubmatch(text)
	if m == nil {
		t.Fatal("README shows no exercise")
	}
	typed, err := os.ReadFile(filepath.FromSlash(string(m[3])))
	if err != nil {
		t.Fatal(err)
	}
	var all bytes.Buffer // as on a terminal, where both streams come together
	args := strings.Fields(string(m[2]))
	if code := runWith(bytes.NewReader(typed), args, term.Facts{}, &all, &all); code != 0 {
		t.Fatalf("%s: exit %d\n%s", m[2], code, all.String())
	}
	shown := strings.ReplaceAll(all.String(), "\n\n\n", "\n\n")
	if shown == string(m[4]) {
		return
	}
	if !*update {
		t.Fatalf("the exercise goes otherwise than README shows: run with -update and read the difference\n%s", shown)
	}
	whole := string(m[1]) + shown + string(m[5])
	text = []byte(strings.Replace(string(text), string(m[0]), whole, 1))
	if err := os.WriteFile("README.md", text, 0o644); err != nil {
		t.Fatal(err)
	}
}
