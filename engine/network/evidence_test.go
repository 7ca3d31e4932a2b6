package network

import (
	"testing"
	"testing/fstest"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/unit"
)

// A part that is listed says more than a gauge held to it, and neither is certain.
func TestListedPartsSayMoreThanGauges(t *testing.T) {
	words := &fact.Vocabulary{}
	for _, w := range []fact.Word{
		{ID: "stack", Role: fact.RoleStack, Kind: fact.Assembly},
		{ID: "part:book", Role: fact.RolePart, Kind: fact.Name, Choices: []string{"thick"}},
		{ID: "attribute:thick", Role: fact.RoleAttribute, Kind: fact.Reading, Dim: unit.Length},
		{ID: "gap", Role: fact.RoleSign, Kind: fact.YesNo},
	} {
		words.Add(w)
	}
	for when, most := range map[string]float64{
		`missing(stack, "book")`:                         mostListed,
		`below(measured(stack, "book", "thick"), mm(1))`: mostMeasured,
		`above(total(stack, "book", "thick"), mm(1))`:    mostMeasured,
	} {
		text := "rules: [{id: x, because: It is., basis: common practice, shows: gap, when: '" + when + "'}]"
		set, ps := rule.Load(fstest.MapFS{"x.yaml": {Data: []byte(text)}}, words)
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		if yes, no := bounded(1, set.Rules[0]), bounded(0, set.Rules[0]); yes != most || no != 1-most {
			t.Errorf("%s: %v and %v, want %v", when, yes, no, most)
		}
	}
}
