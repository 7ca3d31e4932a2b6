package intake

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// parseStack reads a stack of the small catalog.
func parseStack(t testing.TB, text string) *fact.Stack {
	t.Helper()
	root, ps := source.Parse("stack.yaml", []byte(text))
	var known fact.Set
	ParseStack(root.Field("stack"), small(t), &known, &ps)
	if ps.HasErrors() {
		t.Fatalf("%s\n%v", text, ps)
	}
	return known.Stack("stack")
}

// row writes a stack in a line, to be compared.
func row(s *fact.Stack) string {
	var out []string
	for _, p := range s.Parts {
		text := p.Kind
		if p.Missing {
			text += "-"
		}
		for _, id := range p.Known.IDs() {
			v, _ := p.Known.Get(id)
			switch v.Kind {
			case fact.YesNo:
				text += fmt.Sprintf(" %s=%t", id, v.Yes)
			case fact.Reading:
				text += fmt.Sprintf(" %s=%.1f", id, 1000*v.SI)
			default:
				text += " " + id + "=" + v.Word
			}
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

func TestStackForms(t *testing.T) {
	for text, want := range map[string]string{
		"[hub, steel x2, cap]":                                        "hub, steel, steel, cap",
		"[steel ×2]":                                                  "steel, steel",
		"[{kind: steel, count: 2, edge: in}]":                         "steel edge=in, steel edge=in",
		"[steel: {count: 2}]":                                         "steel, steel",
		"[steel x2: {edge: [in, out]}]":                               "steel edge=in, steel edge=out",
		"[x2: [friction, steel x2: {thickness: 2.0 mm}]]":             "friction, steel thickness=2.0, steel thickness=2.0, friction, steel thickness=2.0, steel thickness=2.0",
		"[x2: [friction, steel: {thickness: [1.9 mm, 2.1 mm]}]]":      "friction, steel thickness=1.9, friction, steel thickness=2.1",
		"[x2: [steel x2: {thickness: [1 mm, 2 mm, 3 mm, unknown]}]]":  "steel thickness=1.0, steel thickness=2.0, steel thickness=3.0, steel",
		"[seat: missing, unknown, steel: {edge: unknown}]":            "seat-, unknown, steel",
		"[friction, friction: {mark: Green Dot}]":                     "friction mark=none, friction mark=green dot",
		"[friction: {mark: unknown}, friction: {mark: green}]":        "friction, friction mark=green",
		"[steel: {edge: in}, friction: {edge: out}]":                  "steel edge=in, friction edge=out",
		"[friction: {thickness: {value: 3.0 mm, gauge: ruler}}]":      "friction thickness=3.0",
		"[friction: {soaked: yes, mark: a}, friction: {soaked: no}]":  "friction soaked=true mark=a, friction soaked=false mark=none",
		"[friction: {mark: a, soaked: yes}, friction: {soaked: no}]":  "friction soaked=true mark=a, friction soaked=false mark=none",
		"[friction x2: {soaked: yes}, friction: {soaked: [unknown]}]": "friction soaked=true, friction soaked=true, friction",
	} {
		if got := row(parseStack(t, "stack: "+text)); got != want {
			t.Errorf("%s:\n got %s\nwant %s", text, got, want)
		}
	}
}

// Only a list from one end part to the other has every part in it.
func TestWholeStacks(t *testing.T) {
	for text, want := range map[string]string{
		"[hub, steel, cap]":           "friction seat steel",
		"[steel, friction, hub, cap]": "friction seat steel",
		"[hub, steel]":                "",
		"[steel, cap]":                "",
		"[cap, steel, hub]":           "",
		"[hub, unknown, cap]":         "",
		"[seat]":                      "seat",
		"[seat: missing]":             "seat",
		"[hub, cap, unknown]":         "friction seat steel",
	} {
		// Of the ends, and of a kind there is one of, naming it is all.
		s := parseStack(t, "stack: "+text)
		got := strings.Join(slices.DeleteFunc(s.Whole, func(k string) bool { return k == "hub" || k == "cap" }), " ")
		if got != want {
			t.Errorf("%s: whole %q, want %q", text, got, want)
		}
	}
}

// The stack of a sheet stands wherever words of the machine may stand.
func TestSheetStack(t *testing.T) {
	for _, text := range []string{"machine: {stack: [hub, steel]}", "machine.stack: [hub, steel]"} {
		root, ps := source.Parse("t", []byte(text))
		var known fact.Set
		ParseFacts(root, small(t), &known, &ps)
		if len(ps) > 0 || known.Stack("machine.stack") == nil || len(known.Stack("machine.stack").Parts) != 2 {
			t.Errorf("%s: %v, %v", text, known.IDs(), ps)
		}
	}
}

// A whole stack gives the words of the sheet that count its parts; half of one does not.
func TestSheetStackCounts(t *testing.T) {
	for text, want := range map[string]float64{"[hub, x3: [friction, steel], cap]": 3, "[hub, steel, cap]": 0, "[hub, friction]": -1} {
		root, ps := source.Parse("t", []byte("machine: {stack: "+text+"}"))
		var known fact.Set
		ParseFacts(root, small(t), &known, &ps)
		v, ok := known.Get("machine.frictions")
		if len(ps) > 0 || ok != (want >= 0) || ok && v.SI != want {
			t.Errorf("%s: %+v %t, want %v; %v", text, v, ok, want, ps)
		}
	}
}

// A part in JSON says what is known of it and no more.
func TestStackAsJSON(t *testing.T) {
	s := parseStack(t, "stack: [hub, seat: missing, friction: {soaked: yes, thickness: 3 mm}, cap]")
	out, err := json.Marshal(s)
	const want = `{"parts":[{"kind":"hub"},{"kind":"seat","missing":true},{"kind":"friction","known":{"soaked":true,"thickness":0.003}},{"kind":"cap"}],"whole":["cap","friction","hub","seat","steel"]}`
	if err != nil || string(out) != want {
		t.Errorf("%v\n%s", err, out)
	}
}

// Writing a count, a group or the long form instead of every part, and the order of
// what is said of a part, change nothing.
func TestStackShorthandsAreTheSame(t *testing.T) {
	cat := small(t)
	parse := func(t *rapid.T, text string) []string { return strings.Split(rowOf(t, cat, text), ", ") }
	rapid.Check(t, func(t *rapid.T) {
		said := rapid.SampledFrom([][]string{{}, {"edge: in"}, {"edge: in", "thickness: 2.0 mm"}, {"edge: out", "soaked: no", "mark: x"}}).Draw(t, "said")
		shuffled := rapid.Permutation(said).Draw(t, "shuffled")
		count := rapid.IntRange(1, 9).Draw(t, "count")
		plain := make([]string, count)
		for i := range plain {
			plain[i] = "friction: {" + strings.Join(said, ", ") + "}"
			if len(said) == 0 {
				plain[i] = "friction"
			}
		}
		long := fmt.Sprintf("kind: friction, count: %d", count)
		for _, s := range shuffled {
			long += ", " + s
		}
		short := fmt.Sprintf("friction x%d: {%s}", count, strings.Join(shuffled, ", "))
		want := parse(t, "["+strings.Join(plain, ", ")+"]")
		for _, other := range []string{"[{" + long + "}]", "[" + short + "]", fmt.Sprintf("[x%d: [%s]]", count, plain[0])} {
			if got := parse(t, other); !slices.Equal(got, want) {
				t.Fatalf("%s\n got %v\nwant %v", other, got, want)
			}
		}
	})
}

func rowOf(t *rapid.T, cat *catalog.Catalog, text string) string {
	root, ps := source.Parse("stack.yaml", []byte("stack: "+text))
	var known fact.Set
	ParseStack(root.Field("stack"), cat, &known, &ps)
	if ps.HasErrors() {
		t.Fatalf("%s: %v", text, ps)
	}
	return row(known.Stack("stack"))
}

// Whatever stands in a stack, reading it ends, and a list is whole only when it
// names both its ends.
func FuzzParseStack(f *testing.F) {
	for _, s := range []string{"[hub, x2: [steel, friction], cap]", "[steel x3: {edge: [in, out, unknown]}]", "[{kind: seat, count: 2}]", "{a: b}", "[x9: [x9: [x9]]]", "[steel x99999999999]", "[seat: missing]"} {
		f.Add(s)
	}
	cat := small(f)
	f.Fuzz(func(t *testing.T, text string) {
		root, ps := source.Parse("s", []byte("stack: "+text))
		if root == nil {
			return
		}
		var known fact.Set
		ParseStack(root.Field("stack"), cat, &known, &ps)
		s := known.Stack("stack")
		if s == nil {
			return
		}
		if len(s.Parts) == 0 || len(s.Parts) > maxParts {
			t.Fatalf("%d parts, %v", len(s.Parts), ps)
		}
		if s.IsWhole("steel") && (len(s.Of("hub")) == 0 || len(s.Of("cap")) == 0) {
			t.Fatalf("whole without its ends: %s", row(s))
		}
	})
}
