package engine

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"fmt"
	"io/fs"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// A pack in YAML takes longer to read than to reason with. A snapshot is the
// same pack as checked plain values, with the fingerprint of the files it was
// made from: one that does not fit its files is never used.
type snapshot struct {
	Fingerprint [sha256.Size]byte
	Catalog     catalog.Catalog
	Rules       []rule.Rule
}

// Freeze writes a snapshot of a pack. The problems are those of Open; with an
// error among them there is no snapshot.
func Freeze(knowledge, rules fs.FS) ([]byte, source.Problems, error) {
	e, ps := Open(knowledge, rules)
	if ps.HasErrors() {
		return nil, ps, nil
	}
	print, err := fingerprint(knowledge, rules)
	if err != nil {
		return nil, ps, err
	}
	var b bytes.Buffer
	err = gob.NewEncoder(&b).Encode(snapshot{print, *e.Catalog, e.Rules.Rules})
	return b.Bytes(), ps, err
}

// OpenFrozen opens a pack from its snapshot when that was made from exactly
// these files, and like Open otherwise.
func OpenFrozen(frozen []byte, knowledge, rules fs.FS) (*Engine, source.Problems) {
	if e, err := thaw(frozen, knowledge, rules); err == nil {
		return e, nil
	}
	return Open(knowledge, rules)
}

func thaw(frozen []byte, knowledge, rules fs.FS) (*Engine, error) {
	print, err := fingerprint(knowledge, rules)
	if err != nil {
		return nil, err
	}
	var s snapshot
	if err := gob.NewDecoder(bytes.NewReader(frozen)).Decode(&s); err != nil {
		return nil, err
	}
	if s.Fingerprint != print {
		return nil, fmt.Errorf("the snapshot was made from other files")
	}
	s.Catalog.Index()
	set, err := rule.Restore(s.Rules)
	if err != nil {
		return nil, err
	}
	return &Engine{&s.Catalog, set, s.Catalog.Vocabulary()}, nil
}

// fingerprint is taken over the names and texts of the files that Open reads.
func fingerprint(knowledge, rules fs.FS) (sum [sha256.Size]byte, err error) {
	h := sha256.New()
	for _, root := range []fs.FS{knowledge, rules} {
		err = fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(p, ".yaml") || rule.IsTest(p) || !catalog.Reads(p) {
				return err
			}
			text, err := fs.ReadFile(root, p)
			fmt.Fprintf(h, "%s %d\n", p, len(text))
			h.Write(text)
			return err
		})
		if err != nil {
			return sum, err
		}
	}
	h.Sum(sum[:0])
	return sum, nil
}

// Fits reports whether a snapshot was made from exactly these files and can be
// read.
func Fits(frozen []byte, knowledge, rules fs.FS) bool {
	_, err := thaw(frozen, knowledge, rules)
	return err == nil
}
