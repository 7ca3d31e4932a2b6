package practice

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// YAML writes a scenario as a case file with its truth and every result in it,
// such as Scenario reads back: a case to hand on, to edit, to practise on again.
func (b Book) YAML(s *Scenario, title string) []byte {
	w := &writer{}
	w.line(0, "title", source.Quote(title))
	if s.Invented {
		w.line(0, "invented", "yes")
	}
	b.writeMachine(w, s)
	w.open(0, "history")
	for _, f := range b.Catalog.Facts {
		if v, ok := s.Known.Get(f.ID); ok {
			w.line(1, f.ID, valueText(v))
		}
	}
	w.open(0, "signs")
	for _, x := range b.Catalog.Signs {
		if e, ok := s.Signs[x.ID]; ok {
			w.line(1, x.ID, e.Answer)
		}
	}
	w.open(0, "readings")
	for _, r := range b.Catalog.Readings {
		if v, ok := s.Readings.Get(r.ID); ok {
			w.line(1, r.ID, readingText(v, r.Unit))
		}
	}
	w.line(0, "found", list(s.Truth))
	w.open(0, "practice")
	w.line(1, "level", fmt.Sprint(s.Level))
	w.line(1, "seed", fmt.Sprint(s.Seed))
	w.line(1, "told", list(s.Told))
	w.line(1, "recalled", list(s.Recalled))
	w.line(1, "vague", list(s.Vague))
	return []byte(w.String())
}

func (b Book) writeMachine(w *writer, s *Scenario) {
	w.open(0, "machine")
	if s.Machine.Title != "" {
		w.line(1, "name", source.Quote(s.Machine.Title))
	}
	if s.Machine.Invented {
		w.line(1, "invented", "yes")
	}
	for _, f := range b.Catalog.Machine {
		if v, ok := s.Known.Get("machine." + f.ID); ok {
			w.line(1, f.ID, valueText(v))
		}
	}
}

// writer writes keys and values. A key that opens a mapping is written with the
// first line below it.
type writer struct {
	strings.Builder
	opened string
}

func (w *writer) open(_ int, key string) { w.opened = key + ":\n" }

func (w *writer) line(depth int, key, value string) {
	if depth == 0 {
		w.opened = ""
	}
	w.WriteString(w.opened)
	w.opened = ""
	w.WriteString(strings.Repeat("  ", depth) + key + ": " + value + "\n")
}

func list(words []string) string { return "[" + strings.Join(words, ", ") + "]" }

// valueText is a value as a case file holds it.
func valueText(v fact.Value) string {
	text := strings.ReplaceAll(v.Text, "\u00a0", " ")
	switch v.Kind {
	case fact.YesNo:
		if v.Yes {
			return "yes"
		}
		return "no"
	case fact.Choice:
		return v.Word
	case fact.Choices:
		return list(v.Words)
	case fact.Sizes:
		return "[" + text + "]"
	}
	return text
}

// readingText lists the values of a reading in its unit, with the digits that a
// gauge shows.
func readingText(v fact.Value, symbol string) string {
	u, _ := unit.Find(symbol)
	var words []string
	for _, x := range v.Values {
		words = append(words, strings.ReplaceAll(unit.Format(x, u, 6), "\u00a0", " "))
	}
	if len(words) == 1 {
		return words[0]
	}
	return list(words)
}
