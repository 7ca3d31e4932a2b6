package report

import (
	"fmt"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/practice"
)

// What an exercise says in between.
const (
	Left      = "You leave the machine as it is. The case does not count; the same command brings it in again, from the start."
	SayWhat   = "Say what, in your own words, after the command."
	StaysShut = "It stays shut."
	NameWhat  = "Name a cause and how sure you are in percent: name CAUSE 70. Several with commas; causes WORDS finds them."
	NoPercent = "That is no percentage from 0 to 100. Nothing is named yet."
	WhyThat   = "Why that? One line, or Enter for no reason."
	TooMuch   = "The percentages add up to more than 100. Nothing is named yet."
	NotNamed  = "Nothing is named yet."
	NoAnswer  = "There is nothing to answer with yes or no. Say what you would ask or do."
)

// NotFound says that nothing fits.
func NotFound(words string) string {
	return fmt.Sprintf("Nothing left here fits %q. Try one plain word, or checks, history, open.", words)
}

// NoCause says that no cause fits.
func NoCause(words string) string {
	return fmt.Sprintf("No cause fits %q. causes finds them by a word of their name.", words)
}

// WhichOf asks which cause some words meant.
func WhichOf(words string) string {
	return fmt.Sprintf("Which of these is %q? Its number, or Enter to name nothing yet.", words)
}

// NoNumber says that a number stands for nothing.
func NoNumber(n, most int) string {
	if most == 0 {
		return "There is no list to pick from. Say what you would ask or do."
	}
	return fmt.Sprintf("There is no %d in the list; it goes from 1 to %d.", n, most)
}

// HowSure asks for a confidence.
func (t Tutor) HowSure(cause string) string {
	return "How sure are you of " + t.name(cause) + ", in percent?"
}

// Offered is a numbered list of what can be done.
func Offered(choices []Choice) document.Document {
	items := make([]document.Item, len(choices))
	for i, c := range choices {
		items[i] = item(plain(c.Line))
	}
	if len(items) == 0 {
		return document.New("", document.Paragraph(plain("Nothing is left of that.")))
	}
	return document.New("", document.Numbered(items...))
}

// GivenUp tells the truth and the planner's way to it.
func (t Tutor) GivenUp(s *practice.Scenario, par practice.Par) document.Document {
	page := document.New("", document.Paragraph(plain("It was "+t.names(s.Truth, len(s.Truth))+".")))
	page.Blocks = append(page.Blocks, t.faults(s.Truth)...)
	page.Blocks = append(page.Blocks, heading("The planner's way, "+Minutes(par.Minutes)))
	page.Blocks = append(page.Blocks, t.plannerWay(&practice.Judgement{Scenario: s, Planner: par})...)
	return page
}
