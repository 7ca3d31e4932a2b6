package prose

// Reading is what was found in a post.
type Reading struct {
	Title   string     `json:"title"`              // the sentence that says most
	Entries []Entry    `json:"entries"`            // in the order of a case
	Vague   []Mention  `json:"vague,omitempty"`    // complaints without their when and how
	LeftOut []Omission `json:"left_out,omitempty"` // found, and not written down
	Unread  []string   `json:"unread,omitempty"`   // sentences in which nothing was found
	Cut     bool       `json:"cut,omitempty"`      // the post is longer than is read
}

// The parts of a case that an entry can belong to.
const (
	Machine  = "machine"
	History  = "history"
	Signs    = "signs"
	Readings = "readings"
)

// Entry is one line of the draft with the words it comes from.
type Entry struct {
	Part   string   `json:"part"`
	ID     string   `json:"id"`
	Values []string `json:"values"` // one, but for sets and readings taken several times
	Set    bool     `json:"set,omitempty"`
	Sure   bool     `json:"sure"`
	Quotes []string `json:"quotes"`
	Why    string   `json:"why,omitempty"` // why it is not sure, where the words do not tell
}

// Value is the first value.
func (e Entry) Value() string { return e.Values[0] }

// Mention is a complaint that a question would make into signs.
type Mention struct {
	Question string `json:"question"`
	Quote    string `json:"quote"`
}

// Omission is something that was found and left out.
type Omission struct {
	ID     string `json:"id"`
	Quote  string `json:"quote"`
	Reason string `json:"reason"` // Asked, OtherOne and so on
}
