package report_test

import (
	"math"
	"strings"
	"testing"
)

// A contrast is an account too: what parted the two before any sign stands rule
// by rule beside the evidence, and all of it makes the total.
func TestTheContrastAddsUp(t *testing.T) {
	a := answer(t, dark)
	page, err := a.Not("battery_flat", "lead_loose")
	if err != nil {
		t.Fatal(err)
	}
	sum, total, lines := 0.0, math.NaN(), 0
	for _, b := range page.Blocks {
		for _, l := range b.Ledger {
			if l.Total {
				total = number(t, l.Amount)
			} else {
				sum, lines = sum+number(t, l.Amount), lines+1
			}
		}
	}
	if lines < 4 || math.Abs(sum-total) > 0.05*float64(lines+1) {
		t.Errorf("%d lines make %.1f, the total is %.1f", lines, sum, total)
	}
	for _, want := range []string{"history: hours lit since the last charge (9 h)", "The charge lasts about six hours."} {
		if !strings.Contains(text(page), want) {
			t.Errorf("the page lacks %q:\n%s", want, text(page))
		}
	}
}

func TestContrastWithWhatTheMachineCannotHave(t *testing.T) {
	a := answer(t, "title: on mains\nhistory: {supply: mains}\nsigns: {dark: yes}\n")
	for _, pair := range [][2]string{{"battery_flat", "lead_loose"}, {"lead_loose", "battery_flat"}} {
		page, err := a.Not(pair[0], pair[1])
		if err != nil || !strings.Contains(text(page), "the battery does not matter") {
			t.Errorf("%v: %v:\n%s", pair, err, text(page))
		}
	}
}
