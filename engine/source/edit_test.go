package source_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"example.org/takeup/engine/source"
)

// order is that of a small file with every way to write a section.
var order = []string{"title", "machine", "history", "signs", "readings", "done", "notes"}

// edits are small files before and after; "|" stands for the edge of a line that
// ends in a blank.
var edits = []struct {
	name, before string
	do           func([]byte) ([]byte, error)
	after        string
}{
	{"a section that is missing", "title: a\n", set("signs", "hums", "yes"), "title: a\nsigns:\n  hums: yes\n"},
	{"behind the section before it", "title: a\nmachine: m.yaml # ours\n\n# what was tried\nnotes: n\n", set("signs", "hums", "yes"),
		"title: a\nmachine: m.yaml # ours\nsigns:\n  hums: yes\n\n# what was tried\nnotes: n\n"},
	{"one more entry", "title: a\nsigns:\n    hums: no   # heard it\n\nnotes: n\n", set("signs", "glows", "yes"),
		"title: a\nsigns:\n    hums: no   # heard it\n    glows: yes\n\nnotes: n\n"},
	{"an entry behind a list", "history:\n  changed:\n  - cable\n  # and the lever?\n\ntitle: a", set("history", "damp", "no"),
		"history:\n  changed:\n  - cable\n  damp: no\n  # and the lever?\n\ntitle: a"},
	{"an entry behind block text", "title: a\nsigns:\n  hums: >-\n    yes\n\n  # end\nnotes: n\n", set("signs", "glows", "no"),
		"title: a\nsigns:\n  hums: >-\n    yes\n  glows: no\n\n  # end\nnotes: n\n"},
	{"no final line end", "title: a", set("signs", "hums", "yes"), "title: a\nsigns:\n  hums: yes"},
	{"Windows line ends", "title: a\r\nsigns:\r\n  hums: no\r\n", set("signs", "glows", "yes"), "title: a\r\nsigns:\r\n  hums: no\r\n  glows: yes\r\n"},
	{"a byte order mark", "\ufefftitle: a\nsigns: {hums: no}\n", set("signs", "hums", "yes"), "\ufefftitle: a\nsigns: {hums: yes}\n"},
	{"a new value", "title: a\nsigns:\n  hums:   \"no\"   # faint\n  glows: yes\n", set("signs", "hums", "probably"),
		"title: a\nsigns:\n  hums:   probably   # faint\n  glows: yes\n"},
	{"a value where none was", "title: a\nsigns:\n  hums:\n  glows: yes\n", set("signs", "hums", "no"), "title: a\nsigns:\n  hums: no\n  glows: yes\n"},
	{"a list over lines gives way", "title: a\nhistory:\n  changed:\n    - cable\n    - lever\n  damp: no\n", set("history", "changed", "[oil]"),
		"title: a\nhistory:\n  changed: [oil]\n  damp: no\n"},
	{"text over lines gives way", "title: a\nhistory:\n  changed: |\n    a # b\n\n    c\n  damp: no\n", set("history", "changed", "[oil]"),
		"title: a\nhistory:\n  changed: [oil]\n  damp: no\n"},
	{"a flow map", "title: a\nsigns: {hums: yes, # loud\n  glows: no} # end\n", set("signs", "warm", "yes"),
		"title: a\nsigns: {hums: yes, # loud\n  glows: no, warm: yes} # end\n"},
	{"an empty flow map", "title: a\nsigns: { }\n", set("signs", "warm", "yes"), "title: a\nsigns: {warm: yes }\n"},
	{"all in one line", "{title: a}\n", set("signs", "warm", "yes"), "{title: a, signs: {warm: yes}}\n"},
	{"a section without value", "title: a\nsigns: # none yet\n  # really\nnotes: n\n", set("signs", "warm", "yes"),
		"title: a\nsigns: # none yet\n  warm: yes\n  # really\nnotes: n\n"},
	{"a section that is null", "title: a\nsigns: ~\nnotes: n\n", set("signs", "warm", "yes"), "title: a\nsigns:\n  warm: yes\nnotes: n\n"},
	{"quotes with colons and hashes", "title: 'it''s: # odd'\nsigns: {\"hums\": 'no'}\n", set("signs", "hums", "yes"), "title: 'it''s: # odd'\nsigns: {\"hums\": yes}\n"},
	{"a file that stands to the right", "  title: a\n  signs:\n    hums: no\n", set("signs", "warm", "yes"), "  title: a\n  signs:\n    hums: no\n    warm: yes\n"},
	{"an entry goes", "title: a\nsigns:\n  # first\n  hums: no # faint\n  # second\n  warm: yes\n", drop("signs", "hums"),
		"title: a\nsigns:\n  # first\n  # second\n  warm: yes\n"},
	{"the last entry goes with its section", "title: a\nsigns:\n  hums: no\nnotes: n\n", drop("signs", "hums"), "title: a\nnotes: n\n"},
	{"comments stay when it goes", "title: a\nsigns: # s\n  # first\n  hums: no\nnotes: n\n", drop("signs", "hums"), "title: a\n  # first\nnotes: n\n"},
	{"the first of a flow map goes", "title: a\nsigns: {hums: no, warm: yes}\n", drop("signs", "hums"), "title: a\nsigns: {warm: yes}\n"},
	{"the last of a flow map goes", "title: a\nsigns: {hums: no, warm: yes}\n", drop("signs", "warm"), "title: a\nsigns: {hums: no}\n"},
	{"a first item", "title: a\nnotes: n\n", add("done", "ride"), "title: a\ndone: [ride]\nnotes: n\n"},
	{"an item behind a list", "done:\n  - look # twice\n  - {check: feel, minutes: 3}\ntitle: a\n", add("done", "ride"),
		"done:\n  - look # twice\n  - {check: feel, minutes: 3}\n  - ride\ntitle: a\n"},
	{"an item in a row", "title: a\ndone: [look]\n", add("done", "ride"), "title: a\ndone: [look, ride]\n"},
	{"an item that is there", "title: a\ndone: [look]\n", add("done", "look"), "title: a\ndone: [look]\n"},
	{"a list without value", "title: a\ndone:\nnotes: n\n", add("done", "look"), "title: a\ndone: [look]\nnotes: n\n"},
	{"an item goes", "done:\n  - look # twice\n  # then\n  - feel\ntitle: a\n", undo("done", "look"), "done:\n  # then\n  - feel\ntitle: a\n"},
	{"an item goes from a row", "title: a\ndone: [look, feel, ride]\n", undo("done", "feel"), "title: a\ndone: [look, ride]\n"},
	{"the only item goes with its section", "title: a\ndone: [look]\nnotes: n\n", undo("done", "look"), "title: a\nnotes: n\n"},
	{"all in one line, the only item", "{title: a, done: [look], notes: n}\n", undo("done", "look"), "{title: a, notes: n}\n"},
	{"the title", "title: a # say more\nnotes: n\n", func(b []byte) ([]byte, error) { return source.SetTop(b, "title", "b") }, "title: b # say more\nnotes: n\n"},
	{"kept blank lines", "notes: |+\n  n\n\ntitle: a\n", set("signs", "hums", "no"), "notes: |+\n  n\n\ntitle: a\nsigns:\n  hums: no\n"},
}

func set(section, key, value string) func([]byte) ([]byte, error) {
	return func(b []byte) ([]byte, error) { return source.SetEntry(b, section, key, value, order) }
}

func drop(section, key string) func([]byte) ([]byte, error) {
	return func(b []byte) ([]byte, error) { return source.DropEntry(b, section, key) }
}

func undo(section, item string) func([]byte) ([]byte, error) {
	return func(b []byte) ([]byte, error) { return source.DropItem(b, section, item) }
}

func add(section, item string) func([]byte) ([]byte, error) {
	return func(b []byte) ([]byte, error) { return source.AddItem(b, section, item, order) }
}

func TestEditsTouchOnlyTheirEntry(t *testing.T) {
	for _, e := range edits {
		got, err := e.do([]byte(e.before))
		if err != nil || string(got) != e.after {
			t.Errorf("%s: %v\n%q, want\n%q", e.name, err, got, e.after)
		}
	}
}

// What cannot be edited in place is said, and nothing comes back.
func TestWhatCannotBeEdited(t *testing.T) {
	for text, do := range map[string]func([]byte) ([]byte, error){
		"- a\n- b\n":                     set("signs", "hums", "yes"),
		"title: a\nsigns: much\n":        set("signs", "hums", "yes"),
		"title: a\nsigns: [b]\n":         set("signs", "hums", "yes"),
		"title: a\ndone: {b: c}\n":       add("done", "ride"),
		"title: a\nsigns: {hums: no}\n":  drop("signs", "warm"),
		"title: \"a\nsigns: {hums: no}":  set("signs", "hums", "yes"),
		"title: a\ntitle: b\n":           set("signs", "hums", "yes"),
		"":                               set("signs", "hums", "yes"),
		"title: a\nsigns: {hums: &x no}": set("signs", "hums", "yes"),
	} {
		if got, err := do([]byte(text)); err == nil || got != nil {
			t.Errorf("%q: got %q and no error", text, got)
		}
	}
}

// page draws a file as a person might write it, with every entry on lines of its
// own and comments anywhere.
func page(t *rapid.T) string {
	comment := rapid.SampledFrom([]string{"", "", "# a: note", "  # an [odd one", "\t", "   "})
	tail := rapid.SampledFrom([]string{"", "", "  # why", " #", "   "})
	value := rapid.SampledFrom([]string{"yes", "'it''s # so'", "\"a \\\" b: c\"", "11 mm", "[a, \"b, c\"]", "{x: [1, 2]}", "5", "~",
		"|\n      one # two\n\n      three", ">-\n      one\n        two", "one\n      two", "[a,\n      b, # c\n      ]"})
	eol := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "eol")
	step := rapid.IntRange(1, 4).Draw(t, "step")
	var lines []string
	put := func(indent int, text string) {
		if c := comment.Draw(t, "comment"); c != "" {
			lines = append(lines, c)
		}
		text = strings.Repeat(" ", indent) + text
		if !strings.Contains(text, "|\n") && !strings.Contains(text, ">-\n") && !strings.Contains(text, "one\n") {
			text += tail.Draw(t, "tail")
		}
		lines = append(lines, strings.Split(text, "\n")...)
	}
	put(0, "title: a")
	for _, section := range rapid.Permutation([]string{"machine", "history", "signs", "readings"}).Draw(t, "sections") {
		n := rapid.IntRange(0, 3).Draw(t, "entries")
		if n == 0 {
			continue
		}
		put(0, section+":")
		for i := range n {
			put(step, fmt.Sprintf("k%d: %s", i, value.Draw(t, "value")))
		}
	}
	if len(lines) > 0 && rapid.Bool().Draw(t, "last") {
		lines = append(lines, "")
	}
	return strings.Join(lines, eol)
}

// A new entry is one line more, or two with its section, and taking it out again
// gives the same bytes; a changed one leaves what is before and behind it.
func TestEveryOtherByteSurvives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := page(t)
		if _, ps := source.Parse("", []byte(text)); ps.HasErrors() {
			t.Skip("not YAML: " + ps.Error())
		}
		section := rapid.SampledFrom([]string{"machine", "history", "signs", "readings"}).Draw(t, "section")
		typed := source.Quote(rapid.String().Draw(t, "typed"))
		added, err := source.SetEntry([]byte(text), section, "fresh", typed, order)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if more := bytes.Count(added, []byte("\n")) - strings.Count(text, "\n"); more != 1 && more != 2 {
			t.Fatalf("%d lines more", more)
		}
		back, err := source.DropEntry(added, section, "fresh")
		if err != nil || string(back) != text {
			t.Fatalf("taking it out again: %v\n%q, was\n%q", err, back, text)
		}
		listed, err := source.AddItem([]byte(text), "done", "fresh", order)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if back, err := source.DropItem(listed, "done", "fresh"); err != nil || string(back) != text {
			t.Fatalf("taking the item out again: %v\n%q, was\n%q", err, back, text)
		}
		changed, err := source.SetEntry([]byte(text), section, "k0", typed, order)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		at := strings.Index(text, section+":")
		if at < 0 {
			return
		}
		key := at + strings.Index(text[at:], "k0:") + len("k0:")
		if !strings.HasPrefix(string(changed), text[:key]) {
			t.Fatalf("what stands before has changed\n%q, was\n%q", changed, text)
		}
		rest := text[key:]
		for _, next := range []string{"k1:", "history:", "signs:", "readings:", "machine:"} {
			if i := strings.Index(rest, next); i >= 0 {
				rest = rest[i:]
			}
		}
		if rest != text[key:] && !strings.HasSuffix(string(changed), rest) {
			t.Fatalf("what stands behind has changed\n%q, was\n%q", changed, text)
		}
	})
}

// Whatever is typed comes back as it was typed, less what no line may hold.
func TestQuotedTextComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		typed := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
			"yes", "null", "~", "- a", "a: b", "a #b", "[a", "\x1b[31mred", "&x", "*x", "!x", "0,3 mm", "\"", "\\", "%a", "@a", "a\nb", "---", "...", "é", "\u202etrick", "1e3", "0x10", "\ufeff",
		})).Draw(t, "typed")
		quoted := source.Quote(typed)
		if strings.ContainsAny(quoted, "\n\r\x1b\u202e\x00") {
			t.Fatalf("%q", quoted)
		}
		for _, text := range []string{"a: " + quoted + "\n", "a: {b: " + quoted + "}\n", "a: " + source.QuoteAll([]string{typed, typed}) + "\n"} {
			root, ps := source.Parse("", []byte(text))
			if ps.HasErrors() {
				t.Fatalf("%q: %v", text, ps)
			}
			n := root.Field("a")
			if n.Kind() == source.Map {
				n = n.Field("b")
			} else if n.Kind() == source.List {
				if len(n.Items()) != 2 {
					t.Fatalf("%q holds %d items", text, len(n.Items()))
				}
				n = n.Items()[0]
			}
			got, ok := n.Scalar()
			if !ok || strings.Join(strings.Fields(got.Value), " ") != strings.Join(strings.Fields(clean(typed)), " ") {
				t.Fatalf("%q came back as %q", typed, got.Value)
			}
		}
	})
}

// clean is what may be lost: controls, marks that turn text round, broken UTF-8.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
}

// The sample cases are hand-written: an answer put in and taken out again leaves
// them byte for byte.
func TestSampleCasesSurvive(t *testing.T) {
	files, _ := filepath.Glob("../../testdata/cases/*.yaml")
	if len(files) < 12 {
		t.Fatalf("found %d cases", len(files))
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, section := range []string{"history", "signs", "readings"} {
			added, err := source.SetEntry(text, section, "fresh", "yes", order)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			if back, err := source.DropEntry(added, section, "fresh"); err != nil || !bytes.Equal(back, text) {
				t.Errorf("%s: %s is not what it was: %v", name, section, err)
			}
		}
	}
}

// Any text at all: an edit gives an error or a file that reads, never a panic.
func FuzzSetEntry(f *testing.F) {
	for _, e := range edits {
		f.Add([]byte(e.before), "hums", "a # b: c")
	}
	f.Fuzz(func(t *testing.T, text []byte, key, typed string) {
		if key = strings.ToLower(key); len(key) > 20 || !strings.HasPrefix(key, "h") || strings.Trim(key, "abcdefghijklmnopqrstuvwxyz_") != "" {
			key = "hums"
		}
		for _, do := range []func([]byte) ([]byte, error){set("signs", key, source.Quote(typed)), add("done", source.Quote(typed)), drop("signs", key), undo("done", typed)} {
			after, err := do(text)
			if err != nil {
				continue
			}
			if _, ps := source.Parse("", after); ps.HasErrors() {
				t.Fatalf("%q became %q: %v", text, after, ps)
			}
		}
	})
}
