// Package knowledge carries what the tool knows about its subject as data
// files: facts, signs, effects, causes, checks, stages, readings, cautions,
// questions, derived quantities, strength words and sources, with the pages for
// students and the figures.
//
// The package holds no behaviour. engine/catalog reads the files:
//
//	cat, problems := catalog.Load(knowledge.Files)
//
// It does not parse, check or interpret anything, and another folder of the
// same shape can take its place.
package knowledge

import "embed"

// Files holds every knowledge file, by its path below this folder
// ("facts.yaml", "signs/slip.yaml").
//
//go:embed *.yaml */*.yaml pages/*/*.md figures/*.svg
var Files embed.FS

// Frozen is the same pack, rules included, as a snapshot that opens faster. It
// is used only while it fits the files; write it anew after a change with
//
//	go run ./cmd/takeup rules freeze
//
//go:embed frozen.bin
var Frozen string
