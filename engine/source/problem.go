package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Severity says whether a problem stops the work.
type Severity int

// An Error makes the file unusable; a Warning is worth a look.
const (
	Error Severity = iota
	Warning
)

// String returns "error" or "warning".
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// MarshalText writes the severity as its word, so that JSON stays readable.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// Pos is a place in a file. Line and Column count from 1, Column in runes. A
// zero Line means the file as a whole.
type Pos struct {
	File   string `json:"file"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
}

// String returns file:line:column, or the file alone for a whole-file position.
func (p Pos) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Related is a second place that belongs to a problem, such as the first use of
// a duplicate key.
type Related struct {
	Pos     Pos    `json:"pos"`
	Message string `json:"message"`
}

// Problem is one thing wrong with a file. Code is stable (see the Code
// constants); Length is the number of runes to underline, at least 1; Message
// is lower case without full stop; Hint is one line or empty.
type Problem struct {
	Code     string    `json:"code"`
	Severity Severity  `json:"severity"`
	Pos      Pos       `json:"pos"`
	Length   int       `json:"length"`
	Message  string    `json:"message"`
	Hint     string    `json:"hint,omitempty"`
	Related  []Related `json:"related,omitempty"`
}

// String returns the problem on one line, without hint.
func (p Problem) String() string {
	return clean(fmt.Sprintf("%s: %s %s: %s", p.Pos, p.Severity, p.Code, p.Message))
}

// Problems is a list of problems. As an error it prints all of them.
type Problems []Problem

// Add appends p.
func (ps *Problems) Add(p Problem) {
	p.Length = max(p.Length, 1)
	*ps = append(*ps, p)
}

// Errorf appends an error and returns it, so that a hint or a related place can
// be set at once. The pointer is valid until the list grows again.
func (ps *Problems) Errorf(code string, pos Pos, length int, format string, args ...any) *Problem {
	return ps.addf(Error, code, pos, length, format, args)
}

// Warnf is Errorf for a warning.
func (ps *Problems) Warnf(code string, pos Pos, length int, format string, args ...any) *Problem {
	return ps.addf(Warning, code, pos, length, format, args)
}

func (ps *Problems) addf(s Severity, code string, pos Pos, length int, format string, args []any) *Problem {
	ps.Add(Problem{Code: code, Severity: s, Pos: pos, Length: length, Message: fmt.Sprintf(format, args...)})
	return &(*ps)[len(*ps)-1]
}

// Sort orders the list by file, line, column and code, and drops exact repeats.
func (ps *Problems) Sort() {
	slices.SortStableFunc(*ps, compare)
	*ps = slices.CompactFunc(*ps, same)
}

// compare goes on to severity, message and hint so that equal problems end up
// side by side and the order never depends on who reported first.
func compare(a, b Problem) int {
	return cmp.Or(
		cmp.Compare(a.Pos.File, b.Pos.File),
		cmp.Compare(a.Pos.Line, b.Pos.Line),
		cmp.Compare(a.Pos.Column, b.Pos.Column),
		cmp.Compare(a.Code, b.Code),
		cmp.Compare(a.Severity, b.Severity),
		cmp.Compare(a.Message, b.Message),
		cmp.Compare(a.Hint, b.Hint),
		cmp.Compare(a.Length, b.Length),
	)
}

// same is what Sort drops: equal to the reader in every respect.
func same(a, b Problem) bool {
	return compare(a, b) == 0 && slices.Equal(a.Related, b.Related)
}

// HasErrors reports whether any problem is an error.
func (ps Problems) HasErrors() bool {
	return slices.ContainsFunc(ps, func(p Problem) bool { return p.Severity == Error })
}

// Err returns the list as an error, or nil when it holds no errors.
func (ps Problems) Err() error {
	if !ps.HasErrors() {
		return nil
	}
	return ps
}

// Error returns all problems, one per line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}
