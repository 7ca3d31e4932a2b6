package trial

import (
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// Input is a trial to run. Machines from First on are drawn from the sampler.
type Input struct {
	Catalog  *catalog.Catalog
	Rules    *rule.Set
	Words    *fact.Vocabulary
	Sampler  *sample.Sampler
	Count    int
	Seed     uint64
	Without  []string       // tools that nobody has
	Progress func(done int) // told after each machine, by one goroutine at a time; may be nil
}

// Hand is a way of choosing the next step.
//
// The rules of the trial, the same for all hands:
//   - A question is answered as the machine stands; a check that was made is not
//     made again.
//   - A look finds each cause that its check shows with the planner's own
//     probability if it is there. If it is not there it is still found, wrongly,
//     when the sign that shows it best is there for another reason. A second look
//     has a chance of its own.
//   - What is found is put right, all of it, and the machine closed and tried. If the
//     complaint is gone the work is over. If not, what is seen from then on is
//     what the machine shows now, everything is shut again, and the owner names a
//     complaint that is left if none of those he spoke of is.
//   - A hand may look further before it closes ([plan.Job.Besides]). The planner does,
//     for its advice says so; a habit stops at what it found.
//   - A habit is no fault to be found: it ends with a word before the work begins,
//     and what it did to the machine stays. A machine with nothing else wrong is
//     left out.
//   - Handing the machine to someone else ends the work, at the planner's price.
type Hand struct {
	Name    string
	Asks    bool // whether it makes checks, or only looks for causes
	LooksOn bool // whether it looks further before closing, once something is found
	Choose  func(*plan.Job, plan.Problem) plan.Step
}

// Hands are the planner first and then three plain habits.
func Hands() []Hand {
	habit := func(choose plan.Policy) func(*plan.Job, plan.Problem) plan.Step {
		return func(_ *plan.Job, p plan.Problem) plan.Step { return choose(p) }
	}
	return []Hand{
		{Planner, true, true, func(j *plan.Job, p plan.Problem) plan.Step { return j.Best(p) }},
		{OutsideIn, false, false, func(j *plan.Job, p plan.Problem) plan.Step { return j.OutsideIn(p) }},
		{MostLikely, false, false, habit(plan.MostLikelyFirst)},
		{MostInformative, true, false, habit(plan.MostInformativeFirst)},
	}
}

// The names of the hands.
const (
	Planner         = "planner"
	OutsideIn       = "outside_in"
	MostLikely      = "most_likely_first"
	MostInformative = "most_informative_first"
	Told            = "told" // no hand: what it takes if someone tells what is wrong
)

// Run lets every hand work on every machine, on all processors. The scores
// stand in the order of Hands, with that of [Told] at the end, and do not depend on the number of processors.
// The error is the sampler's or belief's. It panics if Count is below 1.
func Run(in Input) ([]Score, error) {
	if in.Count < 1 {
		panic("trial: no machines")
	}
	hands := Hands()
	jobs := make([][]record, in.Count)
	errs := make([]error, in.Count)
	var next, done atomic.Int64
	var wg sync.WaitGroup
	var telling sync.Mutex
	for range min(runtime.GOMAXPROCS(0), in.Count) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < in.Count; i = int(next.Add(1)) - 1 {
				jobs[i], errs[i] = in.machine(hands, i)
				telling.Lock()
				if n := int(done.Add(1)); in.Progress != nil {
					in.Progress(n)
				}
				telling.Unlock()
			}
		})
	}
	wg.Wait()
	for i, err := range errs {
		if err != nil {
			return nil, fmt.Errorf("machine %d of seed %d: %w", i, in.Seed, err)
		}
	}
	var scores []Score
	for k, h := range hands {
		scores = append(scores, score(h.Name, jobs, k))
	}
	return append(scores, score(Told, jobs, len(hands))), nil
}

// machine lets every hand work on machine i.
func (in Input) machine(hands []Hand, i int) ([]record, error) {
	first, err := in.brought(i)
	if err != nil {
		return nil, err
	}
	out := make([]record, len(hands), len(hands)+1)
	for k, h := range hands {
		if out[k], err = first.clone().work(h); err != nil {
			return nil, fmt.Errorf("%s: %w", h.Name, err)
		}
	}
	return append(out, record{minutes: first.told()}), nil
}

// brought is the i-th machine that bench work can cure, with the rider told
// about his habits. A drawing that no work cures gives way to one further on.
func (in Input) brought(i int) (*bench, error) {
	for k := i; ; k += in.Count {
		m, err := in.Sampler.Draw(in.Seed, k)
		if err != nil {
			return nil, err
		}
		b, err := in.newBench(m)
		if err != nil {
			return nil, err
		}
		if habits := b.hidden(); len(habits) > 0 {
			b.m = m.PutRight(habits...)
		}
		if !b.m.Cured() {
			return b, b.lay()
		}
	}
}
