package cli

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"example.org/takeup/engine"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/source"
)

// benchFlags are the flags of commands that advise what to do next.
func (s *session) benchFlags(c *cobra.Command, b *engine.Bench) {
	c.Flags().StringVar(&b.Open, "open", "", "the deepest `stage` that is open already")
	c.Flags().StringSliceVar(&b.Without, "without", nil, "a `tool` that is missing; repeat for more")
	c.Flags().Float64Var(&b.Prices.Rate, "rate", 0, "`money` for an hour of work; with it, prices count as minutes")
	c.Flags().Var(prices{&b.Prices.Of}, "price", "what a part or a cause's remedy costs, as `PART=MONEY`; repeat for more")
	s.completeFlag(c, "open", s.stages)
	s.completeFlag(c, "without", s.tools)
}

// prices is the value of --price, one part at a time.
type prices struct{ of *map[string]float64 }

// String is empty: a price has no default to show.
func (prices) String() string { return "" }

// Type names the value in the help text.
func (prices) Type() string { return "PART=MONEY" }

// Set reads one price.
func (p prices) Set(text string) error {
	name, money, ok := strings.Cut(text, "=")
	x, err := strconv.ParseFloat(strings.TrimSpace(money), 64)
	if !ok || err != nil || !(x >= 0 && x < 1e6) {
		return fmt.Errorf("want PART=MONEY, such as %q", "clutch springs=45")
	}
	if *p.of == nil {
		*p.of = map[string]float64{}
	}
	(*p.of)[strings.TrimSpace(name)] = x
	return nil
}

// checkPrices refuses parts that no remedy needs.
func checkPrices(cat *catalog.Catalog, p plan.Prices) error {
	if !(p.Rate >= 0 && p.Rate < 1e6) {
		return wrong("--rate is %v, want money for an hour of work", p.Rate)
	}
	known := cat.Priced()
	var wanted []string
	for name := range p.Of {
		wanted = append(wanted, name)
	}
	slices.Sort(wanted)
	for _, name := range wanted {
		if !slices.Contains(known, name) {
			return wrong("nothing here needs the part %q", name).with(source.DidYouMean(name, known))
		}
	}
	return nil
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
	return checkPrices(cat, b.Prices)
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
