package catalog

import (
	"strings"
	"testing"
	"testing/fstest"
)

const stackFile = `gauges:
  - {id: calliper, name: calliper, uncertainty: 0.03 mm}
machine:
  - {id: plates, name: plates, kind: count}
parts:
  - {id: hub, name: hub, what: carries, shape: drum}
  - {id: plate, name: plate, plural: plates, what: a plate, side: inner, shape: plate, has: [thick, bore], between: [hub, cap], sheet: plates, thickness: 2 mm}
  - {id: cap, name: cap, what: closes, shape: cap}
attributes:
  - {id: thick, name: thickness, kind: reading, unit: mm, gauge: calliper, question: how thick}
  - {id: bore, name: bore, kind: choice, choices: [{id: wide, name: wide}, {id: small, name: small}], question: which, otherwise: small}
`

// Every reference of a part and an attribute is checked, with a suggestion.
func TestStackChecks(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"", "", ""},
		{"shape: plate", "shape: plaet", `plate: shape names "plaet", which does not exist`},
		{"side: inner", "side: left", `plate: side names "left", which does not exist`},
		{"[thick, bore]", "[thick, bores]", `plate: has names "bores", which does not exist`},
		{"[hub, cap]", "[hub, caps]", `plate: between names "caps", which does not exist`},
		{"[hub, cap]", "[hub]", "plate lies between 1 parts, expected two"},
		{"sheet: plates", "sheet: plate", `plate: sheet names "plate", which does not exist`},
		{"thickness: 2 mm", "thickness: 2 N", `plate: thickness "2 N" is no length`},
		{"- {id: cap,", "- {id: hub,", `id "hub" is taken`},
		{"- {id: cap,", "- {id: unknown,", `"unknown" cannot be the id of a part`},
		{"gauge: calliper", "gauge: caliper", `thick: gauge names "caliper", which does not exist`},
		{"kind: reading", "kind: raeding", `thick: kind names "raeding", which does not exist`},
		{"unit: mm, ", "", "thick: kind reading, its unit and its gauge do not fit"},
		{"kind: choice, choices: [{id: wide, name: wide}, {id: small, name: small}]", "kind: yesno", `bore: otherwise names "small", which does not exist`},
		{"choices: [{id: wide, name: wide}, {id: small, name: small}], ", "", "bore: kind choice and its choices do not fit"},
		{"question: how thick", "question: how thick, otherwise: 2 mm", "thick: a number that nobody gave cannot be assumed"},
	} {
		text := strings.Replace(stackFile, c.old, c.new, 1)
		_, ps := Load(fstest.MapFS{"stack.yaml": {Data: []byte(text)}})
		if c.want == "" && len(ps) > 0 || !strings.Contains(ps.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", c.new, ps, c.want)
		}
	}
}

// A rule that waits for something in a stack can say what in words.
func TestNamesInAStack(t *testing.T) {
	cat, _ := Load(fstest.MapFS{"stack.yaml": {Data: []byte(stackFile)}})
	for id, want := range map[string]string{
		"stack":                     "the stack",
		"machine.stack":             "the stack as it should be",
		"stack.plate":               "the stack with every plate in it",
		"stack.plate.bore":          "plates: bore",
		"machine.stack.plate.thick": "plates: thickness",
		"stack.plaet":               "stack.plaet",
	} {
		if got := cat.NameOf(id); got != want {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
}
