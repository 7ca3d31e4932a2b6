package report

import (
	"cmp"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
)

// valueWords words the value of a fact.
func valueWords(f catalog.Fact, v fact.Value) string {
	name := func(word string) string {
		for _, o := range f.Choices {
			if o.ID == word {
				return o.Name
			}
		}
		return word
	}
	switch v.Kind {
	case fact.YesNo:
		if v.Yes {
			return "yes"
		}
		return "no"
	case fact.Choice:
		return name(v.Word)
	case fact.Choices:
		var words []string
		for _, w := range v.Words {
			words = append(words, name(w))
		}
		return cmp.Or(Join(words), "nothing")
	}
	return strings.ReplaceAll(v.Text, " ", nbsp)
}
