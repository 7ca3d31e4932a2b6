package intake

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.org/takeup/engine/source"
)

// Change makes edits in a case file and saves it at once. The file is read
// afresh, so that what somebody else has written to it meanwhile stays. At any
// moment the path holds either the old text or the new one, whole.
func Change(path string, edits []Edit) error {
	file, ps := source.Load(path)
	if file == nil {
		return ps.Err()
	}
	text, err := Apply(file.Text, edits)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	return replace(path, text)
}

// Create writes a new case file. It never overwrites: the error is fs.ErrExist
// when the path is taken.
func Create(path string, text []byte) error {
	temp, err := beside(path, text, 0o666)
	if err != nil {
		return err
	}
	defer os.Remove(temp)
	// A link, unlike a renaming, fails when the name is taken.
	err = os.Link(temp, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		syncFolder(path)
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666) // no links on this file system
	if err != nil {
		return err
	}
	return write(f, text)
}

// replace puts a text in the place of a file: a new file beside it is written,
// forced to the disk and renamed. The mode stays; a symbolic link stays one.
func replace(path string, text []byte) error {
	path, err := filepath.EvalSymlinks(path)
	if err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if info.Mode().Perm()&0o222 == 0 {
		return &fs.PathError{Op: "write", Path: path, Err: fs.ErrPermission}
	}
	temp, err := beside(path, text, info.Mode().Perm())
	if err != nil {
		return err
	}
	if err = os.Chmod(temp, info.Mode().Perm()); err == nil { // the umask may have taken some away
		err = os.Rename(temp, path)
	}
	if err != nil {
		os.Remove(temp)
		return err
	}
	syncFolder(path)
	return nil
}

// mostTemps bounds the search for a free name.
const mostTemps = 100

// beside writes a text to a new hidden file in the folder of a path.
func beside(path string, text []byte, mode fs.FileMode) (string, error) {
	folder, name := filepath.Split(path)
	for i := range mostTemps {
		temp := filepath.Join(folder, fmt.Sprintf(".%s.%d-%d.tmp", name, os.Getpid(), i))
		f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return "", err
		}
		if err := write(f, text); err != nil {
			os.Remove(temp)
			return "", err
		}
		return temp, nil
	}
	return "", &fs.PathError{Op: "write", Path: path, Err: errors.New("too many temporary files beside it")}
}

// write writes, forces to the disk and closes.
func write(f *os.File, text []byte) error {
	_, err := f.Write(text)
	if e := f.Sync(); err == nil {
		err = e
	}
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

// syncFolder makes a new name last. Some systems cannot; the file is whole anyway.
func syncFolder(path string) {
	if d, err := os.Open(filepath.Dir(path)); err == nil {
		d.Sync()
		d.Close()
	}
}
