package intake

import (
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// Case is one job: what is known about the machine and what was seen on it.
type Case struct {
	File     string  `json:"file"`
	Title    string  `json:"title"`
	Notes    string  `json:"notes,omitempty"`
	Invented bool    `json:"invented,omitempty"`
	Machine  Machine `json:"machine"`

	// Known holds facts of the history by id, words of the machine sheet as
	// "machine.<id>", signs answered yes or no, readings, and the stack.
	Known        fact.Set      `json:"known"`
	Observations []Observation `json:"observations,omitempty"` // in the order written
	Done         []Done        `json:"done,omitempty"`
	Open         string        `json:"open,omitempty"`  // the deepest stage that is open
	Found        []string      `json:"found,omitempty"` // causes, once the job is closed
	// Prices are money by the name of a part or the id of a cause, and by HourKey for
	// an hour of work. They go before those of the machine sheet, see AllPrices.
	Prices   map[string]float64 `json:"prices,omitempty"`
	Expect   *Expect            `json:"expect,omitempty"`
	Practice *source.Node       `json:"-"` // how it is told to a student, nil without any
}

// Machine names the machine sheet of a case. File is empty for a sheet written
// in the case itself, and both are empty when the case has none.
type Machine struct {
	File     string `json:"file,omitempty"`
	Title    string `json:"title,omitempty"`
	Notes    string `json:"notes,omitempty"`
	Invented bool   `json:"invented,omitempty"`

	Prices map[string]float64 `json:"prices,omitempty"` // as in Case
}

// Observation is what was said about one sign. Present and Absent are the
// likelihoods P(answer | sign there) and P(answer | sign not there), of which
// only the ratio counts.
type Observation struct {
	Sign    string  `json:"sign"`
	Answer  string  `json:"answer"` // yes, no, probably, probably not
	Present float64 `json:"present"`
	Absent  float64 `json:"absent"`

	Pos source.Pos `json:"-"`
}

// Done is a check that was made, with the minutes it took (0: not said).
type Done struct {
	Check   string  `json:"check"`
	Minutes float64 `json:"minutes,omitempty"`
}

// Expect is what a sample case is written to show; tests read it.
type Expect struct {
	First string   `json:"first,omitempty"` // the cause that must rank first
	Set   []string `json:"set,omitempty"`   // causes that must be found together
	Why   string   `json:"why,omitempty"`
}

// SetMachine puts another machine sheet in the place of the case's own. Every
// "machine." word of the old one is forgotten, also where the new one is silent.
func (c *Case) SetMachine(m Machine, words fact.Set) {
	known := words.Clone()
	for _, id := range c.Known.IDs() {
		if !strings.HasPrefix(id, machinePrefix) {
			v, _ := c.Known.Get(id)
			known.Put(id, v)
		}
	}
	c.Machine, c.Known = m, known
}
