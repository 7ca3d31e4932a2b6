package engine_test

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/knowledge"
	"example.org/takeup/rules"
)

// foreign is what the book does not say: American spellings beside British ones,
// old forms, and words that carry nothing.
var foreign = regexp.MustCompile(`(?i)\b(color\w*|gray|center\w*|fibers?|calipers?|gasoline|aluminum|odor|flashlight|footpegs?|oftener|oftenest|utili[sz]e\w*|basically|actually|really|please note|in order to|simply|obviously|of course|make sure to)\b`)

// One voice speaks in everything a reader sees. What people say in their own
// words (phrases) and what sources are called stays as it is.
func TestOneVoice(t *testing.T) {
	check := func(files fs.FS, path string) {
		text, err := fs.ReadFile(files, path)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(text), "\n") {
			if strings.HasPrefix(strings.TrimSpace(line), "phrases:") {
				continue
			}
			if w := foreign.FindString(line); w != "" {
				t.Errorf("%s:%d: %q in %s", path, i+1, w, strings.TrimSpace(line))
			}
		}
	}
	seen := 0
	for _, in := range []fs.FS{knowledge.Files, rules.Files} {
		err := fs.WalkDir(in, ".", func(path string, d fs.DirEntry, err error) error {
			switch {
			case err != nil || d.IsDir():
				return err
			case strings.HasPrefix(path, "phrases/"), path == "sources.yaml", strings.HasSuffix(path, "_test.yaml"), !strings.HasSuffix(path, ".yaml") && !strings.HasSuffix(path, ".md"):
				return nil
			}
			seen++
			check(in, path)
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if seen < 200 {
		t.Errorf("read %d files only", seen)
	}
}
