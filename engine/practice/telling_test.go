package practice_test

import (
	"testing"

	"example.org/takeup/engine/practice"
)

// measured is the machine with two faults, its play and its chain measured, and
// a cause named that is neither.
func measured(t *testing.T, named string) *practice.Judgement {
	t.Helper()
	b, _ := shipped(t)
	at := two(t, b)
	name(t, at, practice.Forecast{{Cause: named, Probability: .9}})
	j, err := at.Judge()
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// What was named in place of the fault is told once, as the wrong cause, with the
// check that would have told the two apart and the sign that does it.
func TestWrongCauseNamesWhatTells(t *testing.T) {
	j := measured(t, "steels_warped")
	for _, m := range j.Mistakes {
		if m.Kind == practice.LookAlike && m.Other == j.Scenario.Truth[0] {
			t.Errorf("the fault is called a look-alike as well: %+v", m)
		}
	}
	m := j.Mistakes[0]
	if m.Kind != practice.WrongCause || m.Tells == nil || m.Tells.Check != m.Check || m.Tells.Minutes <= 0 {
		t.Fatalf("first mistake: %+v", m)
	}
	if d := m.Tells.ByOne - m.Tells.ByOther; m.Tells.Sign == "" || d > -.3 && d < .3 {
		t.Errorf("%s by %s: %.2f and %.2f do not tell", m.Check, m.Tells.Sign, m.Tells.ByOne, m.Tells.ByOther)
	}
}

// A step that set two causes apart names the result that did: the slack that was
// measured, which only the cable brings.
func TestStepNamesTheResultThatParted(t *testing.T) {
	for _, s := range measured(t, "steels_warped").Steps {
		if s.Move.ID != "measure_free_play" {
			continue
		}
		p := s.Apart
		if p == nil || p.A != "free_play_large" || p.Sign != "play_large_found" || !p.There || p.ByA < .9 || p.ByB > .1 {
			t.Errorf("apart: %+v", p)
		}
		return
	}
	t.Error("the step is missing")
}

// Advice names minutes as the student would pay them: the check's own and those
// of the stages on the way.
func TestAdviceCostsWhatTheStudentPays(t *testing.T) {
	b, _ := shipped(t)
	at := b.Begin(two(t, b).Scenario)
	done := 0
	for ; ; done++ {
		a, err := at.Advise()
		if err != nil {
			t.Fatal(err)
		}
		if a.Check == "" {
			break
		}
		before := at.Now.Minutes
		c, _ := b.Catalog.Check(a.Check)
		if len(a.Opening) > 0 {
			if _, err := at.Open(c.Stage); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := at.Do(a.Check); err != nil {
			t.Fatal(err)
		}
		near(t, a.Check, at.Now.Minutes-before, a.Minutes, 1e-9)
	}
	if done == 0 {
		t.Error("nothing was advised")
	}
}
