package practice

import (
	"math"
	"regexp"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
)

// Worth is what a check or a question could have told, worked out before it was
// done.
type Worth struct {
	Bits    float64 `json:"bits"`    // expected fall in entropy over the causes
	Moves   float64 `json:"moves"`   // the most that a result could shift a cause in play, 0 to 1
	Changes bool    `json:"changes"` // a result could put another cause first
}

// What counts as telling nothing: no result shifts a cause by this much.
const idle = 0.01

// A result rarer than this is not what a check is made for.
const unlikely = 0.01

// mostJoint is how many signs of one check are weighed together; of the rest
// each is weighed alone.
const mostJoint = 4

// Idle reports whether no result could have told anything worth knowing.
func (w Worth) Idle() bool { return !w.Changes && w.Moves < idle }

// Worth weighs the signs that a move would settle.
func (b Book) worth(s State, v *View, signs []string) (Worth, error) {
	var open []int
	for _, id := range signs {
		if _, done := s.answered(id); !done && !v.settles(id) && v.Network.Index(id) >= 0 {
			open = append(open, v.Network.Index(id))
		}
	}
	if len(open) == 0 {
		return Worth{}, nil
	}
	keep := append(append([]int(nil), v.order...), open...)
	// The rest of the prediction needs the signs themselves in the program.
	cond, err := belief.ConditionKeeping(v.Network.Graph, v.findings(), keep, patient)
	if err != nil {
		return Worth{}, err
	}
	w := weighing{view: v, cond: cond, before: entropy(v.Causes)}
	for len(open) > 0 {
		n := min(len(open), mostJoint)
		w.joint(open[:n], nil, 1)
		open = open[n:]
	}
	return w.worth, nil
}

func (v *View) findings() []belief.Finding {
	out := make([]belief.Finding, len(v.Evidence))
	for i, e := range v.Evidence {
		out[i] = belief.Finding{Variable: v.Network.Index(e.Sign), Present: e.Present, Absent: e.Absent}
	}
	return out
}

// settles reports whether a reading has settled a sign already.
func (v *View) settles(sign string) bool {
	for _, e := range v.Evidence {
		if e.Sign == sign {
			return true
		}
	}
	return false
}

// weighing adds up what the results of one check would do.
type weighing struct {
	view   *View
	cond   *belief.Conditioned
	before float64
	worth  Worth
}

// joint goes through all results of some signs. What cannot occur adds nothing.
func (w *weighing) joint(open []int, given []belief.Finding, p float64) {
	if len(open) == 0 {
		w.result(given, p)
		return
	}
	chance, err := w.cond.Given(given, open[:1])
	if err != nil {
		return
	}
	for _, branch := range []struct {
		finding belief.Finding
		p       float64
	}{{belief.Yes(open[0]), chance[0]}, {belief.No(open[0]), 1 - chance[0]}} {
		if branch.p > 1e-6 {
			w.joint(open[1:], append(append([]belief.Finding(nil), given...), branch.finding), p*branch.p)
		}
	}
}

func (w *weighing) result(given []belief.Finding, p float64) {
	after, err := w.cond.Given(given, w.view.order)
	if err != nil {
		return
	}
	list := make([]Candidate, len(after))
	best := Candidate{}
	for i, x := range after {
		before, prior := w.view.Causes[i].Probability, w.view.prior[i]
		list[i] = Candidate{w.view.Causes[i].Cause, x}
		if spoken(x, prior) && x > best.Probability {
			best = list[i]
		}
		if p >= unlikely && max(before, x) >= InPlay && (spoken(x, prior) || spoken(before, prior)) {
			w.worth.Moves = max(w.worth.Moves, math.Abs(x-before))
		}
	}
	if p >= unlikely && best.Cause != "" && best.Cause != w.view.First().Cause {
		w.worth.Changes = true
	}
	w.worth.Bits += max(0, p*(w.before-entropy(list)))
}

// entropy is that of the causes as shares of one fault, in bits.
func entropy(list []Candidate) float64 {
	sum := 0.0
	for _, c := range list {
		sum += c.Probability
	}
	if sum <= 0 {
		return 0
	}
	p := make([]float64, len(list))
	for i, c := range list {
		p[i] = c.Probability / sum
	}
	return plan.Entropy(p)
}

// signsOf lists what a check settles on this machine, readings included.
func (b Book) signsOf(c catalog.Check, s *Scenario) []string {
	var out []string
	for _, id := range c.Settles {
		if sign, _ := b.Catalog.Sign(id); b.Sensible(sign.Needs, s.Known) {
			out = append(out, id)
		}
	}
	return append(out, b.readBy(c.Gives)...)
}

// readBy lists the signs that rules read off some readings.
func (b Book) readBy(readings []string) []string {
	var out []string
	for _, r := range b.Rules.Rules {
		if r.When == nil || r.Action != "shows" {
			continue
		}
		for _, id := range readings {
			if b.looksAt(r, id) && !has(out, r.To) {
				out = append(out, r.To)
			}
		}
	}
	return out
}

// looksAt reports whether a rule reads a reading, itself or through a derived
// quantity.
func (b Book) looksAt(r rule.Rule, reading string) bool {
	words := r.When.Words()
	if has(words, reading) {
		return true
	}
	whole := regexp.MustCompile(`\b` + regexp.QuoteMeta(reading) + `\b`)
	return slices.ContainsFunc(b.Catalog.Derived, func(d catalog.Derived) bool {
		return has(words, d.ID) && whole.MatchString(d.Value)
	})
}
