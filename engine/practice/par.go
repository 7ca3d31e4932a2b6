package practice

import (
	"slices"

	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
)

// Par is the planner's own way through a scenario, from what was told unasked
// to the fault, as a measure for the student's.
type Par struct {
	Moves   []Move      `json:"moves"`
	Named   []Candidate `json:"named"`   // in the order found, with the probability at that time
	Minutes float64     `json:"minutes"` // checks and openings
	ToCure  float64     `json:"to_cure"` // the same with the repairs and trying out
	Wrong   int         `json:"wrong"`   // repairs that cured nothing
	Gave    bool        `json:"gave_up"`
}

// TryOutMinutes is what it takes to try the machine after a repair (common
// practice).
const TryOutMinutes = 8.0

// Bounds of the planner's way.
const (
	worthAsk   = 0.03 // of a cause, for its history to be asked
	mostRecall = 5
)

// Walk lets the planner work on a scenario: it first asks for the history that
// rules about likely causes wait for, then follows its own advice. Its questions
// and checks cost what the student's do.
func (b Book) Walk(s *Scenario) (Par, error) { return b.Begin(s).walkOn(thorough) }

// bounds end a walk: it is given up when it takes more.
type bounds struct {
	moves, wrong int
	strict       bool // also when a step would be too dear to judge exactly
}

var thorough = bounds{moves: 45, wrong: 4}

// walkOn is Walk from where a student stands.
func (t *Session) walkOn(most bounds) (Par, error) {
	w := walker{Session: t, most: most, from: len(t.Moves), minutes: t.Now.Minutes}
	err := w.work()
	w.par.Moves = t.Moves[w.from:]
	w.par.Minutes = t.Now.Minutes - w.minutes - w.repairs
	w.par.ToCure = t.Now.Minutes - w.minutes
	return w.par, err
}

type walker struct {
	*Session
	par     Par
	most    bounds
	from    int
	minutes float64 // before the walk
	repairs float64
}

func (w *walker) work() error {
	if err := w.askHistory(); err != nil {
		return err
	}
	for len(w.Moves)-w.from < w.most.moves && w.par.Wrong <= w.most.wrong {
		v, err := w.view()
		if err != nil {
			return err
		}
		if w.most.strict && len(v.Left) > 0 {
			break
		}
		c, err := w.Book.Course(w.Now, v)
		if err != nil {
			return err
		}
		if c.Next.Kind == plan.Service {
			break
		}
		if check := w.check(c.Next); check != "" {
			if err := w.goDo(check); err != nil {
				return err
			}
			continue
		}
		if w.repair(c.Next.Cause, v) {
			return nil
		}
	}
	w.par.Gave = true
	return nil
}

func (w *walker) view() (*View, error) {
	if w.most.strict {
		return w.Book.view(w.Now, brisk)
	}
	return w.Book.View(w.Now)
}

// check is the check that a proposal would do, or "" when what is left is to put
// a cause right.
func (w *walker) check(p plan.Proposal) string {
	if p.Confirmed || p.Check == "" || slices.Contains(w.Now.Done, p.Check) {
		return ""
	}
	return p.Check
}

// goDo does a check and opens what has to be opened.
func (w *walker) goDo(check string) error {
	c, _ := w.Book.Catalog.Check(check)
	if stages, minutes := w.Opens(c.Stage); len(stages) > 0 && minutes > ShortOpening {
		if _, err := w.Open(c.Stage); err != nil {
			return err
		}
	}
	_, err := w.Do(check)
	return err
}

// repair puts a cause right and tries the machine. It reports whether that was
// the last of the faults.
func (w *walker) repair(cause string, v *View) bool {
	w.par.Named = append(w.par.Named, Candidate{cause, v.Of(cause)})
	minutes := w.RepairMinutes(cause)
	w.repairs += minutes
	w.Now.Minutes += minutes
	c, _ := w.Book.Catalog.Cause(cause)
	opened, _ := w.Opens(c.Stage)
	w.Now.Paid = append(w.Now.Paid, opened...)
	if !w.Scenario.Fault(cause) && !w.Scenario.Damage(cause) {
		w.par.Wrong++
		w.Now.Said = append(w.Now.Said, yes(cause, false))
		return false
	}
	w.Now.Found = append(w.Now.Found, cause)
	return !slices.ContainsFunc(w.Scenario.Truth, func(id string) bool { return !has(w.Now.Found, id) })
}

// Solved reports whether the planner found every fault without putting anything
// right in vain, and was surer of each than not.
func (p Par) Solved() bool {
	return !p.Gave && p.Wrong == 0 && !slices.ContainsFunc(p.Named, func(c Candidate) bool { return c.Probability < 0.5 })
}

// RepairMinutes is what putting a cause right takes from here: getting there,
// the remedy, trying it out.
func (t *Session) RepairMinutes(cause string) float64 {
	c, _ := t.Book.Catalog.Cause(cause)
	_, minutes := t.Opens(c.Stage)
	return minutes + c.Remedy.Minutes + TryOutMinutes
}

// askHistory asks for the facts that rules about likely causes wait for.
func (w *walker) askHistory() error {
	for range mostRecall {
		v, err := w.view()
		if err != nil {
			return err
		}
		next := ""
		for _, id := range w.Book.Waits(v) {
			// What makes sense only after another answer is asked after it.
			f, _ := w.Book.Catalog.Fact(id)
			if !w.made(Recall, id) && (f.Needs == "" || w.Book.Holds(f.Needs, w.Now.Known)) {
				next = id
				break
			}
		}
		if next == "" {
			return nil
		}
		if _, err := w.Recall(next); err != nil {
			return err
		}
	}
	return nil
}

// Waits lists facts of the history that rules about likely causes wait for,
// those about the likeliest first.
func (b Book) Waits(v *View) []string {
	var out []string
	for _, c := range v.InPlay() {
		if c.Probability < worthAsk {
			break
		}
		for i, f := range v.Firings {
			r := b.Rules.Rules[i]
			if f.Verdict != rule.Unknown || r.Action == rule.Shows || r.Action == rule.Cautions || !has(r.Touches(), c.Cause) {
				continue
			}
			for _, id := range f.Waits {
				if x, ok := b.Catalog.Fact(id); ok && x.ID == id && !has(out, id) {
					out = append(out, id)
				}
			}
		}
	}
	return out
}

// has reports whether id is in the list.
func has(list []string, id string) bool { return slices.Contains(list, id) }
