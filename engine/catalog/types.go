package catalog

import "example.org/takeup/engine/source"

// Catalog is everything the knowledge folder says.
type Catalog struct {
	Subject string `yaml:"subject" json:"subject,omitempty"` // what the pack is about, as "the clutch"

	Facts     []Fact     `yaml:"facts" json:"facts"`
	Machine   []Fact     `yaml:"machine" json:"machine"`
	Families  []Family   `yaml:"families" json:"families"`
	Signs     []Sign     `yaml:"signs" json:"signs"`
	Questions []Question `yaml:"questions" json:"questions"`
	Effects   []Effect   `yaml:"effects" json:"effects"`
	Causes    []Cause    `yaml:"causes" json:"causes"`
	Checks    []Check    `yaml:"checks" json:"checks"`
	Stages    []Stage    `yaml:"stages" json:"stages"`
	Gauges    []Gauge    `yaml:"gauges" json:"gauges"`
	Readings  []Reading  `yaml:"readings" json:"readings"`
	Derived   []Derived  `yaml:"derived" json:"derived"`
	Groups    []Group    `yaml:"groups" json:"groups"`
	Fittings  []Fitting  `yaml:"fittings" json:"fittings"`
	Cautions  []Caution  `yaml:"cautions" json:"cautions"`
	Strengths []Strength `yaml:"strengths" json:"strengths"`
	Sources   []Source   `yaml:"sources" json:"sources"`

	Parts       []Part       `yaml:"parts" json:"parts"`
	Attributes  []Attribute  `yaml:"attributes" json:"attributes"`
	Phases      []Phase      `yaml:"phases" json:"phases"`
	Steps       []Step       `yaml:"steps" json:"steps"`
	Tightenings []Tightening `yaml:"tightenings" json:"tightenings"`

	index   map[string]entry
	checkOf map[string][]int // sign or reading -> checks that settle or give it
}

// Fact is a word of the history or of the machine sheet.
type Fact struct {
	ID       string   `yaml:"id,required" json:"id"`
	Name     string   `yaml:"name,required" json:"name"`
	Kind     string   `yaml:"kind,required" json:"kind"` // yesno, choice, set, quantity, count, sizes
	Unit     string   `yaml:"unit" json:"unit,omitempty"`
	Choices  []Option `yaml:"choices" json:"choices,omitempty"`
	Question string   `yaml:"question" json:"question,omitempty"`
	How      string   `yaml:"how" json:"how,omitempty"`
	Group    string   `yaml:"group" json:"group,omitempty"`
	Phrases  []string `yaml:"phrases" json:"phrases,omitempty"`
	Needs    string   `yaml:"needs" json:"needs,omitempty"` // condition on other facts: asked only then
	Share    float64  `yaml:"share" json:"share,omitempty"` // kind yesno: share of the machines brought in with a yes, 0 to 1
	Usual    Span     `yaml:"usual" json:"usual,omitempty"` // kinds quantity and count: between what it usually lies
	Possible Bounds   `yaml:"possible" json:"possible,omitempty"`
	Example  string   `yaml:"example" json:"example,omitempty"` // an invented figure that shows how it is written

	Pos source.Pos `yaml:"-" json:"-"`
}

// Bounds is what a value can be on any machine; what lies outside is a slip of
// the pen. An empty end is open.
type Bounds struct {
	Low  string `yaml:"low" json:"low,omitempty"`
	High string `yaml:"high" json:"high,omitempty"`
}

// Option is one allowed value of a choice or a set. Share is how many of the
// machines brought in have it: for a set on its own, 0 to 1; for a choice by
// weight against the other options.
type Option struct {
	ID      string   `yaml:"id,required" json:"id"`
	Name    string   `yaml:"name,required" json:"name"`
	Phrases []string `yaml:"phrases" json:"phrases,omitempty"`
	Share   float64  `yaml:"share" json:"share,omitempty"`
	Needs   string   `yaml:"needs" json:"needs,omitempty"` // condition on facts that stand before: possible only then
	Draw    string   `yaml:"draw" json:"draw,omitempty"`   // of a part of a stack: how it changes the drawing, see Draws
}

// Draws are what a choice can change in the drawing of a part.
var Draws = []string{
	"short",   // it stops short of the inner side
	"stepped", // it hangs a step further out
}

// Span is from where to where a figure usually lies, written as quantities.
type Span struct {
	Low  string `yaml:"low,required" json:"low"`
	High string `yaml:"high,required" json:"high"`
}

// Family groups signs that a rider would call one complaint.
type Family struct {
	ID   string `yaml:"id,required" json:"id"`
	Name string `yaml:"name,required" json:"name"`
	What string `yaml:"what" json:"what,omitempty"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Sign is something that can be observed: yes, no or unknown.
type Sign struct {
	ID       string   `yaml:"id,required" json:"id"`
	Name     string   `yaml:"name,required" json:"name"`     // in a list of evidence
	Absent   string   `yaml:"absent,required" json:"absent"` // the same for a "no"
	Kind     string   `yaml:"kind,required" json:"kind"`     // complaint, road, bench, found
	Family   string   `yaml:"family,required" json:"family"`
	Question string   `yaml:"question,required" json:"question"`
	Yes      string   `yaml:"yes" json:"yes,omitempty"`     // how to tell a yes
	No       string   `yaml:"no" json:"no,omitempty"`       // how to tell a no
	Leak     float64  `yaml:"leak,required" json:"leak"`    // P(seen | nothing in this book), 0 to 1
	Needs    string   `yaml:"needs" json:"needs,omitempty"` // condition on facts: makes sense only then
	Excludes []string `yaml:"excludes" json:"excludes,omitempty"`
	Basis    string   `yaml:"basis,required" json:"basis"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Question asks for several signs at once.
type Question struct {
	ID    string   `yaml:"id,required" json:"id"`
	Text  string   `yaml:"text,required" json:"text"`
	Signs []string `yaml:"signs,required" json:"signs"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Effect is what goes wrong inside; it is never observed itself.
type Effect struct {
	ID   string  `yaml:"id,required" json:"id"`
	Name string  `yaml:"name,required" json:"name"`
	What string  `yaml:"what,required" json:"what"`
	Leak float64 `yaml:"leak,required" json:"leak"` // P(effect | no cause in this book), 0 to 1

	Pos source.Pos `yaml:"-" json:"-"`
}

// Cause is a fault.
type Cause struct {
	ID           string   `yaml:"id,required" json:"id"`
	Name         string   `yaml:"name,required" json:"name"`
	Prior        float64  `yaml:"prior,required" json:"prior"` // share of machines brought in, 0 to 1
	Stage        string   `yaml:"stage,required" json:"stage"` // where it is seen and put right
	LookMinutes  float64  `yaml:"look_minutes,required" json:"look_minutes"`
	What         string   `yaml:"what,required" json:"what"`
	Remedy       Remedy   `yaml:"remedy,required" json:"remedy"`
	ConfusedWith []string `yaml:"confused_with" json:"confused_with,omitempty"`
	Cautions     []string `yaml:"cautions" json:"cautions,omitempty"`
	Outside      bool     `yaml:"outside" json:"outside,omitempty"` // looks like the clutch, is not
	Behind       bool     `yaml:"behind" json:"behind,omitempty"`   // a habit or a history: why parts failed, no fault to find
	Part         string   `yaml:"part" json:"part,omitempty"`       // where a figure points
	Basis        string   `yaml:"basis,required" json:"basis"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Remedy is what puts a cause right.
type Remedy struct {
	Do         string   `yaml:"do,required" json:"do"`
	Parts      []string `yaml:"parts" json:"parts,omitempty"`
	Minutes    float64  `yaml:"minutes,required" json:"minutes"` // at the cause's stage, on top of looking
	Afterwards string   `yaml:"afterwards" json:"afterwards,omitempty"`
}

// Check is something to do that settles signs or gives readings.
type Check struct {
	ID       string   `yaml:"id,required" json:"id"`
	Name     string   `yaml:"name,required" json:"name"`
	Stage    string   `yaml:"stage,required" json:"stage"`
	Minutes  float64  `yaml:"minutes,required" json:"minutes"` // once the stage is open
	Tools    []string `yaml:"tools" json:"tools,omitempty"`
	How      []string `yaml:"how,required" json:"how"`
	Settles  []string `yaml:"settles" json:"settles,omitempty"`
	Gives    []string `yaml:"gives" json:"gives,omitempty"`
	Asks     []string `yaml:"asks" json:"asks,omitempty"` // facts of the history it asks for
	Results  []Result `yaml:"results" json:"results,omitempty"`
	Watch    []string `yaml:"watch" json:"watch,omitempty"`
	Cautions []string `yaml:"cautions" json:"cautions,omitempty"`
	Needs    string   `yaml:"needs" json:"needs,omitempty"`
	Basis    string   `yaml:"basis,required" json:"basis"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Result says what an answer to a check means.
type Result struct {
	Sign string `yaml:"sign,required" json:"sign"`
	Yes  string `yaml:"yes" json:"yes,omitempty"`
	No   string `yaml:"no" json:"no,omitempty"`
}

// Stage is how deep the machine is open. Stages form a tree.
type Stage struct {
	ID      string   `yaml:"id,required" json:"id"`
	Name    string   `yaml:"name,required" json:"name"`
	Parent  string   `yaml:"parent" json:"parent,omitempty"`
	Minutes float64  `yaml:"minutes,required" json:"minutes"` // there and back, on top of the parent
	Takes   string   `yaml:"takes" json:"takes,omitempty"`
	Uses    []string `yaml:"uses" json:"uses,omitempty"` // parts used up each time it is opened
	Closes  string   `yaml:"closes" json:"closes,omitempty"`
	Whole   bool     `yaml:"whole" json:"whole,omitempty"` // checks here need the machine together

	Pos source.Pos `yaml:"-" json:"-"`
}

// Gauge is a measuring tool with its resolution and standard uncertainty,
// written as quantities or as a percentage of the reading.
type Gauge struct {
	ID          string `yaml:"id,required" json:"id"`
	Name        string `yaml:"name,required" json:"name"`
	Resolution  string `yaml:"resolution" json:"resolution,omitempty"`
	Uncertainty string `yaml:"uncertainty,required" json:"uncertainty"`
	Common      string `yaml:"common" json:"common,omitempty"` // the part of it that all values taken with one gauge share

	Pos source.Pos `yaml:"-" json:"-"`
}

// Reading is a quantity that can be measured. Its limits are words of the machine
// sheet, or derived quantities that rest on the sheet alone.
type Reading struct {
	ID       string    `yaml:"id,required" json:"id"`
	Name     string    `yaml:"name,required" json:"name"`
	Unit     string    `yaml:"unit,required" json:"unit"`
	Gauge    string    `yaml:"gauge,required" json:"gauge"` // the usual one
	Sense    string    `yaml:"sense,required" json:"sense"` // min, max, range, none
	Limit    string    `yaml:"limit" json:"limit,omitempty"`
	LimitMin string    `yaml:"limit_min" json:"limit_min,omitempty"`
	LimitMax string    `yaml:"limit_max" json:"limit_max,omitempty"`
	New      string    `yaml:"new" json:"new,omitempty"` // word of the machine sheet: the size of a new part
	Several  bool      `yaml:"several" json:"several,omitempty"`
	General  General   `yaml:"general" json:"general,omitempty"`
	Possible Bounds    `yaml:"possible" json:"possible,omitempty"`
	Listed   Listed    `yaml:"listed" json:"listed,omitempty"` // where a stack gives it
	Means    string    `yaml:"means" json:"means,omitempty"`   // what it comes to when it is past its limit
	HowWrong []Mistake `yaml:"how_wrong" json:"how_wrong,omitempty"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Listed is what the parts of a stack say of themselves and a reading measures too.
type Listed struct {
	Part      string `yaml:"part" json:"part,omitempty"`
	Attribute string `yaml:"attribute" json:"attribute,omitempty"`
}

// Mistake is a common way to measure wrongly and what it does to the figure:
// it reads high, low, either way, or sets one of several values apart.
type Mistake struct {
	Reads string `yaml:"reads,required" json:"reads"` // high, low, either, apart
	Says  string `yaml:"says,required" json:"says"`
}

// General is a figure of common practice, shown when the machine sheet is silent.
type General struct {
	Low   string `yaml:"low" json:"low,omitempty"`
	High  string `yaml:"high" json:"high,omitempty"`
	Basis string `yaml:"basis" json:"basis,omitempty"`
}

// Derived is a quantity computed from readings, the machine sheet and other
// derived quantities. Those of a group are shown together.
type Derived struct {
	ID      string    `yaml:"id,required" json:"id"`
	Name    string    `yaml:"name,required" json:"name"`
	Unit    string    `yaml:"unit,required" json:"unit"`
	Value   string    `yaml:"value,required" json:"value"` // an expr expression
	Group   string    `yaml:"group" json:"group,omitempty"`
	Label   string    `yaml:"label" json:"label,omitempty"`     // its short name within the group
	Part    bool      `yaml:"part" json:"part,omitempty"`       // adds up with the other parts of its group
	Quiet   bool      `yaml:"quiet" json:"quiet,omitempty"`     // shown with the working only, unless it warns
	Needs   string    `yaml:"needs" json:"needs,omitempty"`     // condition on facts: makes sense only then
	Instead string    `yaml:"instead" json:"instead,omitempty"` // of this derived quantity, when both are known
	Formula string    `yaml:"formula,required" json:"formula"`
	Basis   string    `yaml:"basis,required" json:"basis"`
	Means   []Outcome `yaml:"means" json:"means,omitempty"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Outcome says what a derived quantity means below a bound, an expression of
// its dimension. Outcomes stand in ascending order; the last has no bound.
type Outcome struct {
	Below string `yaml:"below" json:"below,omitempty"`
	Says  string `yaml:"says,required" json:"says"`
	Warn  bool   `yaml:"warn" json:"warn,omitempty"` // worth saying even when nothing was measured
}

// Group is a question that several derived quantities answer together. Whole
// is the derived quantity that its parts should add up to.
type Group struct {
	ID    string `yaml:"id,required" json:"id"`
	Name  string `yaml:"name,required" json:"name"`
	What  string `yaml:"what" json:"what,omitempty"`
	Whole string `yaml:"whole" json:"whole,omitempty"`
	Rest  string `yaml:"rest" json:"rest,omitempty"` // where what the parts leave over comes from

	Pos source.Pos `yaml:"-" json:"-"`
}

// Fitting is a height that is set by choosing among the thicknesses in which a
// part is sold. Height, Fitted are readings or derived quantities, the rest words
// of the machine sheet; Else stands in for a Height that was not measured.
type Fitting struct {
	ID     string `yaml:"id,required" json:"id"`
	Name   string `yaml:"name,required" json:"name"`
	Part   string `yaml:"part,required" json:"part"` // what is changed
	Height string `yaml:"height,required" json:"height"`
	Else   string `yaml:"else" json:"else,omitempty"`
	Low    string `yaml:"low,required" json:"low"`
	High   string `yaml:"high,required" json:"high"`
	Sizes  string `yaml:"sizes,required" json:"sizes"`
	Fitted string `yaml:"fitted,required" json:"fitted"`
	Count  string `yaml:"count,required" json:"count"`
	New    string `yaml:"new,required" json:"new"`
	Note   string `yaml:"note" json:"note,omitempty"` // what to think of before a low height is made up for

	Pos source.Pos `yaml:"-" json:"-"`
}

// Caution is a warning that shows where it applies.
type Caution struct {
	ID       string `yaml:"id,required" json:"id"`
	Text     string `yaml:"text,required" json:"text"`
	Severity string `yaml:"severity,required" json:"severity"` // care, danger

	Pos source.Pos `yaml:"-" json:"-"`
}

// Strength is a word of the published scale of probabilities.
type Strength struct {
	ID    string  `yaml:"id,required" json:"id"`
	Value float64 `yaml:"value,required" json:"value"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Source is where a statement comes from.
type Source struct {
	ID    string `yaml:"id,required" json:"id"`
	Title string `yaml:"title,required" json:"title"`
	What  string `yaml:"what" json:"what,omitempty"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Part is a kind of part that a stack is made of.
type Part struct {
	ID        string   `yaml:"id,required" json:"id"`
	Name      string   `yaml:"name,required" json:"name"`
	Plural    string   `yaml:"plural" json:"plural,omitempty"` // where there can be several
	What      string   `yaml:"what,required" json:"what"`      // what it is, for who has never seen one
	Side      string   `yaml:"side" json:"side,omitempty"`     // inner, outer: the edge it is held at
	Shape     string   `yaml:"shape,required" json:"shape"`    // how it is drawn: see Shapes
	Thickness string   `yaml:"thickness" json:"thickness,omitempty"`
	Has       []string `yaml:"has" json:"has,omitempty"` // attributes

	// Between names two kinds of part. A list that names both has looked at all
	// that lies between them, so that a part of this kind not listed is not there.
	Between []string `yaml:"between" json:"between,omitempty"`
	// Sheet is the word of the machine sheet that says how many there should be
	// (kind count), or whether there should be any (kind yesno).
	Sheet string `yaml:"sheet" json:"sheet,omitempty"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Shapes are the forms a part can be drawn in.
var Shapes = []string{
	"plate",  // a flat ring with teeth or tabs
	"lined",  // the same with a lining on both faces
	"ring",   // a narrow flat ring that lies inside a plate
	"cone",   // a narrow ring that is dished
	"drum",   // carries the inner plates
	"basket", // carries the outer plates
	"cap",    // closes the stack
	"coil",   // a coil spring
	"sleeve", // a bush, a roller bearing
	"washer",
	"nut",
	"pin", // a dowel, a screw
}

// Attribute is something that can be said of a part of a stack.
type Attribute struct {
	ID       string   `yaml:"id,required" json:"id"`
	Name     string   `yaml:"name,required" json:"name"`
	Kind     string   `yaml:"kind,required" json:"kind"` // yesno, choice, count, label, reading
	Unit     string   `yaml:"unit" json:"unit,omitempty"`
	Gauge    string   `yaml:"gauge" json:"gauge,omitempty"` // readings: the usual one
	Choices  []Option `yaml:"choices" json:"choices,omitempty"`
	Question string   `yaml:"question,required" json:"question"`
	How      string   `yaml:"how" json:"how,omitempty"`
	Possible Bounds   `yaml:"possible" json:"possible,omitempty"` // readings: what it can be on any machine

	// Otherwise is what a part is taken for that says nothing, once another part
	// of its kind in the same list says something else: who marks one plate of
	// seven means that the others are not marked.
	Otherwise string `yaml:"otherwise" json:"otherwise,omitempty"`

	Pos source.Pos `yaml:"-" json:"-"`
}
