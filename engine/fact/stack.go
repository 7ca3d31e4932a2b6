package fact

import (
	"encoding/json"
	"slices"

	"example.org/takeup/engine/source"
)

// UnseenPart is the kind of a place in a stack where nobody has looked.
const UnseenPart = "unknown"

// Stack is an assembly: parts in order along one axis, innermost first.
type Stack struct {
	ID    string `json:"-"` // the word it stands under
	Parts []Part `json:"parts"`

	// Whole lists the kinds of which every part is in the list, in alphabetical
	// order. Of other kinds there may be more than the list says.
	Whole []string `json:"whole,omitempty"`
}

// Part is one part of a stack. Attributes that are not in Known are unknown.
type Part struct {
	Kind    string
	Side    string   // inner or outer: the edge it is held at; empty for neither
	Missing bool     // said to be left out: it belongs here and is not there
	Known   Set      // by attribute, in the order of the vocabulary
	Open    []string // attributes written as unknown, on purpose
	Text    string   // as the user typed it, counts and groups not expanded

	Pos source.Pos
}

// MarshalJSON writes a part as one object: its kind, then what is known of it as bare
// values: true or false, a word, a number in SI base units.
func (p Part) MarshalJSON() ([]byte, error) {
	known := p.Known.Tree()
	for id, v := range known {
		if reading, ok := v.(Value); ok {
			known[id] = reading.SI
		}
	}
	return json.Marshal(struct {
		Kind    string         `json:"kind"`
		Missing bool           `json:"missing,omitempty"`
		Known   map[string]any `json:"known,omitempty"`
	}{p.Kind, p.Missing, known})
}

// Of lists the places (from 0) of the parts of the given kinds, without those
// said to be missing. No kind asks for all parts.
func (s *Stack) Of(kinds ...string) []int {
	var out []int
	for i, p := range s.Parts {
		if !p.Missing && (len(kinds) == 0 || slices.Contains(kinds, p.Kind)) {
			out = append(out, i)
		}
	}
	return out
}

// IsWhole reports whether every part of each of the kinds is in the list.
func (s *Stack) IsWhole(kinds ...string) bool {
	for _, k := range kinds {
		if !slices.Contains(s.Whole, k) {
			return false
		}
	}
	return true
}

// Stack returns the stack under an id, or nil when none is known.
func (s *Set) Stack(id string) *Stack { return s.values[id].Stack }
