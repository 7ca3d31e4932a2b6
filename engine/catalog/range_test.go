package catalog_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.org/takeup/engine/catalog"
)

// How often a fact is so, and between what it lies, is checked where it stands.
func TestSharesAndRanges(t *testing.T) {
	for _, bad := range []struct{ fact, want string }{
		{"{id: a, name: a, kind: yesno, share: 1}", "share is 1"},
		{"{id: a, name: a, kind: quantity, unit: km, share: 0.2}", "share belongs to kind yesno"},
		{"{id: a, name: a, kind: choice, choices: [{id: x, name: x, share: 2}]}", "share is 2"},
		{"{id: a, name: a, kind: yesno, usual: {low: 1, high: 2}}", "usual belongs to kinds quantity and count"},
		{"{id: a, name: a, kind: quantity, unit: km, usual: {low: 9 km, high: 2 km}}", "expected the lower end first"},
		{"{id: a, name: a, kind: quantity, unit: km, usual: {low: 1 N, high: 2 km}}", "expected a length"},
	} {
		_, ps := catalog.Load(fstest.MapFS{"k.yaml": {Data: []byte("facts:\n  - " + bad.fact + "\n")}})
		if len(ps) != 1 || !strings.Contains(ps[0].Message, bad.want) {
			t.Errorf("%s: got %v, want %q", bad.fact, ps, bad.want)
		}
	}
	cat, ps := catalog.Load(fstest.MapFS{"k.yaml": {Data: []byte("facts:\n  - {id: a, name: a, kind: quantity, unit: km, usual: {low: 1 km, high: 2 miles}}\n")}})
	f, _ := cat.Fact("a")
	if low, high, err := f.Range(); len(ps) > 0 || err != nil || low != 1000 || high < 3218 || high > 3219 { // 1609.344 m to the mile, exact by definition
		t.Errorf("from %v to %v, %v %v", low, high, err, ps)
	}
}
