// Package render_test holds the tests that all renderers share: the same page
// in every format and width, and what must hold whatever a page says.
package render_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/render/bbcode"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/render/html"
	"example.org/takeup/engine/render/markdown"
	"example.org/takeup/engine/render/plain"
	"example.org/takeup/engine/render/terminal"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

var widths = []int{40, 60, 80, 120}

// load reads the page that uses every kind of block.
func load(t testing.TB) document.Document {
	t.Helper()
	raw, err := os.ReadFile("testdata/page.json")
	if err != nil {
		t.Fatal(err)
	}
	var d document.Document
	dec := json.NewDecoder(bytes.NewReader(raw))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&d); err != nil {
		t.Fatal(err)
	}
	return d
}

// formats returns the page in every format, by the name of its golden file.
func formats(t testing.TB, d document.Document) map[string]string {
	t.Helper()
	out := map[string]string{"page.md": markdown.Render(d), "page.bbcode": bbcode.Render(d)}
	page, err := html.Render(d)
	if err != nil {
		t.Fatal(err)
	}
	out["page.html"] = string(page)
	for _, w := range widths {
		out[fmt.Sprintf("plain_%d.txt", w)] = plain.Render(d, w)
		out[fmt.Sprintf("terminal_%d.txt", w)] = inTerminal(t, d, w, false)
		out[fmt.Sprintf("terminal_%d.ansi", w)] = inTerminal(t, d, w, true)
	}
	return out
}

func inTerminal(t testing.TB, d document.Document, width int, colour bool) string {
	t.Helper()
	s, err := terminal.Render(d, terminal.Options{Width: width, Colour: colour})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestGolden(t *testing.T) {
	for name, got := range formats(t, load(t)) {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join("testdata", name)
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("%s differs (-want +got), run with -update if it should:\n%s", path, diff)
			}
		})
	}
}

func TestPageUsesEveryKind(t *testing.T) {
	seen := map[document.Kind]bool{}
	tones := map[document.Tone]bool{}
	for _, b := range load(t).Blocks {
		seen[b.Kind], tones[b.Tone] = true, true
		for _, bar := range b.Bars {
			for _, n := range bar.Blocks {
				seen[n.Kind] = true
			}
		}
	}
	for _, k := range kinds {
		if !seen[k] {
			t.Errorf("testdata/page.json has no %s", k)
		}
	}
	for _, tone := range []document.Tone{document.Caution, document.Hint, document.Doubt} {
		if !tones[tone] {
			t.Errorf("testdata/page.json has no %s", tone)
		}
	}
}

// A page is data: through JSON and back it renders to the same bytes.
func TestPageSurvivesJSON(t *testing.T) {
	d := load(t)
	var b bytes.Buffer
	if err := data.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	var again document.Document
	if err := json.Unmarshal(b.Bytes(), &again); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(formats(t, d), formats(t, again)); diff != "" {
		t.Error(diff)
	}
}

func BenchmarkMarkdown(b *testing.B) {
	d := load(b)
	b.ReportAllocs()
	for b.Loop() {
		markdown.Render(d)
	}
}

func BenchmarkPlain(b *testing.B) {
	d := load(b)
	b.ReportAllocs()
	for b.Loop() {
		plain.Render(d, 80)
	}
}

func BenchmarkBBCode(b *testing.B) {
	d := load(b)
	b.ReportAllocs()
	for b.Loop() {
		bbcode.Render(d)
	}
}

func BenchmarkHTML(b *testing.B) {
	d := load(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := html.Render(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTerminal(b *testing.B) {
	d := load(b)
	for _, colour := range []bool{false, true} {
		b.Run(fmt.Sprintf("colour=%v", colour), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				inTerminal(b, d, 80, colour)
			}
		})
	}
}

func BenchmarkData(b *testing.B) {
	d := load(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := data.Marshal(d); err != nil {
			b.Fatal(err)
		}
	}
}
