package source

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// sample is a struct with one field of every kind that Decode fills.
type sample struct {
	Pos     Pos     `yaml:"-"`
	ID      string  `yaml:"id,required"`
	When    Text    `yaml:"when"`
	Because Text    `yaml:"because"`
	Basis   *Node   `yaml:"basis"`
	Effects []Text  `yaml:"effects"`
	Minutes int     `yaml:"minutes"`
	Prior   float64 `yaml:"prior"`
	Deep    bool    `yaml:"deep"`
	Limit   *bounds `yaml:"limit"`
	Limits  []Entry `yaml:"limits"`
	Extra   *Node   `yaml:"extra"`
	More    []small `yaml:"more"`
	Rules   []small `yaml:"rules"`
}

type bounds struct {
	Low  float64 `yaml:"low,required"`
	High float64 `yaml:"high"`
}

type small struct {
	Pos     Pos     `yaml:"-"`
	ID      string  `yaml:"id,required"`
	Minutes int     `yaml:"minutes"`
	Prior   float64 `yaml:"prior"`
	Deep    bool    `yaml:"deep"`
}

// decodeSample parses and decodes, the way every caller does.
func decodeSample(name string, text []byte) (sample, Problems) {
	var s sample
	root, ps := Parse(name, text)
	Decode(root, &s, &ps)
	ps.Sort()
	return s, ps
}

var wantPattern = regexp.MustCompile(`# want (Y\d+) "(.*?)"(?: # want|\s*$)`)

// wants reads the expectations of a file: line, code and the start of the message.
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

// Every file in testdata/bad must raise exactly the problems its comments ask
// for: none missing, none on top.
func TestBadFiles(t *testing.T) {
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
		_, ps := decodeSample(name, text)
		for _, p := range ps {
			i := slices.IndexFunc(want, func(w string) bool {
				return strings.HasPrefix(fmt.Sprintf("%d %s %s", p.Pos.Line, p.Code, p.Message), w)
			})
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
