package rule

import (
	"slices"

	"example.org/takeup/engine/source"
)

// Action is what a rule does when it fires.
type Action string

// The actions.
const (
	Brings   Action = "brings"    // a cause or an effect produces an effect, a sign or a further cause
	Raises   Action = "raises"    // context multiplies the prior odds of causes
	Lowers   Action = "lowers"    // context divides the prior odds of causes
	RulesOut Action = "rules_out" // causes that cannot exist in this machine
	Shows    Action = "shows"     // readings or the stack settle a sign
	Cautions Action = "caution"   // a caution is shown
)

// Rule is one statement of a rule file.
type Rule struct {
	ID     string     `json:"id"`
	Action Action     `json:"action"`
	When   *Condition `json:"when,omitempty"` // nil: always
	// Given is what must hold of the machine for a shows rule to say anything at all:
	// a "no" in When is an observation, a "no" here is not.
	Given *Condition `json:"given,omitempty"`
	// Until makes it a rule of thumb: it says nothing once this word is known, such as
	// machine.actuation, or once the sheet lists all parts of a kind, as machine.stack.KIND.
	Until    string   `json:"until,omitempty"`
	From     string   `json:"from,omitempty"` // brings: the cause or effect that acts
	To       string   `json:"to,omitempty"`   // brings: what it produces; shows: the sign; caution: the caution
	Strength float64  `json:"strength,omitempty"`
	Word     string   `json:"word,omitempty"`    // the strength as written, when it was a word
	Factors  []Factor `json:"factors,omitempty"` // raises, lowers: in the order written
	Causes   []string `json:"causes,omitempty"`  // rules_out
	Because  string   `json:"because"`
	Basis    string   `json:"basis"`

	Pos source.Pos `json:"pos"`
}

// Factor multiplies (raises) or divides (lowers) the prior odds of a cause.
type Factor struct {
	Cause string  `json:"cause"`
	By    float64 `json:"by"`
}

// Touches lists the causes, effects, signs and cautions a rule speaks about.
func (r Rule) Touches() []string {
	var ids []string
	for _, id := range append([]string{r.From, r.To}, r.Causes...) {
		if id != "" {
			ids = append(ids, id)
		}
	}
	for _, f := range r.Factors {
		ids = append(ids, f.Cause)
	}
	return ids
}

// Set is the checked rules of a folder in the order of files and lines.
type Set struct {
	Rules []Rule
	index map[string]int
	eval  *evaluator
}

// About lists the rules that speak of a cause, an effect or a sign.
func (s *Set) About(id string) []Rule {
	var out []Rule
	for _, r := range s.Rules {
		if slices.Contains(r.Touches(), id) {
			out = append(out, r)
		}
	}
	return out
}

// Rule finds a rule by id.
func (s *Set) Rule(id string) (Rule, bool) {
	i, ok := s.index[id]
	if !ok {
		return Rule{}, false
	}
	return s.Rules[i], true
}

// Verdict is the three-valued outcome of a condition.
type Verdict string

// The outcomes. Soft stands between Yes and No: a reading too close to its
// limit for the gauge, with a probability.
const (
	Yes     Verdict = "yes"
	No      Verdict = "no"
	Soft    Verdict = "soft"
	Unknown Verdict = "unknown"
)

// Firing is what one rule says about one case.
type Firing struct {
	Rule        string   `json:"rule"`
	Verdict     Verdict  `json:"verdict"`
	Probability float64  `json:"probability"`       // that the condition holds; 1 for yes, 0 for no
	Clauses     []Clause `json:"clauses,omitempty"` // the leaves of the condition in the order written
	Waits       []string `json:"waits,omitempty"`   // the words that would settle an unknown condition
}

// Clause is one leaf of a condition with its own outcome.
type Clause struct {
	Text        string   `json:"text"`
	Verdict     Verdict  `json:"verdict"`
	Probability float64  `json:"probability"`
	Unknown     []string `json:"unknown,omitempty"`
	Places      []int    `json:"places,omitempty"` // in the list of the stack, from 1: the parts that decided
}
