package practice

import (
	"math"
	"sort"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/plan"
)

// Telling is a check that tells two causes apart, with the sign that does most of
// it and how often each of the two, alone on the machine, shows it.
type Telling struct {
	Check   string  `json:"check"`
	Minutes float64 `json:"minutes"` // openings included
	Sign    string  `json:"sign"`
	One     string  `json:"one"`
	Other   string  `json:"other"`
	ByOne   float64 `json:"by_one"`
	ByOther float64 `json:"by_other"`
}

// differs is how far the two are apart, 0 to 1.
func (x Telling) differs() float64 { return math.Abs(x.ByOne - x.ByOther) }

// by notes what would have served.
func (m Mistake) by(x *Telling) Mistake {
	if x != nil {
		m.Check, m.Tells = x.Check, x
	}
	return m
}

// costs is what a check takes in a state, openings included.
func (b Book) costs(s State, c catalog.Check) float64 {
	minutes := c.Minutes
	for _, g := range b.Catalog.StagePath(c.Stage) {
		if !has(s.Paid, g.ID) {
			minutes += g.Minutes
		}
	}
	return minutes
}

// telling is the check that best tells two causes apart and is not done, those
// at the same depth or less before deeper ones; nil for none.
func (b Book) telling(v *View, s State, one, other string) *Telling {
	var all []Telling
	for _, c := range b.Catalog.Checks {
		if has(s.Done, c.ID) || !b.Sensible(c.Needs, s.Known) {
			continue
		}
		if x := b.tells(v, s, c, one, other); x.differs() >= tellsAt {
			all = append(all, x)
		}
	}
	worth := func(x Telling) float64 { return x.differs() / (x.Minutes + 5) }
	sort.SliceStable(all, func(i, k int) bool { return worth(all[i]) > worth(all[k]) })
	if len(all) == 0 {
		return nil
	}
	return &all[0]
}

// tells is how a check's best sign differs between two causes.
func (b Book) tells(v *View, s State, c catalog.Check, one, other string) Telling {
	best := Telling{Check: c.ID, Minutes: b.costs(s, c), One: one, Other: other}
	p, q := v.Network.Brings(v.Network.Index(one)), v.Network.Brings(v.Network.Index(other))
	for _, id := range append(append([]string(nil), c.Settles...), b.readBy(c.Gives)...) {
		if i := v.Network.Index(id); i >= 0 && math.Abs(p[i]-q[i]) > best.differs() {
			best.Sign, best.ByOne, best.ByOther = id, p[i], q[i]
		}
	}
	return best
}

// alike reports whether one cause is taken for the other.
func (b Book) alike(one, other string) bool {
	x, _ := b.Catalog.Cause(one)
	y, _ := b.Catalog.Cause(other)
	return has(x.ConfusedWith, other) || has(y.ConfusedWith, one)
}

// Advice is the planner's next step as a student would pay for it.
type Advice struct {
	Proposal plan.Proposal
	Check    string   // to be done; "" when a cause would be put right, or nothing is left
	Minutes  float64  // of the check, openings included
	Opening  []string // stages to be opened for it that take longer than a moment
	Tells    *Telling // the two leading causes that it sets apart most; nil for none
}

// Advise asks the planner what it would do now.
func (t *Session) Advise() (Advice, error) {
	v, err := t.Book.View(t.Now)
	if err != nil {
		return Advice{}, err
	}
	return t.Book.advise(t.Now, v)
}

func (b Book) advise(s State, v *View) (Advice, error) {
	course, err := b.Course(s, v)
	if err != nil {
		return Advice{}, err
	}
	a := Advice{Proposal: course.Next}
	if a.Proposal.Confirmed || has(s.Done, a.Proposal.Check) {
		return a, nil
	}
	c, ok := b.Catalog.Check(a.Proposal.Check)
	if !ok {
		return a, nil
	}
	a.Check, a.Minutes = c.ID, b.costs(s, c)
	if a.Minutes-c.Minutes > ShortOpening {
		for _, g := range b.Catalog.StagePath(c.Stage) {
			if !has(s.Paid, g.ID) && g.Minutes > 0 {
				a.Opening = append(a.Opening, g.ID)
			}
		}
	}
	a.Tells = b.parts(v, s, c)
	return a, nil
}

// parts is how a check sets apart two of the leading causes, those that it does
// so most; nil when it does not.
func (b Book) parts(v *View, s State, c catalog.Check) *Telling {
	var best *Telling
	lead := v.InPlay()
	lead = lead[:min(len(lead), leading)]
	for i, one := range lead {
		for _, other := range lead[i+1:] {
			x := b.tells(v, s, c, one.Cause, other.Cause)
			if x.ByOther > x.ByOne {
				x.One, x.Other, x.ByOne, x.ByOther = x.Other, x.One, x.ByOther, x.ByOne
			}
			if x.differs() >= tellsAt && (best == nil || x.differs() > best.differs()) {
				best = &x
			}
		}
	}
	return best
}
