package prose_test

import (
	"os"
	"strings"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/prose"
)

func BenchmarkLoad(b *testing.B) {
	files := os.DirFS("../../knowledge")
	cat, _ := catalog.Load(files)
	for b.Loop() {
		prose.Load(files, cat)
	}
}

// One post of ordinary length, and the longest text that is read.
func BenchmarkRead(b *testing.B) {
	l, _ := lexicon(b)
	post, err := os.ReadFile("../../testdata/posts/05-us-new-kit.txt")
	if err != nil {
		b.Fatal(err)
	}
	b.Run("post", func(b *testing.B) {
		for b.Loop() {
			l.Read(string(post))
		}
	})
	b.Run("longest", func(b *testing.B) {
		long := strings.Repeat("the lever is heavy and it slips in top gear when hot, ", 3000)
		for b.Loop() {
			l.Read(long)
		}
	})
}
