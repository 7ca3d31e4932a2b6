package engine_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The keys of cases, readings and rules are private to their packages, so the
// source is read for them: the schemas neither lack one nor have one more.
func TestSchemaKeysAreThoseOfTheReaders(t *testing.T) {
	_, files, _ := schemasOf(t, "..")
	const inReading = "definitions readings properties friction_thickness anyOf 3"
	for _, c := range []struct{ source, name, file, path string }{
		{"rule/load.go", "rawFile", "rules", ""},
		{"rule/load.go", "rawRule", "rules", "properties rules items"},
		{"ruletest/types.go", "testFile", "rules_test", ""},
		{"intake/case.go", "keys", "case", ""},
		{"prose/lexicon.go", "phraseFile", "phrases", ""},
		{"intake/readings.go", "rawReading", "case", inReading},
		{"intake/lists.go", "rawDone", "case", "properties done items anyOf 1"},
		{"intake/lists.go", "rawExpect", "case", "properties expect"},
		{"practice/read.go", "rawPractice", "case", "properties practice"},
		{"practice/way.go", "rawWay", "way", ""},
		{"practice/way.go", "rawNamed", "way", "properties named items"},
	} {
		keys, required := keysIn(t, c.source, c.name)
		if c.name == "keys" {
			required = []string{"title"}
		}
		got, must := keysAt(t, files[c.file+".schema.json"], c.path)
		for _, l := range [][]string{keys, required, got, must} {
			slices.Sort(l)
		}
		if !slices.Equal(keys, got) || !slices.Equal(required, must) {
			t.Errorf("%s %s: keys %v, required %v; the schema has %v, required %v", c.source, c.name, keys, required, got, must)
		}
	}
}

// keysAt walks into a schema and lists the keys of the mapping described there.
func keysAt(t *testing.T, schema []byte, path string) (keys, required []string) {
	t.Helper()
	var at any
	if err := json.Unmarshal(schema, &at); err != nil {
		t.Fatal(err)
	}
	for _, step := range strings.Fields(path) {
		if i, err := strconv.Atoi(step); err == nil {
			at = at.([]any)[i]
		} else {
			at = at.(map[string]any)[step]
		}
	}
	here := at.(map[string]any)
	for k := range here["properties"].(map[string]any) {
		keys = append(keys, k)
	}
	given, _ := here["required"].([]any)
	for _, k := range given {
		required = append(required, k.(string))
	}
	return keys, required
}

// keysIn reads the yaml tags of a struct, or the texts of a list, from source.
func keysIn(t *testing.T, file, name string) (keys, required []string) {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.TypeSpec:
			if s, ok := n.Type.(*ast.StructType); ok && n.Name.Name == name {
				for _, f := range s.Fields.List {
					key, option, _ := strings.Cut(reflect.StructTag(strings.Trim(f.Tag.Value, "`")).Get("yaml"), ",")
					if key != "-" {
						keys = append(keys, key)
					}
					if option == "required" {
						required = append(required, key)
					}
				}
			}
		case *ast.ValueSpec:
			if n.Names[0].Name != name || len(n.Values) != 1 {
				return true
			}
			for _, x := range n.Values[0].(*ast.CompositeLit).Elts {
				key, _ := strconv.Unquote(x.(*ast.BasicLit).Value)
				keys = append(keys, key)
			}
		}
		return true
	})
	if len(keys) == 0 {
		t.Fatalf("no keys of %s in %s", name, file)
	}
	return keys, required
}
