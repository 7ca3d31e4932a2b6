package catalog

import (
	"os"
	"testing"
)

// The knowledge that ships must load without a problem.
func TestShippedKnowledgeLoads(t *testing.T) {
	cat, ps := Load(os.DirFS("../../knowledge"))
	for _, p := range ps {
		t.Errorf("%s", p)
	}
	if len(cat.Causes) == 0 || len(cat.Signs) == 0 {
		t.Fatalf("found %d causes and %d signs", len(cat.Causes), len(cat.Signs))
	}
}
