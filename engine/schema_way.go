package engine

// wayFile is a written way through a case to practise on, as practice.ReadWay
// reads it; a test compares the keys.
func (s *schemas) wayFile() object {
	var stages words
	for _, g := range s.e.Catalog.Stages {
		stages.add(g.ID, g.Name)
	}
	move := closed(object{
		"ask":     described("a sign the customer is asked for", ref("sign")),
		"history": described("a fact the customer is asked for", ref("fact")),
		"do":      described("a check; the stages on the way are opened for it", ref("check")),
		"open":    object{"enum": stages.ids, "enumDescriptions": stages.about, "description": "a stage"},
	})
	named := closed(object{
		"cause":      ref("cause"),
		"confidence": object{"type": []string{"number", "string"}, "description": "how sure, in percent: 70 %"},
	}, "cause", "confidence")
	return closed(object{
		"student": text("whose way it is"),
		"case":    text("path of the case from the folder of this file"),
		"seed":    object{"type": "integer", "minimum": 1, "description": "of a drawn case, in place of case"},
		"level":   choice("of a drawn case", 1, 2, 3),
		"family":  text("of complaints, of a drawn case"),
		"moves":   object{"type": "array", "items": move, "description": "what was asked, opened and done, in order"},
		"named":   object{"type": "array", "items": named, "minItems": 1, "description": "the causes, the likeliest first"},
		"reason":  text("in a line"),
	}, "named")
}

// described puts words beside a reference, which draft 7 takes alone.
func described(says string, to object) object {
	return object{"allOf": []object{to}, "description": says}
}
