package fact

import (
	"encoding/json"
	"sort"
	"strings"

	"example.org/takeup/engine/source"
)

// Value is one known value. Which fields count depends on Kind.
type Value struct {
	Kind   Kind      `json:"kind"`
	Yes    bool      `json:"yes,omitempty"`
	Word   string    `json:"word,omitempty"`   // choice, label
	Words  []string  `json:"words,omitempty"`  // set, in the order given
	SI     float64   `json:"si,omitempty"`     // quantity in SI base units, or count
	Values []float64 `json:"values,omitempty"` // readings and sizes, SI
	Sigma  float64   `json:"sigma,omitempty"`  // standard uncertainty of one reading, SI
	Gauge  string    `json:"gauge,omitempty"`  // what it was measured with
	Text   string    `json:"text,omitempty"`   // as the user typed it
	Stack  *Stack    `json:"stack,omitempty"`  // assembly

	Pos source.Pos `json:"-"`
}

// Lowest returns the smallest measured value in SI units.
func (v Value) Lowest() float64 { return extreme(v.Values, -1) }

// Highest returns the largest measured value in SI units.
func (v Value) Highest() float64 { return extreme(v.Values, +1) }

// Spread returns the difference between the largest and the smallest value.
func (v Value) Spread() float64 { return v.Highest() - v.Lowest() }

// Mean returns the average of the measured values in SI units.
func (v Value) Mean() float64 {
	if len(v.Values) == 0 {
		return 0
	}
	sum := 0.0
	for _, x := range v.Values {
		sum += x
	}
	return sum / float64(len(v.Values))
}

func extreme(values []float64, sign float64) float64 {
	if len(values) == 0 {
		return 0
	}
	best := values[0]
	for _, x := range values {
		if sign*x > sign*best {
			best = x
		}
	}
	return best
}

// Set holds the known values of one case, in the order they were given. The
// zero value is empty and ready for use.
type Set struct {
	values map[string]Value
	order  []string
}

// Put adds or replaces a value.
func (s *Set) Put(id string, v Value) {
	if s.values == nil {
		s.values = map[string]Value{}
	}
	if _, there := s.values[id]; !there {
		s.order = append(s.order, id)
	}
	s.values[id] = v
}

// Get returns a value and whether it is known.
func (s *Set) Get(id string) (Value, bool) {
	v, ok := s.values[id]
	return v, ok
}

// Known reports whether id has a value.
func (s *Set) Known(id string) bool {
	_, ok := s.values[id]
	return ok
}

// IDs lists the known ids in the order given.
func (s *Set) IDs() []string { return append([]string(nil), s.order...) }

// Len returns how many values are known.
func (s *Set) Len() int { return len(s.order) }

// Clone returns an independent copy.
func (s *Set) Clone() Set {
	var c Set
	for _, id := range s.order {
		c.Put(id, s.values[id])
	}
	return c
}

// Tree returns the values as nested maps of plain Go values, the environment
// in which the leaves of conditions are evaluated: bool, string, []string,
// float64 (SI) or Value for readings. Dotted ids become nested maps.
func (s *Set) Tree() map[string]any { return s.TreeOf(s.order) }

// TreeOf is Tree with some ids only; those that are not known are left out.
func (s *Set) TreeOf(ids []string) map[string]any {
	root := map[string]any{}
	for _, id := range ids {
		v, known := s.values[id]
		if !known {
			continue
		}
		parts := strings.Split(id, ".")
		at := root
		for _, p := range parts[:len(parts)-1] {
			next, ok := at[p].(map[string]any)
			if !ok {
				next = map[string]any{}
				at[p] = next
			}
			at = next
		}
		at[parts[len(parts)-1]] = v.plain()
	}
	return root
}

func (v Value) plain() any {
	switch v.Kind {
	case YesNo:
		return v.Yes
	case Choice, Label:
		return v.Word
	case Assembly:
		return v.Stack
	case Choices:
		return v.Words
	case Reading:
		return v
	case Sizes:
		return v.Values
	default:
		return v.SI
	}
}

// MarshalJSON writes the set as one object with sorted keys.
func (s Set) MarshalJSON() ([]byte, error) {
	ids := append([]string(nil), s.order...)
	sort.Strings(ids)
	var b strings.Builder
	b.WriteByte('{')
	for i, id := range ids {
		if i > 0 {
			b.WriteByte(',')
		}
		key, _ := json.Marshal(id)
		val, err := json.Marshal(s.values[id])
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(val)
	}
	b.WriteByte('}')
	return []byte(b.String()), nil
}
