package engine

import (
	"cmp"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"sync"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/freeze"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// A pack in YAML takes longer to read than to reason with. A snapshot is the
// same pack as checked plain values: the fingerprint of the files it was made
// from, the length of the catalog's part, the catalog and the rules, the last
// two each by itself so that they can be read at the same time.
const snapshotHeader = sha256.Size + 8

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
	rest := e.Rules.Freeze()
	cat, err1 := freeze.Write(e.Catalog)
	set, err2 := freeze.Write(&rest)
	if err := cmp.Or(err1, err2); err != nil {
		return nil, ps, err
	}
	out := binary.BigEndian.AppendUint64(print[:], uint64(len(cat)))
	return append(append(out, cat...), set...), ps, nil
}

// OpenFrozen opens a pack from its snapshot when that was made from exactly
// these files, and like Open otherwise.
func OpenFrozen(frozen string, knowledge, rules fs.FS) (*Engine, source.Problems) {
	if e, err := thaw(frozen, knowledge, rules); err == nil {
		return e, nil
	}
	return Open(knowledge, rules)
}

func thaw(frozen string, knowledge, rules fs.FS) (*Engine, error) {
	if len(frozen) < snapshotHeader {
		return nil, errors.New("the snapshot is cut short")
	}
	body := frozen[snapshotHeader:]
	length := binary.BigEndian.Uint64([]byte(frozen[sha256.Size:snapshotHeader]))
	if length > uint64(len(body)) {
		return nil, errors.New("the snapshot is cut short")
	}
	var (
		e    = &Engine{Catalog: &catalog.Catalog{}}
		errs [3]error
		wg   sync.WaitGroup
	)
	wg.Go(func() {
		if errs[0] = freeze.Read(body[:length], e.Catalog); errs[0] == nil {
			e.Catalog.Index()
			e.Words = e.Catalog.Vocabulary()
		}
	})
	wg.Go(func() {
		var rest rule.Frozen
		if errs[1] = freeze.Read(body[length:], &rest); errs[1] == nil {
			e.Rules, errs[1] = rule.Restore(rest)
		}
	})
	// A snapshot of other files is never used, so that it cannot go stale unseen.
	print, err := fingerprint(knowledge, rules)
	if err == nil && string(print[:]) != frozen[:sha256.Size] {
		err = errors.New("the snapshot was made from other files")
	}
	errs[2] = err
	wg.Wait()
	if err := cmp.Or(errs[0], errs[1], errs[2]); err != nil {
		return nil, err
	}
	e.Derived = derive.New(e.Catalog, e.Rules, e.Words)
	return e, nil
}

// fingerprint is taken over the names and texts of the files that Open reads.
func fingerprint(knowledge, rules fs.FS) (sum [sha256.Size]byte, err error) {
	h := sha256.New()
	room := make([]byte, 32<<10)
	for _, root := range []fs.FS{knowledge, rules} {
		err = fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(p, ".yaml") || rule.IsTest(p) || !catalog.Reads(p) {
				return err
			}
			f, err := root.Open(p)
			if err != nil {
				return err
			}
			defer f.Close()
			fmt.Fprintf(h, "%s\n", p)
			n, err := io.CopyBuffer(h, onlyReader{f}, room)
			fmt.Fprintf(h, "\n%d\n", n)
			return err
		})
		if err != nil {
			return sum, err
		}
	}
	h.Sum(sum[:0])
	return sum, nil
}

// onlyReader hides what else a file can do, so that a copy uses the room given.
type onlyReader struct{ io.Reader }

// Fits reports whether a snapshot was made from exactly these files and can be
// read.
func Fits(frozen string, knowledge, rules fs.FS) bool {
	_, err := thaw(frozen, knowledge, rules)
	return err == nil
}
