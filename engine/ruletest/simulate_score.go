package ruletest

import (
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/sample"
)

// same is how far two probabilities may differ and still be called equal: twins
// in the rules come out of different sums.
const same = 1e-9

// tally adds up the cases of one depth.
type tally struct {
	hard   int
	all    sums
	causes map[string]*sums
	wrong  map[string]map[string]int // true cause -> false cause put first -> cases
}

type sums struct {
	cases, first, three, five int
	mean, brier               float64
}

func (t *tally) add(m *sample.Machine, j judgement) {
	if t.causes == nil {
		t.causes, t.wrong = map[string]*sums{}, map[string]map[string]int{}
	}
	if t.causes[m.Fault] == nil {
		t.causes[m.Fault], t.wrong[m.Fault] = &sums{}, map[string]int{}
	}
	if j.hard {
		t.hard++
	}
	place, ahead := j.rank(m)
	if ahead != "" {
		t.wrong[m.Fault][ahead]++
	}
	brier, own := 0.0, 0.0
	for i, c := range j.causes {
		if c == m.Fault {
			own = j.p[i]
		}
		there := 0.0
		if m.Has(c) {
			there = 1
		}
		brier += (j.p[i] - there) * (j.p[i] - there)
	}
	for _, x := range []*sums{&t.all, t.causes[m.Fault]} {
		x.add(place, own, brier)
	}
}

func (x *sums) add(place int, own, brier float64) {
	x.cases++
	for _, at := range []struct {
		within int
		count  *int
	}{{1, &x.first}, {3, &x.three}, {5, &x.five}} {
		if place <= at.within {
			*at.count++
		}
	}
	x.mean += own
	x.brier += brier
}

// rank returns the place of the true cause, from 1, and the most probable false
// cause before it, if any.
func (j judgement) rank(m *sample.Machine) (place int, ahead string) {
	own := j.p[slices.Index(j.causes, m.Fault)]
	place = 1
	best := 0.0
	for i, c := range j.causes {
		if m.Has(c) || j.p[i] < own-same {
			continue
		}
		place++
		if j.p[i] > best {
			best, ahead = j.p[i], c
		}
	}
	return place, ahead
}

func (x *sums) score() Score {
	n := float64(x.cases)
	return Score{
		Cases: x.cases,
		First: float64(x.first) / n, Three: float64(x.three) / n, Five: float64(x.five) / n,
		Mean: x.mean / n, Brier: x.brier / n,
	}
}

func (t *tally) level(name string, cat *catalog.Catalog) Level {
	l := Level{Name: name, Hard: t.hard, Score: t.all.score()}
	for _, c := range cat.Causes {
		x := t.causes[c.ID]
		if x == nil {
			continue
		}
		score := CauseScore{ID: c.ID, Score: x.score()}
		most := 0
		for _, other := range cat.Causes { // in this order, so that ties fall the same way every time
			if n := t.wrong[c.ID][other.ID]; n > most {
				most, score.ConfusedWith = n, other.ID
			}
		}
		score.Share = float64(most) / float64(x.cases)
		l.Causes = append(l.Causes, score)
	}
	return l
}
