package sample_test

import (
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

func shipped(t testing.TB, manner sample.Manner) (*sample.Sampler, *catalog.Catalog, *rule.Set) {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS("../../knowledge"))
	set, more := rule.Load(os.DirFS("../../rules"), cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	paths, _ := filepath.Glob("../../testdata/machines/*.yaml")
	var sheets []fact.Set
	for _, path := range paths {
		_, known, ps := intake.LoadMachine(path, cat)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		sheets = append(sheets, known)
	}
	s, err := sample.New(cat, set, cat.Vocabulary(), sheets, manner)
	if err != nil {
		t.Fatal(err)
	}
	return s, cat, set
}

func drawn(t testing.TB, s *sample.Sampler, seed uint64, i int) *sample.Machine {
	t.Helper()
	m, err := s.Draw(seed, i)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// everything is all that can be learnt of a machine.
func everything(cat *catalog.Catalog, m *sample.Machine) []any {
	out := []any{m.Case(), m.Fault, m.Causes, m.History}
	for _, c := range cat.Checks {
		out = append(out, m.Answers(c.ID), m.Readings(c.ID))
	}
	return out
}

// A machine is the same whoever draws it and in whatever order it is asked.
func TestMachineIsItsNumber(t *testing.T) {
	s, cat, _ := shipped(t, sample.Usual)
	var first [][]any
	for i := range 6 {
		first = append(first, everything(cat, drawn(t, s, 3, i)))
	}
	again, _, _ := shipped(t, sample.Usual)
	for i := 5; i >= 0; i-- {
		m := drawn(t, again, 3, i)
		m.Readings("measure_linings") // asked for out of turn
		if got := everything(cat, m); !reflect.DeepEqual(got, first[i]) {
			t.Errorf("machine %d differs when drawn again", i)
		}
	}
	if reflect.DeepEqual(everything(cat, drawn(t, s, 4, 0)), first[0]) {
		t.Error("another seed gives the same machine")
	}
}

// Every measured sign says what is so, and most checks with a gauge measure.
func TestReadingsSayWhatIsSo(t *testing.T) {
	s, cat, set := shipped(t, sample.Usual)
	asked, measured := 0, 0
	for i := range 60 {
		m := drawn(t, s, 7, i)
		for _, c := range cat.Checks {
			known := m.Truth.Clone()
			values := m.Readings(c.ID)
			for _, id := range c.Gives {
				v, ok := values[id]
				if r, _ := cat.Reading(id); r.Sense != "none" && limited(m, r) {
					asked++
					if ok {
						measured++
					}
				}
				if ok {
					known.Put(id, v)
				}
			}
			for _, e := range m.Network.Evidence(nil, set, set.Fire(known)) {
				if e.Yes() != m.Has(e.Sign) {
					t.Errorf("machine %d: %s reads %s as %v, it is %v", i, c.ID, e.Sign, e.Present, m.Has(e.Sign))
				}
			}
		}
	}
	// The rest leaves no room: a height that agrees with its limits and not with
	// the plates it is the sum of.
	if measured < asked*90/100 {
		t.Errorf("%d of %d readings with a limit were drawn, want 90 of 100", measured, asked)
	}
}

func limited(m *sample.Machine, r catalog.Reading) bool {
	for _, l := range []string{r.Limit, r.LimitMin, r.LimitMax} {
		if m.Sheet.Known("machine." + l) {
			return true
		}
	}
	return false
}

// A machine complains of its fault, and putting all causes right ends it.
func TestMachineComplainsUntilCured(t *testing.T) {
	s, cat, _ := shipped(t, sample.Usual)
	for i := range 200 {
		m := drawn(t, s, 1, i)
		if !m.Has(m.Fault) || m.Cured() || !m.Cured(m.Causes...) {
			t.Errorf("machine %d: fault %s, causes %v, cured by nothing %v, by all %v", i, m.Fault, m.Causes, m.Cured(), m.Cured(m.Causes...))
		}
		said := m.Complaints()
		if len(said) == 0 || !said[0].Yes {
			t.Errorf("machine %d says %v", i, said)
		}
		for _, a := range said {
			sign, _ := cat.Sign(a.Sign)
			if sign.Kind != "complaint" || a.Yes != m.Has(a.Sign) || !m.Sensible(sign.Needs) {
				t.Errorf("machine %d says %v", i, a)
			}
		}
		known := m.Known()
		for _, id := range known.IDs() {
			c := m.Case()
			v, _ := m.Truth.Get(id)
			if told, _ := c.Known.Get(id); !reflect.DeepEqual(v, told) {
				t.Errorf("machine %d: %s is told as %v, it is %v", i, id, told, v)
			}
		}
	}
}

// Every cause can be drawn on some machine, complaint included.
func TestEveryCauseCanBeDrawn(t *testing.T) {
	s, cat, _ := shipped(t, sample.Usual)
	for i, c := range cat.Causes {
		m, err := s.DrawCause(1, i, c.ID)
		if err != nil {
			t.Error(err)
		} else if m.Fault != c.ID || !m.Has(c.ID) {
			t.Errorf("%s: drawn %s", c.ID, m.Fault)
		}
	}
	if _, err := s.DrawCause(1, 1, "gremlins"); err == nil {
		t.Error("an unknown cause was drawn")
	}
}

const small = `
families: [{id: f, name: f}]
stages: [{id: s, name: s, minutes: 0}]
facts:
  - {id: opened, name: opened, kind: yesno, share: 0.4, question: q}
  - {id: part, name: part, kind: choice, needs: opened, question: q, choices: [{id: x, name: x, share: 0.75}, {id: y, name: y, share: 0.25}]}
  - {id: ridden, name: ridden, kind: quantity, unit: km, usual: {low: 10 km, high: 1000 km}, question: q}
signs:
  - {id: hums, name: hums, absent: a, kind: complaint, family: f, question: q, leak: 1e-9, basis: common practice}
causes:
  - {id: a, name: a, prior: 0.1, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
  - {id: b, name: b, prior: 0.2, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}
`

const smallRules = `
rules:
  - {id: a_hums, cause: a, brings: hums, strength: 0.5, because: b, basis: common practice}
  - {id: b_hums, cause: b, brings: hums, strength: 0.5, because: b, basis: common practice}
  - {id: up, when: opened, raises: {a: 9}, because: b, basis: common practice}
  - {id: late, when: ridden > km(100), rules_out: [b], because: b, basis: common practice}
`

func smallPack(t *testing.T, manner sample.Manner) *sample.Sampler {
	t.Helper()
	cat, ps := catalog.Load(fstest.MapFS{"k.yaml": {Data: []byte(small)}})
	set, more := rule.Load(fstest.MapFS{"r.yaml": {Data: []byte(smallRules)}}, cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	s, err := sample.New(cat, set, cat.Vocabulary(), nil, manner)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Shares worked out by hand. Opened in 0.4 of the machines, then a has odds
// 9 * 0.1/0.9, a prior of 0.5; half of all are ridden past 100 km (the middle
// of a decade each way), then b is ruled out.
func TestHistorySpeaksForTheFault(t *testing.T) {
	s := smallPack(t, sample.Manner{Told: 0.5, Complaints: 1})
	const n = 20000
	count := map[string]float64{}
	for i := range n {
		m := drawn(t, s, 5, i)
		opened, _ := m.History.Get("opened")
		ridden, _ := m.History.Get("ridden")
		part, sensible := m.History.Get("part")
		if sensible != opened.Yes {
			t.Fatalf("part is %v on a machine with opened %v", part, opened)
		}
		add := func(what string, yes bool) {
			if yes {
				count[what]++
			}
		}
		add("opened", opened.Yes)
		add("far", ridden.SI > 100e3)
		add("x", part.Word == "x")
		add("a", m.Fault == "a")
		add("a, opened, near", m.Fault == "a" && opened.Yes && ridden.SI <= 100e3)
		add("b, far", m.Fault == "b" && ridden.SI > 100e3)
		known := m.Known()
		add("told", known.Known("opened"))
		add("part told", known.Known("part"))
		if known.Known("part") && !known.Known("opened") {
			t.Fatal("part is told though it makes sense only after opened")
		}
	}
	// rounding to two digits tells 100 km of what lies up to 105 km
	far := math.Log(1000/105.) / math.Log(100)
	aNear := 0.4*0.5/0.7 + 0.6*0.1/0.3
	near := func(what string, want float64) {
		if got := count[what] / n; math.Abs(got-want) > 4.5*math.Sqrt(want*(1-want)/n) { // four and a half standard errors
			t.Errorf("%s: %.4f, want %.4f", what, got, want)
		}
	}
	near("opened", 0.4)
	near("far", far)
	near("x", 0.4*0.75)
	near("a", far+(1-far)*aNear)
	near("a, opened, near", (1-far)*0.4*0.5/0.7)
	near("told", 0.5)
	near("part told", 0.4*0.5*0.5)
	if count["b, far"] != 0 {
		t.Error("b was drawn though it is ruled out")
	}
}

// A given fault finds the history that suits it: P(opened | a) is
// 0.4*0.5 / (0.4*0.5 + 0.6*0.1), as near as sixteen histories to pick from
// come to it.
func TestGivenFaultFindsItsHistory(t *testing.T) {
	s := smallPack(t, sample.Manner{Told: 1, Complaints: 1})
	const n = 4000
	opened := 0.0
	for i := range n {
		m, err := s.DrawCause(9, i, "a")
		if err != nil {
			t.Fatal(err)
		}
		if v, _ := m.History.Get("opened"); v.Yes {
			opened++
		}
	}
	want := 0.4 * 0.5 / (0.4*0.5 + 0.6*0.1)
	if got := opened / n; math.Abs(got-want) > 0.03 {
		t.Errorf("opened in %.3f of the machines with a, want %.3f", got, want)
	}
}

func TestNoHistory(t *testing.T) {
	s := smallPack(t, sample.Manner{Complaints: 1})
	m := drawn(t, s, 1, 1)
	if known := m.Known(); m.History.Len() != 0 || known.Len() != 0 {
		t.Errorf("history %v", m.History.IDs())
	}
}

// Without a sign of its own a cause never comes in, and that is said.
func TestSilentCause(t *testing.T) {
	cat, _ := catalog.Load(fstest.MapFS{"k.yaml": {Data: []byte(small)}})
	set, _ := rule.Load(fstest.MapFS{"r.yaml": {Data: []byte("rules:\n  - {id: b_hums, cause: b, brings: hums, strength: 0.5, because: b, basis: common practice}\n")}}, cat.Vocabulary())
	s, err := sample.New(cat, set, cat.Vocabulary(), nil, sample.Usual)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.DrawCause(1, 1, "a"); err == nil || !strings.Contains(err.Error(), "cause a") {
		t.Errorf("got %v", err)
	}
}

// What the sampler says shows is what belief would be told.
func TestCaseIsEvidence(t *testing.T) {
	s, cat, set := shipped(t, sample.Usual)
	m := drawn(t, s, 2, 2)
	c := m.Case()
	net, err := network.Build(cat, set, set.Fire(c.Known))
	if err != nil {
		t.Fatal(err)
	}
	var said []network.Evidence
	for _, o := range c.Observations {
		said = append(said, network.Evidence{Sign: o.Sign, Answer: o.Answer, Present: o.Present, Absent: o.Absent})
	}
	if got := net.Evidence(said, set, set.Fire(c.Known)); len(got) != len(m.Complaints()) {
		t.Errorf("evidence %v for %v", got, m.Complaints())
	}
}

func BenchmarkDraw(b *testing.B) {
	s, _, _ := shipped(b, sample.Usual)
	for i := 0; b.Loop(); i++ {
		drawn(b, s, 1, i)
	}
}

func BenchmarkReadings(b *testing.B) {
	s, _, _ := shipped(b, sample.Usual)
	for i := 0; b.Loop(); i++ {
		drawn(b, s, 1, i).Readings("measure_linings")
	}
}
