package source

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// Whatever the bytes, Parse and Decode return; a refused text has an error, and
// every problem can be shown and points into the file.
func FuzzParse(f *testing.F) {
	f.Add([]byte(goodSample))
	f.Add([]byte(bom + "a: 1\r\n"))
	for _, s := range []string{"? [a]\n: - b\n", "a: [{b: c}, 'd'", "- - - a\n -b", "a: |2+\n\n   x\n", "k: !\n", "\"\\", "a: '\n'b", "#\n\n#"} {
		f.Add([]byte(s))
	}
	files, _ := filepath.Glob("testdata/bad/*.yaml")
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		root, ps := Parse("f", text)
		if root == nil && !ps.HasErrors() {
			t.Fatal("no node and no error")
		}
		var s sample
		Decode(root, &s, &ps)
		for _, x := range []Text{s.When, s.Because} {
			x.At(len(x.Value)/2, 1)
		}
		file := &File{"f", text}
		lines := strings.Count(string(text), "\n") + 1
		for _, p := range ps {
			if p.Pos.Line > lines || p.Length < 1 || p.Message == "" || p.Code == "" {
				t.Fatalf("%d lines, problem %+v", lines, p)
			}
		}
		ps.Sort()
		ps.Render(io.Discard, map[string]*File{"f": file})
	})
}

// Hostile sizes: the walk over a refused text must stay linear in its length.
// These took minutes when it was not.
func TestHostileTexts(t *testing.T) {
	for _, unit := range []string{"[", "{", "a: {", "- ", "'", "a: 'b\n", "a: &b\n", "a: @\n", "a: \"\\q", "!a ", "*a ", "# c\n", "\t", "a: [b, "} {
		text := strings.Repeat(unit, (1<<18)/len(unit))
		if _, ps := decodeSample("f", []byte(text)); !ps.HasErrors() || len(ps) > 2*MaxProblems {
			t.Errorf("%q: %d problems", unit, len(ps))
		}
	}
}

// rulesText is a file of n rules of about 570 bytes, the size that rule files
// of this project have.
func rulesText(n int) []byte {
	var b strings.Builder
	b.WriteString("rules:\n")
	for i := range n {
		fmt.Fprintf(&b, `  - id: rule_%d
    title: plates worn below the service limit after many kilometres
    when: clutch.age_km > 40000 and oil_temperature > celsius(90) and not cold
    because: |
      Worn friction plates leave the springs longer, so that they press less, and
      the clutch slips first where the torque is greatest, in a high gear uphill.
    brings:
      - {effect: slips_hot, strength: usually}
      - {effect: slips_loaded, strength: often}
    minutes: %d
    basis: common practice
`, i, i%50+1)
	}
	return []byte(b.String())
}

type benchRules struct {
	Rules []struct {
		Pos     Pos    `yaml:"-"`
		ID      Text   `yaml:"id,required"`
		Title   string `yaml:"title"`
		When    Text   `yaml:"when"`
		Because string `yaml:"because"`
		Brings  []struct {
			Effect   Text `yaml:"effect,required"`
			Strength Text `yaml:"strength"`
		} `yaml:"brings"`
		Minutes int    `yaml:"minutes"`
		Basis   string `yaml:"basis"`
	} `yaml:"rules,required"`
}

func BenchmarkDecode300Rules(b *testing.B) {
	text := rulesText(300)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for range b.N {
		var rules benchRules
		root, ps := Parse("f", text)
		Decode(root, &rules, &ps)
		if len(ps) > 0 || len(rules.Rules) != 300 {
			b.Fatal(ps)
		}
	}
}

// BenchmarkNodePass300Rules is the floor: what the YAML library alone takes.
func BenchmarkNodePass300Rules(b *testing.B) {
	text := rulesText(300)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for range b.N {
		var n yaml.Node
		if err := yaml.Unmarshal(text, &n); err != nil {
			b.Fatal(err)
		}
	}
}
