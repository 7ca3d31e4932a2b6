package cli

import (
	"slices"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/source"
)

// benchFlags are the flags of commands that advise what to do next.
func (s *session) benchFlags(c *cobra.Command, b *engine.Bench) {
	c.Flags().StringVar(&b.Open, "open", "", "the deepest `stage` that is open already")
	c.Flags().StringSliceVar(&b.Without, "without", nil, "a `tool` that is missing; repeat for more")
	s.completeFlag(c, "open", s.stages)
	s.completeFlag(c, "without", s.tools)
}

// checkBench refuses stages and tools that the knowledge does not have.
func checkBench(cat *catalog.Catalog, b engine.Bench) error {
	if ids := stageIDs(cat); b.Open != "" && !slices.Contains(ids, b.Open) {
		return wrong("unknown stage %q", b.Open).with(source.DidYouMean(b.Open, ids))
	}
	tools := toolNames(cat)
	for _, tool := range b.Without {
		if !slices.Contains(tools, tool) {
			return wrong("no check needs the tool %q", tool).with(source.DidYouMean(tool, tools))
		}
	}
	return nil
}

// stageIDs lists the stages in the order of the knowledge.
func stageIDs(cat *catalog.Catalog) []string {
	var ids []string
	for _, s := range cat.Stages {
		ids = append(ids, s.ID)
	}
	return ids
}

// toolNames lists the tools of all checks, sorted.
func toolNames(cat *catalog.Catalog) []string {
	var names []string
	for _, c := range cat.Checks {
		names = append(names, c.Tools...)
	}
	slices.Sort(names)
	return slices.Compact(names)
}
