package engine_test

import (
	"path/filepath"
	"strings"
	"testing"

	"example.org/takeup/engine/report"
)

// The headline names faults. A habit or a history is told in a sentence of its own,
// as what may have led to them.
func TestHeadlineNamesFaults(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	told := 0
	for _, file := range files {
		d := diagnose(t, e, file)
		a := report.Answer{Catalog: e.Catalog, Rules: e.Rules, Case: d.Case, Firings: d.Firings, Network: d.Network,
			Evidence: d.Evidence, Explanation: d.Explanation, Cautions: d.Cautions, Course: d.Course}
		headline, led, ok := strings.Cut(a.Summary(), " What may have led to it: ")
		for _, c := range e.Catalog.Causes {
			if c.Behind && strings.Contains(headline, c.Name) {
				t.Errorf("%s: %q names %s as a fault", file, headline, c.ID)
			}
			if ok && strings.HasPrefix(led, c.Name) {
				told++
				if !c.Behind {
					t.Errorf("%s: %s is a fault, not what led to one", file, c.ID)
				}
			}
		}
	}
	if told == 0 {
		t.Error("no case tells of a habit or a history")
	}
}
