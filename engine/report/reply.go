package report

import (
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/prose"
)

// What a reply to a post shows.
const (
	repliedCauses = 3
	repliedAt     = 0.1 // probability from which a cause is named beside the first
	askedBack     = 3   // questions to the writer of the post
	checksFirst   = 3
	quickOpening  = 5.0 // minutes of opening up to which nothing counts as taken apart
)

// Reply is the answer to the writer of a post. Ask holds the questions worth most,
// best first, in addition to those that the post itself raises; Brief keeps it to
// one short post.
func (a Answer) Reply(r *prose.Reading, ask []string, brief bool) document.Document {
	page := document.New("Re: " + a.heading())
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	questions := a.askBack(r, ask)
	if len(a.Evidence) == 0 {
		add(a.understood(r, brief)...)
		add(document.Paragraph(plain("That is not enough to name a cause yet: every sign in this book says when or how it shows.")))
		add(questions...)
		add(document.Note(document.Doubt, plain(notSeen+decides)))
		return page
	}
	add(cautionNotes(a.Catalog, a.Cautions, danger)...)
	add(a.understood(r, brief)...)
	add(a.couldBe(brief)...)
	add(questions...)
	add(a.checkFirst(brief)...)
	if !brief {
		add(a.firstCare()...)
	}
	add(document.Note(document.Doubt, plain(a.howSure()+notSeen+decides)))
	return page
}

// notSeen is what every reply rests on.
const notSeen = "This is reasoned from a post; nobody here has seen the machine. "

// understood tells the writer how the post was read, so that slips get put right.
func (a Answer) understood(r *prose.Reading, brief bool) []document.Block {
	var sure, unsure []string
	for _, e := range r.Entries {
		words := a.entryWords(e)
		if e.Part == prose.Signs && !e.Sure {
			words = strings.TrimPrefix(words, "probably ")
		}
		if e.Sure {
			sure = append(sure, words)
		} else {
			unsure = append(unsure, words)
		}
	}
	if len(sure)+len(unsure) == 0 {
		return []document.Block{document.Paragraph(plain("I could not read a single sign out of that post."))}
	}
	if brief {
		return []document.Block{document.Paragraph(document.Strong("As I read it: "), plain(strings.Join(append(sure, maybe(unsure)...), "; ")+"."))}
	}
	var list []document.Item
	for _, words := range append(sure, maybe(unsure)...) {
		list = append(list, item(plain(words)))
	}
	return []document.Block{document.Paragraph(plain("This is how I read your post. Say so if I got something wrong:")), document.List(list...)}
}

func maybe(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w + " (not sure)"
	}
	return out
}

// entryWords says one entry of a draft as a person would.
func (a Answer) entryWords(e prose.Entry) string {
	id := e.ID
	if e.Part == prose.Machine {
		id = "machine." + id
	}
	if e.Part == prose.Signs {
		return a.seen(id, e.Value())
	}
	if e.Part == prose.Readings {
		return a.Catalog.NameOf(id) + " " + strings.Join(e.Values, ", ")
	}
	f, _ := a.Catalog.Fact(id)
	var values []string
	for _, v := range e.Values {
		for _, o := range f.Choices {
			if o.ID == v {
				v = o.Name
			}
		}
		values = append(values, v)
	}
	return f.Name + ": " + Join(values)
}

// couldBe names the likely causes, each with its strongest reason.
func (a Answer) couldBe(brief bool) []document.Block {
	var items []document.Item
	for i, c := range a.Explanation.Causes {
		if i == repliedCauses || i > 0 && c.Probability < repliedAt {
			break
		}
		text := document.Join(document.Strong(capital(a.named(c.ID))), plain(" ("+Percent(c.Probability)+")"))
		if why := a.strongest(c.ID); why != "" && !(brief && i > 0) {
			text = document.Join(text, plain(": "+why))
		}
		items = append(items, document.NewItem(text))
	}
	if len(items) == 0 {
		return nil
	}
	if u := a.Explanation.Unlisted; u > unlistedAt {
		items = append(items, item(plain("Something else altogether ("+Percent(u)+")")))
	}
	list := document.Numbered(items...)
	return []document.Block{heading("What it could be"), list}
}

// strongest is the reason that moved a cause most, in one sentence.
func (a Answer) strongest(cause string) string {
	c, _ := a.Explanation.Find(cause)
	for _, r := range a.reasons(c) {
		why := a.because(r.rule)
		if r.decibans < worthSaying || why == "" {
			continue
		}
		if len(r.signs) > 0 {
			return "fits " + quotedList(shortened(r.signs)) + ". " + why
		}
		return why
	}
	return ""
}

func quotedList(s string) string { return "“" + s + "”" }

// askBack lists the questions for the writer: first those that the post brings
// up itself, then those that tell most.
func (a Answer) askBack(r *prose.Reading, ask []string) []document.Block {
	var texts []string
	for _, m := range r.Vague {
		for _, q := range a.Catalog.Questions {
			if q.ID == m.Question {
				texts = append(texts, q.Text)
			}
		}
	}
	for _, t := range ask {
		if !slices.Contains(texts, t) {
			texts = append(texts, t)
		}
	}
	if len(texts) == 0 {
		return nil
	}
	var list []document.Item
	for _, t := range texts[:min(askedBack, len(texts))] {
		list = append(list, item(plain(t)))
	}
	return []document.Block{heading("What would help to know"), document.Numbered(list...)}
}

// checkFirst is what can be looked at with nothing taken apart.
func (a Answer) checkFirst(brief bool) []document.Block {
	var items []document.Item
	said := map[string]bool{}
	for _, p := range a.proposals() {
		what := capital(a.do(p))
		if said[what] || len(items) == checksFirst || p.Kind == plan.Service || a.pays(p.Opens) > quickOpening {
			continue
		}
		said[what] = true
		text := document.Join(document.Strong(what), plain(bracketed(Minutes(p.Minutes))))
		if c, ok := a.Catalog.Check(p.Check); ok && !brief {
			text = document.Join(text, plain(": "+strings.Join(c.How[:min(2, len(c.How))], " ")))
		}
		items = append(items, document.NewItem(text))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("What to check first, with nothing taken apart"), document.Numbered(items...)}
}

// proposals are all things worth doing, best first.
func (a Answer) proposals() []plan.Proposal {
	if a.Course == nil {
		return nil
	}
	return append(append([]plan.Proposal{a.Course.Next}, a.Course.Together...), a.Course.Others...)
}

// firstCare is the first milder caution and how many more there are.
func (a Answer) firstCare() []document.Block {
	notes := cautionNotes(a.Catalog, a.Cautions, care)
	return notes[:min(2, len(notes))]
}

// howSure words the doubt in one sentence for someone who knows no figures.
func (a Answer) howSure() string {
	c := a.Explanation.Causes
	switch {
	case len(c) == 0:
		return ""
	case c[0].Probability < 0.4:
		return "Nothing stands out yet, so take the order with a pinch of salt. "
	case a.Explanation.Steadiness < 0.7:
		return "The first two could well be the other way round. "
	case c[0].Probability > 0.9:
		return fmt.Sprintf("I would be surprised if it were not %s, but check before you buy parts. ", a.named(c[0].ID))
	}
	return fmt.Sprintf("My money is on %s, but check before you buy parts. ", a.named(c[0].ID))
}

// Brief is the answer in a few lines, for a short post or a message.
func (a Answer) Brief() document.Document {
	page := document.New(a.heading(), document.Paragraph(plain(a.Summary())))
	page.Blocks = append(page.Blocks, cautionNotes(a.Catalog, a.Cautions, danger)...)
	if a.Course != nil && len(a.Evidence) > 0 {
		n := a.Course.Next
		page.Blocks = append(page.Blocks, document.Paragraph(document.Strong("Next: "), plain(a.do(n)+bracketed(a.effort(n))+".")))
	}
	last := decides
	if a.Case.Invented {
		last += invented
	}
	page.Blocks = append(page.Blocks, document.Paragraph(plain(last)))
	return page
}
