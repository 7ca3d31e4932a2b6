package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// MaxBytes is the size limit of a file: a hand-written file never comes near
// it, and reading stops there whatever is at the other end of the path.
const MaxBytes = 4 << 20

// bom is the UTF-8 byte order mark that some editors put first.
const bom = "\ufeff"

// File is a text file in memory. Name is the path as the user gave it.
type File struct {
	Name string
	Text []byte
}

// Line returns line n (from 1) without its line end or a byte order mark, or ""
// when there is no such line.
func (f *File) Line(n int) string {
	rest := f.Text
	for i := 1; i < n; i++ {
		j := bytes.IndexByte(rest, '\n')
		if j < 0 {
			return ""
		}
		rest = rest[j+1:]
	}
	if n < 1 {
		return ""
	}
	line, _, _ := bytes.Cut(rest, []byte{'\n'})
	line = bytes.TrimSuffix(line, []byte{'\r'})
	if n == 1 {
		line = bytes.TrimPrefix(line, []byte(bom))
	}
	return string(line)
}

// Load reads the file at an operating system path. When it cannot, the file is
// nil and the one problem says why and names similar files in the same folder.
func Load(name string) (*File, Problems) {
	open := func() (fs.File, error) { return os.Open(name) }
	list := func() ([]fs.DirEntry, error) { return os.ReadDir(filepath.Dir(name)) }
	return load(name, filepath.Base(name), open, list)
}

// LoadFS is Load for a file system; name is slash-separated as fs.FS wants it.
func LoadFS(fsys fs.FS, name string) (*File, Problems) {
	open := func() (fs.File, error) { return fsys.Open(name) }
	list := func() ([]fs.DirEntry, error) { return fs.ReadDir(fsys, path.Dir(name)) }
	return load(name, path.Base(name), open, list)
}

// load does the work of Load and LoadFS. The list is asked for only when the file
// is missing.
func load(name, base string, open func() (fs.File, error), list func() ([]fs.DirEntry, error)) (*File, Problems) {
	var ps Problems
	pos := Pos{File: name}
	f, err := open()
	if err != nil {
		p := ps.Errorf(CodeUnreadable, pos, 1, "cannot open: %s", reason(err))
		if errors.Is(err, fs.ErrNotExist) {
			p.Code, p.Message, p.Hint = CodeNoFile, "no such file", similar(base, list)
		}
		return nil, ps
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		ps.Errorf(CodeUnreadable, pos, 1, "cannot read: %s", reason(err))
		return nil, ps
	case info.IsDir():
		ps.Errorf(CodeFolder, pos, 1, "expected a file, found a folder").Hint = "name one file in it"
		return nil, ps
	case info.Size() > MaxBytes:
		tooLarge(&ps, pos, info.Size())
		return nil, ps
	}
	// The size of a pipe or device is not known before reading it.
	text, err := io.ReadAll(io.LimitReader(f, MaxBytes+1))
	if err != nil {
		ps.Errorf(CodeUnreadable, pos, 1, "cannot read: %s", reason(err))
		return nil, ps
	}
	if len(text) > MaxBytes {
		tooLarge(&ps, pos, int64(len(text)))
		return nil, ps
	}
	return &File{Name: name, Text: text}, nil
}

// tooLarge says how large when that is known; a pipe is only known to be over.
func tooLarge(ps *Problems, pos Pos, size int64) {
	shown := fmt.Sprintf("%d MB", (size+1<<20-1)>>20)
	if size <= MaxBytes+1 {
		shown = "over 4 MB"
	}
	ps.Errorf(CodeTooLarge, pos, 1, "too large: %s, at most %d MB", shown, MaxBytes>>20)
}

// reason strips the path that os errors repeat.
func reason(err error) string {
	var pe *fs.PathError
	switch {
	case errors.Is(err, fs.ErrPermission):
		return "permission denied"
	case errors.As(err, &pe):
		return pe.Err.Error()
	}
	return err.Error()
}

// similar names files of the folder that the user may have meant: the same name
// with another ending, or a small slip of the pen.
func similar(base string, list func() ([]fs.DirEntry, error)) string {
	entries, err := list()
	if err != nil {
		return "its folder does not exist or cannot be read"
	}
	stem := strings.TrimSuffix(base, path.Ext(base))
	var known, sameStem []string
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		known = append(known, e.Name())
		if strings.TrimSuffix(e.Name(), path.Ext(e.Name())) == stem {
			sameStem = append(sameStem, e.Name())
		}
	}
	if len(sameStem) > 0 {
		return didYouMean(sameStem[:min(3, len(sameStem))])
	}
	return didYouMean(Suggest(base, known))
}
