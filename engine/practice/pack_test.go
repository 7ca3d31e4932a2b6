package practice_test

import (
	"flag"
	"os"
	"sync"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/rule"
)

// A longer look: -cases 500, or in parts with -first 1, -first 51 and so on.
var (
	first = flag.Int("first", 1, "seed of the first case that is drawn and looked at")
	cases = flag.Int("cases", 3, "cases of every level that are drawn and looked at")
)

// open reads the shipped pack once for all tests: use does not change it.
var open = sync.OnceValue(func() (p struct {
	book   practice.Book
	sheets []intake.Sheet
	err    error
}) {
	folder := os.DirFS("../../knowledge")
	cat, ps := catalog.Load(folder)
	set, more := rule.Load(os.DirFS("../../rules"), cat.Vocabulary())
	sheets, unread := intake.Machines(folder, cat)
	p.err = append(append(ps, more...), unread...).Err()
	words := cat.Vocabulary()
	p.book = practice.Book{Catalog: cat, Rules: set, Words: words, Derived: derive.New(cat, set, words), Phrases: practice.Phrases(folder)}
	p.sheets = sheets
	return p
})

func shipped(t testing.TB) (practice.Book, []intake.Sheet) {
	t.Helper()
	p := open()
	if p.err != nil {
		t.Fatal(p.err)
	}
	if len(p.sheets) < 4 || len(p.book.Phrases) < 50 {
		t.Fatalf("%d machines, phrases for %d signs", len(p.sheets), len(p.book.Phrases))
	}
	return p.book, p.sheets
}
