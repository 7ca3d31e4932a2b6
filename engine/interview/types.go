package interview

import (
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
)

// Situation is what the choice of a question rests on.
type Situation struct {
	Catalog *catalog.Catalog
	Rules   *rule.Set
	Words   *fact.Vocabulary
	Derived *derive.Table // nil: no derived quantities
	Case    *intake.Case

	// Families are what the complaint was said to be about, for as long as no sign
	// of it is known.
	Families []string
	// Skipped holds the ids of signs, facts and readings that stay open, and
	// ComplaintID when the complaint was not named.
	Skipped map[string]bool
	Without []string // tools that are missing
	Open    string   // the deepest stage that is open
	// SheetElsewhere says that the machine sheet is a file of its own, so that its
	// words are not asked for here.
	SheetElsewhere bool
}

// fire asks every rule about what is known, derived quantities included.
func (s Situation) fire(known fact.Set) []rule.Firing {
	if s.Derived != nil {
		known = s.Derived.Fill(known)
	}
	return s.Rules.Fire(known)
}

// Kind is the form of a question.
type Kind string

// The kinds of question.
const (
	Complaint Kind = "complaint" // which families of signs it is about
	Sign      Kind = "sign"      // is it so
	Signs     Kind = "signs"     // which of several are so
	Fact      Kind = "fact"      // a fact of the history or a word of the machine sheet
	Reading   Kind = "reading"   // a measured value
)

// ComplaintID is the id of the question for the complaint.
const ComplaintID = "complaint"

// Question is one thing to ask.
type Question struct {
	Kind Kind `json:"kind"`
	// ID is that of the grouped question, the sign, the fact, the reading, or the
	// check that finds out about several signs.
	ID    string   `json:"id"`
	Signs []string `json:"signs,omitempty"` // asked about, or settled by the reading
	// Options are the ids to choose from, in order: families, signs, words of a fact,
	// or the four answers to one sign. A figure has none.
	Options   []string `json:"options,omitempty"`
	Check     string   `json:"check,omitempty"`     // what has to be done for it; none for what is remembered
	Stage     string   `json:"stage,omitempty"`     // of the check
	Completes bool     `json:"completes,omitempty"` // nothing else is left to find out by that check
	Minutes   float64  `json:"minutes"`             // openings included
	Bits      float64  `json:"bits"`                // expected
}

// End is why there is no further question.
type End string

// The reasons to stop.
const (
	Settled End = "settled" // the first cause is beyond reasonable doubt
	Nothing End = "nothing" // no question is worth its time
)

// Standing is how the case stands.
type Standing struct {
	End   End     `json:"end,omitempty"`
	First string  `json:"first"` // the most probable cause
	Share float64 `json:"probability"`
	Left  int     `json:"left"` // questions that could still be asked
}
