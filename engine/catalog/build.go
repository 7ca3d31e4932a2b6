package catalog

import "example.org/takeup/engine/source"

// Phase is a part of the work of putting the machine back together, with a
// heading of its own.
type Phase struct {
	ID   string `yaml:"id,required" json:"id"`
	Name string `yaml:"name,required" json:"name"`
	Lead string `yaml:"lead,required" json:"lead"` // the word before what its steps prevent: "Prevents", "Shows"

	Pos source.Pos `yaml:"-" json:"-"`
}

// Step is one step of putting the machine back together. Steps stand in the
// order in which they are done.
type Step struct {
	ID       string   `yaml:"id,required" json:"id"`
	Phase    string   `yaml:"phase,required" json:"phase"`
	Stage    string   `yaml:"stage,required" json:"stage"`  // needed when this stage was open
	Opens    bool     `yaml:"opens" json:"opens,omitempty"` // a cause it prevents takes this stage, however early it shows
	Name     string   `yaml:"name,required" json:"name"`
	When     string   `yaml:"when" json:"when,omitempty"`   // condition on facts and the machine
	Where    string   `yaml:"where" json:"where,omitempty"` // the same in words, for a machine of which it is not known
	Do       string   `yaml:"do,required" json:"do"`
	Prevents []string `yaml:"prevents,required" json:"prevents"` // causes and signs
	Parts    []string `yaml:"parts" json:"parts,omitempty"`      // to be new every time
	Tighten  string   `yaml:"tighten" json:"tighten,omitempty"`
	Cautions []string `yaml:"cautions" json:"cautions,omitempty"`
	Basis    string   `yaml:"basis,required" json:"basis"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Tightening is how a nut or a ring of screws is drawn to its torque.
type Tightening struct {
	ID      string  `yaml:"id,required" json:"id"`
	Name    string  `yaml:"name,required" json:"name"`
	Screws  string  `yaml:"screws" json:"screws,omitempty"` // machine word with their number, none for a single nut
	Torque  string  `yaml:"torque,required" json:"torque"`  // machine word
	General Torques `yaml:"general" json:"general,omitempty"`
	Passes  []Pass  `yaml:"passes,required" json:"passes"`

	Pos source.Pos `yaml:"-" json:"-"`
}

// Torques is the range that is usual for a thread, shown when the machine sheet
// is silent.
type Torques struct {
	Low   string `yaml:"low" json:"low,omitempty"`
	High  string `yaml:"high" json:"high,omitempty"`
	For   string `yaml:"for" json:"for,omitempty"`
	Basis string `yaml:"basis" json:"basis,omitempty"`
}

// Pass is one round over all screws. Share is that of the full torque, 0 for a
// pass without a wrench.
type Pass struct {
	Do    string  `yaml:"do,required" json:"do"`
	Share float64 `yaml:"share" json:"share,omitempty"`
}
