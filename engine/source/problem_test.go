package source

import (
	"encoding/json"
	"errors"
	"testing"

	"pgregory.net/rapid"
)

func TestProblems(t *testing.T) {
	var ps Problems
	ps.Warnf("Y2", Pos{"b", 1, 1}, 0, "careful")
	if ps.HasErrors() || ps.Err() != nil || ps[0].Length != 1 {
		t.Errorf("a warning is not an error: %+v", ps)
	}
	ps.Errorf("Y1", Pos{"b", 1, 1}, 3, "bad %q", "x").Hint = "good"
	ps.Errorf("Y1", Pos{"a", 10, 1}, 3, "third")
	ps.Errorf("Y1", Pos{"a", 9, 2}, 3, "second")
	ps.Errorf("Y1", Pos{"a", 9, 1}, 3, "first")
	ps.Errorf("Y1", Pos{"a", 9, 1}, 3, "first")
	ps.Sort()
	want := "a:9:1: error Y1: first\na:9:2: error Y1: second\na:10:1: error Y1: third\nb:1:1: error Y1: bad \"x\"\nb:1:1: warning Y2: careful"
	if ps.Error() != want {
		t.Errorf("got\n%s", ps.Error())
	}
	var back Problems
	if err := ps.Err(); !errors.As(err, &back) || len(back) != 5 || back[3].Hint != "good" {
		t.Errorf("error lost the list: %v", err)
	}
	text, err := json.Marshal(ps[4])
	if err != nil || string(text) != `{"code":"Y2","severity":"warning","pos":{"file":"b","line":1,"column":1},"length":1,"message":"careful"}` {
		t.Errorf("%s, %v", text, err)
	}
}

// The order in which problems are found changes nothing.
func TestSortForgetsOrder(t *testing.T) {
	problem := rapid.Custom(func(t *rapid.T) Problem {
		n := rapid.IntRange(0, 2)
		return Problem{
			Code:     rapid.SampledFrom([]string{"Y1", "Y2"}).Draw(t, "code"),
			Severity: Severity(rapid.IntRange(0, 1).Draw(t, "severity")),
			Pos:      Pos{"f", n.Draw(t, "line"), n.Draw(t, "column")},
			Message:  rapid.SampledFrom([]string{"a", "b"}).Draw(t, "message"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		a := Problems(rapid.SliceOfN(problem, 0, 12).Draw(t, "problems"))
		b := Problems(rapid.Permutation(a).Draw(t, "shuffled"))
		a.Sort()
		b.Sort()
		if a.Error() != b.Error() {
			t.Fatalf("%v\n%v", a, b)
		}
	})
}
