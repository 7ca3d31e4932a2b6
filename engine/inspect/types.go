package inspect

import (
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/rule"
)

// Input is what an inspection needs. Weighed may be empty.
type Input struct {
	Catalog *catalog.Catalog
	Rules   *rule.Set
	Derived *derive.Table
	Known   fact.Set
	Firings []rule.Firing // one for each rule
	Weighed []Weighed
}

// Weighed is what one measured sign does to the causes.
type Weighed struct {
	Sign   string
	Causes []Weight
}

// Weight is what a measurement alone moves a cause by, in decibans: what its
// log-odds would lose without it.
type Weight struct {
	Cause    string  `json:"cause"`
	Decibans float64 `json:"decibans"`
}

// Inspection is what the measurements of a case say. Quantities are in SI units;
// Unit names the unit to show them in.
type Inspection struct {
	Readings []Measurement `json:"readings"` // in the order of the knowledge
	Groups   []Group       `json:"groups"`
	Fittings []Height      `json:"fittings"`
	Missing  []Missing     `json:"missing"` // what would have to be known for more, the least first
}

// Measurement is one reading held against its limit.
type Measurement struct {
	ID      string    `json:"id"`
	Unit    string    `json:"unit"`
	Gauge   string    `json:"gauge"`
	Values  []float64 `json:"values"`
	Sigma   float64   `json:"sigma"`   // standard uncertainty of one value
	Counted float64   `json:"counted"` // the value that is judged: the worst of several
	Limit   *Limit    `json:"limit,omitempty"`
	Judged  *Judged   `json:"judged,omitempty"` // nil without a limit
	Wear    *Wear     `json:"wear,omitempty"`
	Listed  bool      `json:"listed,omitempty"` // taken from the stack, part by part
	Apart   int       `json:"apart"`            // index of a value that lies apart from the others, or -1
	Shows   []Shown   `json:"shows"`
	Doubts  []string  `json:"doubts"` // ways it may have been taken wrong that matter here
}

// Limit is what a reading is held against. General says that it is a figure of
// common practice because the machine sheet has none.
type Limit struct {
	mechanics.Limit
	General bool   `json:"general,omitempty"`
	Basis   string `json:"basis,omitempty"` // of a general figure
}

// Judged is the verdict with what it rests on.
type Judged struct {
	mechanics.Judgement
	Below bool `json:"below,omitempty"` // the nearest limit is the lower one
}

// Wear is how much of the allowed wear is used: 0 new, 1 at the limit.
type Wear struct {
	New  float64 `json:"new"`
	Used float64 `json:"used"`
}

// Shown is a rule that read a sign off a measurement.
type Shown struct {
	Rule        string       `json:"rule"`
	Sign        string       `json:"sign"`
	Verdict     rule.Verdict `json:"verdict"`
	Probability float64      `json:"probability"` // that the sign is there
	Causes      []Weight     `json:"causes"`      // strongest first
}

// Group is a question with the figures that answer it.
type Group struct {
	ID      string   `json:"id"`
	Figures []Figure `json:"figures"` // those that could be worked out
	// Measured says that a figure rests on a reading and not on the sheet alone.
	Measured bool  `json:"measured"`
	Parts    *Part `json:"parts,omitempty"`
}

// Part is the sum of the parts of a group, and what the whole has left over.
type Part struct {
	Sum       float64 `json:"sum"`
	Sigma     float64 `json:"sigma"`
	Whole     float64 `json:"whole,omitempty"` // 0 when it was not measured
	Rest      float64 `json:"rest,omitempty"`
	RestSigma float64 `json:"rest_sigma,omitempty"`
}

// Figure is a derived quantity that could be worked out.
type Figure struct {
	derive.Value
	Share float64 `json:"share,omitempty"` // of the sum of the parts
	Means string  `json:"means,omitempty"`
	Warns bool    `json:"warns,omitempty"`
	// Even says that the outcome next to the one in Means is about as likely: the
	// bound between them lies within the expanded uncertainty.
	Even     bool `json:"even,omitempty"`
	Measured bool `json:"measured"`
}

// Height is a height and the choices of parts that bring it into its range.
type Height struct {
	ID       string               `json:"id"`
	From     string               `json:"from"` // the reading or derived quantity that gave the height
	Height   float64              `json:"height"`
	Sigma    float64              `json:"sigma"`
	Low      float64              `json:"low"`
	High     float64              `json:"high"`
	Guessed  int                  `json:"guessed,omitempty"` // fitted parts taken at the mean of the others, or as new
	Plans    []mechanics.PackPlan `json:"plans"`             // best first
	TooMany  bool                 `json:"too_many,omitempty"`
	Measured bool                 `json:"measured"`
}

// Missing is what would have to be known, and what that would give.
type Missing struct {
	Words   []string `json:"words"`
	Gives   []string `json:"gives"`              // derived quantities
	Verdict []string `json:"verdicts,omitempty"` // readings that would get a verdict
}

// Coverage is the factor between standard and expanded uncertainty, for about 95 %.
// Source: NIST Technical Note 1297.
const Coverage = 2
