package report

import (
	"fmt"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/plan"
)

// do names what a proposal does.
func (a Answer) do(p plan.Proposal) string {
	switch {
	case p.Kind == plan.Service:
		return "hand it to someone with the means to go further"
	case p.Kind == plan.Repair:
		return "put right on suspicion: " + a.named(p.Cause)
	case p.Confirmed:
		return "put right: " + a.named(p.Cause)
	case p.Check != "" && !a.done(p):
		return a.Catalog.NameOf(p.Check)
	}
	return "look for " + a.named(p.Cause)
}

// done reports whether a proposal would look for a cause with a check that was
// made already: then what is left is to put it right.
func (a Answer) done(p plan.Proposal) bool {
	if p.Kind == plan.Ask || a.Case == nil {
		return false
	}
	for _, d := range a.Case.Done {
		if d.Check == p.Check {
			return true
		}
	}
	return false
}

// effort is the minutes and the stage of a proposal.
func (a Answer) effort(p plan.Proposal) string {
	if p.Kind == plan.Service {
		return ""
	}
	s := Minutes(p.Minutes+a.mending(p)) + ", " + a.stageName(p.Stage)
	if len(p.Opens) > 0 && a.pays(p.Opens) > 0 {
		s += ", opening included"
	}
	if p.Money > 0 {
		s += fmt.Sprintf(", and %s for what opening uses up", Money(p.Money))
	}
	if p.Parts > 0 && p.Kind == plan.Look {
		s += fmt.Sprintf(", parts %s if it is that", Money(p.Parts))
	}
	return s
}

// mending is the minutes that putting right takes on top of looking, of a proposal
// that is to put something right.
func (a Answer) mending(p plan.Proposal) float64 {
	if p.Kind == plan.Look && !p.Confirmed && !a.done(p) {
		return 0
	}
	if p.Kind == plan.Ask {
		return 0
	}
	return a.cause(p.Cause).Remedy.Minutes
}

// pays is what opening the stages costs in minutes; a stage that costs nothing is
// not worth a word.
func (a Answer) pays(stages []string) float64 {
	sum := 0.0
	for _, id := range stages {
		s, _ := a.Catalog.Stage(id)
		sum += s.Minutes
	}
	return sum
}

// dearMinutes is the opening from which a question comes before it.
const dearMinutes = 10

// opens reports whether the next step opens something that takes time.
func (a Answer) opens() bool { return a.Course != nil && a.pays(a.Course.Next.Opens) >= dearMinutes }

// nextShort is what to do next, on one page with the rest of the answer.
func (a Answer) nextShort() []document.Block {
	if a.Course == nil || len(a.Evidence) == 0 && len(a.Explanation.Causes) == 0 {
		return nil
	}
	n := a.Course.Next
	blocks := []document.Block{
		heading("What to do next"),
		document.Paragraph(document.Strong(capital(a.do(n))), plain(bracketed(a.effort(n))+". "+a.purpose(n))),
	}
	if items := a.prospects(n, 2); len(items) > 0 {
		blocks = append(blocks, document.List(items...))
	}
	return blocks
}

// bracketed puts s in brackets after a blank, or nothing when s is empty.
func bracketed(s string) string {
	if s == "" {
		return ""
	}
	return " (" + s + ")"
}

// purpose says why this comes next.
func (a Answer) purpose(n plan.Proposal) string {
	switch {
	case n.Kind == plan.Service:
		return a.handOn()
	case a.Course.Instead != nil && a.Course.Instead.Kind == plan.Service:
		return "It is quick and shuts nothing out; by minutes alone the machine would be handed on already."
	case a.Course.Instead != nil:
		return fmt.Sprintf("It is quick and shuts nothing out; by minutes alone the next step would be to %s (%s), which has to be opened for.",
			a.do(*a.Course.Instead), Minutes(a.Course.Instead.Minutes))
	case n.Kind == plan.Look:
		if n.Confirmed || a.done(n) {
			return a.cause(n.Cause).Remedy.Do
		}
		if len(n.Causes) > 1 {
			return fmt.Sprintf("It shows whether it is %s. For the first of these: %s", a.either(n.Causes), a.cause(n.Cause).Remedy.Do)
		}
		return fmt.Sprintf("It shows whether it is %s (%s). If so: %s", a.named(n.Cause), Percent(a.probability(n.Cause)), a.cause(n.Cause).Remedy.Do)
	case n.Saved >= worthMentioning:
		return fmt.Sprintf("On average it saves %s on the way to a cured machine.", Minutes(n.Saved))
	}
	return fmt.Sprintf("It tells most for its minutes (%.1f%sbits).", n.Bits, nbsp)
}

// handOn says what the machine is handed on for: what is likeliest may lie behind
// an opening that nobody pays for on a suspicion.
func (a Answer) handOn() string {
	const nothing = "Nothing left here is worth its minutes"
	if len(a.Explanation.Causes) == 0 {
		return nothing + "."
	}
	lead := a.lead()
	var stages []string
	for _, s := range a.Catalog.StagePath(a.cause(lead.ID).Stage) {
		stages = append(stages, s.ID)
	}
	if lead.Probability < 0.5 || a.pays(stages) == 0 {
		return nothing + "."
	}
	return fmt.Sprintf("%s: %s is seen with %s, %s there and back. %s", nothing, a.named(lead.ID),
		a.stageName(stages[len(stages)-1]), Minutes(a.pays(stages)), a.cause(lead.ID).Remedy.Do)
}

// worthMentioning is the saving in minutes below which it is not told: nobody
// plans by a minute or two.
const worthMentioning = 3

// either lists causes that one look tells apart, each with its probability.
func (a Answer) either(ids []string) string {
	var words []string
	for _, id := range ids[:min(len(ids), 3)] {
		words = append(words, a.named(id)+bracketed(Percent(a.probability(id))))
	}
	return listed(words, "or")
}

// probability is that of a cause, 0 when it is not possible here.
func (a Answer) probability(cause string) float64 {
	c, _ := a.Explanation.Find(cause)
	return c.Probability
}

// prospects words what each result would leave as the likeliest, at most n.
func (a Answer) prospects(p plan.Proposal, n int) []document.Item {
	var items []document.Item
	for _, r := range p.Results[:min(n, len(p.Results))] {
		if r.Probability < 0.01 {
			break
		}
		then := "nothing in this book is left"
		if r.Top != "" {
			then = fmt.Sprintf("then %s leads (%s)", a.named(r.Top), Percent(r.TopProbability))
		}
		items = append(items, item(document.Strong(capital(a.answers(r))), plain(fmt.Sprintf(" (%s): %s.", Percent(r.Probability), then))))
	}
	return items
}

// answers words one joint result of a check.
func (a Answer) answers(r plan.Prospect) string {
	var words []string
	for _, s := range r.Answers {
		answer := "no"
		if s.Yes {
			answer = "yes"
		}
		words = append(words, a.seen(s.Sign, answer))
	}
	return Join(words)
}
