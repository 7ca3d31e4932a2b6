package source

import (
	"io/fs"
	"runtime"
	"sort"
	"strings"
	"sync"
)

// DecodeFolder reads every .yaml file below the root of fsys whose path pick
// accepts and decodes each into a T. Results stand in alphabetical order of the
// paths, whatever order the files were ready in; reading uses all processors.
func DecodeFolder[T any](fsys fs.FS, pick func(path string) bool) ([]T, Problems) {
	var ps Problems
	names, err := yamlFiles(fsys, pick)
	if err != nil {
		ps.Errorf(CodeUnreadable, Pos{File: "."}, 1, "the folder cannot be read: %s", reason(err))
		return nil, ps
	}
	if len(names) == 0 {
		ps.Errorf(CodeNoFile, Pos{File: "."}, 1, "no .yaml file in this folder")
	}
	out, problems := make([]T, len(names)), make([]Problems, len(names))
	inParallel(len(names), func(i int) {
		file, found := LoadFS(fsys, names[i])
		problems[i] = found
		if file == nil {
			return
		}
		node, found := Parse(file.Name, file.Text)
		problems[i] = append(problems[i], found...)
		Decode(node, &out[i], &problems[i])
	})
	for _, found := range problems {
		ps = append(ps, found...)
	}
	return out, ps
}

func yamlFiles(fsys fs.FS, pick func(string) bool) ([]string, error) {
	var names []string
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && strings.HasSuffix(p, ".yaml") && pick(p) {
			names = append(names, p)
		}
		return err
	})
	sort.Strings(names)
	return names, err
}

// inParallel runs work(0) to work(n-1) on all processors and waits. Each call
// fills a slot of its own, so that no result depends on timing.
func inParallel(n int, work func(i int)) {
	next := make(chan int, n)
	for i := range n {
		next <- i
	}
	close(next)
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			for i := range next {
				work(i)
			}
		})
	}
	wg.Wait()
}
