package build_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/build"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/source"
	"example.org/takeup/knowledge"
	"example.org/takeup/rules"
)

func pack(t testing.TB) *engine.Engine {
	t.Helper()
	e, ps := engine.OpenFrozen(knowledge.Frozen, knowledge.Files, rules.Files)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	return e
}

// job reads a case of which only the build sheet is wanted.
func job(t testing.TB, e *engine.Engine, text string) build.Job {
	t.Helper()
	c, ps := intake.Parse(&source.File{Name: "case.yaml", Text: []byte(text)}, e.Catalog, nil)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	j := build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Known: c.Known, Found: c.Found}
	for _, d := range c.Done {
		j.Done = append(j.Done, d.Check)
	}
	for _, cause := range e.Catalog.Causes {
		j.Beliefs = append(j.Beliefs, build.Belief{Cause: cause.ID, Probability: cause.Prior})
	}
	return j
}

func sheet(t testing.TB, j build.Job) *build.Sheet {
	t.Helper()
	s, err := build.New(j)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func stepIDs(s *build.Sheet) (ids []string) {
	for _, step := range s.Steps {
		ids = append(ids, step.ID)
	}
	return ids
}

// Every fault of putting a clutch together, whatever part it is in, is kept away by a
// step that stands at the stage of the fault or further out.
func TestEveryAssemblyFaultIsPrevented(t *testing.T) {
	e := pack(t)
	faults := strings.Fields(`steels_dry frictions_not_soaked anti_rattle_reversed anti_rattle_missing wide_bore_misplaced
		marked_plate_misplaced end_plate_wrong_slot steel_edges_mixed plate_count_wrong pack_too_tall pack_too_low parts_mixed
		pressure_plate_not_home screws_drawn_singly spring_screws_loose spring_seat_wrong springs_heavy springs_coil_bound
		collar_short collar_missing hub_washer_missing hub_nut_loose lock_washer_reversed oil_pump_gear_unmeshed
		dowels_missing cover_bent cover_gasket_leaks release_not_engaged arm_wrong_spline release_ball_missing
		free_play_small free_play_large cable_pinched air_in_line fluid_wrong
		oil_friction_modified oil_too_thick oil_level_high oil_level_low`)
	for _, c := range e.Catalog.Causes {
		if strings.HasPrefix(c.Pos.File, "causes/assembly") && !slices.Contains(faults, c.ID) {
			faults = append(faults, c.ID)
		}
	}
	for _, id := range faults {
		cause, known := e.Catalog.Cause(id)
		if !known {
			t.Errorf("no cause %s", id)
			continue
		}
		s := sheet(t, build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Found: []string{id}, Beliefs: []build.Belief{{Cause: id}}})
		if len(s.Causes) != 1 || len(s.Causes[0].Steps) == 0 {
			t.Errorf("%s, seen at %s: no step of its own sheet prevents it", id, cause.Stage)
		}
	}
}

// The sheet reaches as deep as the job did and holds nothing deeper; from the basket
// it holds everything.
func TestOnlyTheStagesThatWereOpen(t *testing.T) {
	e := pack(t)
	cable := sheet(t, job(t, e, "title: t\nmachine: {actuation: cable}\nfound: [free_play_small]\n"))
	if got := strings.Join(stepIDs(cable), " "); got != "route_cable set_free_play standstill_running road_test look_again" {
		t.Errorf("for the free play: %s", got)
	}
	plates := sheet(t, job(t, e, "title: t\nfound: [frictions_worn]\n"))
	hub := sheet(t, job(t, e, "title: t\nfound: [hub_nut_loose]\n"))
	opened := sheet(t, job(t, e, "title: t\ndone: [steel_flatness]\n"))
	if slices.Contains(stepIDs(plates), "hub_nut") || !slices.Contains(stepIDs(hub), "hub_nut") {
		t.Error("the hub nut belongs to jobs that took the hub off, and to those alone")
	}
	if !slices.Equal(stepIDs(opened), stepIDs(plates)) {
		t.Errorf("a check at the plates opens as far as a fault there:\n%v\n%v", stepIDs(opened), stepIDs(plates))
	}
	if s := sheet(t, build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Open: "pack_out"}); !slices.Equal(stepIDs(s), stepIDs(opened)) {
		t.Errorf("a machine that stands open: %v", stepIDs(s))
	}
	all := job(t, e, "title: t\n")
	all.From = "basket_off"
	if n := len(sheet(t, all).Steps); n < len(e.Catalog.Steps)-1 {
		t.Errorf("%d of %d steps from the basket outwards", n, len(e.Catalog.Steps))
	}
}

// A condition of the sheet that holds or not decides; one that nobody knows leaves the
// step in, with the word that would settle it.
func TestStepsFollowTheMachine(t *testing.T) {
	e := pack(t)
	const spring = "seat_then_spring"
	for _, c := range []struct {
		machine string
		there   bool
		waits   string
	}{
		{"{anti_rattle_spring: yes}", true, ""},
		{"{anti_rattle_spring: no}", false, ""},
		{"unknown", true, "machine.anti_rattle_spring"},
	} {
		s := sheet(t, job(t, e, "title: t\nmachine: "+c.machine+"\nfound: [frictions_worn]\n"))
		i := slices.Index(stepIDs(s), spring)
		if (i >= 0) != c.there {
			t.Errorf("%s: %s is there: %v", c.machine, spring, i >= 0)
		} else if i >= 0 && strings.Join(s.Steps[i].Waits, " ") != c.waits {
			t.Errorf("%s: waits for %v", c.machine, s.Steps[i].Waits)
		}
	}
}

func TestTighteningTakesTheSheet(t *testing.T) {
	e := pack(t)
	find := func(s *build.Sheet) *build.Tighten {
		return s.Steps[slices.Index(stepIDs(s), "spring_screws")].Tighten
	}
	got := find(sheet(t, job(t, e, "title: t\nmachine: {springs: 6, torque.spring_screw: 90 kgf·cm}\nfound: [springs_weak]\n")))
	if got.Screws != 6 || !slices.Equal(got.Order, []int{1, 4, 2, 5, 3, 6}) || got.TorqueNm < 8.82 || got.TorqueNm > 8.83 || got.LowNm != 0 {
		t.Errorf("got %+v", got)
	}
	silent := find(sheet(t, job(t, e, "title: t\nmachine: {springs: 1}\nfound: [springs_weak]\n")))
	if silent.Screws != 0 || silent.Order != nil || silent.TorqueNm != 0 || silent.LowNm != 8 || silent.HighNm != 12 {
		t.Errorf("without a sheet, one spring: got %+v", silent)
	}
}

func TestPartsNameTheirCausesAndWhatIsAlwaysNew(t *testing.T) {
	e := pack(t)
	s := sheet(t, job(t, e, "title: t\nfound: [frictions_worn, springs_weak]\n"))
	got := map[string]build.Part{}
	for _, p := range s.Parts {
		if _, twice := got[p.Name]; twice {
			t.Errorf("%s stands twice", p.Name)
		}
		got[p.Name] = p
	}
	if p := got["clutch springs"]; !slices.Equal(p.Causes, []string{"springs_weak"}) || p.Always {
		t.Errorf("springs: %+v", p)
	}
	if p := got["clutch cover gasket"]; !p.Always || len(p.Causes) == 0 {
		t.Errorf("gasket: %+v", p)
	}
	if _, there := got["hub nut"]; there {
		t.Error("a hub nut for a job that leaves the hub on")
	}
}

// A probable cause is on the sheet and marked as such; an improbable one is not.
func TestFoundBeforeProbable(t *testing.T) {
	e := pack(t)
	s := sheet(t, build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Found: []string{"springs_weak"}, Beliefs: []build.Belief{
		{Cause: "steels_warped", Probability: .7}, {Cause: "frictions_glazed", Probability: .49},
		{Cause: "springs_weak", Probability: .2}, {Cause: "plate_count_wrong", Probability: .9, Listed: []string{"a_rule"}, Seen: []string{"plate_count_wrong_found"}},
	}})
	var got []string
	for _, c := range s.Causes {
		got = append(got, c.ID)
	}
	if strings.Join(got, " ") != "plate_count_wrong springs_weak steels_warped" || !s.Causes[1].Found || s.Causes[2].Found {
		t.Errorf("got %+v", s.Causes)
	}
}

// Whoever found a cause is right, also where the rules give it no probability at all.
func TestFoundAgainstTheRules(t *testing.T) {
	e := pack(t)
	s := sheet(t, build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Found: []string{"air_in_line"}})
	if len(s.Causes) != 1 || !s.Causes[0].Found || !slices.Contains(stepIDs(s), "bleed_line") {
		t.Errorf("got %+v", s.Causes)
	}
}

func drawn(p build.Pack) (lines []string) {
	for _, l := range p.Section.Layers {
		line := l.Name
		if l.Mark != "" {
			line += " " + string(l.Mark)
		}
		lines = append(lines, line)
	}
	return lines
}

// From the numbers alone the plates take turns, friction first and last; a machine
// with as many of one kind as of the other has no order that follows from it.
func TestPackFromCounts(t *testing.T) {
	e := pack(t)
	s := sheet(t, job(t, e, "title: t\nmachine: {frictions: 3, steels: 2, anti_rattle_spring: yes}\n"))
	want := "seat of the anti-rattle spring, anti-rattle spring, friction plate, steel plate, friction plate, steel plate, friction plate, pressure plate"
	if len(s.Packs) != 1 || s.Packs[0].Origin != build.FromCounts || strings.Join(drawn(s.Packs[0]), ", ") != want {
		t.Errorf("got %v", s.Packs)
	}
	if s := sheet(t, job(t, e, "title: t\nmachine: {frictions: 3, steels: 3}\n")); len(s.Packs) != 0 {
		t.Errorf("got %v", s.Packs)
	}
}

// The list of the case is held against the sheet, part by part.
func TestPackMarksWhatDiffers(t *testing.T) {
	e := pack(t)
	const head = "title: t\nmachine:\n  stack: [hub, judder_seat, judder_spring: {dish: out}, friction: {bore: wide}, x2: [steel, friction], pressure_plate]\nstack: "
	for list, want := range map[string]string{
		"[hub, judder_seat, judder_spring: {dish: out}, friction: {bore: wide}, x2: [steel, friction], pressure_plate]": "",
		"[hub, judder_seat, judder_spring: {dish: in}, friction: {bore: wide}, x2: [steel, friction], pressure_plate]":  "anti-rattle spring",
		"[hub, judder_seat, judder_spring, friction, steel, friction: {bore: wide}, steel, friction, pressure_plate]":   "friction plate, friction plate",
		"[hub, judder_seat, judder_spring, friction: {bore: wide}, x2: [steel, friction], steel, pressure_plate]":       "steel plate",
		"[hub, judder_seat, judder_spring, friction: {bore: wide}, x2: [steel: {oiled: no}, friction], pressure_plate]": "steel plate, steel plate",
	} {
		s := sheet(t, job(t, e, head+list+"\n"))
		if want == "" {
			if len(s.Packs) != 1 || s.Packs[0].Origin != build.FromSheet {
				t.Errorf("%s is right, and drawn beside the sheet", list)
			}
			continue
		}
		if len(s.Packs) != 2 || s.Packs[0].Origin != build.FromSheet || s.Packs[1].Origin != build.FromCase {
			t.Fatalf("%s: %d packs", list, len(s.Packs))
		}
		var wrong []string
		for _, l := range s.Packs[1].Section.Layers {
			if l.Mark == "wrong" {
				wrong = append(wrong, l.Name)
			}
		}
		if strings.Join(wrong, ", ") != want {
			t.Errorf("%s:\n got %v\nwant %s", list, wrong, want)
		}
	}
	s := sheet(t, job(t, e, "title: t\nstack: [hub, friction, steel, steel, friction, pressure_plate]\n"))
	if got := strings.Join(drawn(s.Packs[0]), ", "); got != "friction plate, steel plate, steel plate wrong, friction plate, pressure plate" {
		t.Errorf("without a sheet: %s", got)
	}
}

// The order of steps is that of the knowledge, and no set of facts panics.
func TestEmptyJob(t *testing.T) {
	e := pack(t)
	s := sheet(t, build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Known: fact.Set{}})
	if len(s.Steps)+len(s.Causes)+len(s.Parts)+len(s.Packs) != 0 {
		t.Errorf("nothing was open, yet %+v", s)
	}
}

// A loose nut shows with the plates out, and needs the hub off all the same.
func TestACauseCanTakeADeeperStage(t *testing.T) {
	e := pack(t)
	ids := stepIDs(sheet(t, job(t, e, "title: t\nfound: [hub_nut_loose]\n")))
	for _, id := range []string{"thrust_washer_in", "lock_washer", "hub_nut", "hub_turns_free"} {
		if !slices.Contains(ids, id) {
			t.Errorf("%s is not on %v", id, ids)
		}
	}
	oil := stepIDs(sheet(t, job(t, e, "title: t\nfound: [oil_level_low]\n")))
	if !slices.Contains(oil, "fill_oil") || slices.Contains(oil, "gasket_on") {
		t.Errorf("for the oil level: %v", oil)
	}
}
