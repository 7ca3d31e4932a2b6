package prose

import (
	"io/fs"
	"path"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// phraseFile is one file of the folder phrases/. A phrase is a few words that are
// looked for in this order, whatever form they take; a text may put little words
// between them. Some signs stand for more than a word:
//
//	<name>          any wording of a concept
//	{distance}      an amount: also length, time, temperature, torque, speed, number
//	{thousands}     a distance of a thousand or more of its unit
//	!in             a little word that must be there
//	~  ..  ...      up to two, four or six other words, the last also over a comma
//	|               a place where no noun follows
//	a & b           parts in any order: what is said of, then its circumstances
//	= a             all that stands between two commas
//	+ a             a phrase that says nothing when it is denied
//	@name a         a phrase that counts once the concept has come up
type phraseFile struct {
	Phrases  []source.Entry `yaml:"phrases"`  // sign: wordings that say yes
	Denials  []source.Entry `yaml:"denials"`  // sign: wordings that say no
	Facts    []source.Entry `yaml:"facts"`    // fact: value: wordings
	Amounts  []source.Entry `yaml:"amounts"`  // fact or reading: wordings with an amount
	Concepts []source.Entry `yaml:"concepts"` // name: wordings
	Vague    []source.Entry `yaml:"vague"`    // question: wordings that only bring it up
	Same     []source.Entry `yaml:"same"`     // word: other spellings and words for it
	Plain    []source.Text  `yaml:"plain"`    // words that are right though they look misspelt
	Little   []source.Text  `yaml:"little"`   // words of this trade that say nothing by themselves
	Others   []source.Text  `yaml:"others"`   // words for things that are not the writer's own case
	Own      []source.Text  `yaml:"own"`      // words for his own
}

// aim is what a phrase says when it is found.
type aim struct {
	kind  aimKind
	id    string
	value string // of a fact: yes, no or a choice
	one   bool   // the fact has one value, so that a longer wording overrules a shorter
}

type aimKind uint8

const (
	signYes aimKind = iota
	signNo
	factIs
	amountOf
	vagueOf
)

// item is one place of a phrase: a stem, a concept or a gap.
type item struct {
	stem    string
	concept int // index, -1 for a stem
	gap     gap
}

// gap is how far two words of a phrase may stand apart.
type gap struct {
	words int  // others than little words
	far   bool // also over a comma
}

// gaps by how they are written.
var gaps = map[string]gap{"~": {2, false}, "..": {4, false}, "...": {6, true}}

// phrase is what to look for, with what it says.
type phrase struct {
	aim   aim
	topic int  // concept that must have been spoken of, -1 for none
	whole bool // it must be all that its chunk says
	only  bool // it counts only where it is not denied
	parts [][]item
}

// concept is one idea in its wordings.
type concept struct {
	name   string
	ways   [][]item
	uses   []int            // concepts its wordings name
	first  map[string][]int // wordings by their first stem; "" has those that begin with a concept
	heads  bool             // stands first in a phrase of several parts about a sign
	topic  bool             // and the phrase says yes: it can be leant on later
	around bool             // a circumstance in a phrase of several parts about a sign
}

// from lists the wordings that can begin at a token, those that begin with a
// concept or an amount always, in the order of the files.
func (c concept) from(t token) []int {
	if t.mark != 0 {
		return nil
	}
	own, open := c.first[t.stem], c.first[""]
	for _, s := range t.also {
		own = append(own[:len(own):len(own)], c.first[s]...)
	}
	if len(own) == 0 || len(open) == 0 {
		return append(own[:len(own):len(own)], open...)
	}
	out := append(slices.Clone(own), open...)
	slices.Sort(out)
	return out
}

// Lexicon is every phrase of a pack, ready to read with. It is not changed by use.
type Lexicon struct {
	cat      *catalog.Catalog
	vocab    *fact.Vocabulary
	phrases  []phrase
	concepts []concept
	order    []int            // concepts, those used by others first
	byStem   map[string][]int // phrases by the first stem of their first part
	byIdea   map[int][]int    // phrases by the first concept of their first part
	same     map[string]string
	stemmed  map[string]string // stems of the words of the phrases
	little   map[string]bool
	idioms   map[string][]idiom // of this pack
	words    map[string]bool    // every word of the phrases, and those that are plain
	stems    map[string]bool    // of the words of the phrases
	spelling map[int][]string

	// Concepts with a part of their own, -1 if the pack has none: three that stand
	// for what was spoken of before, words that say nothing, and words that set
	// nothing against anything though they begin with "but".
	fine, clears, happens, nothing, bound int
}

// Load reads the phrases of a knowledge folder. A pack without the folder has the
// phrases of its facts only. Problems carry paths that start with phrases/.
func Load(fsys fs.FS, cat *catalog.Catalog) (*Lexicon, source.Problems) {
	l := &Lexicon{cat: cat, vocab: cat.Vocabulary(), byStem: map[string][]int{}, byIdea: map[int][]int{}, same: map[string]string{}, stemmed: map[string]string{}, little: map[string]bool{}, words: map[string]bool{}, stems: map[string]bool{}, spelling: map[int][]string{}}
	var files []phraseFile
	var ps source.Problems
	if info, err := fs.Stat(fsys, "phrases"); err == nil && info.IsDir() {
		files, ps = source.DecodeFolder[phraseFile](fsys, func(p string) bool { return path.Dir(p) == "phrases" })
	}
	c := compiler{l: l, ps: &ps}
	c.all(files)
	ps.Sort()
	return l, ps
}
