package source

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// Results keep the order of the paths, and one bad file hides no other.
func TestDecodeFolder(t *testing.T) {
	fsys := fstest.MapFS{"notes.txt": {Data: []byte("x")}, "skip.yaml": {Data: []byte("id: [")}}
	for i := range 20 {
		fsys[fmt.Sprintf("d%d/f%02d.yaml", i%2, i)] = &fstest.MapFile{Data: []byte(fmt.Sprintf("id: r%02d\n", i))}
	}
	fsys["d0/f00.yaml"].Data = []byte("id:\n")
	fsys["d1/f19.yaml"].Data = []byte("ib: x\n")
	out, ps := DecodeFolder[small](fsys, func(p string) bool { return p != "skip.yaml" })
	ps.Sort()
	want := "d0/f00.yaml:1:4: error Y204: id: empty value\n" +
		"d1/f19.yaml:1:1: error Y201: unknown key \"ib\"\nd1/f19.yaml:1:1: error Y202: missing key \"id\""
	if ps.Error() != want {
		t.Errorf("problems:\n%v", ps)
	}
	var ids []string
	for _, s := range out {
		ids = append(ids, s.ID)
	}
	if got := strings.Join(ids, " "); got != " r02 r04 r06 r08 r10 r12 r14 r16 r18 r01 r03 r05 r07 r09 r11 r13 r15 r17 " {
		t.Errorf("order: %q", got)
	}
	if _, ps := DecodeFolder[small](fstest.MapFS{}, func(string) bool { return true }); !ps.HasErrors() {
		t.Error("an empty folder is no error")
	}
}
