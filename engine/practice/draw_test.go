package practice_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/rule"
)

// A longer look: -cases 500, or in parts with -first 1, -first 51 and so on.
var first = flag.Int("first", 1, "seed of the first case that is drawn and looked at")

var cases = flag.Int("cases", 6, "cases of every level that are drawn and looked at")

func shipped(t testing.TB) (practice.Book, []intake.Sheet) {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS("../../knowledge"))
	set, more := rule.Load(os.DirFS("../../rules"), cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	paths, _ := filepath.Glob("../../testdata/machines/*.yaml")
	var sheets []intake.Sheet
	for _, path := range paths {
		m, words, ps := intake.LoadMachine(path, cat)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		sheets = append(sheets, intake.Sheet{Machine: m, Words: words})
	}
	return practice.Book{Catalog: cat, Rules: set, Words: cat.Vocabulary()}, sheets
}
