package practice

import (
	"slices"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
)

// Scenario is a machine with a complaint and all that is true of it, told or
// not. It is not changed by an exercise.
type Scenario struct {
	Title    string         `json:"title,omitempty"`
	Notes    string         `json:"notes,omitempty"`
	Invented bool           `json:"invented"`
	Machine  intake.Machine `json:"machine"`
	Level    int            `json:"level"`
	Seed     uint64         `json:"seed"`
	Family   string         `json:"family"` // of the first complaint told

	Known    fact.Set                    `json:"known"`    // machine sheet and history, as they are
	Readings fact.Set                    `json:"readings"` // what would be measured
	Signs    map[string]network.Evidence `json:"signs"`    // what would be seen or said, by sign
	Told     []string                    `json:"told"`     // signs the customer speaks of unasked
	Recalled []string                    `json:"recalled"` // facts the customer speaks of unasked
	Vague    []string                    `json:"vague"`    // signs and facts the customer cannot speak to
	// Words are how the customer puts some of what is told, by sign or fact.
	Words   map[string]string `json:"words"`
	Truth   []string          `json:"truth"`   // the faults, each come by itself
	Brought []string          `json:"brought"` // further causes that the faults led to
}

// Levels is the number of levels, the easiest being 1.
const Levels = 3

// complaint is the kind of sign that a rider can speak to.
const complaint = "complaint"

// Fault reports whether a cause is one of the faults.
func (s *Scenario) Fault(cause string) bool { return slices.Contains(s.Truth, cause) }

// Damage reports whether a cause is there only because a fault led to it.
func (s *Scenario) Damage(cause string) bool { return slices.Contains(s.Brought, cause) }

// yes is the evidence of a sign seen or not seen.
func yes(sign string, there bool) network.Evidence {
	if there {
		return network.Evidence{Sign: sign, Answer: "yes", Present: 1}
	}
	return network.Evidence{Sign: sign, Answer: "no", Absent: 1}
}
