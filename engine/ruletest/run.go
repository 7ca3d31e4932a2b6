package ruletest

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// Run reads every *_test.yaml of a rules folder and runs its tests against the
// set. Problems are about the files; failures are about what the rules do.
func Run(fsys fs.FS, cat *catalog.Catalog, set *rule.Set) (*Report, source.Problems) {
	files, ps := source.DecodeFolder[testFile](fsys, rule.IsTest)
	r := &runner{cat: cat, set: set, derived: derive.New(cat, set, cat.Vocabulary()), ps: &ps, report: &Report{
		fires: map[string]bool{}, quiet: map[string]bool{}, clauses: map[string][2]bool{},
	}}
	for _, f := range files {
		for i := range f.Tests {
			r.run(&f.Tests[i])
		}
	}
	ps.Sort()
	return r.report, ps
}

type runner struct {
	cat     *catalog.Catalog
	set     *rule.Set
	derived *derive.Table
	ps      *source.Problems
	report  *Report
	test    *Test
	failed  bool
}

func (r *runner) fail(format string, args ...any) {
	r.failed = true
	r.report.Failures = append(r.report.Failures, Failure{r.test.Pos, r.test.Name, fmt.Sprintf(format, args...)})
}

func (r *runner) run(t *Test) {
	r.test, r.failed = t, false
	r.report.Tests++
	r.names(t)
	var bare, given, full fact.Set
	if t.Given != nil {
		intake.ParseFacts(t.Given, r.cat, &given, r.ps)
	}
	full = given.Clone()
	var said []intake.Observation
	if t.Signs != nil {
		said = intake.ParseSigns(t.Signs, r.cat, &full, r.ps)
	}
	if t.Readings != nil {
		intake.ParseReadings(t.Readings, r.cat, &full, r.ps)
	}
	intake.ParseStack(t.Stack, r.cat, &full, r.ps)
	seen := t.Signs != nil || t.Readings != nil || t.Stack != nil
	if seen {
		bare = given
	}
	after, err := r.state(full, said)
	if err != nil {
		r.fail("%v", err)
		return
	}
	before, err := r.state(bare, nil)
	if err != nil {
		r.fail("%v", err)
		return
	}
	r.expect(t, before, after)
	if !r.failed {
		r.report.Passed++
	}
}

// names checks that every id a test mentions exists.
func (r *runner) names(t *Test) {
	var rules, causes []string
	for _, x := range r.set.Rules {
		rules = append(rules, x.ID)
	}
	for _, x := range r.cat.Causes {
		causes = append(causes, x.ID)
	}
	know := func(list []source.Text, what string, known []string) {
		for _, id := range list {
			if !slices.Contains(known, id.Value) {
				r.ps.Errorf("R201", id.Pos, len(id.Value), "unknown %s %q", what, id.Value).Hint = source.DidYouMean(id.Value, known)
			}
		}
	}
	for _, list := range [][]source.Text{t.Fires, t.Quiet, t.Waits} {
		know(list, "rule", rules)
	}
	know(t.Up, "cause", causes)
	know(t.Down, "cause", causes)
	if t.Top.Value != "" {
		know([]source.Text{t.Top}, "cause", causes)
	}
	if len(t.Fires)+len(t.Quiet)+len(t.Waits)+len(t.Up)+len(t.Down) == 0 && t.Top.Value == "" {
		r.ps.Errorf("R202", t.Pos, 1, "test %q expects nothing", t.Name)
	}
}

// state is the beliefs under one set of values.
type state struct {
	firings map[string]rule.Firing
	net     *network.Network
	cond    *belief.Conditioned
	causes  map[string]float64
	result  *belief.Result // filled when a link is asked for
}

func (r *runner) state(known fact.Set, said []intake.Observation) (*state, error) {
	firings := r.set.Fire(r.derived.Fill(known))
	r.derived.Settle(firings, known)
	net, err := network.Build(r.cat, r.set, firings)
	if err != nil {
		return nil, err
	}
	var evidence []network.Evidence
	for _, o := range said {
		evidence = append(evidence, network.Evidence{Sign: o.Sign, Answer: o.Answer, Present: o.Present, Absent: o.Absent})
	}
	evidence = net.Evidence(evidence, r.set, firings)
	s := &state{firings: map[string]rule.Firing{}, net: net, causes: map[string]float64{}}
	for _, f := range firings {
		s.firings[f.Rule] = f
		for _, c := range f.Clauses {
			r.report.see(f.Rule, c)
		}
	}
	if s.cond, err = belief.ConditionKeeping(net.Graph, network.Findings(evidence), net.Of(fact.RoleCause), belief.DefaultBudget); err != nil {
		return nil, err
	}
	places := net.Of(fact.RoleCause)
	posteriors, err := s.cond.Posteriors(places)
	if err != nil {
		return nil, err
	}
	for i, v := range places {
		s.causes[net.Variables[v].ID] = posteriors[i]
	}
	return s, nil
}

func (rep *Report) see(ruleID string, c rule.Clause) {
	key := ruleID + ": " + c.Text
	seen := rep.clauses[key]
	switch c.Verdict {
	case rule.Yes:
		seen[0] = true
	case rule.No:
		seen[1] = true
	case rule.Soft:
		seen = [2]bool{true, true}
	}
	rep.clauses[key] = seen
}

var errNoLink = errors.New("the link is not in the graph: its cause is ruled out here")

// share is P(the link of a rule acted).
func (s *state) share(id string) (float64, error) {
	if s.result == nil {
		result, err := s.cond.Result()
		if err != nil {
			return 0, err
		}
		s.result = &result
	}
	for _, l := range s.net.Links {
		if l.Rule == id {
			return s.result.Shares[l.To][l.Slot], nil
		}
	}
	return 0, errNoLink
}

// Smaller changes than this are rounding.
const stir = 1e-9

func (r *runner) expect(t *Test, before, after *state) {
	for _, id := range t.Fires {
		r.report.fires[id.Value] = true
		r.fires(id.Value, before, after)
	}
	for _, id := range t.Quiet {
		r.report.quiet[id.Value] = true
		r.quiet(id.Value, before, after)
	}
	for _, id := range t.Waits {
		if f := after.firings[id.Value]; f.Verdict != rule.Unknown {
			r.fail("%s should wait, but its condition says %s", id.Value, f.Verdict)
		}
	}
	for _, id := range t.Up {
		if b, a := before.causes[id.Value], after.causes[id.Value]; a <= b+stir {
			r.fail("%s should become more probable, but goes from %.4f to %.4f", id.Value, b, a)
		}
	}
	for _, id := range t.Down {
		if b, a := before.causes[id.Value], after.causes[id.Value]; a >= b-stir {
			r.fail("%s should become less probable, but goes from %.4f to %.4f", id.Value, b, a)
		}
	}
	r.top(t.Top.Value, after)
}

func (r *runner) top(want string, after *state) {
	if want == "" {
		return
	}
	best := ""
	for _, c := range r.cat.Causes {
		if best == "" || after.causes[c.ID] > after.causes[best] {
			best = c.ID
		}
	}
	if best != want {
		r.fail("%s should be first (%.3f), but %s is (%.3f)", want, after.causes[want], best, after.causes[best])
	}
}

func (r *runner) fires(id string, before, after *state) {
	rl, ok := r.set.Rule(id)
	if !ok {
		return // reported with the names
	}
	if rl.When != nil {
		if f := after.firings[id]; f.Verdict != rule.Yes && !(f.Verdict == rule.Soft && f.Probability >= 0.5) {
			r.fail("%s should fire, but its condition says %s%s", id, f.Verdict, waits(f))
		}
		return
	}
	r.moves(id, before, after, +1)
}

func (r *runner) quiet(id string, before, after *state) {
	rl, ok := r.set.Rule(id)
	if !ok {
		return
	}
	if rl.When != nil {
		if f := after.firings[id]; f.Verdict != rule.No && !(f.Verdict == rule.Soft && f.Probability < 0.5) {
			r.fail("%s should be quiet, but its condition says %s%s", id, f.Verdict, waits(f))
		}
		return
	}
	r.moves(id, before, after, -1)
}

func waits(f rule.Firing) string {
	if len(f.Waits) == 0 {
		return ""
	}
	return " (waits for " + strings.Join(f.Waits, ", ") + ")"
}

// moves compares how probable it is that a link acted. A link whose cause is
// ruled out never acts: that is quiet enough.
func (r *runner) moves(id string, before, after *state, sign float64) {
	a, err := after.share(id)
	if errors.Is(err, errNoLink) && sign < 0 {
		return
	}
	b, errB := before.share(id)
	if err = errors.Join(err, errB); err != nil {
		r.fail("%s: %v", id, err)
		return
	}
	if sign*(a-b) <= stir {
		r.fail("the link of %s should become %s probable to have acted, but goes from %.4f to %.4f", id, map[float64]string{1: "more", -1: "less"}[sign], b, a)
	}
}
