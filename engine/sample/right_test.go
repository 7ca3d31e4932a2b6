package sample_test

import (
	"reflect"
	"slices"
	"testing"

	"example.org/takeup/engine/sample"
)

// Putting causes right one by one ends where putting all right at once does,
// and what is left is never more than before.
func TestPutRightStepByStep(t *testing.T) {
	s, cat, _ := shipped(t, sample.Usual)
	several := 0
	for i := range 60 {
		m := drawn(t, s, 11, i)
		before := m.Case()
		at := m
		for _, c := range m.Causes {
			next := at.PutRight(c)
			for _, x := range next.Causes {
				if !slices.Contains(at.Causes, x) {
					t.Errorf("machine %d: %s came up when %s was put right", i, x, c)
				}
			}
			if slices.Contains(next.Causes, c) {
				t.Errorf("machine %d: %s is there after it was put right", i, c)
			}
			at = next
		}
		if len(m.Causes) > 1 {
			several++
		}
		if !at.Cured() || len(at.Causes) != 0 {
			t.Errorf("machine %d: %v left, cured %v", i, at.Causes, at.Cured())
		}
		once := m.PutRight(m.Causes...)
		for _, c := range cat.Checks {
			if !reflect.DeepEqual(once.Answers(c.ID), at.Answers(c.ID)) {
				t.Errorf("machine %d: %s differs between one by one and all at once", i, c.ID)
			}
		}
		if !reflect.DeepEqual(m.Case(), before) {
			t.Errorf("machine %d changed when a copy was put right", i)
		}
	}
	if several < 5 {
		t.Errorf("%d of 60 machines have more than one cause, want a few", several)
	}
}

// Whoever gets the machine back uncured names a complaint that a cause brings about.
func TestUncuredIsComplainedOf(t *testing.T) {
	s, _, _ := shipped(t, sample.Usual)
	uncured := 0
	for i := range 60 {
		m := drawn(t, s, 12, i)
		for _, c := range m.Causes {
			next := m.PutRight(c)
			if next.Cured() {
				continue
			}
			uncured++
			if !slices.ContainsFunc(next.Complaints(), func(a sample.Answer) bool { return a.Yes && next.Has(a.Sign) }) {
				t.Errorf("machine %d without %s is not cured and nobody complains: %v", i, c, next.Complaints())
			}
		}
	}
	if uncured < 5 {
		t.Errorf("%d machines stay uncured, want a few", uncured)
	}
}
