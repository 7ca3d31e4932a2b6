package derive

import (
	"cmp"
	"fmt"
	"slices"
	"sync"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// Table holds the formulas of a pack. It parses each when it is first asked for.
type Table struct {
	set    *rule.Set
	words  *fact.Vocabulary
	cat    *catalog.Catalog
	asked  []string // derived quantities that rules mention
	mu     sync.Mutex
	parsed map[string]*formula
}

// formula is a parsed expression, or why it cannot be read.
type formula struct {
	expr *rule.Expression
	err  error
}

// New makes the table of a pack. Formulas that cannot be read are found by Check.
func New(cat *catalog.Catalog, set *rule.Set, words *fact.Vocabulary) *Table {
	t := &Table{set: set, words: words, cat: cat, parsed: map[string]*formula{}}
	for _, r := range set.Rules {
		if r.When == nil || r.Action != rule.Shows && r.Action != rule.Cautions {
			continue
		}
		for _, w := range r.When.Words() {
			if words.Has(w, fact.RoleDerived) && !slices.Contains(t.asked, w) {
				t.asked = append(t.asked, w)
			}
		}
	}
	return t
}

// parse returns the expression of any text, read once.
func (t *Table) parse(text string) (*rule.Expression, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	f, ok := t.parsed[text]
	if !ok {
		f = &formula{}
		f.expr, f.err = t.set.Expression(text)
		t.parsed[text] = f
	}
	return f.expr, f.err
}

// Check reports formulas and bounds that cannot be read, mention unknown words,
// have another dimension than their quantity, or need themselves.
func (t *Table) Check(ps *source.Problems) {
	for _, d := range t.cat.Derived {
		dim := dimension(d.Unit)
		texts := []string{d.Value}
		for _, o := range d.Means {
			if o.Below != "" {
				texts = append(texts, o.Below)
			}
		}
		for _, text := range texts {
			x, err := t.parse(text)
			if err == nil {
				err = t.set.CheckNumber(x, t.words, dim)
			}
			if err != nil {
				ps.Errorf("K118", d.Pos, 1, "%s: %s", d.ID, err)
			}
		}
		if _, err := t.set.Parse(d.Needs, t.words); err != nil {
			ps.Errorf("K118", d.Pos, 1, "%s: needs: %s", d.ID, err)
		}
		if t.ring(d.ID, nil) {
			ps.Errorf("K119", d.Pos, 1, "%s needs itself to be worked out", d.ID)
		}
	}
}

// ring reports whether a quantity leads back to one on the way to it.
func (t *Table) ring(id string, way []string) bool {
	if slices.Contains(way, id) {
		return true
	}
	d, ok := t.cat.DerivedOf(id)
	x, err := t.parse(d.Value)
	if !ok || err != nil {
		return false
	}
	return slices.ContainsFunc(x.Words(), func(w string) bool { return t.ring(w, append(way, id)) })
}

func dimension(symbol string) unit.Dimension {
	u, _ := unit.Find(symbol)
	return u.Dim
}

// Words lists the readings and words of the machine sheet that a derived quantity
// rests on in the end, each once, in the order of the formula.
func (t *Table) Words(id string) []string {
	var out []string
	t.gather(id, &out)
	return out
}

func (t *Table) gather(id string, into *[]string) {
	d, ok := t.cat.DerivedOf(id)
	if !ok {
		if !slices.Contains(*into, id) {
			*into = append(*into, id)
		}
		return
	}
	for _, w := range t.inputs(d) {
		t.gather(w, into)
	}
}

// inputs are the words a formula mentions itself.
func (t *Table) inputs(d catalog.Derived) []string {
	x, err := t.parse(d.Value)
	if err != nil {
		return nil
	}
	return x.Words()
}

// Calls lists the functions of a formula by name.
func (t *Table) Calls(id string) []string {
	d, _ := t.cat.DerivedOf(id)
	x, err := t.parse(d.Value)
	if err != nil {
		return nil
	}
	return x.Calls()
}

// Value is a derived quantity of one case. It is known when nothing is Missing and
// there is no Trouble.
type Value struct {
	ID      string    `json:"id"`
	SI      float64   `json:"si"`
	Sigma   float64   `json:"sigma"`             // standard uncertainty, SI
	Inputs  []string  `json:"inputs,omitempty"`  // what its formula mentions, in order
	From    []float64 `json:"from,omitempty"`    // the numbers behind them, SI; 0 for a word or a reading
	Missing []string  `json:"missing,omitempty"` // readings and machine words that are not known
	Trouble string    `json:"trouble,omitempty"` // why the formula does not hold for these values
	Off     bool      `json:"off,omitempty"`     // it makes no sense on this machine
}

// Known reports whether the quantity has a value.
func (v Value) Known() bool { return !v.Off && len(v.Missing) == 0 && v.Trouble == "" }

// Value works a derived quantity out. An id that is no derived quantity has
// itself missing.
func (t *Table) Value(id string, known fact.Set) Value {
	d, ok := t.cat.DerivedOf(id)
	if !ok {
		return Value{ID: id, Missing: []string{id}}
	}
	v := Value{ID: id, Inputs: t.inputs(d)}
	if v.Off, v.Missing = t.off(d, known); v.Off {
		return v
	}
	for _, w := range t.Words(id) {
		if !known.Known(w) {
			v.Missing = append(v.Missing, w)
		}
	}
	if len(v.Missing) > 0 {
		return v
	}
	var err error
	if v.SI, err = t.compute(d.Value, known.Get); err != nil {
		v.Trouble = err.Error()
		return v
	}
	v.Sigma = t.sigma(d.Value, t.Words(id), known)
	v.From = make([]float64, len(v.Inputs))
	for i, w := range v.Inputs {
		if other, derived := t.cat.DerivedOf(w); derived {
			v.From[i], _ = t.compute(other.Value, known.Get) // it was computed just now without error
		} else if given, _ := known.Get(w); given.Kind != fact.Reading {
			v.From[i] = given.SI
		}
	}
	return v
}

// off reports that a quantity makes no sense on this machine, or the words that
// would tell.
func (t *Table) off(d catalog.Derived, known fact.Set) (off bool, waits []string) {
	if d.Needs == "" {
		return false, nil
	}
	c, err := t.set.Parse(d.Needs, t.words)
	if err != nil {
		return true, nil
	}
	f := t.set.Ask(c, known)
	return f.Verdict == rule.No, f.Waits
}

// Bound works out an expression that stands beside a derived quantity, such as the
// bound of an outcome. It is false when something in it is not known.
func (t *Table) Bound(text string, known fact.Set) (float64, bool) {
	x, err := t.parse(text)
	if err != nil {
		return 0, false
	}
	for _, w := range x.Words() {
		for _, base := range t.baseOf(w) {
			if !known.Known(base) {
				return 0, false
			}
		}
	}
	v, err := t.compute(text, known.Get)
	return v, err == nil
}

func (t *Table) baseOf(word string) []string {
	var out []string
	t.gather(word, &out)
	return out
}

// compute runs an expression after the derived quantities it mentions. Everything
// it rests on is known.
func (t *Table) compute(text string, get getter) (float64, error) {
	x, err := t.parse(text)
	if err != nil {
		return 0, err
	}
	var inner error
	v, err := t.set.Compute(x, func(w string) (fact.Value, bool) {
		d, ok := t.cat.DerivedOf(w)
		if !ok {
			return get(w)
		}
		v, err := t.compute(d.Value, get)
		if err != nil {
			inner = fmt.Errorf("%s: %w", d.Name, err)
		}
		return fact.Value{Kind: fact.Quantity, SI: v}, err == nil
	})
	return v, cmp.Or(inner, err)
}

// getter looks a value up.
type getter = func(word string) (fact.Value, bool)

// instead is a getter with one value exchanged.
func instead(get getter, id string, v fact.Value) getter {
	return func(word string) (fact.Value, bool) {
		if word == id {
			return v, true
		}
		return get(word)
	}
}
