package engine_test

import (
	"os"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
)

const lamp = "../testdata/packs/lamp"

// A snapshot answers as the files do.
func TestSnapshotAnswersTheSame(t *testing.T) {
	k, r := os.DirFS(lamp+"/knowledge"), os.DirFS(lamp+"/rules")
	frozen, ps, err := engine.Freeze(k, r)
	if err != nil || ps.HasErrors() {
		t.Fatal(err, ps)
	}
	var got []*engine.Diagnosis
	for _, data := range []string{string(frozen), ""} {
		e, ps := engine.OpenFrozen(data, k, r)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		c, _ := intake.Load(lamp+"/cases/dark.yaml", e.Catalog)
		d, err := e.Diagnose(c, engine.Bench{})
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, d)
	}
	if diff := cmp.Diff(got[0].Explanation, got[1].Explanation); diff != "" {
		t.Error(diff)
	}
}

// A snapshot of other files, or one that is damaged, is not used.
func TestStaleSnapshotIsNotUsed(t *testing.T) {
	k, r := os.DirFS(lamp+"/knowledge"), os.DirFS(lamp+"/rules")
	frozen, _, err := engine.Freeze(k, r)
	if err != nil {
		t.Fatal(err)
	}
	text, _ := os.ReadFile(lamp + "/rules/lamp.yaml")
	for _, data := range []string{string(frozen), string(frozen[:len(frozen)/2]), "noise"} {
		changed := fstest.MapFS{"lamp.yaml": {Data: append([]byte("# changed\n"), text...)}}
		e, ps := engine.OpenFrozen(data, k, changed)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		if line := e.Rules.Rules[0].Pos.Line; line != 3 {
			t.Errorf("first rule on line %d, want 3: the snapshot was used", line)
		}
	}
}

func BenchmarkOpenFrozen(b *testing.B) {
	k, r := os.DirFS("../knowledge"), os.DirFS("../rules")
	frozen, ps, err := engine.Freeze(k, r)
	if err != nil || ps.HasErrors() {
		b.Skip(err, ps)
	}
	for b.Loop() {
		engine.OpenFrozen(string(frozen), k, r)
	}
}

// The snapshot that is built in is the one of the files beside it. A stale one
// would only be slow, but nobody would notice.
func TestShippedSnapshotIsFresh(t *testing.T) {
	frozen, err := os.ReadFile("../knowledge/frozen.bin")
	if err != nil {
		t.Fatal(err)
	}
	if !engine.Fits(string(frozen), os.DirFS("../knowledge"), os.DirFS("../rules")) {
		t.Error("the snapshot does not fit: go run ./cmd/takeup rules freeze")
	}
}
