package interview

import (
	"testing"

	"example.org/takeup/engine/intake"
)

func BenchmarkNext(b *testing.B) {
	s := pack(b, "../..")
	for _, name := range []string{"creeps-since-the-cable", "tired-all-over", "slips-with-new-plates", "slips-since-the-cheap-oil"} {
		c, ps := intake.Load("../../testdata/cases/"+name+".yaml", s.Catalog)
		if ps.HasErrors() {
			b.Fatal(ps)
		}
		s.Case, s.SheetElsewhere = c, true
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, _, err := Next(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
