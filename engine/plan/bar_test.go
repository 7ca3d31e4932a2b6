package plan

import (
	"math/rand/v2"
	"testing"
	"time"
)

// recipe makes one problem of the kind measured in the tables below: one
// fault, service 150, action costs 5 to 100, question costs 1 to 15.
func recipe(r *rand.Rand, faults, questions int, sharp float64) Problem {
	p := Problem{ServiceMinutes: 150}
	total := 0.0
	for range faults {
		p.Faults = append(p.Faults, r.Float64())
		total += p.Faults[len(p.Faults)-1]
	}
	for i := range p.Faults {
		p.Faults[i] /= total
		p.Actions = append(p.Actions, Action{Stage: Outside, RepairMinutes: 5 + 95*r.Float64(), Cures: []Cure{{i, 1}}})
	}
	for range questions {
		yes := make([]float64, faults)
		for f := range yes {
			yes[f] = 1 - sharp
			if r.IntN(2) == 0 {
				yes[f] = sharp
			}
		}
		p.Questions = append(p.Questions, YesNo(Outside, 1+14*r.Float64(), yes, .5))
	}
	return p
}

func TestBar(t *testing.T) {
	for _, row := range []struct {
		sharp   float64
		f, q, n int
	}{{1, 6, 2, 150}, {1, 8, 4, 150}, {1, 9, 5, 60}, {.9, 6, 2, 150}, {.9, 8, 4, 150}, {.9, 9, 5, 60}} {
		r := rand.New(rand.NewPCG(1, uint64(row.f)))
		var m, w [3]float64
		var tx, tp time.Duration
		pol := []Policy{Next, NowLaterNever, orderOnly}
		for range row.n {
			p := recipe(r, row.f, row.q, row.sharp)
			t0 := time.Now()
			x, _, err := Exact(p)
			if err != nil {
				t.Fatal(err)
			}
			tx += time.Since(t0)
			for k, po := range pol {
				t0 = time.Now()
				e := Evaluate(p, po)/x - 1
				if k == 0 {
					tp += time.Since(t0)
				}
				m[k] += e / float64(row.n)
				w[k] = max(w[k], e)
			}
		}
		t.Logf("%.1f %d %d: mean %.3f%% worst %.2f%% | nln %.2f %.1f | p/c %.1f %.1f | exact %v policy %v", row.sharp, row.f, row.q, 100*m[0], 100*w[0], 100*m[1], 100*w[1], 100*m[2], 100*w[2], tx, tp)
	}
}

func orderOnly(p Problem) Step {
	b := newBoard(p)
	b.nothing(b.root())
	if len(b.order.seq) == 0 {
		return p.service()
	}
	return p.action(b.order.seq[0])
}
