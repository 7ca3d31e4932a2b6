package rule

import (
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// shelf is a vocabulary with things to stack: books and boards, held left or right.
func shelf() *fact.Vocabulary {
	v := &fact.Vocabulary{}
	for _, w := range []fact.Word{
		{ID: "stack", Role: fact.RoleStack, Kind: fact.Assembly},
		{ID: "machine.stack", Role: fact.RoleMachine, Kind: fact.Assembly},
		{ID: "machine.books", Role: fact.RoleMachine, Kind: fact.Count},
		{ID: "machine.room", Role: fact.RoleMachine, Kind: fact.Quantity, Dim: unit.Length},
		{ID: "part:book", Role: fact.RolePart, Kind: fact.Name, Choices: []string{"bound", "upright", "thick"}},
		{ID: "part:board", Role: fact.RolePart, Kind: fact.Name, Choices: []string{"upright", "thick"}},
		{ID: "part:card", Role: fact.RolePart, Kind: fact.Name},
		{ID: "attribute:bound", Role: fact.RoleAttribute, Kind: fact.Choice, Choices: []string{"cloth", "paper"}},
		{ID: "attribute:upright", Role: fact.RoleAttribute, Kind: fact.YesNo, Choices: []string{"yes", "no"}},
		{ID: "attribute:thick", Role: fact.RoleAttribute, Kind: fact.Reading, Dim: unit.Length},
	} {
		v.Add(w)
	}
	return v
}

// piled reads a stack from a row of words: kind, then attribute=value. A plus before a
// kind says that every part of it is in the row; "card-" is a card left out.
func piled(id, row string) *fact.Stack {
	s := &fact.Stack{ID: id}
	for _, text := range strings.Split(row, ", ") {
		words := strings.Fields(text)
		kind, whole := strings.CutPrefix(words[0], "+")
		if whole {
			s.Whole = append(s.Whole, kind)
			continue
		}
		p := fact.Part{Side: map[string]string{"book": "inner", "board": "outer"}[strings.TrimSuffix(kind, "-")]}
		p.Kind, p.Missing = strings.CutSuffix(kind, "-")
		for _, w := range words[1:] {
			key, value, _ := strings.Cut(w, "=")
			v := fact.Value{Kind: fact.Choice, Word: value}
			switch key {
			case "upright":
				v = fact.Value{Kind: fact.YesNo, Yes: value == "yes"}
			case "thick":
				q, _ := unit.Parse(value + " mm")
				v = fact.Value{Kind: fact.Reading, SI: q.SI, Values: []float64{q.SI}, Sigma: 0.00003}
			}
			p.Known.Put(key, v)
		}
		s.Parts = append(s.Parts, p)
	}
	return s
}

func shelved(here, sheet string) fact.Set {
	var s fact.Set
	s.Put("machine.books", fact.Value{Kind: fact.Count, SI: 2})
	s.Put("machine.room", fact.Value{Kind: fact.Quantity, SI: 0.005})
	for id, row := range map[string]string{"stack": here, "machine.stack": sheet} {
		if row != "" {
			s.Put(id, fact.Value{Kind: fact.Assembly, Stack: piled(id, row)})
		}
	}
	return s
}

// ask evaluates a condition on stacks, which must be without a problem of type.
func ask(t testing.TB, text string, known fact.Set) Firing {
	t.Helper()
	eval := newEvaluator()
	cond, p := eval.parse(text)
	if p != nil {
		t.Fatalf("%s: %s", text, p.message)
	}
	if ps := (typer{words: shelf(), functions: eval.functions, allowed: anything}).condition(cond); len(ps) > 0 {
		t.Fatalf("%s: %s", text, ps[0].message)
	}
	return (&Set{eval: eval}).Ask(cond, known)
}

// What a look at a stack says, what decides it, and what it waits for.
func TestLooksAtAStack(t *testing.T) {
	for _, c := range []struct {
		text, here, sheet string
		want              Verdict
		waits             string
	}{
		{`missing(stack, "card")`, "", "", Unknown, "stack"},
		{`missing(stack, "card")`, "book", "", Unknown, "stack.card"},
		{`missing(stack, "card")`, "book, +card", "", Yes, ""},
		{`missing(stack, "card")`, "book, card-", "", Yes, ""},
		{`missing(stack, "card")`, "card", "", No, ""},
		{`missing(stack, ["card", "book"])`, "card", "", Unknown, "stack.book"},
		{`missing(stack, ["card", "book"])`, "card, +book", "", Yes, ""},

		{`some(stack, "book", "upright", "no")`, "book upright=yes, book upright=no", "", Yes, ""},
		{`some(stack, "book", "upright", "no")`, "book upright=yes, book", "", Unknown, "stack.book stack.book.upright"},
		{`some(stack, "book", "upright", "no")`, "book upright=yes, book, +book", "", Unknown, "stack.book.upright"},
		{`some(stack, "book", "upright", "no")`, "book upright=yes, +book", "", No, ""},
		{`not some(stack, "book", "upright", "no")`, "book upright=yes, +book", "", Yes, ""},
		{`some(stack, "book", "upright", "no")`, "board, +book", "", Unknown, ""},
		{`some(stack, ["book", "board"], "upright", "no")`, "book upright=yes, board upright=no", "", Yes, ""},

		{`mixed(stack, "book", "bound")`, "book bound=cloth, book bound=paper", "", Yes, ""},
		{`mixed(stack, "book", "bound")`, "book bound=cloth, book bound=cloth, +book", "", No, ""},
		{`mixed(stack, "book", "bound")`, "book bound=cloth, book bound=cloth", "", Unknown, "stack.book"},
		{`mixed(stack, "book", "bound")`, "book bound=cloth, +book", "", Unknown, ""},

		{`together(stack, ["book", "board"])`, "book, card, book", "", Yes, ""},
		{`together(stack, ["book", "board"])`, "book, unknown, book", "", Unknown, "stack.board stack.book"},
		{`together(stack, ["book", "board"])`, "book, board, book, +book, +board", "", No, ""},
		{`together(stack, ["book", "board"])`, "book, board-, book", "", Yes, ""},

		{`outermost(stack, "book", "bound", "cloth")`, "book bound=paper, book bound=cloth, card, +book", "", Yes, ""},
		{`outermost(stack, "book", "bound", "cloth")`, "book bound=cloth, book bound=paper, +book", "", No, ""},
		{`outermost(stack, "book", "bound", "cloth")`, "book bound=cloth", "", Unknown, "stack.book"},
		{`outermost(stack, "book", "bound", "cloth")`, "book, +book", "", Unknown, "stack.book.bound"},

		{`before(stack, "card", "book")`, "card, book", "", Yes, ""},
		{`before(stack, "card", "book")`, "book, card", "", No, ""},
		{`before(stack, "card", "book")`, "book", "", Unknown, ""},

		{`beside(stack, "card", "book", "bound", "cloth")`, "book bound=cloth, card, card, board", "", Yes, ""},
		{`beside(stack, "card", "book", "bound", "cloth")`, "board, card, book bound=cloth", "", Yes, ""},
		{`beside(stack, "card", "book", "bound", "cloth")`, "board, card, book bound=paper, book bound=cloth", "", No, ""},
		{`beside(stack, "card", "book", "bound", "cloth")`, "card, book bound=paper", "", Unknown, "stack.book"},
		{`beside(stack, "card", "book", "bound", "cloth")`, "card, book bound=paper, +book", "", No, ""},
		{`beside(stack, "card", "book", "bound", "cloth")`, "unknown, card, board", "", Unknown, "stack.book"},
		{`beside(stack, "card", "book", "bound", "cloth")`, "board, card, book, +book", "", Unknown, "stack.book.bound"},

		{`unlike(stack, machine.stack, "book", "bound")`, "book bound=cloth, +book", "", Unknown, "machine.stack"},
		{`unlike(stack, machine.stack, "book", "bound")`, "book bound=cloth, +book", "book bound=cloth, +book", No, ""},
		{`unlike(stack, machine.stack, "book", "bound")`, "book bound=cloth, +book", "book bound=paper, +book", Yes, ""},
		{`unlike(stack, machine.stack, "book", "bound")`, "book bound=cloth, +book", "book, +book", Unknown, "machine.stack.book.bound"},
		{`unlike(stack, machine.stack, "book", "bound")`, "book, +book", "book bound=paper, +book", Unknown, "stack.book.bound"},
		{`unlike(stack, machine.stack, "book", "bound")`, "book bound=cloth, book bound=paper, +book", "book bound=paper, +book", Unknown, ""},
		{`unlike(stack, machine.stack, "book", "bound")`, "book bound=cloth", "book bound=paper, +book", Unknown, "stack.book"},

		{`out_of_order(stack, machine.stack, ["book", "board"])`, "book, board, +book, +board", "book, board, +book, +board", No, ""},
		{`out_of_order(stack, machine.stack, ["book", "board"])`, "book, board, +book, +board", "board, book, +book, +board", Yes, ""},
		{`out_of_order(stack, machine.stack, ["book", "board"])`, "book, board, board, +book, +board", "board, book, +book, +board", Unknown, ""},

		{`count(stack, "book") == machine.books`, "book, card, book, +book", "", Yes, ""},
		{`count(stack, "book") == machine.books`, "book, card, book-, +book", "", No, ""},
		{`count(stack, "book") == machine.books`, "book, card, book", "", Unknown, "stack.book"},
		{`count(stack, "book") != machine.books or count(stack, "board") != 1`, "book, +book, board", "", Yes, ""},
		{`above(total(stack, ["book", "board"], "thick"), machine.room)`, "book thick=3, board thick=3, +book, +board", "", Yes, ""},
		{`above(total(stack, ["book", "board"], "thick"), machine.room)`, "book thick=3, board, +book, +board", "", Unknown, "stack.board.thick"},
		{`above(total(stack, ["book", "board"], "thick"), machine.room)`, "book thick=3, board thick=3", "", Unknown, "stack.board stack.book"},
		{`below(measured(stack, "book", "thick"), mm(2.5))`, "book thick=3, book thick=2", "", Yes, ""},
		{`below(measured(stack, "book", "thick"), mm(2.5))`, "board thick=2", "", Unknown, "stack.book"},
	} {
		f := ask(t, c.text, shelved(c.here, c.sheet))
		if f.Verdict != c.want || strings.Join(f.Waits, " ") != c.waits {
			t.Errorf("%s of %q and %q: %s, waits for %v; want %s, %q", c.text, c.here, c.sheet, f.Verdict, f.Waits, c.want, c.waits)
		}
	}
}

// The parts that decided are pointed at, from 1; of two values the rarer is the odd one.
func TestPlacesInAStack(t *testing.T) {
	for _, c := range []struct {
		text, here string
		want       []int
	}{
		{`some(stack, "book", "upright", "no")`, "card, book upright=no, book upright=yes, book upright=no", []int{2, 4}},
		{`mixed(stack, "book", "bound")`, "book bound=paper, book bound=cloth, board, book bound=paper", []int{2}},
		{`mixed(stack, "book", "bound")`, "book bound=paper, book bound=cloth", []int{2}},
		{`together(stack, ["book", "board"])`, "board, book, card, book, board", []int{2, 4}},
		{`missing(stack, "card")`, "book, card-", []int{2}},
		{`not beside(stack, "card", "book", "bound", "cloth")`, "board, card, book bound=paper", []int{3}},
	} {
		f := ask(t, c.text, shelved(c.here, ""))
		got := f.Clauses[0].Places
		if f.Verdict != Yes || len(got) != len(c.want) || got[0] != c.want[0] || got[len(got)-1] != c.want[len(c.want)-1] {
			t.Errorf("%s of %q: %s, places %v, want %v", c.text, c.here, f.Verdict, got, c.want)
		}
	}
}

// Two plates of uncertainty u have one of u√2 together (independent errors add in
// squares: JCGM 100:2008, 5.1.2), so a sum at the limit is a coin's throw, and one of
// them above it by that much has P = Φ(1) = 0.841 (standard normal tables).
func TestTotalCarriesItsUncertainty(t *testing.T) {
	for _, c := range []struct {
		here string
		want float64
	}{
		{"book thick=2.5, board thick=2.5, +book, +board", 0.5},
		{"book thick=2.5, board thick=2.5424264, +book, +board", 0.8413},
	} {
		f := ask(t, `above(total(stack, ["book", "board"], "thick"), machine.room)`, shelved(c.here, ""))
		if f.Verdict != Soft || f.Probability < c.want-1e-3 || f.Probability > c.want+1e-3 {
			t.Errorf("%s: %s, %v; want %v", c.here, f.Verdict, f.Probability, c.want)
		}
	}
}

// What a condition on a stack decides with something unknown, it still decides once
// that is known: attributes filled in, and the list found to be whole.
func TestStacksAreCautious(t *testing.T) {
	looks := []string{
		`missing(stack, "card")`, `some(stack, "book", "bound", "cloth")`, `mixed(stack, ["book", "board"], "upright")`,
		`together(stack, ["book", "board"])`, `outermost(stack, "book", "bound", "paper")`, `beside(stack, "card", "book", "bound", "cloth")`,
		`count(stack, "book") == machine.books`, `not some(stack, ["book", "board"], "upright", "no") and missing(stack, "board")`,
		`unlike(stack, machine.stack, "book", "bound")`, `out_of_order(stack, machine.stack, ["book", "board"])`,
	}
	known := func(t *rapid.T, s string, all []string) string {
		return s + rapid.SampledFrom(all).Draw(t, "said")
	}
	rapid.Check(t, func(t *rapid.T) {
		var sure, less []string
		for range rapid.IntRange(1, 6).Draw(t, "parts") {
			kind := rapid.SampledFrom([]string{"book", "board", "card"}).Draw(t, "kind")
			full := kind
			switch kind {
			case "book":
				full = known(t, known(t, kind, []string{" bound=cloth", " bound=paper"}), []string{" upright=yes", " upright=no"})
			case "board":
				full = known(t, kind, []string{" upright=yes", " upright=no"})
			}
			sure = append(sure, full)
			words := strings.Fields(full)
			less = append(less, strings.Join(words[:rapid.IntRange(1, len(words)).Draw(t, "kept")], " "))
		}
		sheet := rapid.SampledFrom([]string{"", "book bound=cloth, board, book bound=paper, +book, +board", "card, book, +book, +board"}).Draw(t, "sheet")
		text := rapid.SampledFrom(looks).Draw(t, "look")
		whole := []string{"+book", "+board", "+card"}
		before := askIn(t, text, shelved(strings.Join(append(less, whole[:rapid.IntRange(0, 3).Draw(t, "whole")]...), ", "), sheet))
		after := askIn(t, text, shelved(strings.Join(append(sure, whole...), ", "), sheet))
		if before.Verdict != Unknown && before.Verdict != after.Verdict {
			t.Fatalf("%s: %s with %v, %s with %v", text, before.Verdict, less, after.Verdict, sure)
		}
	})
}

// askIn is ask for rapid's own kind of test.
func askIn(t *rapid.T, text string, known fact.Set) Firing {
	eval := newEvaluator()
	cond, p := eval.parse(text)
	if p != nil {
		t.Fatal(p.message)
	}
	return (&Set{eval: eval}).Ask(cond, known)
}

// Kinds, attributes and values are checked when rules are read, with a suggestion.
func TestTypeProblemsOfStacks(t *testing.T) {
	for text, want := range map[string]string{
		`some(stack, "bok", "bound", "cloth")`:                     `unknown kind of part "bok" did you mean book?`,
		`some(stack, "book", "bond", "cloth")`:                     `a book has no "bond" did you mean bound?`,
		`some(stack, "card", "bound", "cloth")`:                    `a card has no "bound" `,
		`some(stack, ["book", "board"], "bound", "cloth")`:         `a board has no "bound" it has upright, thick`,
		`some(stack, "book", "bound", "clot")`:                     `bound is never "clot" did you mean cloth?`,
		`some(stack, "book", "upright", "maybe")`:                  `upright is never "maybe" it is one of yes, no`,
		`some(stack, "book", "thick", "3")`:                        `thick is measured, so no two values are the same`,
		`some(stack, "book", "bound")`:                             `some takes 4 values, found 3`,
		`some(machine.books, "book", "bound", "cloth")`:            `some wants a stack here, found a number`,
		`some(stack, machine.books, "bound", "cloth")`:             `some wants a kind of part in quotes here`,
		`some(stack, "book", machine.books, "cloth")`:              `some wants something said of a part here`,
		`some(stack, "book", "bound", machine.books)`:              `some wants a value here`,
		`some(stack, [], "bound", "cloth")`:                        `some wants a kind of part in quotes here`,
		`total(stack, "book", "bound") > mm(3)`:                    `bound is not measured`,
		`measured(stack, "book", "thick") > mm(3)`:                 `a reading is compared with >`,
		`below(measured(stack, "book", "thick"), newtons(3))`:      `below wants a number of length here`,
		`count(stack, "book") > mm(3)`:                             `is compared with`,
		`stack == machine.stack`:                                   `is compared with`,
		`missing(stack, "book") == missing(machine.stack, "book")`: `is compared with`,
		`stack`:                                 `stack is a stack, expected something that is yes or no`,
		`smoe(stack, "book", "bound", "cloth")`: `unknown function "smoe" did you mean some?`,
	} {
		eval := newEvaluator()
		cond, p := eval.parse(text)
		if p == nil {
			if ps := (typer{words: shelf(), functions: eval.functions, allowed: anything}).condition(cond); len(ps) > 0 {
				p = ps[0]
			}
		}
		if p == nil {
			t.Errorf("%s: no problem, expected %q", text, want)
		} else if got := p.message + " " + p.hint; !strings.Contains(got, want) {
			t.Errorf("%s: %q, expected %q", text, got, want)
		}
	}
}

// The stack is evidence; the stack of the sheet is context.
func TestStackIsNoContext(t *testing.T) {
	eval := newEvaluator()
	for text, fine := range map[string]bool{`missing(stack, "book")`: false, `missing(machine.stack, "book")`: true} {
		cond, _ := eval.parse(text)
		if ps := (typer{words: shelf(), functions: eval.functions, allowed: contextOnly}).condition(cond); (len(ps) == 0) != fine {
			t.Errorf("%s: %v", text, ps)
		}
	}
}

// A rule of thumb gives way to the sheet, and what must be given is no observation:
// without it the rule says nothing, not "no".
func TestGivenAndUntil(t *testing.T) {
	words := shelf()
	words.Add(fact.Word{ID: "gap", Role: fact.RoleSign, Kind: fact.YesNo})
	words.Add(fact.Word{ID: "bow", Role: fact.RoleCause, Kind: fact.Name})
	load := func(rule string) (*Set, source.Problems) {
		text := "rules:\n  - id: x\n    because: It is seen.\n    basis: common practice\n    " + strings.ReplaceAll(rule, "\n", "\n    ")
		return Load(fstest.MapFS{"x.yaml": {Data: []byte(text)}}, words)
	}
	const shows = "shows: gap\nwhen: missing(stack, \"card\")\n"
	for _, c := range []struct {
		more, here, sheet string
		want              Verdict
	}{
		{"until: machine.stack.card", "book, +card", "", Yes},
		{"until: machine.stack.card", "book, +card", "book", Yes},
		{"until: machine.stack.card", "book, +card", "book, +card", Unknown},
		{"until: machine.books", "book, +card", "", Unknown},
		{"given: machine.books == 2", "book, +card", "", Yes},
		{"given: machine.books == 2", "card", "", No},
		{"given: machine.books == 3", "card", "", Unknown},
		{"given: count(machine.stack, \"book\") > 0", "card", "", Unknown},
		{"given: count(machine.stack, \"book\") > 0", "card", "book, +book", No},
	} {
		set, ps := load(shows + c.more)
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		known := shelved(c.here, c.sheet)
		for _, s := range []*Set{set, throughSnapshot(t, set)} {
			if f := s.Fire(known)[0]; f.Verdict != c.want {
				t.Errorf("%s of %q and %q: %s, want %s", c.more, c.here, c.sheet, f.Verdict, c.want)
			}
		}
	}
	for rule, want := range map[string]string{
		shows + "until: machine.stack.crad":                                     `x.yaml:7:12: error R133: unknown kind of part "crad"`,
		shows + "until: machine.bookz":                                          `x.yaml:7:12: error R106: unknown word "machine.bookz"`,
		shows + "given: missing(stack, \"book\")":                               `stack is a stack; this condition may use only facts`,
		"raises: {bow: 2}\nwhen: machine.books == 2\nuntil: machine.books":      "until belongs to shows",
		"raises: {bow: 2}\nwhen: machine.books == 2\ngiven: machine.books == 2": "given belongs to shows",
	} {
		if _, ps := load(rule); len(ps) == 0 || !strings.Contains(ps.Error(), want) {
			t.Errorf("%s: %v, want %s", rule, ps, want)
		}
	}
}
