package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/practice"
)

// The tables of the terms are worked out anew by the engine's own functions.
func TestTablesOfTerms(t *testing.T) {
	x, _ := termOf("deciban")
	for _, row := range x.table[1:] {
		db, err := strconv.ParseFloat(strings.NewReplacer("−", "-", "+", "").Replace(row[0]), 64)
		if p := fmt.Sprintf("%.0f %%", 100*belief.FromDecibans(db)); err != nil || p != row[2] {
			t.Errorf("%v: %v, %s", row, err, p)
		}
	}
	x, _ = termOf("brier_score")
	for _, row := range x.table[1:] {
		p, err := strconv.ParseFloat(strings.TrimSuffix(row[0], " %"), 64)
		if err != nil {
			t.Fatal(err)
		}
		said := practice.Forecast{{Cause: "a", Probability: p / 100}}
		for i, truth := range []string{"a", "b"} {
			want, _ := strconv.ParseFloat(row[i+1], 64)
			if got := said.Score([]string{truth}).Brier; math.Abs(got-want) > 0.0051 {
				t.Errorf("%s, truth %s: %.3f, the table says %s", row[0], truth, got, row[i+1])
			}
		}
	}
}
