package build

import (
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// Job is what the sheet is made from. Beliefs are the causes by probability.
type Job struct {
	Catalog *catalog.Catalog
	Rules   *rule.Set
	Words   *fact.Vocabulary

	Known   fact.Set
	Found   []string // causes that were confirmed
	Done    []string // checks that were made
	Beliefs []Belief
	Open    string // the deepest stage that is open now
	From    string // the stage to start at; "" for the deepest this job has opened
	Places  []int  // parts of the stack, from 1, with which something is wrong
}

// Belief is a cause with its probability (0 to 1) and the signs that were seen and
// that it brings of itself. Listed are the rules that read one of them off the parts
// as the case lists them.
type Belief struct {
	Cause       string
	Probability float64
	Seen        []string
	Listed      []string
}

// Sheet is how the machine goes back together.
type Sheet struct {
	Causes   []Cause  `json:"causes"` // what this job puts right: wrong in the list, then found, then probable
	Stages   []string `json:"stages"` // that were open, in the order of the knowledge
	Parts    []Part   `json:"parts"`
	Steps    []Step   `json:"steps"`
	Packs    []Pack   `json:"packs"`    // as it should be, then as listed
	Cautions []string `json:"cautions"` // ids, in the order of the steps
}

// Cause is one that this job puts right.
type Cause struct {
	ID          string   `json:"id"`
	Probability float64  `json:"probability"`
	Found       bool     `json:"found"`  // confirmed, as against probable
	Listed      []string `json:"listed"` // rules that read it off the parts as the case lists them
	Seen        []string `json:"seen"`   // signs that are there and that it brings
	Steps       []string `json:"steps"`  // of this sheet, that put it right or keep it from coming back
}

// Part is something to renew.
type Part struct {
	Name   string   `json:"name"`
	Causes []string `json:"causes,omitempty"` // what it puts right
	Always bool     `json:"always,omitempty"` // to be new every time its stage was open
}

// Step is one step that applies, in the order in which it is done.
type Step struct {
	ID      string   `json:"id"`
	Phase   string   `json:"phase"`
	Waits   []string `json:"waits,omitempty"`   // facts that would say whether it applies
	Tighten *Tighten `json:"tighten,omitempty"` // how its screws are drawn down
}

// Tighten is one way of tightening with the numbers of this machine. Torques are
// in newton metres, 0 for unknown.
type Tighten struct {
	ID       string  `json:"id"`
	Screws   int     `json:"screws,omitempty"` // 0: not known, or a single nut
	Order    []int   `json:"order,omitempty"`  // screws numbered round the circle
	TorqueNm float64 `json:"torque_nm,omitempty"`
	LowNm    float64 `json:"low_nm,omitempty"` // usual range, when the sheet is silent
	HighNm   float64 `json:"high_nm,omitempty"`
}
