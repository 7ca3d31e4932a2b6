package report

import (
	"math"
	"sort"
	"strings"
	"unicode"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/practice"
)

// idleWords say nothing about what is looked for.
const idleWords = " a an the is it its why of in on at to and or with for when does do did be are was i you my has have can what how there that this any if "

// Find searches like a person would be understood: signs, facts, checks and
// causes that share words with the text, those that share the rarer ones first.
// Phrases are how riders word a sign, by its id. An id is found as it stands.
func Find(cat *catalog.Catalog, phrases map[string][]string, text string, kinds ...string) []Word {
	all := findable(cat, phrases, kinds)
	for _, w := range all {
		if w.ID == text || strings.EqualFold(w.Name, text) {
			return []Word{w}
		}
	}
	asked := stems(text)
	common := map[string]int{}
	sets := make([]map[string]bool, len(all))
	for i, w := range all {
		sets[i] = map[string]bool{}
		for _, s := range stems(w.text) {
			sets[i][s] = true
		}
		for s := range sets[i] {
			common[s]++
		}
	}
	score := make([]float64, len(all))
	place := make([]int, 0, len(all))
	best := 0.0
	for i, w := range all {
		named := map[string]bool{}
		for _, s := range stems(w.Name + " " + strings.ReplaceAll(w.ID, "_", " ")) {
			named[s] = true
		}
		for _, s := range asked {
			if !sets[i][s] {
				continue
			}
			weight := math.Log(float64(len(all)+1) / float64(common[s]))
			if named[s] {
				weight *= 2
			}
			score[i] += weight
		}
		if score[i] > 0 {
			place = append(place, i)
			best = max(best, score[i])
		}
	}
	sort.SliceStable(place, func(i, k int) bool { return score[place[i]] > score[place[k]] })
	var out []Word
	for _, i := range place {
		if score[i] >= best/3 {
			out = append(out, all[i])
		}
	}
	return out
}

// Naming keeps those of some words whose names carry every word of the text, or
// all of them when none does: who says most of a name means it.
func Naming(found []Word, text string) []Word {
	asked := stems(text)
	var out []Word
	for _, w := range found {
		named := strings.Join(stems(w.Name), " ") + " "
		all := len(asked) > 0
		for _, s := range asked {
			all = all && strings.Contains(" "+named, " "+s+" ")
		}
		if all {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return found
	}
	return out
}

// Verbs are the words that names of checks begin with: who begins with one wants
// a check.
func Verbs(cat *catalog.Catalog) map[string]bool {
	out := map[string]bool{}
	for _, c := range cat.Checks {
		first, _, _ := strings.Cut(c.Name, " ")
		out[strings.ToLower(first)] = true
	}
	return out
}

// findable lists what can be asked, done or named, with the text to search.
func findable(cat *catalog.Catalog, phrases map[string][]string, kinds []string) []Word {
	var out []Word
	add := func(kind, id, name string, more ...string) {
		for _, k := range kinds {
			if k == kind {
				out = append(out, Word{id, kind, name, strings.ToLower(strings.Join(append(more, strings.ReplaceAll(id, "_", " "), name), " "))})
			}
		}
	}
	for _, s := range cat.Signs {
		add("sign", s.ID, s.Name, append([]string{s.Question}, phrases[s.ID]...)...)
	}
	for _, f := range cat.Facts {
		more := append([]string{f.Question}, f.Phrases...)
		for _, o := range f.Choices {
			more = append(append(more, o.Name), o.Phrases...)
		}
		add("fact", f.ID, f.Name, more...)
	}
	for _, c := range cat.Checks {
		var settles []string
		for _, id := range append(append([]string(nil), c.Settles...), c.Gives...) {
			settles = append(settles, cat.NameOf(id))
		}
		add("check", c.ID, c.Name, settles...)
	}
	for _, c := range cat.Causes {
		add("cause", c.ID, c.Name)
	}
	for _, g := range cat.Stages {
		add("stage", g.ID, g.Name)
	}
	return out
}

// stems cuts a text into words without their usual endings.
func stems(text string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if strings.Contains(idleWords, " "+w+" ") || len(w) < 2 {
			continue
		}
		for _, end := range []string{"ings", "ing", "es", "ed", "s"} {
			if cut, ok := strings.CutSuffix(w, end); ok && len(cut) >= 3 {
				w = cut
				break
			}
		}
		w = strings.TrimSuffix(w, "e")
		if n := len(w); n > 3 && w[n-1] == w[n-2] { // dragging, slipping
			w = w[:n-1]
		}
		out = append(out, w)
	}
	return out
}

// Choice is one line of a numbered list of an exercise.
type Choice struct {
	Word
	Line string
}

// Choices words what was found as things to do where the student stands.
func (t Tutor) Choices(words []Word, at *practice.Session) []Choice {
	var out []Choice
	for _, w := range words {
		line := w.Name
		switch w.Kind {
		case "sign":
			s, _ := t.Catalog.Sign(w.ID)
			line = "ask: " + s.Name
		case "fact":
			line = "ask: " + w.Name
		case "check":
			c, _ := t.Catalog.Check(w.ID)
			line = "do: " + w.Name + " (" + Minutes(c.Minutes) + ", " + t.Catalog.NameOf(c.Stage) + ")"
		case "cause":
			line = "name: " + t.name(w.ID)
		case "how":
			line = "how: " + w.Name
		case "stage":
			_, minutes := at.Opens(w.ID)
			line = "open: " + w.Name + " (" + Minutes(minutes) + " from here and back)"
		}
		out = append(out, Choice{w, line})
	}
	return out
}
