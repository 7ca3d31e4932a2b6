package practice_test

import (
	"testing"

	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/source"
)

// two is a machine with two faults, all of it written down.
func two(t *testing.T, b practice.Book) *practice.Session {
	t.Helper()
	c, ps := intake.Parse(&source.File{Name: "two.yaml", Text: []byte(`
title: Creeps, and clunks on and off the throttle
machine: {actuation: cable, final_drive: chain, limit: {free_play_min: 4 mm, free_play_max: 8 mm, chain_slack_min: 25 mm, chain_slack_max: 35 mm}}
history: {changed: [cable]}
signs: {creeps_hot: yes, neutral_hard_at_rest: yes, bites_near_grip: yes, driveline_clunk: yes, lost_motion: yes, play_reset_cures: no}
readings: {lever_free_play: 15 mm, chain_sag: 48 mm}
found: [free_play_large, chain_slack]
practice: {level: 3, told: [creeps_hot, driveline_clunk]}
`)}, b.Catalog, nil)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	s, ps := b.Scenario(c)
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	at := b.Begin(s)
	for _, id := range []string{"measure_free_play", "chain_slack_measure"} {
		if _, err := at.Do(id); err != nil {
			t.Fatal(err)
		}
	}
	return at
}

// With two faults either is right, both share the certainty, and the one left out
// is told.
func TestTwoFaults(t *testing.T) {
	b, _ := shipped(t)
	judge := func(f practice.Forecast) *practice.Judgement {
		at := two(t, b)
		name(t, at, f)
		j, err := at.Judge()
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	both := judge(practice.Forecast{{Cause: "free_play_large", Probability: .5}, {Cause: "chain_slack", Probability: .5}})
	near(t, "Brier of both", both.Score.Brier, 0, 1e-9)
	near(t, "what the findings carry", both.Carried, .5, .05)
	if has(both, practice.SecondFault) || has(both, practice.TooUnsure) || has(both, practice.WrongCause) {
		t.Errorf("both named: %+v", both.Mistakes)
	}
	one := judge(practice.Forecast{{Cause: "free_play_large", Probability: .9}})
	if !has(one, practice.SecondFault) || has(one, practice.WrongCause) {
		t.Errorf("one named: %+v", one.Mistakes)
	}
	if !(both.Mark.Total > one.Mark.Total && both.ToCure < one.ToCure) {
		t.Errorf("both: %.1f in %.0f min, one: %.1f in %.0f min", both.Mark.Total, both.ToCure, one.Mark.Total, one.ToCure)
	}
}
