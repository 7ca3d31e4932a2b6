package freeze_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.org/takeup/engine/freeze"
)

type word string

type leaf struct {
	Name   word
	Count  int
	Share  float64
	Sure   bool
	Others []string
	hidden int
}

type tree struct {
	Leaf  leaf
	Kids  []*tree
	Twin  *leaf
	Parts []leaf
}

func drawLeaf(t *rapid.T) leaf {
	return leaf{
		Name: word(rapid.String().Draw(t, "name")), Count: rapid.Int().Draw(t, "count"), Share: rapid.Float64().Draw(t, "share"),
		Sure: rapid.Bool().Draw(t, "sure"), Others: rapid.SliceOfN(rapid.SampledFrom([]string{"", "a", "steel", "ÿ\x00"}), 1, 5).Draw(t, "others"),
	}
}

func drawTree(t *rapid.T, depth int) *tree {
	out := &tree{Leaf: drawLeaf(t)}
	if rapid.Bool().Draw(t, "twin") {
		l := drawLeaf(t)
		out.Twin = &l
	}
	for range rapid.IntRange(0, 3).Draw(t, "parts") {
		out.Parts = append(out.Parts, drawLeaf(t))
	}
	for range rapid.IntRange(0, depth).Draw(t, "kids") {
		out.Kids = append(out.Kids, drawTree(t, depth-1))
	}
	return out
}

var exact = cmp.Options{
	cmp.AllowUnexported(leaf{}),
	cmp.Comparer(func(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }),
}

func TestReadGivesWhatWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := drawTree(t, 3)
		data, err := freeze.Write(want)
		if err != nil {
			t.Fatal(err)
		}
		var got tree
		if err := freeze.Read(string(data), &got); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(*want, got, exact); diff != "" {
			t.Error(diff)
		}
	})
}

// What is not exported is not written, and a list without entries is nil.
func TestReadLeavesOut(t *testing.T) {
	data, err := freeze.Write(&leaf{Name: "x", hidden: 3, Others: []string{}})
	if err != nil {
		t.Fatal(err)
	}
	var got leaf
	if err := freeze.Read(string(data), &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(leaf{Name: "x"}, got, exact); diff != "" {
		t.Error(diff)
	}
}

// A string that stands there already is written as its place.
func TestStringsAreWrittenOnce(t *testing.T) {
	const text = "the friction plates have left their marks in the fingers of the basket"
	data, err := freeze.Write(&[]string{text, text, text})
	if err != nil {
		t.Fatal(err)
	}
	if len(data) > len(text)+20 {
		t.Errorf("%d bytes for three times the same %d", len(data), len(text))
	}
}

func TestReadRefuses(t *testing.T) {
	type renamed struct{ Title string }
	type first struct{ Name string }
	type second struct{ Name int }
	data, err := freeze.Write(&first{"a"})
	if err != nil {
		t.Fatal(err)
	}
	for name, into := range map[string]any{"another name": &renamed{}, "another kind": &second{}} {
		if freeze.Read(string(data), into) == nil {
			t.Errorf("%s: read without an error", name)
		}
	}
	if freeze.Read(string(data[:len(data)-1]), &first{}) == nil {
		t.Error("read data that is cut short")
	}
	if freeze.Read(string(data)+"x", &first{}) == nil {
		t.Error("read data with more behind it")
	}
	for name, from := range map[string]any{"a map": &map[string]int{}, "a map inside": &struct{ M map[string]int }{}, "nothing": &struct{}{}} {
		if _, err := freeze.Write(from); err == nil {
			t.Errorf("%s: written without an error", name)
		}
	}
}

// Damaged data gives an error, or a value that can be written again; no panic and
// no endless room.
func FuzzRead(f *testing.F) {
	data, err := freeze.Write(&tree{Leaf: leaf{Name: "a", Others: []string{"a", "b"}}, Kids: []*tree{{Twin: &leaf{Share: 0.5}}}, Parts: []leaf{{Count: -3}}})
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add(data[:8])
	f.Fuzz(func(t *testing.T, noise []byte) {
		var got tree
		if freeze.Read(string(data[:8])+string(noise), &got) == nil {
			if _, err := freeze.Write(&got); err != nil {
				t.Error(err)
			}
		}
	})
}
