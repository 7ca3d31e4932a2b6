package report

import (
	"fmt"
	"sort"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/rule"
)

// basisIn is the title of a source, or the basis as it stands when it is none
// ("common practice").
func basisIn(cat *catalog.Catalog, id string) string {
	if s, ok := cat.Source(id); ok {
		return s.Title
	}
	return id
}

// Word is an entry of the knowledge that can be looked up.
type Word struct {
	ID   string `json:"id"`
	Kind string `json:"kind"` // cause, sign, check, effect, fact, machine, reading, derived, stage, part, term
	Name string `json:"name"`
	text string // what a search looks at, in small letters
}

// Words lists everything that can be looked up, in the order of the knowledge.
func Words(cat *catalog.Catalog) []Word {
	var out []Word
	add := func(kind, id, name string, more ...string) {
		text := strings.ToLower(strings.Join(append(more, strings.ReplaceAll(id, "_", " "), name), " "))
		out = append(out, Word{id, kind, name, text})
	}
	for _, c := range cat.Causes {
		add("cause", c.ID, c.Name)
	}
	for _, s := range cat.Signs {
		add("sign", s.ID, s.Name, s.Question)
	}
	for _, c := range cat.Checks {
		add("check", c.ID, c.Name)
	}
	for _, e := range cat.Effects {
		add("effect", e.ID, e.Name)
	}
	for _, f := range cat.Facts {
		add("fact", f.ID, f.Name, f.Phrases...)
	}
	for _, f := range cat.Machine {
		add("machine", "machine."+f.ID, f.Name)
	}
	for _, r := range cat.Readings {
		add("reading", r.ID, r.Name)
	}
	for _, d := range cat.Derived {
		add("derived", d.ID, d.Name)
	}
	for _, s := range cat.Stages {
		add("stage", s.ID, s.Name)
	}
	for _, p := range cat.Parts {
		add("part", catalog.StackID+"."+p.ID, p.Name, p.Plural, strings.Join(p.Has, " "))
	}
	for _, x := range terms {
		add("term", x.id, x.name, x.also)
	}
	return out
}

// Search finds the words that carry the id text, or else those in which every
// part of text occurs that says anything, those with it in their name first.
func Search(cat *catalog.Catalog, text string) []Word {
	all := Words(cat)
	for _, w := range all {
		if w.ID == text {
			return []Word{w}
		}
	}
	var parts []string
	for _, p := range strings.Fields(strings.ToLower(strings.ReplaceAll(text, "_", " "))) {
		if !strings.Contains(idleWords, " "+p+" ") {
			parts = append(parts, p)
		}
	}
	var out []Word
	for _, w := range all {
		if len(parts) > 0 && hasAll(w.text, parts) {
			out = append(out, w)
		}
	}
	inName := func(w Word) bool { return hasAll(strings.ToLower(w.Name), parts) }
	sort.SliceStable(out, func(i, j int) bool { return inName(out[i]) && !inName(out[j]) })
	return out
}

// Near finds what shares a word with a text that Search finds nothing for, as a
// person would be understood.
func Near(cat *catalog.Catalog, text string) []Word {
	found := Find(cat, nil, text, "cause", "sign", "check", "fact", "stage")
	return found[:min(mostNear, len(found))]
}

// mostNear is how many words that only come near are offered.
const mostNear = 12

// hasAll reports whether every part occurs in text.
func hasAll(text string, parts []string) bool {
	for _, p := range parts {
		if !strings.Contains(text, p) {
			return false
		}
	}
	return true
}

// List is the page of several words, by kind in the order in which the kinds
// first appear.
func List(title string, words []Word) document.Document {
	page := document.New(title)
	var kinds []string
	of := map[string][]document.Item{}
	for _, w := range words {
		if of[w.Kind] == nil {
			kinds = append(kinds, w.Kind)
		}
		of[w.Kind] = append(of[w.Kind], item(document.Code(w.ID), plain(": "+w.Name)))
	}
	for _, kind := range kinds {
		page.Blocks = append(page.Blocks, heading(capital(kind)), document.List(of[kind]...))
	}
	return page
}

// Contents is the page that says what is in the knowledge.
func Contents(cat *catalog.Catalog, set *rule.Set) document.Document {
	facts := []document.Fact{}
	add := func(name string, n int) { facts = append(facts, document.NewFact(name, document.Plainf("%d", n))) }
	add("causes", len(cat.Causes))
	add("signs", len(cat.Signs))
	add("checks", len(cat.Checks))
	add("effects", len(cat.Effects))
	add("facts", len(cat.Facts))
	add("machine words", len(cat.Machine))
	add("readings", len(cat.Readings))
	add("derived quantities", len(cat.Derived))
	add("stages", len(cat.Stages))
	if len(cat.Parts) > 0 {
		add("parts of a stack", len(cat.Parts))
	}
	add("rules", len(set.Rules))
	var complaints []document.Item
	for _, f := range cat.Families {
		n := 0
		for _, s := range cat.Signs {
			if s.Family == f.ID {
				n++
			}
		}
		complaints = append(complaints, item(document.Strong(f.Name), plain(bracketed(counted(n, "sign", "signs"))), plain(after(": ", f.What))))
	}
	page := document.New("What is in this book", document.Facts(facts...), heading("Families of signs"), document.List(complaints...))
	page.Blocks = append(page.Blocks, measures()...)
	page.Blocks = append(page.Blocks, document.Note(document.Hint, plain("Give a word or an id, such as "), document.Code("takeup words "+example(cat)), plain(".")))
	return page
}

// after puts before in front of s, or nothing when s is empty.
func after(before, s string) string {
	if s == "" {
		return ""
	}
	return before + s
}

// example is an id that exists in this pack, so that the hint can be typed as it
// stands.
func example(cat *catalog.Catalog) string {
	if len(cat.Causes) == 0 {
		return "TEXT"
	}
	return cat.Causes[0].ID
}

// Entry is the page of one word.
func Entry(cat *catalog.Catalog, set *rule.Set, w Word) document.Document {
	b := book{cat, set}
	page := document.New(w.Name, document.Paragraph(document.Code(w.ID), plain(", a "+kindWord(w.Kind))))
	page.Blocks = append(page.Blocks, b.entry(w)...)
	return page
}

// kindWord is a kind as a noun.
func kindWord(kind string) string {
	switch kind {
	case "machine":
		return "word of the machine sheet"
	case "derived":
		return "quantity worked out from readings and the machine sheet"
	case "part":
		return "part of the stack"
	case "term":
		return "measure"
	}
	return kind
}

// Plainly is one word and its kind on one line, for lists of completions.
func (w Word) Plainly() string { return fmt.Sprintf("%s\t%s", w.ID, w.Name) }
