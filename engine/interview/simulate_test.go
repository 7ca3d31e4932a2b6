package interview

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"syscall"
	"testing"
	"time"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// A longer look: -interviews 200.
var interviews = flag.Int("interviews", 0, "simulated interviews on the shipped pack")
var fileOrder = flag.Int("fileorder", 0, "variant")

func pack(t testing.TB, root string) Situation {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS(filepath.Join(root, "knowledge")))
	words := cat.Vocabulary()
	set, more := rule.Load(os.DirFS(filepath.Join(root, "rules")), words)
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	return Situation{Catalog: cat, Rules: set, Words: words, Case: &intake.Case{}}
}

// owner is a simulated owner beside a simulated machine.
type owner struct {
	Situation
	m       *sample.Machine
	asked   int
	minutes float64
}

func newOwner(t testing.TB, s Situation, m *sample.Machine) *owner {
	o := &owner{Situation: s, m: m}
	o.Case = &intake.Case{Known: m.Sheet.Clone()}
	o.SheetElsewhere, o.Skipped = true, map[string]bool{}
	return o
}

// answer says the truth.
func (o *owner) answer(q Question) {
	o.asked++
	o.minutes += q.Minutes
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
	d := newDesk(s)
	k, err := newScale(d)
	if err != nil {
		return Question{}, Standing{}, err
	}
	all := d.all()
	if *fileOrder == 1 {
		all = slices.Concat(d.remembered(), d.facts(), d.checks())
	}
	var st Standing
	st.First, st.Share = k.first()
	if q, ok := d.complaint(); ok {
		return q, st, nil
	}
	if narrow := d.narrow(all); len(narrow) > 0 {
		return narrow[0], st, nil
	}
	if st.Share >= settledAt && d.complains() {
		st.End = Settled
	} else if len(all) == 0 {
		st.End = Nothing
	} else {
		return all[0], st, nil
	}
	return Question{}, st, nil
}

func cpu() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

type asker func(Situation) (Question, Standing, error)

// run returns, for each number of questions asked, the first cause then.
func run(t testing.TB, o *owner, next asker, limit int) (firsts []Standing, times []time.Duration) {
	for {
		at := cpu()
		q, st, err := next(o.Situation)
		if err != nil {
			t.Fatal(err)
		}
		times = append(times, cpu()-at)
		firsts = append(firsts, st)
		if st.End != "" || o.asked == limit {
			return
		}
		o.answer(q)
	}
}

func TestExperiment(t *testing.T) {
	if *interviews == 0 {
		t.Skip("for tuning")
	}
	s := pack(t, "../..")
	paths, _ := filepath.Glob("../../testdata/machines/*.yaml")
	var sheets []fact.Set
	for _, p := range paths {
		_, known, _ := intake.LoadMachine(p, s.Catalog)
		sheets = append(sheets, known)
	}
	draw, err := sample.New(s.Catalog, s.Rules, s.Words, sheets, sample.Manner{Told: 1e-9, Complaints: 4, Denied: 3})
	if err != nil {
		t.Fatal(err)
	}
	var ms []*sample.Machine
	for i := range *interviews {
		m, err := draw.Draw(7, i)
		if err != nil {
			t.Fatal(err)
		}
		ms = append(ms, m)
	}
	try := func(name string, next asker, limit int) {
		asked, right, settled, minutes, need, reached, conf, confright := 0, 0, 0, 0.0, 0, 0, 0, 0
		slow := time.Duration(0)
		at := time.Now()
		for _, m := range ms {
			o := newOwner(t, s, m)
			f, ts := run(t, o, next, limit)
			slow = max(slow, slices.Max(ts))
			last := f[len(f)-1]
			asked += o.asked
			minutes += o.minutes
			if last.First == m.Fault {
				right++
			}
			if last.End == Settled {
				settled++
			}
			k := len(f)
			for k > 0 && f[k-1].First == m.Fault {
				k--
			}
			if k < len(f) {
				reached++
			}
			need += min(k, o.asked)
			for k, st := range f {
				if st.Share >= 0.8 && k > 2 || k == len(f)-1 {
					conf += k
					if st.First == m.Fault {
						confright++
					}
					break
				}
			}
		}
		n := float64(len(ms))
		fmt.Printf("%-40s asked %.1f right %.2f settled %.2f minutes %.0f  need %.1f; to 0.8: %.1f right %.2f (%v, slowest %v)\n", name, float64(asked)/n, float64(right)/n, float64(settled)/n, minutes/n, float64(need)/n, float64(conf)/n, float64(confright)/n, time.Since(at), slow)
	}
	for _, w := range []float64{0.05, 0.03, 0.02} {
		worth = w
		try(fmt.Sprintf("ours worth %g", w), Next, 200)
	}
	try("in order", inOrder, 200)
	*fileOrder = 1
	try("in order, signs first", inOrder, 200)
}
