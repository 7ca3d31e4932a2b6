package source

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const goodSample = `# a comment in front
id: slip_hot
when: slips and not cold   # hot only
because: |
  The oil thins
    when hot.
basis: {page: 12}
effects: [slips, 'drags', "creeps"]
minutes: -15
prior: 1.5e-2
deep: yes
limit:
  low: 2
limits:
  friction: 2.5 mm
  steel: 1.2
more:
  - id: a
    deep: false
  - id: b
`

func TestDecode(t *testing.T) {
	s, ps := decodeSample("good.yaml", []byte(goodSample))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	at := func(line, column int) Pos { return Pos{"good.yaml", line, column} }
	want := sample{
		Pos:     at(2, 1),
		ID:      "slip_hot",
		When:    Text{Value: "slips and not cold", Pos: at(3, 7), Comment: "hot only"},
		Because: Text{Value: "The oil thins\n  when hot.\n", Pos: at(4, 10)},
		Effects: []Text{{Value: "slips", Pos: at(8, 11)}, {Value: "drags", Pos: at(8, 18)}, {Value: "creeps", Pos: at(8, 27)}},
		Minutes: -15,
		Prior:   0.015,
		Deep:    true,
		Limit:   &bounds{Low: 2},
		More:    []small{{Pos: at(18, 5), ID: "a"}, {Pos: at(20, 5), ID: "b"}},
	}
	basis, limits := s.Basis, s.Limits
	s.Basis, s.Limits = nil, nil
	ignoreRaw := cmp.FilterPath(func(p cmp.Path) bool { return p.String() != "" && p.Last().String() == ".Raw" }, cmp.Ignore())
	if diff := cmp.Diff(want, s, ignoreRaw); diff != "" {
		t.Error(diff)
	}
	if page, ok := basis.Field("page").Scalar(); !ok || page.Value != "12" || page.Pos != at(7, 15) {
		t.Errorf("raw node: %+v", page)
	}
	var got []string
	for _, e := range limits {
		v, _ := e.Value.Scalar()
		got = append(got, fmt.Sprintf("%s@%s=%s@%s", e.Key, e.Key.Pos, v, v.Pos))
	}
	wantEntries := "friction@good.yaml:15:3=2.5 mm@good.yaml:15:13 steel@good.yaml:16:3=1.2@good.yaml:16:10"
	if strings.Join(got, " ") != wantEntries {
		t.Errorf("entries: %s", got)
	}
}

// A byte order mark and Windows line ends are worth a warning; the text means
// the same, at the same places.
func TestWindowsText(t *testing.T) {
	plain, _ := decodeSample("good.yaml", []byte(goodSample))
	windows := bom + strings.ReplaceAll(goodSample, "\n", "\r\n")
	s, ps := decodeSample("good.yaml", []byte(windows))
	if ps.HasErrors() || len(ps) != 2 || ps[0].Code != CodeMark || ps[1].Code != CodeCRLF {
		t.Errorf("problems: %v", ps)
	}
	s.Basis, s.Limits, plain.Basis, plain.Limits = nil, nil, nil, nil
	if diff := cmp.Diff(plain, s); diff != "" {
		t.Error(diff)
	}
}

// Texts that no test file can show well: bytes, emptiness, size.
func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "f: error Y005: empty file"},
		{"comments", "# only\n\n", "f: error Y005: empty file"},
		{"marker", "---\n", "f: error Y005: empty file"},
		{"mark only", bom, "f:1:1: warning Y008: byte order mark at the start\nf: error Y005: empty file"},
		{"utf-16", "\xff\xfea\x00", "f: error Y006: expected UTF-8 text, found UTF-16"},
		{"latin-1", "a: 1\nb: caf\xe9\n", "f:2:7: error Y006: expected UTF-8 text, found byte 0xe9"},
		{"nul", "a: é\x00\n", "f:1:5: error Y007: NUL byte"},
		{"escape", "a: \x1b[31m\n", "f:1:4: error Y007: character U+001B is not allowed"},
		{"lone cr", "a: 1\rb: 2\n", "f:1:5: error Y007: unusual line break U+000D"},
		{"line separator", "a: 1\u2028b: 2\n", "f:1:5: error Y007: unusual line break U+2028"},
		{"inner mark", "a: \ufeffb\n", "f:1:4: error Y007: character U+FEFF is not allowed"},
		{"size", strings.Repeat("#", 10<<20), "f: error Y004: too large: 10 MB, at most 4 MB"},
		{"flow depth", "a: " + strings.Repeat("[", 70) + strings.Repeat("]", 70), "f:1:67: error Y124: nested deeper than 64 levels"},
		{"block depth", strings.Repeat("- ", 20000), "f: error Y124: nested deeper than 64 levels"},
		{"after end", "a: 1\n...\nb: 2\n", "f:3:1: error Y121: second document in one file"},
		{"double quote", "a: 1\nb: \"it slips\nc: d\n", "f:2:4: error Y104: quote without end"},
		{"last quote", "a: 'it slips", "f:1:4: error Y104: quote without end"},
		{"tab after colon", "a: 1\nb:\n\tc: 2\n", "f:3:1: error Y102: tab in the indentation"},
		{"quoted lines", "a: \"one\n  two\"\nb: x: y\n", "f:3:5: error Y107: a colon and a blank inside an unquoted value"},
		{"block text", "a: |\n  'x: [y: z\n\n   @\nb: x: y\n", "f:5:5: error Y107: a colon and a blank inside an unquoted value"},
		{"list in list", "- - a\n  - b: c\n - d\n", "f:3:1: error Y103: indented by 1, which fits no line above"},
		{"flow lines", "a: [b,\n  c]\nd: x: y\n", "f:3:5: error Y107: a colon and a blank inside an unquoted value"},
		{"anything else", "a: 1\nb: |x\n  c\n", "f:2:1: error Y101: not valid YAML: did not find expected comment or line break"},
		{"many", strings.Repeat("x: 1\n", 200), "f: error Y010: more than 99 problems, the rest is not reported"},
	} {
		_, ps := Parse("f", []byte(c.text))
		if c.name == "many" {
			ps.Sort()
			ps = ps[:1]
		}
		if got := ps.Error(); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Two documents in one place, one marker in front: the first is fine.
func TestDocumentMarkers(t *testing.T) {
	root, ps := Parse("f", []byte("# head\n---\na: |\n  --- not a marker\n...\n# tail\n"))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	if text, _ := root.Field("a").Scalar(); text.Value != "--- not a marker\n" {
		t.Errorf("got %q", text.Value)
	}
}

func TestHints(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"id: a\nwen: b\n", `did you mean "when"?`},
		{"id: a\nlimit: {low: 1, middle: 2}\n", "known keys: low, high"},
		{"id: a\nwhen: !slips\n", `write "not slips"`},
		{"id: a\nwhen: ! slips\n", `write "not" instead of "!"`},
		{"id: !!str a\n", "delete !!str"},
		{"id: a\neffects: slips, drags\n", "write [slips, drags]"},
		{"id: a\nprior: 0,25\n", "write 0.25"},
		{"id: a\nminutes: -010\n", "write -10"},
		{"id: a\nprior: 00.5\n", "write 0.5"},
		{"id: a\ndeep: on\n", "write yes or no"},
		{"id: a\nminutes: '3'\n", "remove the quotes"},
		{"id: a\nwhen:\n", "give a value or leave the key out"},
		{"id: a\nwhen:hot\n", "put a blank after the colon"},
	} {
		_, ps := decodeSample("f", []byte(c.text))
		if len(ps) != 1 || ps[0].Hint != c.want {
			t.Errorf("%q: got %+v, want hint %q", c.text, ps, c.want)
		}
	}
}

func TestDuplicatePointsBack(t *testing.T) {
	_, ps := decodeSample("f", []byte("id: a\nwhen: b\nid: c\n"))
	want := []Related{{Pos{"f", 1, 1}, "first given here"}}
	if len(ps) != 1 || ps[0].Pos != (Pos{"f", 3, 1}) || !cmp.Equal(ps[0].Related, want) {
		t.Errorf("got %+v", ps)
	}
	long := strings.Repeat("k%d: 1\n", 40)
	var n []any
	for i := range 40 {
		n = append(n, i%39) // the last repeats the first
	}
	_, ps = Parse("f", []byte(fmt.Sprintf(long, n...)))
	if len(ps) != 1 || ps[0].Pos.Line != 40 || ps[0].Related[0].Pos.Line != 1 {
		t.Errorf("long map: %+v", ps)
	}
}

func TestNodeKinds(t *testing.T) {
	root, _ := Parse("f", []byte("t: x\nl: [1, 2]\nm: {k: v}\ne:\nt: again\n"))
	for name, want := range map[string]Kind{"t": Scalar, "l": List, "m": Map, "e": Empty} {
		if got := root.Field(name).Kind(); got != want {
			t.Errorf("%s: %v", name, got)
		}
	}
	if root.Field("none") != nil || root.Field("t").Field("x") != nil || root.Field("t").Items() != nil || root.Field("l").Fields() != nil {
		t.Error("a node answers for a kind it is not")
	}
	if n := len(root.Field("l").Items()); n != 2 {
		t.Errorf("%d items", n)
	}
	if n := len(root.Fields()); n != 4 {
		t.Errorf("%d fields, the duplicate should count once", n)
	}
	if _, ok := root.Field("l").Scalar(); ok {
		t.Error("a list is no scalar")
	}
	if got := root.Field("m").Fields()[0].Value.Pos(); got != (Pos{"f", 3, 8}) {
		t.Errorf("position %v", got)
	}
}

// Wrong use by a programmer panics, whatever the file says.
func TestProgrammerErrors(t *testing.T) {
	root, _ := Parse("f", []byte("a: 1\n"))
	for name, into := range map[string]any{
		"value": sample{},
		"nil":   (*sample)(nil),
		"kind": &struct {
			A chan int `yaml:"a"`
		}{},
		"no tag": &struct{ A int }{},
		"bad option": &struct {
			A int `yaml:"a,omitempty"`
		}{},
		"unexported": &struct {
			a int `yaml:"a"`
		}{},
		"missing one": &struct {
			B int `json:"b"`
		}{},
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: no panic", name)
				}
			}()
			var ps Problems
			Decode(root, into, &ps)
		}()
	}
}
