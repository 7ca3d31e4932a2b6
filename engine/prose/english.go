package prose

import "strings"

// role is what a word or an idiom does to the words around it.
type role uint8

const (
	none       role = iota
	denies          // "does not", "never", "without"
	doubts          // "I think", "maybe"
	denyDoubts      // "I don't think"
	wasOnce         // "used to"
	plans           // "going to", "thinking of"
	would           // "will", "should": a plan where work is spoken of
	others          // "my mate's"
	mine            // ends what others began
	asks            // "could it be"
	supposes        // "if", "whether"
	presumes        // "why does it": asks for the reason, takes the rest for granted
	says            // idioms in which a denying word denies nothing
	adopts          // "asked me to look": another's machine is the one spoken of
	weakens         // "hardly": neither yes nor no
	fixes           // "that cured it": all is well again
	tangles         // "I wish", "there isn't a day": what follows may mean either
	corrects        // "or rather": what stands before it was not meant
	mends           // "it's fine now": the same of what the sentence spoke of
	ends            // "has gone", "went away": denies what stands before it
)

type idiom struct {
	words []string
	role  role
}

// compileIdioms files the idioms under their first word, longest first.
func compileIdioms(list map[role]string) map[string][]idiom {
	out := map[string][]idiom{}
	for r := none; r <= ends; r++ {
		for _, text := range strings.Split(list[r], "|") {
			words := strings.Fields(text)
			if len(words) == 0 {
				continue
			}
			at := out[words[0]]
			i := 0
			for i < len(at) && len(at[i].words) >= len(words) {
				i++
			}
			at = append(at, idiom{})
			copy(at[i+1:], at[i:])
			at[i] = idiom{words, r}
			out[words[0]] = at
		}
	}
	return out
}

// pairs is a set of words and of two words that follow each other.
func pairs(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Split(list, "|") {
		out[w] = true
	}
	return out
}

func set(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}
