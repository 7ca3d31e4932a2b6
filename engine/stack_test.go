package engine_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine"
	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// build is a clutch put together, part by part: the kind, then what is said of it.
type build struct {
	words []string // of the machine sheet, besides its stack
	parts []part
}

type part struct {
	kind string
	said []string
}

// constructions are right clutches of different make. All are invented.
func constructions() map[string]build {
	shaft := []string{"shaft", "bearing width=26.85_mm", "collar length=27.00_mm", "basket pump_in_mesh=yes", "hub_washer as_drawn=yes", "hub", "lock_washer dish=in", "hub_nut"}
	friction := "friction soaked=yes batch=new fits=yes thickness=3.00_mm bore=normal mark=none slot=deep as_drawn=yes"
	steel := "steel oiled=yes edge=out fits=yes thickness=2.00_mm mark=none as_drawn=yes"
	wide := strings.Replace(friction, "bore=normal", "bore=wide", 1)
	marked := strings.Replace(friction, "mark=none", "mark=green", 1)
	offset := strings.Replace(friction, "slot=deep", "slot=offset", 1)
	spring := []string{"judder_seat as_drawn=yes", "judder_spring dish=out as_drawn=yes"}
	end := []string{"pressure_plate home=yes fits=yes", "spring seated=yes", "spring seated=yes", "dowel", "dowel"}
	join := func(lists ...[]string) (ps []part) {
		for _, l := range lists {
			for _, text := range l {
				words := strings.Fields(text)
				ps = append(ps, part{words[0], words[1:]})
			}
		}
		return ps
	}
	return map[string]build{
		"friction first, spring inside, offset slot, a mark": {
			[]string{"pack.height_min: 37.0 mm", "pack.height_max: 38.5 mm", "offset_slot: yes", "limit.friction_thickness: 2.7 mm", "friction.new: 3.0 mm"},
			join(shaft, spring, []string{wide, steel, friction, steel, friction, steel, marked, steel, friction, steel, friction, steel, friction, steel, offset}, end),
		},
		"friction first and plain": {
			[]string{"pack.height_min: 22.5 mm", "pack.height_max: 23.5 mm", "offset_slot: no", "limit.friction_thickness: 2.7 mm", "friction.new: 3.0 mm"},
			join(shaft, []string{friction, steel, friction, steel, friction, steel, friction, steel, friction}, end),
		},
		"steel first and plain": {
			[]string{"pack.height_min: 29.5 mm", "pack.height_max: 30.5 mm", "offset_slot: no", "limit.friction_thickness: 2.7 mm", "friction.new: 3.0 mm"},
			join(shaft, []string{steel, friction, steel, friction, steel, friction, steel, friction, steel, friction, steel, friction}, end),
		},
		"steel first, spring round the second plate": {
			[]string{"pack.height_min: 34.5 mm", "pack.height_max: 35.5 mm", "offset_slot: no", "limit.friction_thickness: 2.7 mm", "friction.new: 3.0 mm"},
			join(shaft, []string{steel}, spring, []string{wide, steel, friction, steel, friction, steel, friction, steel, friction, steel, marked, steel, friction}, end),
		},
		"wide plate first, then seat and spring in it": {
			[]string{"pack.height_min: 22.5 mm", "pack.height_max: 23.5 mm", "offset_slot: no", "limit.friction_thickness: 2.7 mm", "friction.new: 3.0 mm"},
			join(shaft, []string{wide}, spring, []string{steel, friction, steel, friction, steel, friction, steel, friction}, end),
		},
	}
}

// yaml writes a stack as a list of parts.
func (b build) yaml(indent string) string {
	var lines []string
	for _, p := range b.parts {
		line := indent + "- " + p.kind
		if len(p.said) == 1 && p.said[0] == "missing" {
			line += ": missing"
		} else if len(p.said) > 0 {
			line += ": {" + strings.NewReplacer("=", ": ", "_mm", " mm").Replace(strings.Join(p.said, ", ")) + "}"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n") + "\n"
}

// sheet keeps what a service manual says of a part.
func (b build) sheet() build {
	out := build{words: b.words}
	for _, p := range b.parts {
		var said []string
		for _, s := range p.said {
			if key, _, _ := strings.Cut(s, "="); slices.Contains([]string{"bore", "mark", "slot", "edge", "dish"}, key) {
				said = append(said, s)
			}
		}
		out.parts = append(out.parts, part{p.kind, said})
	}
	return out
}

func (b build) clone() build {
	c := build{words: b.words}
	for _, p := range b.parts {
		c.parts = append(c.parts, part{p.kind, slices.Clone(p.said)})
	}
	return c
}

// places lists where parts of a kind lie, of which that has all the words.
func (b build) places(kind string, having ...string) (out []int) {
	for i, p := range b.parts {
		if p.kind == kind && !slices.ContainsFunc(having, func(h string) bool { return !slices.Contains(p.said, h) }) {
			out = append(out, i)
		}
	}
	return out
}

// say changes what is said of one part.
func (b build) say(at int, key, value string) {
	for i, s := range b.parts[at].said {
		if k, _, _ := strings.Cut(s, "="); k == key {
			b.parts[at].said[i] = key + "=" + value
			return
		}
	}
	b.parts[at].said = append(b.parts[at].said, key+"="+value)
}

func (b *build) drop(at int) { b.parts = slices.Delete(b.parts, at, at+1) }

func (b *build) insert(at int, p part) { b.parts = slices.Insert(b.parts, at, p) }

func (b build) swap(i, j int) { b.parts[i], b.parts[j] = b.parts[j], b.parts[i] }

// fault is one mistake in putting a clutch together.
type fault struct {
	name   string
	cause  string
	signs  []string               // what must be found, and nothing else
	sheet  bool                   // only the sheet can tell
	gauged bool                   // measured: a gauge in the wrong place is likelier than a rare fault is sure
	make   func(b *build) bool    // false: this clutch cannot have it
	also   func(b build) []string // signs that follow as well, where the clutch has what shows them
}

func middle(places []int) int { return places[len(places)/2] }

// one changes a part of a kind; false when there is none.
func one(kind, key, value string, having ...string) func(*build) bool {
	return func(b *build) bool {
		at := b.places(kind, having...)
		if len(at) == 0 {
			return false
		}
		b.say(middle(at), key, value)
		return true
	}
}

func without(kind string) func(*build) bool {
	return func(b *build) bool {
		at := b.places(kind)
		if len(at) == 0 {
			return false
		}
		for _, i := range slices.Backward(at) {
			b.drop(i)
		}
		return true
	}
}

// Every mistake of a pack, a shaft or a cover that a list of parts can show.
var faults = []fault{
	{name: "a steel put in dry", cause: "steels_dry", signs: []string{"steels_dry_seen"}, make: one("steel", "oiled", "no")},
	{name: "all steels dry", cause: "steels_dry", signs: []string{"steels_dry_seen"}, make: func(b *build) bool {
		for _, i := range b.places("steel") {
			b.say(i, "oiled", "no")
		}
		return true
	}},
	{name: "a lining not soaked", cause: "frictions_not_soaked", signs: []string{"frictions_dry_seen"}, make: one("friction", "soaked", "no")},
	{name: "anti-rattle spring turned over", cause: "anti_rattle_reversed", signs: []string{"anti_rattle_reversed_seen"}, sheet: true, make: one("judder_spring", "dish", "in")},
	{name: "anti-rattle spring not as drawn", cause: "anti_rattle_reversed", signs: []string{"anti_rattle_reversed_seen"}, make: one("judder_spring", "as_drawn", "no")},
	{name: "spring under its seat", cause: "anti_rattle_reversed", signs: []string{"anti_rattle_reversed_seen"}, make: func(b *build) bool {
		seat, spring := b.places("judder_seat"), b.places("judder_spring")
		if len(seat) == 0 {
			return false
		}
		b.swap(seat[0], spring[0])
		return true
	}},
	{name: "anti-rattle spring left out", cause: "anti_rattle_missing", signs: []string{"anti_rattle_missing_seen"}, make: without("judder_spring")},
	{name: "seat left out", cause: "anti_rattle_missing", signs: []string{"anti_rattle_missing_seen"}, make: without("judder_seat")},
	{name: "spring and seat left out", cause: "anti_rattle_missing", signs: []string{"anti_rattle_missing_seen"}, make: func(b *build) bool {
		return without("judder_spring")(b) && without("judder_seat")(b)
	}},
	{name: "wide plate further out", cause: "wide_bore_misplaced", signs: []string{"wide_bore_misplaced_seen"}, make: func(b *build) bool {
		at := b.places("friction", "bore=wide")
		if len(at) == 0 {
			return false
		}
		plain := middle(b.places("friction", "bore=normal", "mark=none", "slot=deep"))
		b.say(at[0], "bore", "normal")
		b.say(plain, "bore", "wide")
		return true
	}},
	{name: "marked plate in another place", cause: "marked_plate_misplaced", signs: []string{"marked_plate_misplaced_seen"}, sheet: true, make: func(b *build) bool {
		at := b.places("friction", "mark=green")
		if len(at) == 0 {
			return false
		}
		plain := b.places("friction", "mark=none", "bore=normal", "slot=deep")[0]
		b.say(at[0], "mark", "none")
		b.say(plain, "mark", "green")
		return true
	}},
	{name: "plate not where the manual draws it", cause: "marked_plate_misplaced", signs: []string{"marked_plate_misplaced_seen"}, make: one("friction", "as_drawn", "no")},
	{name: "outermost plate in the deep slots", cause: "end_plate_wrong_slot", signs: []string{"end_plate_wrong_seen"}, sheet: true, make: one("friction", "slot", "deep", "slot=offset")},
	{name: "outermost plate astride", cause: "end_plate_wrong_slot", signs: []string{"end_plate_wrong_seen"}, make: one("friction", "slot", "astride", "slot=offset")},
	{name: "a steel turned over", cause: "steel_edges_mixed", signs: []string{"steel_edges_mixed_seen"}, make: one("steel", "edge", "in")},
	{name: "all steels turned over", cause: "steel_edges_mixed", signs: []string{"steel_edges_mixed_seen"}, sheet: true, make: func(b *build) bool {
		for _, i := range b.places("steel") {
			b.say(i, "edge", "in")
		}
		return true
	}},
	{name: "a steel too many at the outer end", cause: "plate_count_wrong", signs: []string{"plate_count_wrong_found"}, sheet: true, also: tall, make: func(b *build) bool {
		b.insert(b.places("pressure_plate")[0], b.clone().parts[b.places("steel")[0]])
		return true
	}},
	{name: "a lining too many beside another", cause: "plate_count_wrong", signs: []string{"plate_count_wrong_found"}, also: tall, make: func(b *build) bool {
		at := middle(b.places("friction", "bore=normal", "mark=none", "slot=deep"))
		b.insert(at, b.clone().parts[at])
		return true
	}},
	{name: "a pair too many", cause: "plate_count_wrong", signs: []string{"plate_count_wrong_found"}, sheet: true, also: tall, make: func(b *build) bool {
		at := middle(b.places("friction", "bore=normal", "mark=none", "slot=deep"))
		copies := b.clone().parts
		b.insert(at, copies[b.places("steel")[0]])
		b.insert(at, copies[at])
		return true
	}},
	{name: "a steel left out", cause: "plate_count_wrong", signs: []string{"plate_count_wrong_found"}, also: low, make: func(b *build) bool {
		b.drop(middle(b.places("steel")))
		return true
	}},
	{name: "a lining left out", cause: "plate_count_wrong", signs: []string{"plate_count_wrong_found"}, also: low, make: func(b *build) bool {
		b.drop(middle(b.places("friction", "bore=normal", "mark=none", "slot=deep")))
		return true
	}},
	{name: "two alike together, the number right", cause: "plate_count_wrong", signs: []string{"plate_count_wrong_found"}, make: func(b *build) bool {
		at := middle(b.places("friction", "bore=normal", "mark=none", "slot=deep"))
		if b.parts[at+1].kind != "steel" {
			return false
		}
		b.swap(at, at+1)
		return true
	}},
	{name: "pack too tall", gauged: true, cause: "pack_too_tall", signs: []string{"pack_tall_found"}, sheet: true, make: func(b *build) bool {
		for _, i := range b.places("steel") {
			b.say(i, "thickness", "2.30_mm")
		}
		return true
	}},
	{name: "pack too low", gauged: true, cause: "pack_too_low", signs: []string{"pack_low_found"}, sheet: true, make: func(b *build) bool {
		for _, i := range b.places("steel") {
			b.say(i, "thickness", "1.60_mm")
		}
		return true
	}},
	{name: "an old lining among new ones", cause: "parts_mixed", signs: []string{"parts_mixed_seen"}, make: one("friction", "batch", "old")},
	{name: "a steel of another engine", cause: "parts_mixed", signs: []string{"parts_mixed_seen"}, make: one("steel", "fits", "no")},
	{name: "pressure plate on the splines", cause: "pressure_plate_not_home", signs: []string{"plate_not_home_seen"}, make: one("pressure_plate", "home", "no")},
	{name: "a spring askew", cause: "spring_seat_wrong", signs: []string{"spring_seat_wrong_seen"}, make: one("spring", "seated", "no")},
	{name: "thrust washer left out", cause: "hub_washer_missing", signs: []string{"hub_washer_missing_seen"}, make: without("hub_washer")},
	{name: "thrust washer off its seat", cause: "hub_washer_missing", signs: []string{"hub_washer_missing_seen"}, make: one("hub_washer", "as_drawn", "no")},
	{name: "lock washer turned over", cause: "lock_washer_reversed", signs: []string{"lock_washer_reversed_seen"}, make: one("lock_washer", "dish", "out")},
	{name: "collar left out", cause: "collar_missing", signs: []string{"collar_missing_seen"}, make: without("collar")},
	{name: "collar short", gauged: true, cause: "collar_short", signs: []string{"collar_short_found"}, make: one("collar", "length", "26.70_mm")},
	{name: "pump gear not in mesh", cause: "oil_pump_gear_unmeshed", signs: []string{"oil_pump_gear_unmeshed_found"}, make: one("basket", "pump_in_mesh", "no")},
	{name: "a dowel left out", cause: "dowels_missing", signs: []string{"dowel_missing_seen"}, make: func(b *build) bool {
		ok := without("dowel")(b)
		b.parts = append(b.parts, part{"dowel", []string{"missing"}})
		return ok
	}},
}

// A plate more or less changes the height, where the thicknesses are known.
func tall(build) []string { return []string{"pack_tall_found"} }

func low(build) []string { return []string{"pack_low_found"} }

// caseOf is a case with nothing but a stack, with or without the sheet it is built by.
func caseOf(t *testing.T, e *engine.Engine, b build, sheet *build) *intake.Case {
	t.Helper()
	text := "title: a stack and nothing else\ninvented: yes\n"
	if sheet != nil {
		text += "machine:\n  " + strings.Join(sheet.words, "\n  ") + "\n  stack:\n" + sheet.yaml("    ")
	}
	text += "stack:\n" + b.yaml("  ")
	c, ps := intake.Parse(&source.File{Name: "case.yaml", Text: []byte(text)}, e.Catalog, nil)
	if ps.HasErrors() {
		t.Fatalf("%v\n%s", ps, text)
	}
	return c
}

// shown lists the signs that rules find in a case, sorted, each once.
func shown(e *engine.Engine, c *intake.Case) (signs, rules []string) {
	firings := e.Rules.Fire(c.Known)
	for i, r := range e.Rules.Rules {
		if r.Action == rule.Shows && firings[i].Probability >= 0.5 {
			signs, rules = append(signs, r.To), append(rules, r.ID)
		}
	}
	slices.Sort(signs)
	return slices.Compact(signs), rules
}

// A right clutch raises nothing, whatever its make, with its sheet and without.
func TestRightStacksRaiseNothing(t *testing.T) {
	e := open(t, "..")
	for name, b := range constructions() {
		sheet := b.sheet()
		for _, s := range []*build{&sheet, nil} {
			if signs, rules := shown(e, caseOf(t, e, b, s)); len(signs) > 0 {
				t.Errorf("%s, sheet %t: %v by %v", name, s != nil, signs, rules)
			}
		}
	}
}

// However little is said of a right clutch, and wherever the list begins and ends,
// nothing is found: half a list never fakes a missing part.
func TestPartOfARightStackRaisesNothing(t *testing.T) {
	e := open(t, "..")
	all := constructions()
	names := slices.Sorted(maps.Keys(all))
	rapid.Check(t, func(rt *rapid.T) {
		right := all[rapid.SampledFrom(names).Draw(rt, "make")]
		sheet := right.sheet()
		from := rapid.IntRange(0, len(right.parts)-1).Draw(rt, "from")
		to := rapid.IntRange(from+1, len(right.parts)).Draw(rt, "to")
		some := build{}
		// What sets one plate apart is said of all or of none.
		hidden := rapid.SliceOfDistinct(rapid.SampledFrom([]string{"bore", "mark", "slot", "edge", "dish"}), rapid.ID).Draw(rt, "hidden")
		for _, p := range right.parts[from:to] {
			if rapid.IntRange(0, 19).Draw(rt, "unseen") == 0 {
				p = part{kind: "unknown"}
			}
			var said []string
			for _, s := range p.said {
				key, _, _ := strings.Cut(s, "=")
				apart := slices.Contains([]string{"bore", "mark", "slot"}, key)
				if !slices.Contains(hidden, key) && (apart || rapid.Bool().Draw(rt, "said")) {
					said = append(said, s)
				}
			}
			some.parts = append(some.parts, part{p.kind, said})
		}
		for _, s := range []*build{&sheet, nil} {
			if signs, rules := shown(e, caseOf(t, e, some, s)); len(signs) > 0 {
				rt.Fatalf("sheet %t: %v by %v in\n%s", s != nil, signs, rules, some.yaml(""))
			}
		}
	})
}

// Each mistake alone, in every clutch that can have it, is found, and nothing else is;
// the diagnosis puts its cause first.
func TestEveryAssemblyFaultIsFound(t *testing.T) {
	e := open(t, "..")
	all := constructions()
	var names []string
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			tried := 0
			for _, name := range names {
				right := all[name]
				sheet := right.sheet()
				wrong := right.clone()
				if !f.make(&wrong) {
					continue
				}
				tried++
				for _, s := range []*build{&sheet, nil} {
					if s == nil && f.sheet {
						continue
					}
					want := slices.Clone(f.signs)
					if s != nil && f.also != nil {
						want = append(want, f.also(wrong)...)
					}
					slices.Sort(want)
					at := fmt.Sprintf("%s, sheet %t", name, s != nil)
					c := caseOf(t, e, wrong, s)
					if signs, rules := shown(e, c); !slices.Equal(signs, want) {
						t.Errorf("%s: found %v by %v, want %v", at, signs, rules, want)
						continue
					}
					comesFirst(t, e, c, f, at)
				}
			}
			if tried == 0 {
				t.Error("no clutch can have it")
			}
		})
	}
}

// comesFirst wants a cause first; what its signs stand for besides may come before it.
func comesFirst(t *testing.T, e *engine.Engine, c *intake.Case, f fault, at string) {
	t.Helper()
	firings := e.Rules.Fire(c.Known)
	net, err := network.Build(e.Catalog, e.Rules, firings)
	if err != nil {
		t.Fatal(err)
	}
	places := net.Of(fact.RoleCause)
	cond, err := belief.ConditionKeeping(net.Graph, network.Findings(net.Evidence(nil, e.Rules, firings)), places, belief.DefaultBudget)
	if err != nil {
		t.Fatal(err)
	}
	p, err := cond.Posteriors(places)
	if err != nil {
		t.Fatal(err)
	}
	first, own := 0, 0
	for i, v := range places {
		switch id := net.Variables[v].ID; {
		case id == f.cause:
			own = i
		case f.also != nil && strings.HasPrefix(id, "pack_too_"):
			continue
		}
		if p[i] > p[first] {
			first = i
		}
	}
	least := 0.5
	if f.gauged {
		least = 0.3
	}
	if first != own || p[own] < least {
		t.Errorf("%s: first is %s (%.3f), %s has %.3f", at, net.Variables[places[first]].ID, p[first], f.cause, p[own])
	}
}
