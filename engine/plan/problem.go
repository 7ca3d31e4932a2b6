package plan

// Outside is the stage of everything that is reachable without opening
// anything, and the parent of the outermost stages.
const Outside = -1

// Problem is one machine with one complaint. All times are minutes of work.
//
// Faults holds the probability of each fault; they sum to at most 1 and what
// is missing is "something else", which no action here cures. Open, Done and
// Asked say what has been opened, done or asked already or cannot be done; nil
// means none. Whoever marks a question as asked has already put its answer
// into Faults; [Problem.Outcomes] does both.
type Problem struct {
	Faults         []float64  `json:"faults"`
	Stages         []Stage    `json:"stages,omitempty"`
	Actions        []Action   `json:"actions,omitempty"`
	Questions      []Question `json:"questions,omitempty"`
	TestMinutes    float64    `json:"test_minutes"`    // the test that shows the machine cured
	ServiceMinutes float64    `json:"service_minutes"` // handing it to someone else, the last resort
	Open           []bool     `json:"open,omitempty"`  // per stage
	Done           []bool     `json:"done,omitempty"`  // per action
	Asked          []bool     `json:"asked,omitempty"` // per question
}

// Stage is a depth to which the machine is opened. Its parent stands before it
// in Problem.Stages, or is [Outside]. Minutes are paid once, for getting there
// from the parent and back.
type Stage struct {
	Parent  int     `json:"parent"`
	Minutes float64 `json:"minutes"`
}

// Action is "look, then repair what is bad". An observable action costs
// LookMinutes always and RepairMinutes plus the test only if the look finds
// the fault. An action that cannot be observed is done on suspicion and tried
// out: it costs all three each time (Heckerman, Breese & Rommelse, CACM 38(3),
// 1995, count it so).
type Action struct {
	Stage         int     `json:"stage"`
	LookMinutes   float64 `json:"look_minutes"`
	RepairMinutes float64 `json:"repair_minutes"`
	Observable    bool    `json:"observable"`
	Cures         []Cure  `json:"cures"`
}

// Cure says that an action ends a fault with a probability from 0 to 1: found
// and lastingly repaired. An action that failed once fails again, so none is
// done twice.
type Cure struct {
	Fault       int     `json:"fault"`
	Probability float64 `json:"probability"`
}

// Question is anything that gives information and repairs nothing. Results has
// one row per result and one column per fault plus a last one for "something
// else": the probability of the result if that is what is wrong. Each column
// sums to 1. Asking again gives the same answer, so none is asked twice.
type Question struct {
	Stage   int         `json:"stage"`
	Minutes float64     `json:"minutes"`
	Results [][]float64 `json:"results"`
}

// YesNo returns a question with the results yes (row 0) and no (row 1), from
// the probability of yes for each fault and for "something else".
func YesNo(stage int, minutes float64, yes []float64, other float64) Question {
	y := append(append([]float64{}, yes...), other)
	n := make([]float64, len(y))
	for i, x := range y {
		n[i] = 1 - x
	}
	return Question{Stage: stage, Minutes: minutes, Results: [][]float64{y, n}}
}

// tiny is a probability taken for a rounding error.
const tiny = 1e-12

// Other returns the probability of "something else": 1 less all faults.
func (p Problem) Other() float64 {
	rest := 1.0
	for _, x := range p.Faults {
		rest -= x
	}
	if rest < tiny {
		return 0
	}
	return rest
}

// opened tells whether stage s is open; [Outside] always is.
func (p Problem) opened(s int) bool { return s == Outside || at(p.Open, s) }

// opens lists the stages still to be opened to reach s, outermost first, and
// their minutes.
func (p Problem) opens(s int) (stages []int, minutes float64) {
	for ; !p.opened(s); s = p.Stages[s].Parent {
		stages = append([]int{s}, stages...)
		minutes += p.Stages[s].Minutes
	}
	return stages, minutes
}

// within tells whether stage s is stage root or lies inside it.
func (p Problem) within(s, root int) bool {
	for ; s != Outside; s = p.Stages[s].Parent {
		if s == root {
			return true
		}
	}
	return false
}

// at reads a flag list that may be nil or short.
func at(flags []bool, i int) bool { return i < len(flags) && flags[i] }

// with returns a copy of a flag list of length n in which i is set.
func with(flags []bool, n int, set ...int) []bool {
	out := make([]bool, n)
	copy(out, flags)
	for _, i := range set {
		out[i] = true
	}
	return out
}
