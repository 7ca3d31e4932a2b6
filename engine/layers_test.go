package engine_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

const module = "example.org/takeup/"

// layers reads the list of layers out of DEVELOPERS.md: the text that
// contributors read is the one that is enforced.
func layers(t *testing.T) map[string]int {
	t.Helper()
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	line := regexp.MustCompile(`(?m)^(\d+) +((?:(?:engine|cmd)\S* *)+)`)
	out := map[string]int{}
	for n, m := range line.FindAllStringSubmatch(string(text), -1) {
		for _, p := range strings.Fields(m[2]) {
			out[strings.TrimSuffix(p, ",")] = n + 1
		}
	}
	if len(out) < 15 {
		t.Fatalf("found only %d packages in the list of layers", len(out))
	}
	return out
}

func layerOf(list map[string]int, pkg string) (int, bool) {
	if n, ok := list[pkg]; ok {
		return n, true
	}
	n, ok := list[path.Dir(pkg)+"/*"]
	return n, ok
}

// A package imports only from layers above its own in the list.
func TestLayers(t *testing.T) {
	list := layers(t)
	err := filepath.WalkDir("..", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") || strings.Contains(file, "/testdata/") {
			return err
		}
		pkg := filepath.ToSlash(strings.TrimPrefix(filepath.Dir(file), "../"))
		if pkg == "rules" || pkg == "knowledge" {
			return nil // they hold embedded files and import nothing of ours
		}
		own, ok := layerOf(list, pkg)
		if !ok {
			t.Errorf("%s is in no layer of DEVELOPERS.md", pkg)
			return nil
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range parsed.Imports {
			name := strings.Trim(spec.Path.Value, `"`)
			if !strings.HasPrefix(name, module) {
				continue
			}
			used := strings.TrimPrefix(name, module)
			n, ok := layerOf(list, used)
			if used == "rules" || used == "knowledge" {
				n, ok = 9, true // data: for the command line only
			}
			if !ok || n >= own {
				t.Errorf("%s (layer %d) imports %s (layer %d)", file, own, used, n)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
