// Package rules carries the built-in rules and the tests that stand beside
// them as data files.
//
// The package holds no behaviour. engine/rule reads the files that end in
// .yaml; engine/ruletest reads those that end in _test.yaml:
//
//	set, problems := rule.Load(rules.Files, cat)
//
// It does not parse, check or run anything, and another folder of the same
// shape can take its place.
package rules

import "embed"

// Files holds every rule file and every rule test, by name ("effects.yaml",
// "effects_test.yaml").
//
//go:embed *.yaml
var Files embed.FS
