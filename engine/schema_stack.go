package engine

import (
	"maps"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
)

// stack defines a list of parts in every form that intake reads.
func (s *schemas) stack() {
	if len(s.e.Catalog.Parts) == 0 {
		s.defs["stack"] = object{"const": "unknown", "description": "this pack knows no parts"}
		return
	}
	kinds := words{}
	keys, counted, long := object{}, object{}, []object{}
	for _, p := range s.e.Catalog.Parts {
		kinds.add(p.ID, p.What)
		said := s.attributes(p)
		s.defs["part."+p.ID] = closed(said)
		value := object{
			"description": sentences(p.What),
			"anyOf":       []object{ref("part." + p.ID), {"const": "missing"}},
		}
		keys[p.ID], counted["^"+p.ID+" +[x×][0-9]+$"] = value, value
		whole := maps.Clone(said)
		whole["kind"] = object{"const": p.ID}
		long = append(long, closed(whole, "kind"))
	}
	kinds.add(fact.UnseenPart, "nobody has looked what lies here")
	name := object{"anyOf": []object{
		{"enum": kinds.ids, "enumDescriptions": kinds.about},
		{"type": "string", "pattern": "^[a-z_]+ +[x×][0-9]+$", "description": "several alike, such as " + s.e.Catalog.Parts[0].ID + " x3"},
	}}
	one := object{"type": "object", "properties": keys, "patternProperties": counted, "additionalProperties": false, "minProperties": 1, "maxProperties": 1}
	s.defs["stack_part"] = object{"anyOf": append([]object{name, one}, long...)}
	group := object{
		"type": "object", "patternProperties": object{"^[x×] ?[0-9]+$": list(ref("stack_part"))},
		"additionalProperties": false, "minProperties": 1, "maxProperties": 1,
		"description": "parts that come again and again, such as x6: [steel, friction]",
	}
	s.defs["stack"] = object{
		"description": "the parts in order, innermost first",
		"anyOf":       []object{{"type": "array", "minItems": 1, "items": object{"anyOf": []object{ref("stack_part"), group}}}, unknown},
	}
}

// attributes lists what can be said of a part: one value, or one for each of several.
func (s *schemas) attributes(p catalog.Part) object {
	o := object{"count": object{"type": "integer", "minimum": 1, "maximum": 200, "description": "how many alike"}}
	for _, id := range p.Has {
		a, _ := s.e.Catalog.Attribute(id)
		if _, there := s.defs["attribute."+id]; !there {
			one := attributeValue(a)
			s.defs["attribute."+id] = object{
				"description": sentences(a.Question, a.How, after("Usually in ", a.Unit)),
				"anyOf":       []object{one, {"type": "array", "minItems": 1, "items": one}},
			}
		}
		o[id] = ref("attribute." + id)
	}
	return o
}

func attributeValue(a catalog.Attribute) object {
	switch fact.Kind(a.Kind) {
	case fact.Reading:
		return readingValue(catalog.Reading{ID: a.ID, Name: a.Name, Unit: a.Unit})
	case fact.Label:
		return object{"type": []string{"string", "number"}}
	}
	o := factValue(catalog.Fact{ID: a.ID, Name: a.Name, Kind: a.Kind, Choices: a.Choices})
	delete(o, "description")
	return o
}

// stacking teaches conditions the functions for stacks.
func (s *schemas) stacking() string {
	if len(s.e.Catalog.Parts) == 0 {
		return ""
	}
	var parts []string
	for _, p := range s.e.Catalog.Parts {
		parts = append(parts, p.ID)
	}
	return "; and the stack of " + strings.Join(parts, ", ")
}
