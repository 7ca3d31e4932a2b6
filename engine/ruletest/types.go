package ruletest

import "example.org/takeup/engine/source"

// Test is one test as it stands in a file.
type Test struct {
	Name     string        `yaml:"name,required"`
	Given    *source.Node  `yaml:"given"`
	Signs    *source.Node  `yaml:"signs"`
	Readings *source.Node  `yaml:"readings"`
	Stack    *source.Node  `yaml:"stack"`
	Fires    []source.Text `yaml:"fires"`
	Quiet    []source.Text `yaml:"quiet"`
	Waits    []source.Text `yaml:"waits"`
	Up       []source.Text `yaml:"up"`
	Down     []source.Text `yaml:"down"`
	Top      source.Text   `yaml:"top"`

	Pos source.Pos `yaml:"-"`
}

type testFile struct {
	Tests []Test `yaml:"tests,required"`
}

// Failure is an expectation that did not hold.
type Failure struct {
	Pos     source.Pos `json:"pos"`
	Test    string     `json:"test"`
	Message string     `json:"message"`
}

// Report is what a run of all tests found.
type Report struct {
	Tests    int       `json:"tests"`
	Passed   int       `json:"passed"`
	Failures []Failure `json:"failures,omitempty"`

	fires, quiet map[string]bool    // rules that some test wants to fire, to be quiet
	clauses      map[string][2]bool // rule and clause -> seen true, seen false
}

// Gap is something that the rules, the knowledge or the tests leave open.
type Gap struct {
	Kind    string `json:"kind"` // untested, clause, settled, unreachable, unused, unseparated
	ID      string `json:"id"`
	Message string `json:"message"`
}
