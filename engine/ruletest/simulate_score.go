package ruletest

import "example.org/takeup/engine/catalog"

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

func (t *tally) add(s *simulated, c drawn, p []float64) {
	if t.causes == nil {
		t.causes, t.wrong = map[string]*sums{}, map[string]map[string]int{}
	}
	truth := s.net.Variables[c.cause].ID
	if t.causes[truth] == nil {
		t.causes[truth], t.wrong[truth] = &sums{}, map[string]int{}
	}
	place, ahead := rank(s, c, p)
	if ahead >= 0 {
		t.wrong[truth][s.net.Variables[ahead].ID]++
	}
	brier, own := 0.0, 0.0
	for i, v := range s.causes {
		if v == c.cause {
			own = p[i]
		}
		there := 0.0
		if c.present[v] {
			there = 1
		}
		brier += (p[i] - there) * (p[i] - there)
	}
	for _, x := range []*sums{&t.all, t.causes[truth]} {
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
// cause before it, or -1.
func rank(s *simulated, c drawn, p []float64) (place, ahead int) {
	own := 0.0
	for i, v := range s.causes {
		if v == c.cause {
			own = p[i]
		}
	}
	place, ahead = 1, -1
	best := 0.0
	for i, v := range s.causes {
		if c.present[v] || p[i] < own-same {
			continue
		}
		place++
		if p[i] > best {
			best, ahead = p[i], v
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
