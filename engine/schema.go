package engine

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/report"
	"example.org/takeup/engine/ruletest"
)

// draft is the dialect that editors understand best; json-schema.org publishes it.
const draft = "http://json-schema.org/draft-07/schema#"

// object is a schema or a part of one. Keys are written in alphabetical order.
type object = map[string]any

// schemas builds the schemas of one pack.
type schemas struct {
	e    *Engine
	defs object          // definitions by name, of which a file takes those it refers to
	used map[string]bool // keys of refs, limits and says that named a field
}

// Schemas returns a JSON Schema (draft 7) for every kind of file of this pack and
// for the JSON answer, by file name such as "case.schema.json". Editors complete
// and explain ids from them. Keys of knowledge, rule tests and the answer are read
// off the types that decode or encode them; ids come from the catalog and the
// rules. Same pack, same bytes. The error names a field described here that no
// longer exists.
//
// A schema is no second checker: it knows nothing of units that do not fit, of
// conditions that do not parse or of signs that exclude each other. It is a little
// stricter than the program about style: numbers stand without quotes.
func (e *Engine) Schemas() (map[string][]byte, error) {
	s := &schemas{e: e, defs: object{}, used: map[string]bool{}}
	s.lists()
	s.values()
	files := map[string]object{
		"case.schema.json":       s.caseFile(),
		"machine.schema.json":    s.sheet(),
		"way.schema.json":        s.wayFile(),
		"rules.schema.json":      listFile("rules", ruleShape()),
		"knowledge.schema.json":  s.of(reflect.TypeFor[catalog.Catalog](), "yaml"),
		"phrases.schema.json":    s.phrasesFile(),
		"rules_test.schema.json": listFile("tests", s.test()),
		"answer.schema.json":     s.of(reflect.TypeFor[report.Result](), "json"),
		"inspection.schema.json": s.of(reflect.TypeFor[report.Measured](), "json"),
	}
	if err := s.unused(); err != nil {
		return nil, err
	}
	out := map[string][]byte{}
	for name, root := range files {
		text, err := s.file(root, titles[name])
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out[name] = text
	}
	return out, nil
}

// titles say what each kind of file is; editors show them at the top.
var titles = map[string]string{
	"case.schema.json":       "One machine with one complaint",
	"way.schema.json":        "A written way through a case to practise on",
	"machine.schema.json":    "One machine's own numbers, from its service manual",
	"rules.schema.json":      "Rules: one statement each",
	"knowledge.schema.json":  "Facts, signs, effects, causes, checks and what else the rules speak of",
	"phrases.schema.json":    "What people say when they mean a sign",
	"rules_test.schema.json": "Tests of rules: what is given and what must follow",
	"inspection.schema.json": "The measurements of a case, as `inspect --format json` prints them: quantities in SI base units, probabilities 0 to 1, weights in decibans",
	"answer.schema.json":     "The answer to a case, as `diagnose --format json` prints it: probabilities 0 to 1, weights in decibans, times in minutes",
}

// file completes a root with the definitions it needs.
func (s *schemas) file(root object, title string) ([]byte, error) {
	root["$schema"], root["title"] = draft, title
	needed := object{}
	s.collect(root, needed)
	if len(needed) > 0 {
		root["definitions"] = needed
	}
	var b bytes.Buffer
	w := json.NewEncoder(&b)
	w.SetEscapeHTML(false) // conditions hold < and >, and people read this
	w.SetIndent("", " ")
	err := w.Encode(root)
	return b.Bytes(), err
}

const refPrefix = "#/definitions/"

func ref(name string) object { return object{"$ref": refPrefix + name} }

// collect copies every definition that part refers to, directly or not.
func (s *schemas) collect(part any, into object) {
	switch x := part.(type) {
	case object:
		if to, ok := x["$ref"].(string); ok {
			name := strings.TrimPrefix(to, refPrefix)
			if _, there := into[name]; !there {
				into[name] = s.defs[name]
				s.collect(s.defs[name], into)
			}
		}
		for _, v := range x {
			s.collect(v, into)
		}
	case []object:
		for _, v := range x {
			s.collect(v, into)
		}
	}
}

// closed is a mapping in which no other key may stand.
func closed(properties object, required ...string) object {
	o := object{"type": "object", "properties": properties, "additionalProperties": false}
	if len(required) > 0 {
		o["required"] = required
	}
	return o
}

// listFile is a file with one key that holds a list.
func listFile(key string, item object) object {
	return closed(object{key: list(item)}, key)
}

// list is a sequence of any length.
func list(item object) object { return object{"type": "array", "items": item} }

// text is any text, with what it should say.
func text(says string) object { return object{"type": "string", "description": says} }

// choice is one of a few words that need no explanation each.
func choice(says string, words ...any) object { return object{"enum": words, "description": says} }

// needs is a list of alternatives, each of which demands one key.
func needs(keys ...string) []object {
	out := make([]object, len(keys))
	for i, k := range keys {
		out[i] = object{"required": []string{k}}
	}
	return out
}

// test is a test of rules; one that expects nothing is refused.
func (s *schemas) test() object {
	t := s.of(reflect.TypeFor[ruletest.Test](), "yaml")
	t["anyOf"] = needs("fires", "quiet", "waits", "up", "down", "top")
	return t
}

// ruleShape is a rule as rule.Load reads it. The struct that is read there is
// private to its package, so its keys are repeated here and a test compares them.
// Which keys go together follows the loader: exactly one action, and what belongs
// to a link only with a link.
func ruleShape() object {
	r := closed(object{
		"id":        ref("id"),
		"when":      ref("condition"),
		"given":     object{"allOf": []object{ref("context")}, "description": "what must hold of the machine for the rule to say anything: a no in when is an observation, a no here is not"},
		"until":     object{"type": "string", "description": "a rule of thumb that says nothing once this word is known, or once the sheet lists every part of a kind: machine.stack.KIND"},
		"cause":     ref("cause"),
		"effect":    ref("effect"),
		"brings":    ref("target"),
		"strength":  ref("strength"),
		"raises":    ref("factors"),
		"lowers":    ref("factors"),
		"rules_out": list(ref("cause")),
		"shows":     ref("sign"),
		"caution":   ref("caution"),
		"because":   text("one or two plain sentences that stand in the explanation"),
		"basis":     ref("basis"),
	}, "id", "because", "basis")
	r["oneOf"] = needs("brings", "raises", "lowers", "rules_out", "shows", "caution")
	r["anyOf"] = needs("when", "brings") // only a link may hold always
	r["dependencies"] = object{
		"until":    []string{"shows"},
		"given":    []string{"shows"},
		"brings":   object{"required": []string{"strength"}, "oneOf": needs("cause", "effect")},
		"cause":    []string{"brings"},
		"effect":   []string{"brings"},
		"strength": []string{"brings"},
	}
	return r
}
