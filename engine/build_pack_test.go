package engine_test

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/takeup/engine"
)

// lampWith is the pack about a bench lamp with one text in it replaced, and more files
// beside it.
func lampWith(t *testing.T, from, to string, more map[string]string) (knowledge, rules fs.FS) {
	t.Helper()
	text, err := os.ReadFile("../testdata/packs/lamp/knowledge/lamp.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(text), from) == 0 {
		t.Fatalf("the lamp has no %q", from)
	}
	files := fstest.MapFS{}
	pack := os.DirFS("../testdata/packs/lamp/knowledge")
	names, err := fs.Glob(pack, "*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(pack, name)
		if err != nil {
			t.Fatal(err)
		}
		files[name] = &fstest.MapFile{Data: data}
	}
	files["lamp.yaml"] = &fstest.MapFile{Data: []byte(strings.Replace(string(text), from, to, 1))}
	for name, text := range more {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files, os.DirFS("../testdata/packs/lamp/rules")
}

// Mistakes in a build sheet are found when the pack is read, each at its entry.
func TestMistakesInABuildSheet(t *testing.T) {
	for _, c := range []struct{ from, to, at, want string }{
		{"phase: closing", "phase: closeing", "lead_under_its_clamp", `phase names "closeing", which does not exist`},
		{"prevents: [lead_loose]", "prevents: [lead_lose]", "lead_under_its_clamp", `prevents names "lead_lose"`},
		{"tighten: foot", "tighten: feet", "foot_screwed_on", `tighten names "feet"`},
		{"where: with a battery", "parts: []", "fresh_cell", "when and where say the same"},
		{`when: supply == "battery"`, `when: supply == "batery"`, "fresh_cell", "step fresh_cell: when:"},
		{`when: supply == "battery"`, `when: dark`, "fresh_cell", "may use only facts"},
		{"screws: foot_screws", "screws: foot_torque", "foot", `screws names "foot_torque"`},
		{"low: 0.5 N·m", "low: 0.5 mm", "foot", `low is "0.5 mm", expected a torque`},
		{"share: 1", "share: 1.5", "foot", "expected a part of the full torque"},
		{"remedy:", "part: switch\n    remedy:", "battery_flat", `part "switch" is in no figure`},
	} {
		knowledge, rules := lampWith(t, c.from, c.to, nil)
		_, ps := engine.Open(knowledge, rules)
		if len(ps) == 0 {
			t.Errorf("%s: accepted", c.to)
			continue
		}
		text, _ := fs.ReadFile(knowledge, "lamp.yaml")
		line := strings.Count(string(text[:strings.Index(string(text), "- id: "+c.at+"\n")]), "\n") + 1
		if !strings.Contains(ps[0].Message, c.want) || ps[0].Pos.File != "knowledge/lamp.yaml" || ps[0].Pos.Line != line {
			t.Errorf("%s: got %s at line %d, want %s at line %d", c.to, ps[0].Message, ps[0].Pos.Line, c.want, line)
		}
	}
}

// A drawing is checked with its pack: what a cause points at must be in one, and a
// drawing that could do more than be looked at is refused.
func TestDrawingsOfAPack(t *testing.T) {
	draw := func(inside string) map[string]string {
		return map[string]string{"figures/lamp.svg": fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\">\n%s</svg>", inside)}
	}
	const group = `<g id="cell" data-point="1 1" data-mark="2 2"><rect width="1" height="2"/></g>`
	for _, c := range []struct{ part, inside, want string }{
		{"cell", group, ""},
		{"cel", group, "did you mean cell?"},
		{"cell", group + "<script>1</script>", "element script"},
		{"cell", `<g id="cell" onclick="x()"/>`, "attribute onclick"},
		{"cell", "<g", "cannot be read"},
	} {
		knowledge, rules := lampWith(t, "remedy:", "part: "+c.part+"\n    remedy:", draw(c.inside))
		_, ps := engine.Open(knowledge, rules)
		switch {
		case c.want == "" && len(ps) > 0:
			t.Errorf("%s: %v", c.inside, ps)
		case c.want != "" && (len(ps) != 1 || !strings.Contains(ps[0].Message+" "+ps[0].Hint, c.want)):
			t.Errorf("%s: got %v, want %s", c.inside, ps, c.want)
		}
	}
}
