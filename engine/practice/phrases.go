package practice

import (
	"io/fs"
	"regexp"
	"strings"

	"example.org/takeup/engine/source"
)

// phrasesFile is one file of the folder phrases; other keys are for others.
type phrasesFile struct {
	Phrases []source.Entry `yaml:"phrases"`
}

// plainPhrase is one that a rider could have said as it stands.
var plainPhrase = regexp.MustCompile(`^[\p{L}\p{N} ',.-]+$`)

// Phrases reads how riders word signs from a knowledge folder, by sign. A folder
// without phrases, or one that cannot be read, gives none: things are then told
// by their names. Patterns, which stand for many phrases, are for readers only.
func Phrases(knowledge fs.FS) map[string][]string {
	files, _ := source.DecodeFolder[phrasesFile](knowledge, func(path string) bool { return strings.HasPrefix(path, "phrases/") })
	out := map[string][]string{}
	for _, f := range files {
		for _, e := range f.Phrases {
			for _, n := range e.Value.Items() {
				if t, ok := n.Scalar(); ok && plainPhrase.MatchString(t.Value) {
					out[e.Key.Value] = append(out[e.Key.Value], t.Value)
				}
			}
		}
	}
	return out
}
