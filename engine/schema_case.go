package engine

import (
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/unit"
)

// Values as people type them: a number and a unit, a bare number, or nothing known.
// The patterns only catch a unit or a number that was forgotten; which units fit
// is for engine/unit to say.
const (
	quantityPattern = `[0-9].*[^0-9 .,]$`
	numberPattern   = `^(unknown|[0-9 .,/+-]+)$`
)

// unknown is what people write for what they have not looked at.
var unknown = object{"const": "unknown"}

// values defines what can stand under history, machine, signs and readings.
func (s *schemas) values() {
	history, given := object{}, object{}
	for _, f := range s.e.Catalog.Facts {
		s.defs["fact."+f.ID] = factValue(f)
		history[f.ID], given[f.ID] = ref("fact."+f.ID), ref("fact."+f.ID)
	}
	for _, f := range s.e.Catalog.Machine {
		s.defs["machine."+f.ID] = factValue(f)
		given["machine."+f.ID] = ref("machine." + f.ID)
	}
	// Tests of rules may write the sheet either way.
	given["machine"] = closed(s.machineWords(""))
	s.stack()
	given[catalog.SheetStackID] = ref("stack")
	s.defs["history"], s.defs["given"] = closed(history), closed(given)
	s.defs["signs"] = closed(s.signs())
	readings := object{}
	for _, r := range s.e.Catalog.Readings {
		readings[r.ID] = readingValue(r)
	}
	s.defs["readings"] = closed(readings)
	s.defs["prices"] = s.prices()
}

// machineWords lists the words of the machine sheet that begin with the prefix,
// whole ("limit.idle_max") and nested ("idle_max" below "limit").
func (s *schemas) machineWords(prefix string) object {
	o := object{}
	for _, f := range s.e.Catalog.Machine {
		rest, ok := strings.CutPrefix(f.ID, prefix)
		if !ok {
			continue
		}
		for i, c := range rest { // every point may open a mapping
			if _, taken := o[rest[:i]]; c == '.' && !taken {
				o[rest[:i]] = closed(s.machineWords(prefix + rest[:i] + "."))
			}
		}
		o[rest] = ref("machine." + f.ID)
	}
	if prefix == "" {
		o["stack"] = ref("stack")
	}
	return o
}

// sheet is a machine sheet, in a file of its own or inside a case.
func (s *schemas) sheet() object {
	o := s.machineWords("")
	o["name"] = text("what the machine is called")
	o["title"] = text("the same as name")
	o["notes"] = text("anything else worth knowing")
	o["invented"] = yesNo("made up, for a test or an exercise")
	o["prices"] = ref("prices")
	return closed(o)
}

// prices are money by part or cause, and for an hour of work.
func (s *schemas) prices() object {
	price := func(of string) object {
		return object{"type": "number", "minimum": 0, "maximum": 1e6, "description": of}
	}
	o := object{intake.HourKey: price("an hour of work; with it, money counts as minutes")}
	for _, name := range s.e.Catalog.Priced() {
		o[name] = price("what it costs")
	}
	return closed(o)
}

// yesNo allows both spellings: editors follow YAML 1.2, where yes is a word and
// true is not.
func yesNo(says string) object { return choice(says, "yes", "no", true, false) }

// caseFile is a case as intake.Load reads it; a test compares the keys.
func (s *schemas) caseFile() object {
	made := closed(object{
		"check":   ref("check"),
		"minutes": object{"type": []string{"number", "string"}, "minimum": 0, "maximum": 10080, "description": "how long it took: minutes, or a time with its unit"},
	}, "check")
	return closed(object{
		"title":    text("in a line what the customer says"),
		"invented": yesNo("made up, for a test or an exercise"),
		"machine": object{
			"description": "path of the machine sheet from the folder of this file, or the words of the sheet, or unknown",
			"anyOf":       []object{{"type": "string"}, s.sheet()},
		},
		"history":  ref("history"),
		"signs":    ref("signs"),
		"readings": ref("readings"),
		"stack":    ref("stack"),
		"done":     object{"type": "array", "description": "checks made", "items": object{"anyOf": []object{ref("check"), made}}},
		"open":     s.stageChoice("the deepest stage that is open already"),
		"prices":   ref("prices"),
		"found":    object{"type": "array", "description": "what it was, once the job is closed", "items": ref("cause")},
		"notes":    text("anything else worth knowing"),
		"expect": closed(object{
			"first": ref("cause"),
			"set":   list(ref("cause")),
			"why":   text("how the writer knows"),
		}),
		"practice": closed(object{
			"level":    choice("1 easy, 2 ordinary, 3 hard", 1, 2, 3),
			"seed":     object{"type": "integer", "minimum": 0, "description": "what the case leaves open is drawn from it"},
			"told":     object{"type": "array", "items": ref("sign"), "description": "complaints told unasked; all that are yes when left out"},
			"recalled": object{"type": "array", "items": ref("fact"), "description": "history told unasked; all of it when left out"},
			"vague":    object{"type": "array", "items": object{"anyOf": []object{ref("sign"), ref("fact")}}, "description": "signs and history that the customer cannot speak to"},
		}),
	}, "title")
}

// stageChoice is one of the stages.
func (s *schemas) stageChoice(says string) object {
	var ids []any
	for _, x := range s.e.Catalog.Stages {
		ids = append(ids, x.ID)
	}
	return choice(says, ids...)
}

// signs takes an answer to each sign; the question and how to tell stand beside it.
func (s *schemas) signs() object {
	o := object{}
	for _, x := range s.e.Catalog.Signs {
		says := sentences(x.Question, after("Yes: ", x.Yes), after("No: ", x.No))
		o[x.ID] = choice(says, "yes", "no", "probably", "probably not", "unknown", true, false)
	}
	return o
}

// phrasesFile is how people word signs, facts and figures, as prose.Load reads it;
// a test compares the keys.
func (s *schemas) phrasesFile() object {
	words := func(about string) object {
		return object{"type": "array", "items": object{"type": "string"}, "description": about}
	}
	signs, denials, facts, amounts, questions := object{}, object{}, object{}, object{}, object{}
	for _, x := range s.e.Catalog.Signs {
		signs[x.ID], denials[x.ID] = words(x.Name), words(x.Absent)
	}
	add := func(prefix string, f catalog.Fact) {
		values := object{}
		switch fact.Kind(f.Kind) {
		case fact.YesNo:
			values["yes"], values["no"] = words("it is so"), words("it is not so")
		case fact.Quantity:
			amounts[prefix+f.ID] = words(f.Name)
			return
		}
		for _, o := range f.Choices {
			values[o.ID] = words(o.Name)
		}
		facts[prefix+f.ID] = closed(values)
	}
	for _, f := range s.e.Catalog.Facts {
		add("", f)
	}
	for _, f := range s.e.Catalog.Machine {
		add("machine.", f)
	}
	for _, r := range s.e.Catalog.Readings {
		amounts[r.ID] = words(r.Name)
	}
	for _, q := range s.e.Catalog.Questions {
		questions[q.ID] = words(q.Text)
	}
	any := object{"type": "object", "additionalProperties": words("")}
	return closed(object{
		"phrases": closed(signs), "denials": closed(denials), "facts": closed(facts), "amounts": closed(amounts), "vague": closed(questions),
		"concepts": any, "same": any, "plain": words("words that are spelt right"), "little": words("words of this trade that say nothing by themselves"),
		"others": words("words for things that are not the writer's own case"), "own": words("words for his own"),
	})
}

// factValue is what may stand after the id of a fact.
func factValue(f catalog.Fact) object {
	question := f.Question
	if question == "" {
		question = f.Name
	}
	o := object{}
	switch fact.Kind(f.Kind) {
	case fact.YesNo:
		o = object{"enum": []any{"yes", "no", "unknown", true, false}}
	case fact.Choice:
		o = object{"anyOf": []object{choices(f), unknown}}
	case fact.Choices:
		o = object{"anyOf": []object{list(choices(f)), unknown}}
	case fact.Quantity:
		o = object{"anyOf": []object{quantity(f.Unit), unknown}}
	case fact.Sizes:
		o = object{"anyOf": []object{several(f.Unit), unknown}}
	case fact.Count:
		o = object{"type": []string{"number", "string"}, "pattern": numberPattern, "minimum": 0, "maximum": 1000}
	}
	o["description"] = sentences(question, f.How, after("Usually in ", f.Unit))
	return o
}

// choices is one of the words that a fact allows.
func choices(f catalog.Fact) object {
	var w words
	for _, c := range f.Choices {
		w.add(c.ID, c.Name)
	}
	return object{"enum": w.ids, "enumDescriptions": w.about}
}

// quantity takes bare numbers for a unit without dimension, such as percent.
func quantity(symbol string) object {
	if u, ok := unit.Find(symbol); ok && u.Dim == (unit.Dimension{}) {
		return object{"type": []string{"number", "string"}}
	}
	return object{"type": "string", "pattern": quantityPattern}
}

// several is a list of quantities; an empty one says nothing and is refused.
func several(symbol string) object {
	o := list(quantity(symbol))
	o["minItems"] = 1
	return o
}

// readingValue is one measured value, several, or either with its gauge.
func readingValue(r catalog.Reading) object {
	values := several(r.Unit)
	if !r.Several {
		values["maxItems"] = 1
	}
	short := []object{quantity(r.Unit), values, unknown}
	long := closed(object{
		"value":  object{"anyOf": short},
		"values": object{"anyOf": short},
		"gauge":  ref("gauge"),
		"spread": text("standard uncertainty of one value, where it is known better than the gauge's general figure"),
	})
	long["oneOf"] = needs("value", "values")
	return object{
		"description": sentences(r.Name, after("Usually in ", r.Unit), after("Easily taken wrong: ", strings.Join(wrongs(r), " "))),
		"anyOf":       append(short[:3:3], long),
	}
}

// after puts the intro in front of words, if there are any.
func after(intro, words string) string {
	if words == "" {
		return ""
	}
	return intro + words
}

// sentences joins what is there, each with a mark at its end.
func sentences(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p == "" {
			continue
		}
		if !strings.ContainsAny(p[len(p)-1:], ".?!") {
			p += "."
		}
		out = append(out, p)
	}
	return strings.Join(out, " ")
}

// wrongs lists how a reading is easily taken wrong.
func wrongs(r catalog.Reading) []string {
	out := make([]string, len(r.HowWrong))
	for i, m := range r.HowWrong {
		out[i] = m.Says
	}
	return out
}
