package interview

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/source"
)

// questions to answer, by the name they have in the table below.
var questions = map[string]Question{
	"complaint": {Kind: Complaint, ID: ComplaintID, Options: []string{"slip", "drag", "noise"}},
	"sign":      {Kind: Sign, ID: "creeps_hot", Signs: []string{"creeps_hot"}, Options: onSign},
	"signs":     {Kind: Signs, ID: "where_bites", Signs: []string{"bites_near_grip", "bites_far_out", "bite_wanders"}, Options: []string{"bites_near_grip", "bites_far_out", "bite_wanders"}},
	"yesno":     {Kind: Fact, ID: "crashed", Options: []string{"yes", "no"}},
	"choice":    {Kind: Fact, ID: "onset", Options: []string{"sudden", "over_weeks", "since_work"}},
	"set":       {Kind: Fact, ID: "changed", Options: []string{"oil", "cable", "lever"}},
	"sheet":     {Kind: Fact, ID: "machine.actuation", Options: []string{"cable", "hydraulic"}},
	"distance":  {Kind: Fact, ID: "mileage"},
	"play":      {Kind: Reading, ID: "lever_free_play", Check: "measure_free_play", Completes: true},
	"sag":       {Kind: Reading, ID: "chain_sag"},
	"linings":   {Kind: Reading, ID: "friction_thickness"},
}

// typed answers with what they come to: edits as "part id: value", families, or
// the slip after a "!".
var typed = []struct{ question, typed, want string }{
	{"sign", "1", "signs creeps_hot: yes"},
	{"sign", " NO ", "signs creeps_hot: no"},
	{"sign", "y", "signs creeps_hot: yes"},
	{"sign", "maybe", "signs creeps_hot: probably"},
	{"sign", "4", "signs creeps_hot: probably not"},
	{"sign", "5", "!there is no answer 5; the answers go from 1 to 4"},
	{"sign", "0", "!there is no answer 0; the answers go from 1 to 4"},
	{"sign", "-1", "!there is no answer -1; the answers go from 1 to 4"},
	{"sign", "99999999999999999999", `!"99999999999999999999" is none of the answers; type a number from 1 to 4`},
	{"sign", "1 2", "!one answer fits here, found 2; type the number of the one that fits best"},
	{"sign", "yess", `!"yess" is none of the answers; did you mean yes?`},
	{"sign", "\x1b[2J\x07", `!"[2J" is none of the answers; type a number from 1 to 4`},
	{"signs", "2", "signs bites_near_grip: no, signs bites_far_out: yes, signs bite_wanders: no"},
	{"signs", "0", "signs bites_near_grip: no, signs bites_far_out: no, signs bite_wanders: no"},
	{"signs", "none", "signs bites_near_grip: no, signs bites_far_out: no, signs bite_wanders: no"},
	{"signs", "1, 3", "signs bites_near_grip: yes, signs bites_far_out: no, signs bite_wanders: yes"},
	{"signs", "3 and 1", "signs bites_near_grip: yes, signs bites_far_out: no, signs bite_wanders: yes"},
	{"signs", "2? 3", "signs bites_near_grip: no, signs bites_far_out: probably, signs bite_wanders: yes"},
	{"signs", "2?", "signs bites_near_grip: no, signs bites_far_out: probably, signs bite_wanders: no"},
	{"signs", "bite_wanders", "signs bites_near_grip: no, signs bites_far_out: no, signs bite_wanders: yes"},
	{"signs", "1 2", "!bites close to the grip and bites far out exclude each other; put a ? behind the number you doubt, or leave it out"},
	{"signs", "0 1", "!0 stands for none of these, and others are named beside it; type 0 alone, or leave it out"},
	{"signs", "1 7", "!there is no answer 7; the answers go from 1 to 3"},
	{"yesno", "n", "history crashed: no"},
	{"choice", "suddenly", "history onset: sudden"},
	{"choice", "2", "history onset: over_weeks"},
	{"set", "1 2", "history changed: [oil, cable]"},
	{"set", "clutch cable; engine oil", "history changed: [oil, cable]"},
	{"set", "0", "history changed: []"},
	{"sheet", "1", "machine actuation: cable"},
	{"distance", "18500", "history mileage: 18500 km"},
	{"distance", "11500 mi", "history mileage: 11500 mi"},
	{"distance", "11,000 mi", `!"11,000" can mean two numbers; write 11.000 or 11000`},
	{"distance", "12 N", "!"},
	{"distance", "far", "!"},
	{"distance", "-5", "!"},
	{"play", "11", "readings lever_free_play: 11 mm, done measure_free_play: measure_free_play"},
	{"play", "0,4 in", `readings lever_free_play: "0,4 in", done measure_free_play: measure_free_play`},
	{"play", "11 N", "!"},
	{"play", "11 mm, 12 mm", "!expected one value, found 2; give the one that counts, or the mean of repeated measurements"},
	{"play", "40 cm", "!40 cm (400 mm) cannot be, expected at most 80 mm; did you mean 40 mm?"},
	{"sag", "130 mm", "?"},
	{"linings", "2.9; 2,85; 2.9 mm", `readings friction_thickness: [2.9 mm, "2,85 mm", 2.9 mm]`},
	{"linings", "0.11, 0.12 in", "readings friction_thickness: [0.11 in, 0.12 in]"},
	{"complaint", "1 3", "slip, noise"},
	{"complaint", "0", "!nothing is named; skip it if none of them fits"},
	{"complaint", "does not release", "drag"},
}

func TestTypedAnswers(t *testing.T) {
	s := pack(t, "../..")
	s.Case.Known.Put("machine.limit.chain_slack_max", fact.Value{Kind: fact.Quantity, SI: 0.012, Text: "12 mm"})
	for _, x := range typed {
		a, slip := Read(s.Catalog, s.Case, questions[x.question], x.typed)
		got := worded(a)
		switch {
		case slip != nil:
			got = "!" + slip.Message + "; " + slip.Hint
		case a.Doubt != nil:
			got = "?"
		}
		if x.want == "!" { // the units know how to say it
			if slip == nil || slip.Message == "" || strings.HasPrefix(slip.Message, questions[x.question].ID) {
				t.Errorf("%s %q: got %s, want a slip", x.question, x.typed, got)
			}
			continue
		}
		if got != x.want {
			t.Errorf("%s %q: got %s, want %s", x.question, x.typed, got, x.want)
		}
	}
}

func worded(a Answer) string {
	if len(a.Families) > 0 {
		return strings.Join(a.Families, ", ")
	}
	var words []string
	for _, e := range a.Edits {
		words = append(words, fmt.Sprintf("%s %s: %s", e.Part, e.ID, e.Value))
	}
	return strings.Join(words, ", ")
}

// Whatever is typed, an answer that is taken gives a case that reads without an
// error and holds nothing but what was asked for.
func TestWhateverIsTypedIsData(t *testing.T) {
	s := pack(t, "../..")
	pieces := rapid.SampledFrom([]string{"1", "2", "3?", " ", ",", ";", "yes", "cable", "mm", "0.1", "\n", "\"", "]", "}", ": ", "# ", "\x1b[31m", "- ", "&a", "\u202e", "\xff"})
	rapid.Check(t, func(t *rapid.T) {
		q := questions[rapid.SampledFrom([]string{"complaint", "sign", "signs", "yesno", "choice", "set", "sheet", "distance", "play", "linings"}).Draw(t, "question")]
		typed := rapid.OneOf(rapid.String(), rapid.Map(rapid.SliceOfN(pieces, 1, 6), func(p []string) string { return strings.Join(p, "") })).Draw(t, "typed")
		a, slip := Read(s.Catalog, s.Case, q, typed)
		if slip != nil {
			if slip.Message == "" {
				t.Fatal("a slip without a word")
			}
			return
		}
		before := "title: a\nnotes: b # c\n"
		after, err := intake.Apply([]byte(before), a.Edits)
		if err != nil {
			t.Fatalf("%q: %v", typed, err)
		}
		c, ps := intake.Parse(&source.File{Name: "c", Text: after}, s.Catalog, nil)
		if ps.HasErrors() {
			t.Fatalf("%q became\n%s\n%v", typed, after, ps)
		}
		if c.Title != "a" || c.Notes != "b" || c.Known.Len() > max(len(q.Signs), 1) {
			t.Fatalf("%q became\n%s", typed, after)
		}
	})
}
