package report

import (
	"strings"

	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
)

// Schema is the version of the JSON that programs read; it grows when a key
// changes its meaning.
const Schema = 1

// Result is the answer as JSON. Probabilities are 0 to 1, weights are decibans,
// times are minutes.
type Result struct {
	Schema      int           `json:"schema"`
	Case        *intake.Case  `json:"case"`
	Causes      []ResultCause `json:"causes"` // by probability
	Sets        []explain.Set `json:"sets"`
	Unlisted    float64       `json:"unlisted"`
	Unexplained []string      `json:"unexplained"`
	Waiting     []ResultWait  `json:"waiting"`
	Next        []ResultNext  `json:"next"`
	Cautions    []string      `json:"cautions"`
	Steadiness  float64       `json:"steadiness"`
}

// ResultCause is one cause with its account.
type ResultCause struct {
	ID          string       `json:"id"`
	Name        string       `json:"name"`
	Probability float64      `json:"probability"`
	Stage       string       `json:"stage"`
	Balance     []ResultLine `json:"balance"` // "prior" first; adds up to the log-odds
	Rules       []string     `json:"rules"`
}

// ResultLine is one line of an account.
type ResultLine struct {
	Evidence string  `json:"evidence"`
	Decibans float64 `json:"decibans"`
}

// ResultWait is a fact that a rule waits for.
type ResultWait struct {
	Rule string `json:"rule"`
	Fact string `json:"fact"`
}

// ResultNext is something worth doing, best first. A look without a check of its
// own has an empty check and names its cause.
type ResultNext struct {
	Check   string          `json:"check"`
	Cause   string          `json:"cause,omitempty"`
	Minutes float64         `json:"minutes"`
	Stage   string          `json:"stage"`
	Bits    float64         `json:"bits"`
	Saved   float64         `json:"expected_minutes_saved"`
	Results []ResultOutcome `json:"results"`
}

// ResultOutcome is one way in which a check can end, and the cause that would
// then be first.
type ResultOutcome struct {
	Result      string  `json:"result"` // "sign=yes sign=no"
	Probability float64 `json:"probability"`
	Top         string  `json:"top"`
}

// Result gathers the answer for programs.
func (a Answer) Result() Result {
	ex := a.Explanation
	r := Result{
		Schema: Schema, Case: a.Case, Causes: []ResultCause{}, Sets: append([]explain.Set{}, ex.Sets...), Unlisted: ex.Unlisted,
		Unexplained: append([]string{}, ex.Unexplained...), Waiting: []ResultWait{}, Next: []ResultNext{},
		Cautions: append([]string{}, a.Cautions...), Steadiness: ex.Steadiness,
	}
	for _, c := range ex.Causes {
		r.Causes = append(r.Causes, a.resultCause(c))
	}
	for _, w := range ex.Waiting {
		for _, f := range w.Facts {
			r.Waiting = append(r.Waiting, ResultWait{w.Rule, f})
		}
	}
	if a.Course != nil {
		for _, p := range a.Course.All() {
			if p.Kind != plan.Service {
				r.Next = append(r.Next, resultNext(p))
			}
		}
	}
	return r
}

// resultCause merges base, history and other causes into the one line "prior", so
// that programs find as many lines after it as there is evidence.
func (a Answer) resultCause(c explain.Cause) ResultCause {
	cause := a.cause(c.ID)
	out := ResultCause{ID: c.ID, Name: cause.Name, Probability: c.Probability, Stage: cause.Stage, Rules: []string{}}
	out.Balance = append(out.Balance, ResultLine{"prior", c.Balance.Prior()})
	for _, e := range c.Balance.Entries {
		out.Balance = append(out.Balance, ResultLine{e.ID, e.Decibans})
	}
	for _, s := range c.Rules {
		out.Rules = append(out.Rules, s.Rule)
	}
	return out
}

// resultNext is a proposal in the published form.
func resultNext(p plan.Proposal) ResultNext {
	n := ResultNext{Check: p.Check, Cause: p.Cause, Minutes: p.Minutes, Stage: p.Stage, Bits: p.Bits, Saved: p.Saved, Results: []ResultOutcome{}}
	for _, r := range p.Results {
		var words []string
		for _, s := range r.Answers {
			answer := "no"
			if s.Yes {
				answer = "yes"
			}
			words = append(words, s.Sign+"="+answer)
		}
		n.Results = append(n.Results, ResultOutcome{strings.Join(words, " "), r.Probability, r.Top})
	}
	return n
}

// StageNames lists the stages that can be shown as data, in the order of the way
// of a case.
func StageNames() []string { return []string{"facts", "firings", "graph", "belief"} }

// Stage returns what one stage handed to the next, for render/data, and whether
// there is a stage of that name.
func (a Answer) Stage(name string) (any, bool) {
	switch name {
	case "facts":
		return struct {
			Known        fact.Set             `json:"known"`
			Observations []intake.Observation `json:"observations"`
		}{a.Case.Known, append([]intake.Observation{}, a.Case.Observations...)}, true
	case "firings":
		return append([]rule.Firing{}, a.Firings...), true
	case "graph":
		return a.Network, true
	case "belief":
		return a.belief(), true
	}
	return nil, false
}

// Belief is the belief stage as data: evidence in, probabilities out.
type Belief struct {
	Evidence    []network.Evidence `json:"evidence"`
	Causes      []Believed         `json:"causes"`
	Effects     []explain.Effect   `json:"effects"`
	Sets        []explain.Set      `json:"sets"`
	Unlisted    float64            `json:"unlisted"`
	LogEvidence float64            `json:"log_evidence"` // natural logarithm
}

// Believed is a cause before and after the evidence.
type Believed struct {
	ID          string  `json:"id"`
	Prior       float64 `json:"prior"`
	Probability float64 `json:"probability"`
}

// belief gathers what the belief stage took and gave.
func (a Answer) belief() Belief {
	ex := a.Explanation
	b := Belief{
		Evidence: append([]network.Evidence{}, a.Evidence...), Causes: []Believed{}, Effects: append([]explain.Effect{}, ex.Effects...),
		Sets: append([]explain.Set{}, ex.Sets...), Unlisted: ex.Unlisted, LogEvidence: ex.LogEvidence,
	}
	for _, c := range ex.Causes {
		b.Causes = append(b.Causes, Believed{c.ID, c.Prior, c.Probability})
	}
	return b
}
