package engine

import (
	"encoding"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// The three tables add what the type of a field cannot say. An entry without a
// field is an error, so that they cannot outlive what they describe.

// refs says which definition the text of a key, or of each item of its list,
// must follow. Keys are named by their struct and their name in the file.
var refs = map[string]string{
	"Fact.id": "dotted", "Fact.kind": "fact_kind", "Fact.needs": "context", "Option.needs": "context",
	"Family.id": "id", "Sign.id": "id", "Effect.id": "id", "Cause.id": "id", "Check.id": "id", "Stage.id": "id",
	"Gauge.id": "id", "Reading.id": "id", "Derived.id": "id", "Caution.id": "id", "Source.id": "id",
	"Sign.kind": "sign_kind", "Sign.family": "family", "Sign.needs": "context", "Sign.excludes": "sign", "Sign.basis": "basis",
	"Question.signs": "sign",
	"Cause.stage":    "stage", "Cause.confused_with": "cause", "Cause.cautions": "caution", "Cause.basis": "basis",
	"Check.stage": "stage", "Check.settles": "sign", "Check.gives": "reading", "Check.asks": "fact", "Check.cautions": "caution",
	"Check.needs": "context", "Check.basis": "basis", "Result.sign": "sign", "Stage.parent": "stage",
	"Reading.gauge": "gauge", "Reading.sense": "sense", "Reading.limit": "limit_word", "Reading.limit_min": "limit_word",
	"Reading.limit_max": "limit_word", "Reading.new": "machine_word", "Listed.part": "part", "Listed.attribute": "attribute", "General.basis": "basis", "Derived.basis": "basis", "Derived.needs": "context", "Group.id": "id", "Fitting.id": "id", "Fitting.low": "machine_word",
	"Fitting.high": "machine_word", "Fitting.sizes": "machine_word", "Fitting.count": "machine_word", "Fitting.new": "machine_word", "Caution.severity": "severity",
	"Part.id": "id", "Part.has": "attribute", "Part.between": "part", "Part.sheet": "machine_word", "Part.shape": "shape", "Part.side": "side",
	"Attribute.id": "id", "Attribute.kind": "attribute_kind", "Attribute.gauge": "gauge",
	"Test.given": "given", "Test.stack": "stack", "Test.signs": "signs", "Test.readings": "readings", "Test.fires": "rule", "Test.quiet": "rule",
	"Phase.id": "id", "Step.id": "id", "Step.phase": "phase", "Step.stage": "stage", "Step.when": "context", "Step.tighten": "tightening",
	"Step.prevents": "preventable", "Step.cautions": "caution", "Step.basis": "basis",
	"Tightening.id": "id", "Tightening.screws": "machine_word", "Tightening.torque": "machine_word", "Torques.basis": "basis",
	"Test.waits": "rule", "Test.up": "cause", "Test.down": "cause", "Test.top": "cause",
}

// limits says between what bounds the number of a key lies.
var limits = map[string]object{
	"Fact.share": chance, "Option.share": chance,
	"Sign.leak": chance, "Effect.leak": chance, "Cause.prior": chance, "Strength.value": chance,
	"Cause.look_minutes": duration, "Remedy.minutes": duration, "Check.minutes": duration, "Stage.minutes": duration,
	"Bounds.low": written, "Bounds.high": written, "Fact.example": written, "Mistake.reads": {"enum": []any{"high", "low", "either", "apart"}},
	"Pass.share": share, "Result.schema": {"const": 1}, "Result.unlisted": share, "Result.steadiness": share,
	"ResultCause.probability": share, "ResultOutcome.probability": share, "Set.probability": share,
	"ResultNext.minutes": {"type": "number", "minimum": 0},
}

var (
	chance   = object{"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 1}
	share    = object{"type": "number", "minimum": 0, "maximum": 1}
	written  = object{"type": []string{"string", "number"}} // a count stands without quotes
	duration = object{"type": "number", "minimum": 0, "exclusiveMaximum": 10000}
)

// says explains keys whose names do not.
var says = map[string]string{
	"Fact.unit":                         "the unit it is usually written in; kinds quantity and sizes only",
	"Fact.choices":                      "the allowed values; kinds choice and set only",
	"Fact.phrases":                      "what people say when they mean a yes",
	"Fact.share":                        "share of the machines brought in with a yes; kind yesno only",
	"Fact.usual":                        "between what it usually lies; kinds quantity and count only",
	"Option.share":                      "share of the machines brought in that have it; of a choice, its weight against the others",
	"Option.needs":                      "possible only when this condition on facts that stand before holds",
	"Sign.name":                         "how it stands in a list of evidence",
	"Sign.absent":                       "the same for a no",
	"Sign.yes":                          "how to tell a yes",
	"Sign.no":                           "how to tell a no",
	"Sign.leak":                         "probability of seeing it when nothing in this book is wrong",
	"Sign.excludes":                     "signs that cannot be yes together with this one",
	"Effect.leak":                       "probability of the effect without any cause in this book",
	"Cause.prior":                       "share of the machines brought in that have it",
	"Cause.stage":                       "where it is seen and put right",
	"Cause.look_minutes":                "minutes to look at it once the stage is open",
	"Cause.outside":                     "looks like the subject of this book, is not",
	"Remedy.minutes":                    "minutes at the stage of the cause, on top of looking",
	"Check.minutes":                     "minutes once the stage is open",
	"Check.watch":                       "mistakes that spoil the result",
	"Stage.minutes":                     "minutes to get there from the parent stage and back, once",
	"Gauge.common":                      "the part of the uncertainty that all values taken with one gauge share; not known without it",
	"Gauge.uncertainty":                 "one standard deviation, as a quantity or a percentage of the reading",
	"Reading.several":                   "several values may be given, such as one per plate",
	"Part.between":                      "two parts; a list that names both has looked at all that lies between them",
	"Part.sheet":                        "word of the machine sheet that says how many there should be, or whether there should be any",
	"Part.thickness":                    "for drawings, where none is known",
	"Attribute.otherwise":               "what a part is taken for that says nothing while another of its kind says something else",
	"Value.stack":                       "parts in order, innermost first",
	"Option.draw":                       "how it changes the drawing of a part: short, stepped",
	"Cause.part":                        "the part of a figure that is pointed at",
	"Phase.lead":                        "the word before what its steps prevent",
	"Step.stage":                        "the step is needed when this stage was open",
	"Step.opens":                        "what it prevents cannot be put right without this stage, however early it shows",
	"Step.where":                        "the condition in words, for a machine of which it is not known",
	"Step.prevents":                     "causes and signs",
	"Step.parts":                        "what is to be new every time",
	"Tightening.screws":                 "machine word with the number of screws in the circle; none for a single nut",
	"Tightening.general":                "what is usual, shown when the machine sheet is silent",
	"Torques.for":                       "the thread it holds for",
	"Pass.share":                        "part of the full torque; none for a pass without a wrench",
	"Reading.means":                     "what it comes to when it is past its limit, in a sentence",
	"Reading.listed":                    "the attribute of a part in a stack that measures the same",
	"Attribute.possible":                "what it can be on any machine; the rest is refused",
	"Reading.possible":                  "what it can be on any machine; the rest is refused",
	"Fact.possible":                     "what it can be on any machine; the rest is refused",
	"Fact.example":                      "an invented figure that shows how it is written",
	"Mistake.reads":                     "what the mistake does to the figure: high, low, either or apart",
	"Derived.value":                     "an expression over readings, words of the machine sheet and other derived quantities",
	"Derived.group":                     "the group it is shown in; without one it only serves others",
	"Derived.label":                     "its short name within the group",
	"Derived.instead":                   "another derived quantity that this one is better than, when both are known",
	"Derived.quiet":                     "shown with the working only, unless an outcome of it warns",
	"Derived.part":                      "its share in the sum of the parts of its group is shown",
	"Derived.formula":                   "the formula in words or symbols",
	"Outcome.warn":                      "worth saying even when nothing was measured",
	"Outcome.below":                     "an expression; the last outcome has none and takes the rest",
	"Group.rest":                        "where what the parts leave of the whole comes from",
	"Group.whole":                       "the derived quantity that the parts should add up to",
	"Fitting.else":                      "what stands in for a height that was not measured",
	"Test.given":                        "facts of the history, and words of the machine sheet as machine.x",
	"Test.fires":                        "rules whose condition must hold, or whose link must become more probable",
	"Test.quiet":                        "rules whose condition must not hold, or whose link must become less probable",
	"Test.waits":                        "rules that must not be able to tell yet",
	"Test.up":                           "causes that must become more probable",
	"Test.down":                         "causes that must become less probable",
	"Test.top":                          "the cause that must be first",
	"Measurement.values":                "as measured, in SI base units",
	"Measurement.counted":               "the value that is judged, the worst of several",
	"Measurement.apart":                 "place (from 0) of a value that lies apart from the others, or -1",
	"Measurement.doubts":                "ways it may have been taken wrong that could have made this verdict",
	"Judgement.room":                    "distance to the nearest limit in SI base units, negative past it",
	"Wear.used":                         "share of the allowed wear: 0 new, 1 at the limit",
	"Weight.decibans":                   "what the log-odds of the cause would lose without this measurement, in decibans",
	"Figure.even":                       "the outcome next to this one is about as likely",
	"Result.schema":                     "version of this format; it grows when a key changes its meaning",
	"Result.causes":                     "by probability, highest first",
	"Result.sets":                       "sets of causes that explain everything together, the most probable first",
	"Result.unlisted":                   "probability that the complaint comes from something not in this book",
	"Result.unexplained":                "signs that no likely cause explains",
	"Result.waiting":                    "rules that cannot tell yet, with the fact that would settle them",
	"Result.next":                       "what is worth doing, best first",
	"Result.cautions":                   "ids of cautions, those of danger first",
	"Result.steadiness":                 "how often the first stays first when every number is disturbed",
	"ResultCause.balance":               "the prior, then what each piece of evidence adds; sums to the log-odds",
	"ResultNext.check":                  "id of the check; empty for a look at a cause that has no check of its own",
	"ResultNext.bits":                   "expected information about the causes",
	"ResultNext.expected_minutes_saved": "minutes to a cured machine, against doing without",
	"ResultOutcome.result":              "the answers, such as \"sign=yes sign=no\"",
	"ResultOutcome.top":                 "the cause that would then be first",
	"Value.si":                          "the value in SI base units, or a bare number",
	"Value.values":                      "measured values in SI base units",
	"Value.sigma":                       "standard uncertainty of one value in SI base units",
	"Observation.present":               "probability of this answer when the sign is there",
	"Observation.absent":                "probability of this answer when the sign is not there",
}

// of describes a type as its tags of the given kind name it: "yaml" for what
// engine/source decodes, "json" for what encoding/json writes.
func (s *schemas) of(t reflect.Type, tag string) object {
	switch t {
	case reflect.TypeFor[fact.Set](): // written as one mapping
		return object{"type": "object", "additionalProperties": s.of(reflect.TypeFor[fact.Value](), tag)}
	case reflect.TypeFor[fact.Part](): // a set of values inside a value
		return object{"type": "object", "required": []string{"kind"}, "properties": object{
			"kind": object{"type": "string"}, "missing": object{"type": "boolean"}, "known": object{"type": "object"},
		}}
	case reflect.TypeFor[source.Text]():
		return object{"type": "string"}
	}
	if t.Implements(reflect.TypeFor[encoding.TextMarshaler]()) { // a verdict, as a word
		return object{"type": "string"}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return s.of(t.Elem(), tag)
	case reflect.Struct:
		return s.fields(t, tag)
	case reflect.Slice:
		return list(s.of(t.Elem(), tag))
	case reflect.Map: // by names that are data
		return object{"type": "object", "additionalProperties": s.of(t.Elem(), tag)}
	case reflect.String:
		return object{"type": "string"}
	case reflect.Bool:
		if tag == "json" {
			return object{"type": "boolean"}
		}
		return object{"enum": []any{"yes", "no", true, false}}
	case reflect.Int:
		return object{"type": "integer"}
	case reflect.Float64:
		return object{"type": "number"}
	}
	panic("engine: no schema for type " + t.String())
}

// fields describes a struct. A key must be there when it is tagged "required", in
// what is read, or not tagged "omitempty", in what is written.
func (s *schemas) fields(t reflect.Type, tag string) object {
	properties, required := object{}, []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		name, option, _ := strings.Cut(f.Tag.Get(tag), ",")
		if f.Anonymous && name == "" { // its keys stand among the others
			inner := s.fields(f.Type, tag)
			maps.Copy(properties, inner["properties"].(object))
			if needed, ok := inner["required"].([]string); ok {
				required = append(required, needed...)
			}
			continue
		}
		if name == "" || name == "-" {
			continue
		}
		properties[name] = s.key(t.Name()+"."+name, f.Type, tag)
		if option == "required" || tag == "json" && option != "omitempty" {
			required = append(required, name)
		}
	}
	return closed(properties, required...)
}

// key describes one key of a struct; what the tables say goes before its type.
func (s *schemas) key(path string, t reflect.Type, tag string) object {
	shape := func() object { return s.of(t, tag) }
	if name, ok := refs[path]; ok {
		s.used[path] = true
		shape = func() object { return ref(name) }
		if t.Kind() == reflect.Slice {
			shape = func() object { return list(ref(name)) }
		}
	} else if bounds, ok := limits[path]; ok {
		s.used[path] = true
		shape = func() object { return maps.Clone(bounds) }
	}
	o := shape()
	why, ok := says[path]
	if !ok {
		return o
	}
	s.used[path] = true
	if o["$ref"] != nil { // what stands beside a reference does not count in draft 7
		o = object{"allOf": []object{o}}
	}
	o["description"] = why
	return o
}

// unused finds entries of the tables that name no field any more.
func (s *schemas) unused() error {
	var left []string
	keys := slices.AppendSeq(slices.Collect(maps.Keys(refs)), maps.Keys(limits))
	for _, k := range slices.AppendSeq(keys, maps.Keys(says)) {
		if !s.used[k] {
			left = append(left, k)
		}
	}
	slices.Sort(left)
	left = slices.Compact(left)
	if len(left) > 0 {
		return fmt.Errorf("schemas describe keys that do not exist: %s", strings.Join(left, ", "))
	}
	return nil
}
