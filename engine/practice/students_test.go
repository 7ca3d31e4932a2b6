package practice_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/takeup/engine/practice"
)

// student works on a session to the end.
type student struct {
	name string
	work func(*testing.T, *practice.Session)
}

// replay does what the planner did.
func replay(t *testing.T, at *practice.Session, moves []practice.Move) {
	t.Helper()
	for _, m := range moves {
		var err error
		switch m.Kind {
		case practice.Ask:
			_, err = at.Ask(m.ID)
		case practice.Recall:
			_, err = at.Recall(m.ID)
		case practice.Open:
			_, err = at.Open(m.ID)
		case practice.Do:
			_, err = at.Do(m.ID)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

func name(t *testing.T, at *practice.Session, f practice.Forecast) {
	t.Helper()
	if err := at.Name(f, ""); err != nil {
		t.Fatal(err)
	}
}

// believed is what stands first by what the session knows.
func believed(t *testing.T, at *practice.Session) practice.Candidate {
	t.Helper()
	v, err := at.Book.View(at.Now)
	if err != nil {
		t.Fatal(err)
	}
	return v.First()
}

var (
	// The perfect student does what the planner does and believes what the book
	// believes.
	perfect = student{"perfect", func(t *testing.T, at *practice.Session) {
		par, err := at.Book.Walk(at.Scenario)
		if err != nil {
			t.Fatal(err)
		}
		replay(t, at, par.Moves)
		c := believed(t, at)
		name(t, at, practice.Forecast{{Cause: c.Cause, Probability: c.Probability}})
	}}
	// The hasty one takes what stands first by the story for nearly sure.
	hasty = student{"hasty", func(t *testing.T, at *practice.Session) {
		name(t, at, practice.Forecast{{Cause: believed(t, at).Cause, Probability: .95}})
	}}
	// This one has the clutch out before anything else, looks at all there is to
	// see, and then believes what the book believes.
	opensFirst = student{"opens first", func(t *testing.T, at *practice.Session) {
		for _, stage := range []string{"cover_off", "pack_out"} {
			if _, err := at.Open(stage); err != nil {
				t.Fatal(err)
			}
			for _, c := range at.Book.Catalog.Checks {
				if c.Stage == stage && at.Offers(practice.Do, c.ID) {
					if _, err := at.Do(c.ID); err != nil {
						t.Fatal(err)
					}
				}
			}
		}
		c := believed(t, at)
		name(t, at, practice.Forecast{{Cause: c.Cause, Probability: min(.999, c.Probability)}})
	}}
	// The guesser looks at nothing.
	guesser = student{"guesser", func(t *testing.T, at *practice.Session) {
		r := rand.New(rand.NewPCG(at.Scenario.Seed, 9))
		causes := at.Book.Catalog.Causes
		name(t, at, practice.Forecast{{Cause: causes[r.IntN(len(causes))].ID, Probability: .9}})
	}}
)

func has(j *practice.Judgement, kind practice.MistakeKind) bool {
	return slices.ContainsFunc(j.Mistakes, func(m practice.Mistake) bool { return m.Kind == kind })
}

// Four students at the same machines: their marks stand in the order of how they
// worked, and each hears what was wrong with it.
func TestStudents(t *testing.T) {
	b, sheets := shipped(t)
	var scenarios []*practice.Scenario
	for seed := range uint64(max(3, *cases/10)) {
		s, err := b.Draw(practice.Order{Seed: seed + 1, Level: 1 + int(seed%3)}, sheets)
		if err != nil {
			t.Fatal(err)
		}
		scenarios = append(scenarios, s)
	}
	n := float64(len(scenarios))
	marks := map[string]float64{}
	heard := map[string]map[practice.MistakeKind]int{}
	for _, st := range []student{perfect, opensFirst, hasty, guesser} {
		heard[st.name] = map[practice.MistakeKind]int{}
		for _, s := range scenarios {
			at := b.Begin(s)
			st.work(t, at)
			j, err := at.Judge()
			if err != nil {
				t.Fatal(err)
			}
			marks[st.name] += j.Mark.Total / n
			for kind := range kinds(j) {
				heard[st.name][kind]++
			}
			if st.name == "perfect" && (has(j, practice.WrongCause) || has(j, practice.OpenedEarly) || has(j, practice.Idle) || has(j, practice.NamedEarly) || has(j, practice.TooSure)) {
				t.Errorf("seed %d level %d: the perfect student hears %+v", s.Seed, s.Level, j.Mistakes)
			}
			if st.name == "guesser" && !has(j, practice.NamedEarly) {
				t.Errorf("seed %d: the guesser does not hear that he named too early: %+v", s.Seed, j.Mistakes)
			}
		}
		t.Logf("%s: mark %.1f, hears %v", st.name, marks[st.name], heard[st.name])
	}
	if !(marks["perfect"] > marks["opens first"] && marks["perfect"] > marks["hasty"] && marks["opens first"] > marks["guesser"] && marks["hasty"] > marks["guesser"]) {
		t.Errorf("marks out of order: %v", marks)
	}
	if heard["opens first"][practice.OpenedEarly] < len(scenarios)*2/3 {
		t.Errorf("who opens first hears of it in %d of %d cases", heard["opens first"][practice.OpenedEarly], len(scenarios))
	}
	if x := heard["hasty"]; x[practice.TooSure]+x[practice.NamedEarly] < len(scenarios)/2 {
		t.Errorf("the hasty student hears of it too seldom: %v", x)
	}
}

func kinds(j *practice.Judgement) map[practice.MistakeKind]bool {
	out := map[practice.MistakeKind]bool{}
	for _, m := range j.Mistakes {
		out[m.Kind] = true
	}
	return out
}
