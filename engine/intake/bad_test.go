package intake

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/source"
)

// small is the catalog of the tests: one word of every kind.
func small(t testing.TB) *catalog.Catalog {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS("testdata/knowledge"))
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	return cat
}

var wantPattern = regexp.MustCompile(`# want ([CY]\d+) "(.*?)"(?: # want|\s*$)`)

// wants reads the expectations of a file: line, code, start of the message.
func wants(text string) []string {
	var out []string
	for i, line := range strings.Split(text, "\n") {
		for {
			m := wantPattern.FindStringSubmatchIndex(line)
			if m == nil {
				break
			}
			message := strings.ReplaceAll(line[m[4]:m[5]], `\"`, `"`)
			out = append(out, fmt.Sprintf("%d %s %s", i+1, line[m[2]:m[3]], message))
			line = line[m[5]+1:]
		}
	}
	return out
}

// Every file in testdata/bad raises exactly the problems its comments ask for.
// A problem with the file as a whole is asked for in line 1.
func TestBadCases(t *testing.T) {
	cat := small(t)
	files, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no test files: %v", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		want := wants(string(text))
		if len(want) == 0 {
			t.Errorf("%s: no expectation in it", name)
		}
		_, ps := Load(name, cat)
		for _, p := range ps {
			got := fmt.Sprintf("%d %s %s", max(p.Pos.Line, 1), p.Code, p.Message)
			i := slices.IndexFunc(want, func(w string) bool { return strings.HasPrefix(got, w) })
			if i < 0 {
				t.Errorf("unexpected %s (hint %q)", p, p.Hint)
				continue
			}
			want = slices.Delete(want, i, i+1)
		}
		for _, w := range want {
			t.Errorf("%s: missing %s", name, w)
		}
	}
}

func TestUnreadablePaths(t *testing.T) {
	cat := small(t)
	for path, code := range map[string]string{"testdata": source.CodeFolder, "testdata/godo.yaml": source.CodeNoFile} {
		c, ps := Load(path, cat)
		if c != nil || len(ps) != 1 || ps[0].Code != code {
			t.Errorf("%s: got %v, want %s", path, ps, code)
		}
		if _, words, ps := LoadMachine(path, cat); words.Len() != 0 || len(ps) != 1 || ps[0].Code != code {
			t.Errorf("machine %s: got %v, want %s", path, ps, code)
		}
	}
}

// Hints and second places are what helps; each is checked once.
func TestHints(t *testing.T) {
	cat := small(t)
	for _, tt := range []struct{ text, at, hint string }{
		{"title: x\nsigns: {creeps_hit: yes}", "case.yaml:2:9", "did you mean creeps_hot?"},
		{"title: x\nhistory: {mileage: 18 kmm}", "case.yaml:2:23", ""},
		{"title: x\nhistory: {opened: Yes}", "case.yaml:2:19", "did you mean yes?"},
		{"title: x\nhistory: {onset: monday}", "case.yaml:2:18", "known: sudden, over_weeks"},
		{"title: x\nreadings: {nut_torque: {value: 9 N·m, gauge: ruler}}", "case.yaml:2:46", "gauges that fit: torque_wrench"},
		{"title: x\nmachine: m.yaml", "case.yaml:2:10", "write the words of the sheet in the case"},
		{"title: x\nmachine: {limit: {plate_lfit: 1 mm}}", "case.yaml:2:19", "did you mean limit.plate_lift?"},
	} {
		_, ps := Parse(&source.File{Name: "case.yaml", Text: []byte(tt.text)}, cat, nil)
		if len(ps) != 1 {
			t.Errorf("%q: got %d problems: %v", tt.text, len(ps), ps)
			continue
		}
		if ps[0].Pos.String() != tt.at || tt.hint != "" && ps[0].Hint != tt.hint {
			t.Errorf("%q: got %s (hint %q), want %s (hint %q)", tt.text, ps[0], ps[0].Hint, tt.at, tt.hint)
		}
	}
}

func TestContradictionNamesTheOtherPlace(t *testing.T) {
	_, ps := Load("testdata/bad/contradiction.yaml", small(t))
	if len(ps) != 1 || len(ps[0].Related) != 1 || ps[0].Related[0].Pos.Line != 3 {
		t.Fatalf("got %+v", ps)
	}
}

// A file with a hundred thousand wrong keys is given up after the first hundred.
func TestManyProblemsAreBounded(t *testing.T) {
	var b strings.Builder
	b.WriteString("title: x\nsigns:\n")
	for i := range 100000 {
		fmt.Fprintf(&b, "  creeps_%d: yes\n", i)
	}
	_, ps := Parse(&source.File{Name: "long.yaml", Text: []byte(b.String())}, small(t), nil)
	if len(ps) != source.MaxProblems+1 {
		t.Fatalf("got %d problems", len(ps))
	}
}
