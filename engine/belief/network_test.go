package belief

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Published networks and random ones with answers on which several independent
// exact engines agree. They are not part of this module: without the folder
// these tests skip.
const networks = "../../../shared/reference/networks"

func readNetwork(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(networks, name))
	if err != nil {
		t.Skip("no reference networks here:", err)
	}
	return data
}

// bif is a network read from the Bayesian interchange format, as far as these
// files use it. State 1 of a variable counts as present.
type bif struct {
	names  []string
	states map[string][]string
	prob   map[string]bifTable
}

type bifTable struct {
	parents []string
	rows    map[string][]float64 // parents' states joined by commas
}

func parseBIF(text string) (*bif, error) {
	b := &bif{states: map[string][]string{}, prob: map[string]bifTable{}}
	var current string
	lines := bufio.NewScanner(strings.NewReader(text))
	for lines.Scan() {
		fields := strings.FieldsFunc(lines.Text(), func(r rune) bool { return strings.ContainsRune(" \t,;|{}()[]", r) })
		if len(fields) == 0 {
			continue
		}
		switch {
		case fields[0] == "network":
		case fields[0] == "variable":
			current = fields[1]
			b.names = append(b.names, current)
		case fields[0] == "type":
			b.states[current] = fields[3:]
		case fields[0] == "probability":
			current = fields[1]
			b.prob[current] = bifTable{fields[2:], map[string][]float64{}}
		default:
			if err := b.row(current, fields); err != nil {
				return nil, err
			}
		}
	}
	return b, lines.Err()
}

func (b *bif) row(name string, fields []string) error {
	table, ok := b.prob[name]
	if !ok {
		return fmt.Errorf("row before a probability block: %v", fields)
	}
	n := len(table.parents)
	if fields[0] == "table" {
		fields = fields[1:]
	}
	if len(fields) != n+len(b.states[name]) {
		return fmt.Errorf("%s: row of %d fields", name, len(fields))
	}
	var p []float64
	for _, f := range fields[n:] {
		x, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return err
		}
		p = append(p, x)
	}
	table.rows[strings.Join(fields[:n], ",")] = p
	return nil
}

// binary turns a network of two-state variables into a graph with full tables,
// in an order with parents first. It reports false when a variable has more states.
func (b *bif) binary() (Graph, map[string]int, bool) {
	at := map[string]int{}
	var g Graph
	var add func(name string)
	add = func(name string) {
		if _, done := at[name]; done {
			return
		}
		x := Variable{Name: name}
		for _, p := range b.prob[name].parents {
			add(p)
			x.Parents = append(x.Parents, at[p])
		}
		for row := range 1 << len(x.Parents) {
			var key []string
			for i, p := range b.prob[name].parents {
				key = append(key, b.states[p][row>>i&1])
			}
			x.Table = append(x.Table, b.prob[name].rows[strings.Join(key, ",")][1])
		}
		at[name] = len(g.Variables)
		g.Variables = append(g.Variables, x)
	}
	for _, name := range b.names {
		if len(b.states[name]) != 2 {
			return g, at, false
		}
	}
	for _, name := range b.names {
		add(name)
	}
	return g, at, true
}

type networkQuery struct {
	Net       string                        `json:"net"`
	Evidence  map[string]string             `json:"evidence"`
	PEvidence float64                       `json:"p_evidence"`
	Posterior map[string]map[string]float64 `json:"posterior"`
	Agree     string                        `json:"agree"`
}

// Answers agreed by an own elimination, libDAI's junction tree and aGrUM's lazy
// propagation, printed to twelve digits.
func TestReferenceNetworks(t *testing.T) {
	var queries []networkQuery
	if err := json.Unmarshal(readNetwork(t, "check_posteriors.json"), &queries); err != nil {
		t.Fatal(err)
	}
	ran := 0
	for i, q := range queries {
		data, err := os.ReadFile(filepath.Join(networks, q.Net))
		if err != nil {
			continue // not every network of the list is kept
		}
		b, err := parseBIF(string(data))
		if err != nil {
			t.Fatal(q.Net, err)
		}
		g, at, ok := b.binary()
		if !ok {
			continue
		}
		ran++
		t.Run(fmt.Sprintf("%s_%d", q.Net, i), func(t *testing.T) { q.check(t, b, g, at) })
	}
	if ran < 5 {
		t.Errorf("only %d queries on all-binary networks", ran)
	}
}

func (q *networkQuery) check(t *testing.T, b *bif, g Graph, at map[string]int) {
	var e []Finding
	for name, state := range q.Evidence {
		f := No(at[name])
		if b.states[name][1] == state {
			f = Yes(at[name])
		}
		e = append(e, f)
	}
	r := solve(t, g, e...)
	wantNear(t, "P(e)", math.Exp(r.LogEvidence), q.PEvidence, 1e-12)
	for name, states := range q.Posterior {
		wantNear(t, name, r.Posterior[at[name]], states[b.states[name][1]], 1e-11)
	}
}

// Andes has 223 binary variables; nothing is published here to compare with, so
// its answers must satisfy the law of total probability on a variable that
// couples much of it.
func TestAndes(t *testing.T) {
	b, err := parseBIF(string(readNetwork(t, "andes.bif")))
	if err != nil {
		t.Fatal(err)
	}
	g, at, _ := b.binary()
	if len(g.Variables) != 223 {
		t.Fatalf("%d variables, want 223", len(g.Variables))
	}
	e := []Finding{Yes(at["SNode_151"]), No(at["SNode_146"])}
	r := solve(t, g, e...)
	split := at["SNode_20"]
	yes, no := solve(t, g, append(e, Yes(split))...), solve(t, g, append(e, No(split))...)
	p := r.Posterior[split]
	wantNear(t, "P(e, split)", math.Exp(yes.LogEvidence-r.LogEvidence), p, 1e-12)
	for v := range g.Variables {
		wantNear(t, g.Variables[v].Name, r.Posterior[v], p*yes.Posterior[v]+(1-p)*no.Posterior[v], 1e-11)
	}
}

type twoLevelFile struct {
	Causes []struct {
		ID    string  `json:"id"`
		Prior float64 `json:"prior"`
	} `json:"causes"`
	Findings []struct {
		ID    string             `json:"id"`
		Leak  float64            `json:"leak"`
		Links map[string]float64 `json:"links"`
	} `json:"findings"`
	Evidence map[string]bool `json:"evidence"`
}

func (f *twoLevelFile) graph() (g Graph, e []Finding, at map[string]int) {
	at = map[string]int{}
	for _, c := range f.Causes {
		at[c.ID] = len(g.Variables)
		g.Variables = append(g.Variables, Variable{Name: c.ID, Leak: c.Prior})
	}
	for _, s := range f.Findings {
		x := Variable{Name: s.ID, Leak: s.Leak}
		for _, c := range f.Causes {
			if w, ok := s.Links[c.ID]; ok {
				x.Parents = append(x.Parents, at[c.ID])
				x.Strengths = append(x.Strengths, w)
			}
		}
		at[s.ID] = len(g.Variables)
		g.Variables = append(g.Variables, x)
		if yes, seen := f.Evidence[s.ID]; seen && yes {
			e = append(e, Yes(at[s.ID]))
		} else if seen {
			e = append(e, No(at[s.ID]))
		}
	}
	return g, e, at
}

// Random networks of 40 causes and 60 findings with all posteriors and all
// predictions to twelve digits, confirmed by 512-bit arithmetic and four
// independent libraries.
func TestTwoLevelNetworks(t *testing.T) {
	readNetwork(t, "README.md")
	ran := 0
	for _, m := range []int{8, 12, 16, 20} {
		name := fmt.Sprintf("bn2o_40x60_p%02d", m)
		data, err := os.ReadFile(filepath.Join(networks, name+".json"))
		if err != nil {
			continue
		}
		ran++
		t.Run(name, func(t *testing.T) {
			var f twoLevelFile
			if err := json.Unmarshal(data, &f); err != nil {
				t.Fatal(err)
			}
			g, e, at := f.graph()
			r := solve(t, g, e...)
			if n := checkExpected(t, string(readNetwork(t, name+".expected.txt")), r, at); n != 1+len(g.Variables)-len(e) {
				t.Errorf("%d numbers compared, want P(e) and every variable not observed", n)
			}
		})
	}
	if ran < 2 {
		t.Errorf("only %d networks", ran)
	}
}

func checkExpected(t *testing.T, text string, r Result, at map[string]int) int {
	n := 0
	for line := range strings.Lines(text) {
		fields := strings.Fields(line)
		if len(fields) != 3 {
			continue
		}
		want, err := strconv.ParseFloat(fields[2], 64)
		switch {
		case err != nil:
			continue
		case fields[1] == "=":
			wantNear(t, "ln P(e)", r.LogEvidence, math.Log(want), 1e-11)
		case slices.Contains([]string{"cause", "finding"}, fields[0]):
			wantNear(t, fields[1], r.Posterior[at[fields[1]]], want, 1e-12)
		}
		n++
	}
	return n
}
