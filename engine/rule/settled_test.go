package rule

import (
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine/fact"
)

func TestSettled(t *testing.T) {
	s := &Set{eval: newEvaluator()}
	parse := func(text string) *Condition {
		c, err := s.Parse(text, words())
		if err != nil {
			t.Fatal(text, err)
		}
		return c
	}
	needs := map[string]*Condition{"distance": parse("clutch_opened")}
	for _, c := range []struct {
		text string
		want Verdict
	}{
		{"clutch_opened", Unknown},
		{"clutch_opened or not clutch_opened", Yes},
		{"clutch_opened and not clutch_opened", No},
		{"distance < km(5) and distance > km(10)", No},
		{"distance < km(5) and distance >= km(5)", No},
		{"distance <= km(5) and distance >= km(5)", Unknown}, // at exactly five
		{"damp and (distance > km(5) or distance <= km(5))", Unknown},
		{`machine.actuation == "cable" and machine.actuation == "hydraulic"`, No},
		{`machine.actuation == "cable" or machine.actuation == "hydraulic"`, Yes},
		{`machine.actuation in ["cable", "hydraulic"]`, Yes},
		{`"springs" in changed and not ("springs" in changed)`, No},
		{`"springs" in changed and not ("oil" in changed)`, Unknown},
		{`"springs" in changed or not ("springs" in changed and "oil" in changed)`, Yes},
		{"machine.plates > 8 and machine.plates < 8", No},
		{"machine.limit.thickness > mm(3) or machine.limit.thickness <= mm(3)", Yes},
		// The distance is asked for only once the clutch was open.
		{"not clutch_opened and distance < km(500)", No},
		{"not clutch_opened or distance < km(500)", Unknown},
		{"distance < km(500) or distance >= km(500)", Unknown},
		// Two words may compare either way.
		{"machine.limit.thickness < distance and machine.limit.thickness > distance", Unknown},
	} {
		if got := s.Settled(parse(c.text), words(), needs); got != c.want {
			t.Errorf("%s: got %q, want %q", c.text, got, c.want)
		}
	}
	if s.Settled(nil, words(), nil) != Yes {
		t.Error("no condition always holds")
	}
}

// What is called settled is so for any facts.
func TestSettledIsCertain(t *testing.T) {
	s := &Set{eval: newEvaluator()}
	leaves := []string{"clutch_opened", "damp", "distance < km(5)", "distance > km(9)", `"springs" in changed`, `"oil" in changed`, `machine.actuation == "cable"`}
	rapid.Check(t, func(t *rapid.T) {
		text := ""
		for i := range rapid.IntRange(1, 5).Draw(t, "leaves") {
			if i > 0 {
				text += rapid.SampledFrom([]string{" and ", " or "}).Draw(t, "op")
			}
			if rapid.Bool().Draw(t, "not") {
				text += "not "
			}
			text += "(" + rapid.SampledFrom(leaves).Draw(t, "leaf") + ")"
		}
		c, err := s.Parse(text, words())
		if err != nil {
			t.Fatal(err)
		}
		actuation := rapid.SampledFrom([]string{"cable", "hydraulic"}).Draw(t, "actuation")
		facts := known(map[string]fact.Value{
			"clutch_opened":     yes(rapid.Bool().Draw(t, "opened")),
			"damp":              yes(rapid.Bool().Draw(t, "is damp")),
			"distance":          {Kind: fact.Quantity, SI: rapid.Float64Range(0, 20e3).Draw(t, "distance")},
			"changed":           {Kind: fact.Choices, Words: rapid.SliceOfDistinct(rapid.SampledFrom([]string{"springs", "oil"}), rapid.ID).Draw(t, "changed")},
			"machine.actuation": {Kind: fact.Choice, Word: actuation},
		})
		if v := s.Settled(c, words(), nil); v != Unknown && v != s.Ask(c, facts).Verdict {
			t.Fatalf("%s: settled %q, and %q for %v", text, v, s.Ask(c, facts).Verdict, facts.IDs())
		}
	})
}
