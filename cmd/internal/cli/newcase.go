package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/source"
)

// begin asks for the title of a new case and writes its file. Without a title
// nothing is written.
func (t *talk) begin(out string) error {
	t.say(report.AskTitle)
	title := ""
	for title == "" {
		typed, ok := t.hear()
		switch {
		case !ok || typed == "q":
			t.say(report.NothingWritten)
			return nil
		case typed == "?":
			t.say(report.WhyTitle)
			continue
		case typed == "s":
			typed = report.NoTitle
		}
		if title = source.Quote(typed); title == `""` {
			title = ""
		}
	}
	return t.write(out, title)
}

// write makes the file: the one asked for, or one named after the title.
func (t *talk) write(out, title string) error {
	names := []string{out}
	if out == "" {
		names = fileNames(strings.Trim(title, `"`))
	}
	for _, name := range names {
		text, err := newCase(title, t.machine, name)
		if err != nil {
			return err
		}
		err = intake.Create(name, text)
		if errors.Is(err, fs.ErrExist) && out == "" {
			continue
		}
		if errors.Is(err, fs.ErrExist) {
			return wrong("%s exists", name).with("to go on with it: takeup interview " + name)
		}
		if err != nil {
			return wrong("%s", err)
		}
		t.file = name
		t.say(report.Begun(name))
		return nil
	}
	return wrong("%s and %d more like it exist", names[0], len(names)-1).with("name another with --out")
}

// newCase is the text of a new case. The machine sheet is named as seen from the
// folder of the case.
func newCase(title, machine, name string) ([]byte, error) {
	text := "title: " + title + "\n"
	if machine == "" {
		return []byte(text), nil
	}
	if _, err := os.Stat(machine); err != nil {
		return nil, wrong("%s", err)
	}
	if !filepath.IsAbs(machine) {
		folder, err := filepath.Abs(filepath.Dir(name))
		if err != nil {
			return nil, err
		}
		sheet, err := filepath.Abs(machine)
		if err != nil {
			return nil, err
		}
		if rel, err := filepath.Rel(folder, sheet); err == nil {
			machine = rel
		}
	}
	return []byte(text + "machine: " + source.Quote(filepath.ToSlash(machine)) + "\n"), nil
}

const (
	longestName = 48
	sameNames   = 99
)

// fileNames makes names from a title: its words in lower case with hyphens, then
// the same with a number.
func fileNames(title string) []string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	name := ""
	for _, w := range words {
		if len(name)+len(w) >= longestName {
			break
		}
		name += "-" + w
	}
	if name = strings.TrimPrefix(name, "-"); name == "" {
		name = "case"
	}
	out := []string{name + ".yaml"}
	for i := 2; i <= sameNames; i++ {
		out = append(out, fmt.Sprintf("%s-%d.yaml", name, i))
	}
	return out
}

// readFile is the text of a file, as source reads it.
func readFile(name string) ([]byte, error) {
	file, ps := source.Load(name)
	if file == nil {
		return nil, ps.Err()
	}
	return file.Text, nil
}
