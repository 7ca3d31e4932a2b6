package cli

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/cmd/internal/term"
)

// printed matches what README shows of the program: a comment with the arguments
// and the block that they print.
var printed = regexp.MustCompile("(?s)(<!-- takeup (.*?) -->\n```\n)(.*?)(```\n)")

// What README says the program prints is what it prints.
func TestReadmeShowsWhatIsPrinted(t *testing.T) {
	t.Chdir("../../..")
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := printed.FindAllSubmatch(text, -1)
	if len(blocks) == 0 {
		t.Fatal("README shows nothing of the program")
	}
	for _, b := range blocks {
		var out, errs bytes.Buffer
		args := strings.Fields(string(b[2]))
		if code := run(args, term.Facts{}, &out, &errs); code != 0 {
			t.Fatalf("%s: exit %d\n%s", b[2], code, errs.String())
		}
		if bytes.Equal(b[3], out.Bytes()) {
			continue
		}
		if !*update {
			t.Errorf("takeup %s prints something else than README shows: run with -update and read the difference", b[2])
			continue
		}
		whole := string(b[1]) + out.String() + string(b[4])
		text = []byte(strings.Replace(string(text), string(b[0]), whole, 1))
	}
	if *update {
		if err := os.WriteFile("README.md", text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
