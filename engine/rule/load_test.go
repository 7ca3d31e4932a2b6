package rule_test

import (
	"os"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/rule"
)

// The rules that ship must load without a problem.
func TestShippedRulesLoad(t *testing.T) {
	cat, _ := catalog.Load(os.DirFS("../../knowledge"))
	set, ps := rule.Load(os.DirFS("../../rules"), cat.Vocabulary())
	for _, p := range ps {
		t.Errorf("%s (%s)", p, p.Hint)
	}
	if len(set.Rules) == 0 {
		t.Fatal("found no rules")
	}
}
