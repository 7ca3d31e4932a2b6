package interview

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// A longer look: -interviews 48.
var interviews = flag.Int("interviews", 6, "simulated interviews on the shipped pack")

func pack(t testing.TB, root string) Situation {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS(filepath.Join(root, "knowledge")))
	words := cat.Vocabulary()
	set, more := rule.Load(os.DirFS(filepath.Join(root, "rules")), words)
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	return Situation{Catalog: cat, Rules: set, Words: words, Derived: derive.New(cat, set, words), Case: &intake.Case{}}
}

// owner is a simulated owner beside a simulated machine.
type owner struct {
	Situation
	m *sample.Machine
}

func newOwner(s Situation, m *sample.Machine) *owner {
	o := &owner{Situation: s, m: m}
	o.Case = &intake.Case{Known: m.Sheet.Clone()}
	o.SheetElsewhere, o.Skipped = true, map[string]bool{}
	return o
}

// answer says the truth.
func (o *owner) answer(q Question) {
	c := *o.Case
	c.Known = c.Known.Clone()
	c.Observations = slices.Clone(c.Observations)
	switch q.Kind {
	case Complaint:
		for _, a := range o.m.Complaints() {
			if s, _ := o.Catalog.Sign(a.Sign); a.Yes && !slices.Contains(o.Families, s.Family) {
				o.Families = append(o.Families, s.Family)
			}
		}
	case Sign, Signs:
		var said []sample.Answer
		for _, id := range q.Signs {
			said = append(said, sample.Answer{Sign: id, Yes: o.m.Has(id)})
		}
		c.Observations = append(c.Observations, sample.Observe(&c.Known, said)...)
	case Fact:
		if v, ok := o.m.History.Get(q.ID); ok {
			c.Known.Put(q.ID, v)
		} else {
			o.Skipped[q.ID] = true
		}
	case Reading:
		if v, ok := o.m.Readings(q.Check)[q.ID]; ok {
			c.Known.Put(q.ID, v)
		} else {
			o.Skipped[q.ID] = true
		}
	}
	o.Case = &c
}

// inOrder asks in the order of the knowledge: the complaint, its signs until
// one is there, then everything from top to bottom.
func inOrder(s Situation) (Question, Standing, error) {
	return onList(s, func(d *desk) []Question { return d.all() })
}

// signsFirst asks for every sign before the history.
func signsFirst(s Situation) (Question, Standing, error) {
	return onList(s, func(d *desk) []Question { return slices.Concat(d.remembered(), d.facts(), d.checks()) })
}

func onList(s Situation, list func(*desk) []Question) (Question, Standing, error) {
	d := newDesk(s)
	k, err := newScale(d)
	if err != nil {
		return Question{}, Standing{}, err
	}
	all := list(d)
	var st Standing
	st.First, st.Share = k.first()
	if q, ok := d.complaint(); ok {
		return q, st, nil
	}
	if narrow := d.narrow(all); len(narrow) > 0 {
		return narrow[0], st, nil
	}
	switch {
	case st.Share >= settledAt && d.complains():
		st.End = Settled
	case len(all) == 0:
		st.End = Nothing
	default:
		return all[0], st, nil
	}
	return Question{}, st, nil
}

// tally is how interviews with one order of questions went.
type tally struct {
	asked   int // questions in all
	need    int // until the true cause was first for good, or all when it never was
	right   int // interviews that end with the true cause first
	sure    int // questions until some cause had 0.8, or all
	minutes float64
	slowest time.Duration
}

func (x *tally) run(t testing.TB, s Situation, m *sample.Machine, next func(Situation) (Question, Standing, error)) {
	o := newOwner(s, m)
	var course []Standing
	for {
		at := time.Now()
		q, st, err := next(o.Situation)
		if err != nil {
			t.Fatal(err)
		}
		x.slowest = max(x.slowest, time.Since(at))
		course = append(course, st)
		if st.End != "" {
			break
		}
		o.answer(q)
		x.minutes += q.Minutes
	}
	n := len(course) - 1
	x.asked += n
	if course[n].First == m.Fault {
		x.right++
	}
	need := len(course)
	for need > 0 && course[need-1].First == m.Fault {
		need--
	}
	x.need += min(need, n)
	sure := slices.IndexFunc(course[1:], func(st Standing) bool { return st.Share >= 0.8 }) + 1
	if sure == 0 {
		sure = n
	}
	x.sure += sure
}

func (x tally) log(t *testing.T, name string, n int) {
	per := func(k int) float64 { return float64(k) / float64(n) }
	t.Logf("%-12s %4.1f questions, %3.0f minutes; right %.2f, for good after %4.1f, sure after %4.1f; slowest choice %v",
		name, per(x.asked), x.minutes/float64(n), per(x.right), per(x.need), per(x.sure), x.slowest.Round(time.Millisecond))
}

// The right cause comes first for good after at most two thirds of the questions
// that asking down the list takes, whether the list begins with the history or
// with the signs. All stop by the same rule: the first cause is settled, or no
// question is left; ours alone leaves out what is not worth asking.
func TestInterviewNeedsFewerQuestions(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	s := pack(t, "../..")
	draw, err := sample.New(s.Catalog, s.Rules, s.Words, sheets(t, s.Catalog), sample.Manner{Told: 1e-9, Complaints: 4, Denied: 3})
	if err != nil {
		t.Fatal(err)
	}
	var ours, list, signs tally
	for i := range *interviews {
		m, err := draw.Draw(7, i)
		if err != nil {
			t.Fatal(err)
		}
		ours.run(t, s, m, Next)
		list.run(t, s, m, inOrder)
		signs.run(t, s, m, signsFirst)
	}
	ours.log(t, "interview", *interviews)
	list.log(t, "in order", *interviews)
	signs.log(t, "signs first", *interviews)
	if least := min(list.need, signs.need); 3*ours.need > 2*least || 3*ours.sure > 2*min(list.sure, signs.sure) {
		t.Errorf("%d questions for good and %d to be sure, want at most two thirds of %d and %d", ours.need, ours.sure, least, min(list.sure, signs.sure))
	}
	// two standard deviations of a paired difference when one interview in four ends otherwise
	if chance := int(math.Sqrt(float64(*interviews))); ours.right+chance < max(list.right, signs.right) {
		t.Errorf("right in %d, asking everything in %d and %d", ours.right, list.right, signs.right)
	}
}

func sheets(t *testing.T, cat *catalog.Catalog) []fact.Set {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/machines/*.yaml")
	if err != nil || len(paths) == 0 {
		t.Fatal(paths, err)
	}
	var all []fact.Set
	for _, path := range paths {
		_, known, ps := intake.LoadMachine(path, cat)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		all = append(all, known)
	}
	return all
}
