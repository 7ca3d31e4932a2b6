package engine_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"testing/fstest"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"example.org/takeup/engine"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/render/data"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/ruletest"
	"example.org/takeup/engine/source"
)

var update = flag.Bool("update", false, "write knowledge/schema anew")

// schemasOf opens a pack and compiles its schemas. The compiler checks each against
// the meta-schema of draft 7 (json-schema.org/draft-07/schema).
func schemasOf(t *testing.T, pack string) (*engine.Engine, map[string][]byte, map[string]*jsonschema.Schema) {
	t.Helper()
	e, ps := engine.Open(os.DirFS(pack+"/knowledge"), os.DirFS(pack+"/rules"))
	if ps.HasErrors() {
		t.Skipf("the pack does not load, which other tests report: %v", ps)
	}
	files, err := e.Schemas()
	if err != nil {
		t.Fatal(err)
	}
	compiled := map[string]*jsonschema.Schema{}
	for name, text := range files {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		c := jsonschema.NewCompiler()
		if err := c.AddResource(name, doc); err != nil {
			t.Fatal(err)
		}
		if compiled[name], err = c.Compile(name); err != nil {
			t.Fatal(err)
		}
	}
	return e, files, compiled
}

// The files editors read are those of this knowledge: go test ./engine -run Schema -update
func TestSchemasAreFresh(t *testing.T) {
	e, files, _ := schemasOf(t, "..")
	const folder = "../knowledge/schema/"
	for name, want := range files {
		if *update {
			if err := os.MkdirAll(folder, 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(folder+name, want, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := os.ReadFile(folder + name); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s is stale (%v): run go test ./engine -run Schema -update", name, err)
		}
	}
	entries, _ := os.ReadDir(folder)
	for _, d := range entries {
		if files[d.Name()] == nil {
			t.Errorf("%s is not one of the schemas", d.Name())
		}
	}
	again, _ := e.Schemas()
	if !reflect.DeepEqual(files, again) {
		t.Error("two runs give different bytes")
	}
}

// Every file of both packs, and every sample, follows its schema.
func TestSchemasFitFiles(t *testing.T) {
	for _, pack := range []string{"..", "../testdata/packs/lamp"} {
		_, _, compiled := schemasOf(t, pack)
		folders := map[string]string{"knowledge": pack + "/knowledge", "rules": pack + "/rules", "case": pack + "/cases", "machine": pack + "/machines"}
		if pack == ".." {
			folders["case"], folders["machine"] = "../testdata/cases", "../testdata/machines"
		}
		for kind, folder := range folders {
			validateFolder(t, compiled, kind, folder)
		}
	}
}

func validateFolder(t *testing.T, compiled map[string]*jsonschema.Schema, kind, folder string) {
	t.Helper()
	count := 0
	err := filepath.WalkDir(folder, func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(file) != ".yaml" {
			return err
		}
		name := kind
		switch {
		case kind == "rules" && rule.IsTest(file):
			name = "rules_test"
		case kind == "knowledge" && filepath.Base(filepath.Dir(file)) == "phrases":
			name = "phrases"
		case kind == "knowledge" && filepath.Base(filepath.Dir(file)) == "machines":
			name = "machine"
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		count++
		if err := compiled[name+".schema.json"].Validate(fromYAML(t, string(text))); err != nil {
			t.Errorf("%s: %v", file, err)
		}
		return nil
	})
	if os.IsNotExist(err) && kind == "machine" {
		return // a pack need not have sample machines
	}
	if err != nil || count == 0 {
		t.Errorf("%d files in %s: %v", count, folder, err)
	}
}

// fromYAML reads YAML as editors do, where yes and no are words.
func fromYAML(t *testing.T, text string) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// read is what the program itself says to a file of a kind; ok is false for
// kinds that it does not read.
func read(e *engine.Engine, kind, text string) (ps source.Problems, ok bool) {
	files := fstest.MapFS{kind + ".yaml": {Data: []byte(text)}}
	switch kind {
	case "case":
		_, ps = intake.Parse(&source.File{Name: "case.yaml", Text: []byte(text)}, e.Catalog, nil)
	case "rules":
		_, ps = rule.Load(files, e.Words)
	case "knowledge":
		_, ps = catalog.Load(files)
	case "rules_test":
		_, ps = ruletest.Run(files, e.Catalog, e.Rules)
	default:
		return nil, false
	}
	return ps, true
}

// A schema that takes everything would pass the test above. The program and the
// schema must be of one mind about every file here.
func TestSchemasRefuse(t *testing.T) {
	e, _, compiled := schemasOf(t, "../testdata/packs/lamp")
	const r = "rules: [{id: a, because: b, basis: common practice, "
	for _, c := range []struct {
		kind, text string
		good       bool
	}{
		{"case", "title: t", true},
		{"case", "signs: {dark: yes}", false}, // no title
		{"case", "{title: t, sings: {dark: yes}}", false},
		{"case", "{title: t, signs: {dark: probably not}}", true},
		{"case", "{title: t, signs: {dark: maybe}}", false},
		{"case", "{title: t, signs: {darkk: yes}}", false},
		{"case", "{title: t, history: {supply: battery, lit_for: 3 h}}", true},
		{"case", "{title: t, history: {supply: unknown, lit_for: unknown}}", true},
		{"case", "{title: t, history: {supply: sun}}", false},
		{"case", "{title: t, history: {lit_for: 3}}", false}, // no unit
		{"case", "{title: t, machine: {limit.voltage_ratio: 0.8}}", true},
		{"case", "{title: t, machine: {limit: {voltage_ratio: 0.8}}}", true},
		{"case", "{title: t, machine: {limit: {voltage_ratio: 0.8 V}}}", false},
		{"case", "{title: t, machine: {limit: {voltage: 0.8}}}", false},
		{"case", "{title: t, readings: {lamp_voltage: 4 V}}", false}, // no such reading
		{"case", "{title: t, readings: {voltage_ratio: 90 %}}", true},
		{"case", "{title: t, readings: {voltage_ratio: {value: 90 %, gauge: meter}}}", true},
		{"case", "{title: t, readings: {voltage_ratio: {value: 90 %, gauge: ruler}}}", false},
		{"case", "{title: t, readings: {voltage_ratio: {value: 90 %, values: [90 %]}}}", false},
		{"case", "{title: t, readings: {voltage_ratio: {gauge: meter}}}", false},
		{"case", "{title: t, readings: {voltage_ratio: [90 %, 91 %]}}", false}, // one value only
		{"case", "{title: t, readings: {voltage_ratio: unknown}}", true},
		{"case", "{title: t, done: [measure_voltage, {check: measure_voltage, minutes: 2}]}", true},
		{"case", "{title: t, done: [{minutes: 2}]}", false},
		{"case", "{title: t, found: [battery_flat]}", true},
		{"case", "{title: t, found: [dark]}", false}, // a sign
		{"rules", r + "cause: battery_flat, brings: dark, strength: usually}]", true},
		{"rules", "rules: [{id: A-b, because: b, basis: common practice, cause: battery_flat, brings: dark, strength: usually}]", false},
		{"rules", r + "cause: battery_flat, brings: dark, strength: 0.5}]", true},
		{"rules", r + "cause: battery_flat, brings: dark, strength: 1}]", false},
		{"rules", r + "cause: battery_flat, brings: dark, strength: mostly}]", false},
		{"rules", r + "cause: battery_flat, brings: dark}]", false},
		{"rules", r + "brings: dark, strength: usually}]", false},
		{"rules", r + "when: supply == 'mains', rules_out: [battery_flat]}]", true},
		{"rules", r + "rules_out: [battery_flat]}]", false}, // no condition
		{"rules", r + "when: supply == 'mains', raises: {battery_flat: 3}}]", true},
		{"rules", r + "when: supply == 'mains', raises: {battery_flat: 0.5}}]", false},
		{"rules", r + "when: supply == 'mains', raises: {battery_flat: 3}, rules_out: [battery_flat]}]", false},
		{"rules", r + "when: supply == 'mains', strength: usually, rules_out: [battery_flat]}]", false},
		{"rules", "rules: [{id: a, because: b, basis: hearsay, cause: battery_flat, brings: dark, strength: 0.5}]", false},
		{"knowledge", "strengths: [{id: often, value: 0.6}]", true},
		{"knowledge", "strengths: [{id: often, value: 1}]", false},
		{"knowledge", "strengths: [{id: often}]", false},
		{"knowledge", "strengths: [{id: often, value: 0.6, word: x}]", false},
		{"knowledge", "facts: [{id: a b, name: x, kind: yesno}]", false},
		{"knowledge", "facts: [{id: a_b, name: x, kind: yesno}]", true},
		{"knowledge", "facts: [{id: a_b, name: x, kind: number}]", false},
		{"phrases", "phrases: {dark: [no light]}", true},
		{"phrases", "phrases: {bright: [light]}", false},
		{"rules_test", "tests: [{name: n, signs: {dark: yes}, top: battery_flat}]", true},
		{"rules_test", "tests: [{name: n, given: {supply: mains, machine: {limit.voltage_ratio: 1}}, waits: [weak]}]", false}, // no such rule
		{"rules_test", "tests: [{name: n, given: {machine.limit.voltage_ratio: 0.8}, down: [battery_flat]}]", true},
		{"rules_test", "tests: [{name: n, signs: {dark: yes}}]", false}, // expects nothing
		{"rules_test", "tests: [{name: n, fires: [no_such_rule]}]", false},
		{"answer", "{schema: 1}", false},
	} {
		judge(t, e, compiled, c.kind, c.text, c.good)
	}
}

// The same with quantities of the full pack.
func TestSchemasRefuseQuantities(t *testing.T) {
	e, _, compiled := schemasOf(t, "..")
	for text, good := range map[string]bool{
		"readings: {lever_free_play: 11 mm}":                                       true,
		"readings: {lever_free_play: 11}":                                          false,
		"readings: {lever_free_play: [11]}":                                        false,
		"readings: {lever_free_play: mm}":                                          false,
		"readings: {lever_free_play: {value: 1/2 in, spread: 0.1 mm}}":             true,
		"readings: {friction_thickness: [2.9 mm, 2.85 mm]}":                        true,
		"readings: {friction_thickness: [2.9 mm, unknown]}":                        false,
		"readings: {friction_thickness: []}":                                       false,
		"machine: {selective_plates: [1.6 mm, 1.7 mm], limit: {plate_lift: 1 mm}}": true,
		"machine: {selective_plates: 1.6 mm}":                                      false,
		"machine: {selective_plates: unknown}":                                     true,
		"machine: {frictions: 7, actuation: cable, name: x, invented: yes}":        true,
		"machine: {frictions: 7 mm}":                                               false,
		"machine: {frictions: seven}":                                              false,
		"machine: {frictions: -7}":                                                 false,
		"machine: {actuation: string}":                                             false,
		"history: {changed: [cable, oil]}":                                         true,
		"history: {changed: cable}":                                                false,
		"history: {changed: [cables]}":                                             false,
	} {
		judge(t, e, compiled, "case", "{title: t, "+text+"}", good)
	}
}

func judge(t *testing.T, e *engine.Engine, compiled map[string]*jsonschema.Schema, kind, text string, good bool) {
	t.Helper()
	if err := compiled[kind+".schema.json"].Validate(fromYAML(t, text)); (err == nil) != good {
		t.Errorf("%s: %s: good is %v, the schema says %v", kind, text, good, err)
	}
	if ps, ok := read(e, kind, text); ok && ps.HasErrors() == good {
		t.Errorf("%s: %s: good is %v, the program says %v", kind, text, good, ps)
	}
}

// What programs get is what the schema promises.
func TestAnswerFollowsSchema(t *testing.T) {
	e, _, compiled := schemasOf(t, "..")
	for _, name := range []string{"creeps-since-the-cable", "soft-since-the-hose"} {
		c, ps := intake.Load("../testdata/cases/"+name+".yaml", e.Catalog)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		d, err := e.Diagnose(c, engine.Bench{})
		if err != nil {
			t.Fatal(err)
		}
		b, err := data.Marshal(report.Answer{
			Catalog: e.Catalog, Rules: e.Rules, Case: d.Case, Firings: d.Firings, Network: d.Network, Evidence: d.Evidence,
			Explanation: d.Explanation, Cautions: d.Cautions, Course: d.Course,
		}.Result())
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		if err := compiled["answer.schema.json"].Validate(doc); err != nil {
			t.Error(err)
		}
	}
}

// The same for measurements, of which the sample cases between them have every part.
func TestInspectionFollowsSchema(t *testing.T) {
	e, _, compiled := schemasOf(t, "..")
	for _, name := range []string{"slips-and-measured-on-the-bench", "knocks-measured-at-the-wheel", "built-in-a-hurry", "heavy-since-the-springs"} {
		b, err := data.Marshal(report.Measured{Schema: report.Schema, Inspection: e.Inspect(diagnose(t, e, "../testdata/cases/"+name+".yaml"))})
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
		if err != nil {
			t.Fatal(err)
		}
		if err := compiled["inspection.schema.json"].Validate(doc); err != nil {
			t.Error(name, err)
		}
	}
}

func BenchmarkSchemas(b *testing.B) {
	e := open(b, "..")
	for b.Loop() {
		if _, err := e.Schemas(); err != nil {
			b.Fatal(err)
		}
	}
}
