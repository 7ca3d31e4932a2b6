package fact

import (
	"regexp"
	"sort"

	"example.org/takeup/engine/unit"
)

// CommonPractice is the basis of a trade fact without a published source.
const CommonPractice = "common practice"

var id = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

// IsID reports whether text is an identifier: snake_case, so that it can stand
// in a condition.
func IsID(text string) bool { return id.MatchString(text) }

// Role says what a word stands for, and with that where it may be used.
type Role string

// The roles. Facts and machine words are context: known about the machine
// whatever it does. Signs, readings, derived quantities and the stack are
// evidence. The rest are names that rules refer to.
const (
	RoleFact     Role = "fact"
	RoleMachine  Role = "machine"
	RoleSign     Role = "sign"
	RoleReading  Role = "reading"
	RoleDerived  Role = "derived"
	RoleStack    Role = "stack"
	RoleCause    Role = "cause"
	RoleEffect   Role = "effect"
	RoleCaution  Role = "caution"
	RoleSource   Role = "source"
	RoleStrength Role = "strength"
	RoleCheck    Role = "check"

	// Kinds of part and what can be said of one. Their ids carry the role as a
	// prefix ("part:friction"): only the arguments of functions name them.
	RolePart      Role = "part"
	RoleAttribute Role = "attribute"
)

// Context reports whether words of this role may stand in the condition of a
// rule that moves beliefs. Signs and readings may not: they reach the graph as
// evidence, and a condition on them would count the same observation twice.
func (r Role) Context() bool { return r == RoleFact || r == RoleMachine }

// Kind is the type of a value.
type Kind string

// The kinds of value.
const (
	YesNo    Kind = "yesno"    // true or false
	Choice   Kind = "choice"   // one of a list of words
	Choices  Kind = "set"      // any number of a list of words
	Quantity Kind = "quantity" // a number with a unit, kept in SI
	Count    Kind = "count"    // a bare number
	Reading  Kind = "reading"  // measured values with the uncertainty of a gauge
	Sizes    Kind = "sizes"    // a list of quantities, such as the plate thicknesses on sale
	Label    Kind = "label"    // a few words of the user's own, compared whole
	Assembly Kind = "stack"    // parts in order
	Name     Kind = "name"     // not a value: the id of a cause, an effect, a caution
)

// Word is one entry of the vocabulary.
type Word struct {
	ID      string         `json:"id"`
	Role    Role           `json:"role"`
	Kind    Kind           `json:"kind"`
	Dim     unit.Dimension `json:"dim"`
	Unit    string         `json:"unit,omitempty"`    // the unit it is usually written in
	Choices []string       `json:"choices,omitempty"` // allowed values of a choice or a set
	Number  float64        `json:"number,omitempty"`  // the value of a strength word
}

// Allows reports whether value is one of the word's choices.
func (w Word) Allows(value string) bool {
	for _, c := range w.Choices {
		if c == value {
			return true
		}
	}
	return false
}

// Vocabulary is a list of words with an index. The zero value is empty and
// ready for use.
type Vocabulary struct {
	words []Word
	index map[string]int
}

// NewVocabulary returns an empty vocabulary with room for some words.
func NewVocabulary(room int) *Vocabulary {
	return &Vocabulary{words: make([]Word, 0, room), index: make(map[string]int, room)}
}

// Add appends a word. It reports false, and adds nothing, when the id is taken.
func (v *Vocabulary) Add(w Word) bool {
	if _, taken := v.index[w.ID]; taken {
		return false
	}
	if v.index == nil {
		v.index = map[string]int{}
	}
	v.index[w.ID] = len(v.words)
	v.words = append(v.words, w)
	return true
}

// Lookup finds a word by id.
func (v *Vocabulary) Lookup(id string) (Word, bool) {
	i, ok := v.index[id]
	if !ok {
		return Word{}, false
	}
	return v.words[i], true
}

// Has reports whether id is a word of one of the given roles.
func (v *Vocabulary) Has(id string, roles ...Role) bool {
	w, ok := v.Lookup(id)
	if !ok {
		return false
	}
	for _, r := range roles {
		if w.Role == r {
			return true
		}
	}
	return false
}

// IDs lists the ids of the given roles, or of all words when none is given,
// in alphabetical order.
func (v *Vocabulary) IDs(roles ...Role) []string {
	var ids []string
	for _, w := range v.words {
		if len(roles) == 0 || v.Has(w.ID, roles...) {
			ids = append(ids, w.ID)
		}
	}
	sort.Strings(ids)
	return ids
}

// Words lists the words of one role in the order they were added.
func (v *Vocabulary) Words(role Role) []Word {
	var out []Word
	for _, w := range v.words {
		if w.Role == role {
			out = append(out, w)
		}
	}
	return out
}
