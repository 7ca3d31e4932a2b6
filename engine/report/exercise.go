package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/unit"
)

// Tutor words the pages of an exercise.
type Tutor struct{ practice.Book }

// openings are how a machine comes in; the seed picks one.
var openings = []string{
	"The owner says, at the counter:",
	"On the job card, in the owner's words:",
	"Told over the telephone:",
	"On a note left with it:",
	"Taken down by whoever let the machine in:",
	"From a message of last night:",
}

// Story is how the machine comes in: what it is, and what is told unasked.
func (t Tutor) Story(s *practice.Scenario) document.Document {
	title := cmp.Or(s.Title, t.machineName(s)+" comes in")
	page := document.New(title)
	add := func(b ...document.Block) { page.Blocks = append(page.Blocks, b...) }
	add(document.Paragraph(plain(t.machineLine(s))))
	add(document.Paragraph(plain(openings[int(s.Seed%uint64(len(openings)))])), document.List(t.told(s)...))
	if s.Notes != "" {
		add(document.Paragraph(plain(s.Notes)))
	}
	return page
}

func (t Tutor) machineName(s *practice.Scenario) string {
	return cmp.Or(s.Machine.Title, "A machine without a name")
}

// machineLine is the machine and the exercise in a sentence or two.
func (t Tutor) machineLine(s *practice.Scenario) string {
	line := t.machineName(s)
	if s.Machine.Invented {
		line += " (invented)"
	}
	faults := "One fault to find"
	if s.Level >= practice.Levels {
		faults = "One fault or two to find, and with two your percent is shared between them"
	}
	return fmt.Sprintf("%s. Level %d. %s; every question, check and opening takes its minutes.", line, s.Level, faults)
}

// told lists what the customer says unasked, complaints first.
func (t Tutor) told(s *practice.Scenario) []document.Item {
	var items []document.Item
	for _, id := range s.Told {
		e := s.Signs[id]
		if words := s.Words[id]; words != "" && e.Yes() {
			items = append(items, item(plain("\""+words+"\"")))
		} else {
			items = append(items, item(plain(capital(seenIn(t.Catalog, id, e.Answer)))))
		}
	}
	for _, id := range s.Recalled {
		v, _ := s.Known.Get(id)
		f, _ := t.Catalog.Fact(id)
		switch words := s.Words[id]; {
		case words != "" && v.Kind == fact.YesNo:
			items = append(items, item(plain("\""+words+"\"")))
		case words != "": // a choice says little without what it is about
			items = append(items, item(plain(capital(f.Name)+": \""+words+"\"")))
		default:
			items = append(items, item(plain(capital(t.factLine(id, v)))))
		}
	}
	return items
}

// factLine is a fact with its value.
func (t Tutor) factLine(id string, v fact.Value) string {
	f, _ := t.Catalog.Fact(id)
	return f.Name + ": " + valueWords(f, v)
}

// How is what a student can type, told once.
const How = "Say what you would ask or do in your own words and pick a number; help lists the commands. " +
	"Name the cause when you are ready: name, then the cause and how sure you are in percent."

// Help lists the commands of an exercise.
func (t Tutor) Help() document.Document {
	rows := [][2]string{
		{"any words", "what could be asked, checked or named with them; pick one by its number"},
		{"ask WORDS", "the customer, for something the machine does (1 minute)"},
		{"history WORDS", "the customer, for what was done to it and how it is used (1 minute)"},
		{"checks", "what can be done at the stages that are open; checks WORDS searches all"},
		{"do WORDS", "a check"},
		{"how WORDS", "how a check is done and what its results mean (takes no time); how alone, of your last"},
		{"open", "the stages and their minutes; open WORDS opens one"},
		{"known", "what you know by now"},
		{"sheet", "the machine sheet with its limits"},
		{"why", "what your last step split, what it could not, and what the planner would have done; tells what is still in play"},
		{"hint", "what the planner would do next (it is noted)"},
		{"causes WORDS", "the causes that could be named"},
		{"name CAUSE 70, CAUSE 20 because ...", "your answer, likeliest first, with percent; it ends the case"},
		{"give up", "see the answer; the case does not count"},
		{"quit", "leave; the case does not count"},
	}
	facts := make([]document.Fact, len(rows))
	for i, r := range rows {
		facts[i] = document.NewFact(r[0], plain(r[1]))
	}
	return document.New("", document.Facts(facts...))
}

// Reply is what a move brought.
func (t Tutor) Reply(s *practice.Scenario, m practice.Move) document.Document {
	page := document.New("")
	add := func(b ...document.Block) { page.Blocks = append(page.Blocks, b...) }
	switch m.Kind {
	case practice.Ask, practice.Recall:
		for _, r := range m.Results {
			add(document.Paragraph(plain(t.answered(s, r))))
		}
	case practice.Open:
		add(document.Paragraph(document.Strong(capital(t.Catalog.NameOf(m.ID))), plain(". You can work here now."+t.takes(m.Opened))))
	case practice.Do:
		add(document.Paragraph(document.Strong(capital(t.Catalog.NameOf(m.ID)))))
		var items []document.Item
		for _, r := range m.Results {
			items = append(items, item(plain(t.answered(s, r))))
		}
		if len(items) == 0 {
			items = append(items, item(plain("Nothing to be seen on this machine.")))
		}
		add(document.List(items...))
	}
	add(document.Paragraph(plain(fmt.Sprintf("%s; %s so far.", Minutes(m.Minutes), Minutes(m.After.Minutes)))))
	return page
}

// takes says what opening and closing again take, each thing once.
func (t Tutor) takes(stages []string) string {
	var words []string
	for _, id := range stages {
		g, _ := t.Catalog.Stage(id)
		if g.Minutes > 0 && g.Takes != "" && !slices.Contains(words, g.Takes) {
			words = append(words, g.Takes)
		}
	}
	if len(words) > 1 { // "nothing" is no thing beside others
		words = slices.DeleteFunc(words, func(w string) bool { return strings.HasPrefix(w, "nothing") })
	}
	if len(words) == 0 {
		return ""
	}
	return " It takes: " + strings.Join(words, "; ") + "."
}

// answered words one result.
func (t Tutor) answered(s *practice.Scenario, r practice.Result) string {
	switch {
	case r.Fact != "":
		f, _ := t.Catalog.Fact(r.Fact)
		if r.Value == nil {
			return capital(f.Name) + ": the customer cannot say."
		}
		return capital(t.factLine(r.Fact, *r.Value)) + "."
	case r.Reading != "":
		return t.reading(s, r)
	case r.Answer == "unknown":
		return capital(t.Catalog.NameOf(r.Sign)) + "? The customer cannot say."
	}
	return capital(seenIn(t.Catalog, r.Sign, r.Answer)) + "."
}

// reading words what was measured. At the first level its limit stands beside
// it; later the student looks it up.
func (t Tutor) reading(s *practice.Scenario, r practice.Result) string {
	x, _ := t.Catalog.Reading(r.Reading)
	u, _ := unit.Find(x.Unit)
	var values []string
	for _, v := range r.Value.Values {
		values = append(values, unit.Format(v, u, 4))
	}
	line := capital(x.Name) + ": " + strings.Join(values, ", ")
	if g, ok := t.Catalog.Gauge(cmp.Or(r.Value.Gauge, x.Gauge)); ok {
		line += " (" + g.Name + ")"
	}
	if limit := t.limit(s, x); limit != "" && s.Level == 1 {
		line += "; the sheet allows " + limit
	}
	return line + "."
}

// limit is what the machine sheet allows, or nothing.
func (t Tutor) limit(s *practice.Scenario, x catalog.Reading) string {
	get := func(word string) string {
		v, _ := s.Known.Get("machine." + word)
		return strings.ReplaceAll(v.Text, " ", nbsp)
	}
	low, high := get(x.LimitMin), get(x.LimitMax)
	switch limit := get(x.Limit); {
	case limit != "" && x.Sense == "max":
		return "at most " + limit
	case limit != "":
		return "at least " + limit
	case low != "" && high != "":
		return low + " to " + high
	case low != "":
		return "at least " + low
	case high != "":
		return "at most " + high
	}
	return ""
}

// SheetPage is the machine sheet.
func (t Tutor) SheetPage(s *practice.Scenario) document.Document {
	page := document.New("")
	var facts []document.Fact
	for _, f := range t.Catalog.Machine {
		if v, ok := s.Known.Get("machine." + f.ID); ok {
			facts = append(facts, document.NewFact(f.Name, plain(valueWords(f, v))))
		}
	}
	if len(facts) == 0 {
		page.Blocks = append(page.Blocks, document.Paragraph(plain("There is no sheet for this machine.")))
		return page
	}
	page.Blocks = append(page.Blocks, document.Facts(facts...))
	return page
}

// KnownPage is what the student has learnt by now.
func (t Tutor) KnownPage(at *practice.Session) document.Document {
	page := document.New("")
	section := func(name string, items []document.Item) {
		if len(items) > 0 {
			page.Blocks = append(page.Blocks, document.Paragraph(document.Strong(name)), document.List(items...))
		}
	}
	var history, seen, measured []document.Item
	for _, id := range at.Now.Known.IDs() {
		v, _ := at.Now.Known.Get(id)
		if _, ok := t.Catalog.Reading(id); ok {
			measured = append(measured, item(plain(t.reading(at.Scenario, practice.Result{Reading: id, Value: &v}))))
		} else if f, ok := t.Catalog.Fact(id); ok && f.ID == id {
			history = append(history, item(plain(capital(t.factLine(id, v)))))
		}
	}
	for _, e := range at.Now.Said {
		seen = append(seen, item(plain(capital(seenIn(t.Catalog, e.Sign, e.Answer)))))
	}
	section("History", history)
	section("Said and seen", seen)
	section("Measured", measured)
	var open []string
	for _, id := range at.Now.Paid {
		open = append(open, t.Catalog.NameOf(id))
	}
	page.Blocks = append(page.Blocks, document.Paragraph(plain("Open: "+Join(open)+". "+capital(Minutes(at.Now.Minutes))+" so far.")))
	return page
}

// Refused words a move that cannot be made.
func (t Tutor) Refused(e *practice.MoveError, at *practice.Session) string {
	name := t.Catalog.NameOf(e.ID)
	switch e.Reason {
	case practice.NotHere:
		return "This machine has nothing of the kind: " + name + "."
	case practice.MustCheck:
		words := "No customer can say that; it has to be looked at."
		if checks := t.Catalog.ChecksFor(e.ID); len(checks) > 0 {
			words += " One way: " + checks[0].Name + "."
		}
		return words
	case practice.Repeated:
		return "That is done already: " + name + ". known shows what came of it."
	case practice.Shut:
		c, _ := t.Catalog.Check(e.ID)
		stages, minutes := t.way(c.Stage, at)
		return fmt.Sprintf("To %s you need: %s (%s there and back). Open that far and do it? yes or no", name, Join(stages), minutes)
	case practice.AlreadyOut:
		return "The cause is named; the case is over."
	}
	return fmt.Sprintf("There is no %q here.", e.ID)
}

// way names the stages to be opened to reach one, with their minutes.
func (t Tutor) way(stage string, at *practice.Session) (names []string, minutes string) {
	ids, m := at.Opens(stage)
	for _, id := range ids {
		if g, _ := t.Catalog.Stage(id); g.Minutes > 0 {
			names = append(names, g.Name)
		}
	}
	return names, Minutes(m)
}

// OpenThat asks whether to open as far as a stage that was named.
func (t Tutor) OpenThat(stage string, at *practice.Session) string {
	names, minutes := t.way(stage, at)
	return fmt.Sprintf("That takes: %s (%s there and back). Open that far? yes or no", Join(names), minutes)
}

// How is the page of a check: how it is done, and what each result means.
func (t Tutor) How(check string) document.Document {
	c, _ := t.Catalog.Check(check)
	return document.New("", append([]document.Block{document.Paragraph(document.Strong(capital(c.Name)))}, book{t.Catalog, t.Rules}.check(c)...)...)
}
