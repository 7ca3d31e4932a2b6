package engine_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
)

// description is what a rider wrote, and clause by clause the entries that say
// the same. A clause that tells nothing of the machine says what it means instead.
type description struct {
	Text    string
	Clauses []struct {
		Say, Means                        string
		History, Signs, Readings, Machine map[string]any
	}
	LeadsTo []string `yaml:"leads_to"`
}

// The vocabulary can carry what people write: ten descriptions in riders' words
// are covered from the first word to the last, load without a problem, and lead
// to their cause.
func TestDescriptionsCanBeExpressed(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/descriptions/*.yaml")
	if len(files) < 10 {
		t.Fatalf("found %d descriptions", len(files))
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var d description
			if err := yaml.Unmarshal(text, &d); err != nil {
				t.Fatal(err)
			}
			d.covered(t)
			leads(t, e, d.asCase(t), d.LeadsTo)
		})
	}
}

// covered fails when a word of the text belongs to no clause, or a clause to no
// entry.
func (d description) covered(t *testing.T) {
	var said []string
	for _, c := range d.Clauses {
		said = append(said, strings.Fields(c.Say)...)
		if n := len(c.History) + len(c.Signs) + len(c.Readings) + len(c.Machine); (n == 0) == (c.Means == "") {
			t.Errorf("%q: wants entries, or what it means", c.Say)
		}
	}
	if words := strings.Fields(d.Text); !slices.Equal(words, said) {
		for i := range min(len(words), len(said)) {
			if words[i] != said[i] {
				t.Fatalf("the clauses leave the text at %q", strings.Join(words[i:min(i+6, len(words))], " "))
			}
		}
		t.Fatalf("the text has %d words, its clauses %d", len(words), len(said))
	}
}

// asCase writes the entries of all clauses into one case file.
func (d description) asCase(t *testing.T) string {
	all := map[string]any{"title": "As told", "invented": true}
	for _, c := range d.Clauses {
		for part, entries := range map[string]map[string]any{"history": c.History, "signs": c.Signs, "readings": c.Readings, "machine": c.Machine} {
			if len(entries) == 0 {
				continue
			}
			if all[part] == nil {
				all[part] = map[string]any{}
			}
			into := all[part].(map[string]any)
			for id, v := range entries {
				into[id] = joined(t, id, into[id], v)
			}
		}
	}
	text, err := yaml.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "case.yaml")
	if err := os.WriteFile(file, text, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// joined adds lists up; anything else that is said twice must be the same.
func joined(t *testing.T, id string, before, now any) any {
	list, several := now.([]any)
	if was, ok := before.([]any); ok && several {
		return append(slices.Clone(was), list...)
	}
	if before != nil && before != now {
		t.Errorf("%s is said to be %v and %v", id, before, now)
	}
	return now
}

func leads(t *testing.T, e *engine.Engine, file string, to []string) {
	c, ps := intake.Load(file, e.Catalog)
	for _, p := range ps {
		t.Errorf("%s (%s)", p, p.Hint)
	}
	if ps.HasErrors() {
		return
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	var first []string
	for _, x := range d.Explanation.Causes[:3] {
		first = append(first, x.ID)
	}
	for _, id := range to {
		if !slices.Contains(first, id) {
			t.Errorf("leads to %v, want %s among them", first, id)
		}
	}
	t.Logf("%v", first)
}
