package explain

// Explanation is the answer to one case with its reasons.
type Explanation struct {
	Causes      []Cause   `json:"causes"` // all that are possible, most probable first
	Sets        []Set     `json:"sets"`   // most probable first
	SetsWhole   bool      `json:"sets_whole"`
	Unlisted    float64   `json:"unlisted"`    // P(none of the book's causes is present | evidence)
	Signs       []Sign    `json:"signs"`       // one for each piece of evidence, in the order given
	Effects     []Effect  `json:"effects"`     // those more likely than not, most probable first
	Unexplained []string  `json:"unexplained"` // signs present that most likely have no cause in the book
	Waiting     []Waiting `json:"waiting"`
	RuledOut    []Ruled   `json:"ruled_out,omitempty"`
	Steadiness  float64   `json:"steadiness"` // share of disturbed drawings in which the first cause stays first
	LogEvidence float64   `json:"log_evidence"`
}

// Cause is one possible cause with its account.
type Cause struct {
	ID          string  `json:"id"`
	Probability float64 `json:"probability"`
	Prior       float64 `json:"prior"` // before any sign, history and other causes included
	Balance     Balance `json:"balance"`
	Rules       []Spoke `json:"rules"`    // for and against, those that moved most first
	Missing     []Sign  `json:"missing"`  // expected of this cause, and answered no
	Expected    []Sign  `json:"expected"` // expected of this cause, and not yet asked
}

// Balance is the account of one cause in decibans (10 log10 of odds; Good 1950).
// Base, the history steps, ByOthers and the entries add up exactly to Final.
type Balance struct {
	Base     float64 `json:"base"`      // the catalog's prior
	History  []Entry `json:"history"`   // one for each history rule
	ByOthers float64 `json:"by_others"` // other causes that lead to it, before any sign
	Entries  []Entry `json:"entries"`   // one for each piece of evidence, in the order given
	Final    float64 `json:"final"`
}

// Entry is one line of a balance.
type Entry struct {
	ID       string  `json:"id"` // the rule of a history line, the sign of an evidence line
	Answer   string  `json:"answer,omitempty"`
	Decibans float64 `json:"decibans"`
	// LeaveOneOut is what the log-odds would lose, in decibans, if this piece
	// alone were struck out. It does not depend on the order, and does not add up.
	LeaveOneOut float64 `json:"leave_one_out"`
}

// Spoke is a rule that says something about a cause in this case.
type Spoke struct {
	Rule  string  `json:"rule"`
	Share float64 `json:"share"` // links: P(the link acted | evidence); history: 1
}

// Sign is one piece of evidence, or a sign that was expected, with what stands
// behind it.
type Sign struct {
	ID     string  `json:"id"`
	Answer string  `json:"answer,omitempty"`
	Rule   string  `json:"rule,omitempty"`   // the rule that read it off a measurement
	Chance float64 `json:"chance,omitempty"` // missing and expected: P(the cause brings the sign | the cause is there)
	Shares []Share `json:"shares,omitempty"` // present signs: parents by how likely their link acted
	Leak   float64 `json:"leak,omitempty"`   // P(it showed for a reason not in the book)
}

// Share is the part that one parent plays: P(its link acted | evidence). Shares
// may add up to more than 1, since several links can act at once.
type Share struct {
	ID    string  `json:"id"`
	Rule  string  `json:"rule"`
	Share float64 `json:"share"`
}

// Effect is what goes wrong inside, with the causes behind it.
type Effect struct {
	ID          string  `json:"id"`
	Probability float64 `json:"probability"`
	Shares      []Share `json:"shares"`
	Leak        float64 `json:"leak"`
}

// Set is an exact set of causes: these present, all others absent.
type Set struct {
	Causes      []string `json:"causes"`
	Probability float64  `json:"probability"`
}

// Waiting is a rule that cannot tell, with the words that would settle it.
type Waiting struct {
	Rule  string   `json:"rule"`
	Facts []string `json:"facts"`
	Moves float64  `json:"moves"` // by how much the answer could move the probability of a cause, times that probability
}

// Ruled is a cause that cannot exist in this machine, with the rule that says so.
type Ruled struct {
	Cause string `json:"cause"`
	Rule  string `json:"rule"`
}

// Contrast answers "why A and not B": the lines in which their accounts differ.
type Contrast struct {
	A     Cause   `json:"a"`
	B     Cause   `json:"b"`
	Lines []Entry `json:"lines"` // A minus B in decibans, largest first; "prior" is the first word of the account
	Total float64 `json:"total"`
}
