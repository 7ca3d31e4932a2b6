package network_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

const head = `
families: [{id: f, name: f}]
stages: [{id: s, name: s, minutes: 0}]
facts: [{id: opened, name: opened, kind: yesno, question: q}]
effects:
  - {id: drags, name: drags, what: w, leak: 0.01}
signs:
  - {id: creeps, name: creeps, absent: a, kind: complaint, family: f, question: q, leak: 0.02, basis: common practice}
causes:
`

func build(t require, causes int, rules string, known fact.Set) (*network.Network, *rule.Set, []rule.Firing, error) {
	text := head
	for i := range causes {
		text += fmt.Sprintf("  - {id: c%d, name: c, prior: 0.1, stage: s, look_minutes: 1, what: w, remedy: {do: d, minutes: 1}, basis: common practice}\n", i)
	}
	cat, ps := catalog.Load(fstest.MapFS{"k.yaml": {Data: []byte(text)}})
	set, more := rule.Load(fstest.MapFS{"r.yaml": {Data: []byte("rules:\n" + rules)}}, cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatalf("%v", ps)
	}
	firings := set.Fire(known)
	net, err := network.Build(cat, set, firings)
	return net, set, firings, err
}

type require interface{ Fatalf(string, ...any) }

func brings(id, from, to string, strength float64) string {
	key := "cause"
	if from == "drags" {
		key = "effect"
	}
	return fmt.Sprintf("  - {id: %s, %s: %s, brings: %s, strength: %g, because: b, basis: common practice}\n", id, key, from, to, strength)
}

func opened(yes bool) fact.Set {
	var s fact.Set
	s.Put("opened", fact.Value{Kind: fact.YesNo, Yes: yes})
	return s
}

// History multiplies prior odds; what is ruled out has no prior and no links;
// two rules on one arrow are two independent ways to act.
func TestPriorsAndLinks(t *testing.T) {
	rules := brings("a", "c0", "drags", 0.5) + brings("b", "c0", "drags", 0.4) + brings("c", "c1", "drags", 0.9) + brings("d", "drags", "creeps", 0.8) +
		"  - {id: up, when: opened, raises: {c0: 9}, because: b, basis: common practice}\n" +
		"  - {id: out, when: opened, rules_out: [c1], because: b, basis: common practice}\n"
	net, _, _, err := build(t, 2, rules, opened(true))
	if err != nil {
		t.Fatal(err)
	}
	p, _ := net.PriorOf("c0")
	if math.Abs(p.Now-0.5) > 1e-12 || len(p.Steps) != 1 { // odds 1/9 times 9
		t.Errorf("prior %v", p)
	}
	drags := net.Graph.Variables[net.Index("drags")]
	if len(drags.Parents) != 1 || math.Abs(drags.Strengths[0]-0.7) > 1e-12 { // 1 - .5*.6
		t.Errorf("drags has %v", drags)
	}
	if q, _ := net.PriorOf("c1"); q.RuledOut != "out" || q.Now != 0 {
		t.Errorf("c1 is %v", q)
	}
	if err := net.Graph.Check(); err != nil {
		t.Error(err)
	}
}

func TestRingIsNamed(t *testing.T) {
	_, _, _, err := build(t, 4, brings("a", "c3", "c0", 0.5)+brings("b", "c0", "c1", 0.5)+brings("c", "c1", "c2", 0.5)+brings("d", "c2", "c0", 0.5), fact.Set{})
	var ring *network.CycleError
	if !errors.As(err, &ring) {
		t.Fatalf("got %v", err)
	}
	if text := ring.Error(); strings.Contains(text, "c3") || len(ring.IDs) != 4 || ring.IDs[0] != ring.IDs[3] {
		t.Errorf("the ring is %v", ring.IDs)
	}
}

// Whatever arrows are drawn from lower to higher causes, in whatever order, the
// graph is one that belief accepts.
func TestAnyForestIsAGraph(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rules := brings("last", "drags", "creeps", 0.5)
		name := rapid.Permutation([]int{0, 1, 2, 3, 4}).Draw(t, "names")
		for i := range 5 {
			for j := i + 1; j < 5; j++ {
				if rapid.Bool().Draw(t, "arrow") {
					rules += brings(fmt.Sprintf("r%d_%d", i, j), fmt.Sprintf("c%d", name[i]), fmt.Sprintf("c%d", name[j]), 0.5)
				}
			}
		}
		net, _, _, err := build(t, 5, rules, fact.Set{})
		if err != nil {
			t.Fatal(err)
		}
		if err := net.Graph.Check(); err != nil {
			t.Fatal(err)
		}
	})
}

// Two rules that read one sign off the measurements are one observation.
func TestMeasuredSignCountsOnce(t *testing.T) {
	rules := brings("a", "c0", "creeps", 0.5) +
		"  - {id: x, when: opened, shows: creeps, because: b, basis: common practice}\n" +
		"  - {id: y, when: not opened, shows: creeps, because: b, basis: common practice}\n"
	net, set, firings, err := build(t, 1, rules, opened(true))
	if err != nil {
		t.Fatal(err)
	}
	ev := net.Evidence(nil, set, firings)
	if len(ev) != 1 || ev[0].Rule != "x" || ev[0].Present < 0.9 || ev[0].Answer != "measured" {
		t.Errorf("evidence %+v", ev)
	}
	if both := net.Evidence([]network.Evidence{{Sign: "creeps", Answer: "no", Absent: 1}}, set, firings); len(both) != 2 || both[0].Answer != "no" {
		t.Errorf("evidence %+v", both)
	}
}
