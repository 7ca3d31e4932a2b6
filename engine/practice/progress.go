package practice

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sort"
)

// ProgressSchema is the number of the form that progress is kept in.
const ProgressSchema = 1

// Progress is what a student has practised, oldest first. Nothing in it names
// the student or the day.
type Progress struct {
	Schema    int        `json:"schema"`
	Exercises []Exercise `json:"exercises"`
}

// Exercise is one finished case, short.
type Exercise struct {
	Seed     uint64        `json:"seed"`
	Level    int           `json:"level"`
	Family   string        `json:"family"`
	Truth    []string      `json:"truth"`
	Named    string        `json:"named"`
	Stated   float64       `json:"stated"` // confidence in it, 0 to 1
	Right    bool          `json:"right"`  // it is one of the faults
	Brier    float64       `json:"brier"`  // 0 to 2
	Log      float64       `json:"log_nat"`
	Place    int           `json:"place"`   // of the truth in the forecast, 0 when not in it
	Minutes  float64       `json:"minutes"` // until named
	ToCure   float64       `json:"to_cure"`
	Par      float64       `json:"planner_to_cure"`
	Mark     float64       `json:"mark"`
	Mistakes []MistakeKind `json:"mistakes"`
}

// Exercise is a judgement in short.
func (j *Judgement) Exercise() Exercise {
	first := j.Forecast[0]
	l := Exercise{
		Seed: j.Scenario.Seed, Level: j.Scenario.Level, Family: j.Scenario.Family, Truth: slices.Clone(j.Scenario.Truth),
		Named: first.Cause, Stated: first.Probability, Right: j.Scenario.Fault(first.Cause),
		Brier: j.Score.Brier, Log: j.Score.Log, Place: j.Score.Place,
		Minutes: j.Minutes, ToCure: j.ToCure, Par: j.Planner.ToCure, Mark: j.Mark.Total, Mistakes: []MistakeKind{},
	}
	for _, m := range j.Mistakes {
		if !slices.Contains(l.Mistakes, m.Kind) {
			l.Mistakes = append(l.Mistakes, m.Kind)
		}
	}
	return l
}

// LoadProgress reads a file; one that is not there is an empty progress.
func LoadProgress(path string) (*Progress, error) {
	p := &Progress{Schema: ProgressSchema, Exercises: []Exercise{}}
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return p, nil
	}
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal(text, p); err != nil {
		return nil, fmt.Errorf("%s is not a progress file: %w", path, err)
	}
	if p.Schema != ProgressSchema {
		return nil, fmt.Errorf("%s has schema %d, known is %d", path, p.Schema, ProgressSchema)
	}
	return p, nil
}

// Save writes the file whole or not at all: beside it first, then in its place.
func (p *Progress) Save(path string) error {
	text, err := json.MarshalIndent(p, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".progress-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already when all went well
	_, err = f.Write(append(text, '\n'))
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// Standing is how a student stands with one family of complaints.
type Standing struct {
	Family    string  `json:"family"`
	Exercises int     `json:"exercises"`
	Right     int     `json:"right"`
	Mark      float64 `json:"mark"`  // mean
	Brier     float64 `json:"brier"` // mean
	Ratio     float64 `json:"ratio"` // minutes to a cured machine over the planner's, all exercises together
}

// Confusion is a fault that was taken for another.
type Confusion struct {
	Truth string `json:"truth"`
	Named string `json:"named"`
	Times int    `json:"times"`
}

// Review is what the exercises say together.
type Review struct {
	Exercises  int         `json:"exercises"`
	Right      int         `json:"right"`
	Mark       float64     `json:"mark"` // mean
	Late       float64     `json:"late"` // mean of the last five
	Brier      float64     `json:"brier"`
	Log        float64     `json:"log_nat"`
	Top3       int         `json:"top3"` // the truth among the first three of the forecast
	Ratio      float64     `json:"ratio"`
	Stated     float64     `json:"stated"`     // mean confidence, to be held against Right / Exercises
	Standings  []Standing  `json:"standings"`  // weakest first
	Confusions []Confusion `json:"confusions"` // most frequent first
	Mistakes   []Counted   `json:"mistakes"`   // most frequent first
}

// Counted is a kind of mistake with the exercises it was made in.
type Counted struct {
	Kind  MistakeKind `json:"kind"`
	Times int         `json:"times"`
}

// Review sums the exercises up.
func (p *Progress) Review() Review {
	r := Review{Exercises: len(p.Exercises)}
	var spent, par float64
	families, confused, made := map[string]*tally{}, map[[2]string]int{}, map[MistakeKind]int{}
	for i, l := range p.Exercises {
		n := float64(len(p.Exercises))
		r.Mark, r.Brier, r.Log, r.Stated = r.Mark+l.Mark/n, r.Brier+l.Brier/n, r.Log+l.Log/n, r.Stated+l.Stated/n
		spent, par = spent+l.ToCure, par+l.Par
		if late := min(5, len(p.Exercises)); i >= len(p.Exercises)-late {
			r.Late += l.Mark / float64(late)
		}
		if l.Place >= 1 && l.Place <= 3 {
			r.Top3++
		}
		if l.Right {
			r.Right++
		} else if len(l.Truth) > 0 {
			confused[[2]string{l.Truth[0], l.Named}]++
		}
		for _, m := range l.Mistakes {
			made[m]++
		}
		if families[l.Family] == nil {
			families[l.Family] = &tally{}
		}
		families[l.Family].add(l)
	}
	r.Ratio = ratio(spent, par)
	for id, x := range families {
		r.Standings = append(r.Standings, x.standing(id))
	}
	for pair, n := range confused {
		r.Confusions = append(r.Confusions, Confusion{pair[0], pair[1], n})
	}
	for kind, n := range made {
		r.Mistakes = append(r.Mistakes, Counted{kind, n})
	}
	r.sort()
	return r
}

// sort brings what came out of maps into an order of its own.
func (r *Review) sort() {
	sort.Slice(r.Standings, func(i, k int) bool {
		a, b := r.Standings[i], r.Standings[k]
		return a.Mark < b.Mark || a.Mark == b.Mark && a.Family < b.Family
	})
	sort.Slice(r.Confusions, func(i, k int) bool {
		a, b := r.Confusions[i], r.Confusions[k]
		return a.Times > b.Times || a.Times == b.Times && a.Truth+" "+a.Named < b.Truth+" "+b.Named
	})
	sort.Slice(r.Mistakes, func(i, k int) bool {
		a, b := r.Mistakes[i], r.Mistakes[k]
		return a.Times > b.Times || a.Times == b.Times && a.Kind < b.Kind
	})
}

type tally struct {
	exercises, right       int
	mark, brier, cure, par float64
}

func (t *tally) add(l Exercise) {
	t.exercises++
	if l.Right {
		t.right++
	}
	t.mark, t.brier, t.cure, t.par = t.mark+l.Mark, t.brier+l.Brier, t.cure+l.ToCure, t.par+l.Par
}

func (t *tally) standing(id string) Standing {
	n := float64(t.exercises)
	return Standing{id, t.exercises, t.right, t.mark / n, t.brier / n, ratio(t.cure, t.par)}
}

func ratio(a, b float64) float64 {
	if b <= 0 {
		return 1
	}
	return a / b
}

// Leaning says what the next case should be about.
type Leaning struct {
	Families map[string]float64 // weight of each family that has been practised; 1 for the others
	Causes   map[string]float64 // the same for causes
}

// How the next case leans.
const (
	weakness  = 3.0 // a family that was always done badly comes up this much more often, on top of 1
	confusing = 4.0 // the same for a fault that was taken for another, and for what it was taken for
	recent    = 12  // exercises that count
)

// Leaning works out where the student is weak, from the latest exercises.
func (p *Progress) Leaning() Leaning {
	lean := Leaning{map[string]float64{}, map[string]float64{}}
	last := &Progress{Exercises: p.Exercises[max(0, len(p.Exercises)-recent):]}
	r := last.Review()
	for _, s := range r.Standings {
		lean.Families[s.Family] = 1 + weakness*(1-min(100, max(0, s.Mark))/100)
	}
	for _, c := range r.Confusions {
		lean.Causes[c.Truth] = 1 + confusing*float64(c.Times)
		lean.Causes[c.Named] = max(lean.Causes[c.Named], 1+confusing*float64(c.Times)/2)
	}
	// What was done well not long ago need not come again at once.
	for _, l := range last.Exercises {
		if l.Right && l.Mark >= 80 && len(l.Truth) > 0 && lean.Causes[l.Truth[0]] == 0 {
			lean.Causes[l.Truth[0]] = 0.25
		}
	}
	return lean
}

// weight of a cause or a family, 1 when nothing is known.
func weight(of map[string]float64, id string) float64 {
	if w, ok := of[id]; ok {
		return w
	}
	return 1
}

// NextSeed is the seed of the next case when none is asked for: the same as
// long as the progress is.
func (p *Progress) NextSeed() uint64 { return uint64(len(p.Exercises)) + 1 }
