package trial_test

import (
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
	"example.org/takeup/engine/trial"
)

// The long run behind the published figures: -machines 1000.
var machines = flag.Int("machines", 12, "machines drawn from the shipped pack")
var seed = flag.Uint64("seed", 1, "seed of the machines")

func shipped(t testing.TB, pack, sheets string, manner sample.Manner) trial.Input {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS(pack + "/knowledge"))
	set, more := rule.Load(os.DirFS(pack+"/rules"), cat.Vocabulary())
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	paths, _ := filepath.Glob(sheets)
	var known []fact.Set
	for _, path := range paths {
		_, k, ps := intake.LoadMachine(path, cat)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		known = append(known, k)
	}
	s, err := sample.New(cat, set, cat.Vocabulary(), known, manner)
	if err != nil {
		t.Fatal(err)
	}
	return trial.Input{Catalog: cat, Rules: set, Words: cat.Vocabulary(), Sampler: s}
}

func run(t testing.TB, in trial.Input) []trial.Score {
	t.Helper()
	scores, err := trial.Run(in)
	if err != nil {
		t.Fatal(err)
	}
	return scores
}

// What the planner is held to against plain habits: on a long run (-machines 1000) to
// need a quarter less than work from the outside in and 15 % less than the
// others, on a short one to need less at all; and to open less for nothing.
func TestPlannerBeatsHabits(t *testing.T) {
	in := shipped(t, "../..", "../../knowledge/machines/*.yaml", sample.Usual)
	in.Count, in.Seed = *machines, *seed
	scores := run(t, in)
	told := scores[len(scores)-1]
	for _, s := range scores {
		t.Logf("%-23s mean %6.1f ± %4.1f  10 %% %5.0f  median %5.0f  90 %% %5.0f  worst %5.0f  steps %4.1f  wrong parts %.3f  needless openings %.3f  given up %.3f",
			s.Hand, s.MeanMinutes, s.StandardError, s.Tenth, s.Median, s.Ninetieth, s.Worst, s.Steps, s.WrongParts, s.NeedlessOpenings, s.GivenUp)
	}
	least := map[string]float64{trial.OutsideIn: 0.10, trial.MostLikely: 0.02, trial.MostInformative: 0.02}
	if in.Count >= 500 {
		least = map[string]float64{trial.OutsideIn: 0.25, trial.MostLikely: 0.15, trial.MostInformative: 0.15}
	}
	planner := scores[0]
	if planner.MeanMinutes < told.MeanMinutes {
		t.Errorf("the planner needs %.1f minutes, less than whoever is told the fault, %.1f", planner.MeanMinutes, told.MeanMinutes)
	}
	for _, s := range scores[1 : len(scores)-1] {
		if saved := 1 - planner.MeanMinutes/s.MeanMinutes; saved < least[s.Hand] {
			t.Errorf("the planner saves %.1f %% against %s, want %.0f %%", 100*saved, s.Hand, 100*least[s.Hand])
		}
		// the habit that asks most opens nearly as little: a short run cannot tell
		if s.Hand == trial.MostInformative && in.Count < 500 {
			continue
		}
		if planner.NeedlessOpenings >= s.NeedlessOpenings {
			t.Errorf("the planner opens %.3f stages for nothing, %s %.3f", planner.NeedlessOpenings, s.Hand, s.NeedlessOpenings)
		}
	}
}

func TestSameSeedSameScores(t *testing.T) {
	in := shipped(t, "../../testdata/packs/lamp", "", sample.Usual)
	in.Count, in.Seed = 40, 5
	a := run(t, in)
	if b := run(t, in); !reflect.DeepEqual(a, b) {
		t.Errorf("%v, then %v", a, b)
	}
	in.Seed = 6
	if b := run(t, in); reflect.DeepEqual(a, b) {
		t.Error("another seed gives the same scores")
	}
}
