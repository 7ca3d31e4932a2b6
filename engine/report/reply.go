package report

import (
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/explain"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/interview"
	"example.org/takeup/engine/plan"
	post "example.org/takeup/engine/prose"
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
// best first; those that the post itself raises come before them. Brief keeps it
// to one short post.
func (a Answer) Reply(r *post.Reading, ask []interview.Question, brief bool) document.Document {
	page := document.New("Re: " + a.heading())
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	questions := a.askBack(r, ask)
	if len(a.Evidence) == 0 {
		add(a.understood(r, brief)...)
		add(document.Paragraph(plain("That is not enough to name a cause yet: what counts is when it happens and how.")))
		add(questions...)
		add(document.Note(document.Doubt, plain(notSeen+decides)))
		return page
	}
	add(cautionNotes(a.Catalog, a.Cautions, danger)...)
	add(a.understood(r, brief)...)
	if brief {
		add(a.shortReply()...)
		add(questions...)
	} else {
		add(a.couldBe()...)
		add(questions...)
		add(a.checkFirst()...)
		add(a.firstCare()...)
	}
	add(document.Note(document.Doubt, plain(a.howSure()+notSeen+decides)))
	return page
}

// notSeen is what every reply rests on.
const notSeen = "This is reasoned from a post; nobody here has seen the machine. "

// understood tells the writer how the post was read, so that slips get put right.
func (a Answer) understood(r *post.Reading, brief bool) []document.Block {
	var sure, unsure []string
	for _, e := range r.Entries {
		words := a.entryWords(e)
		if e.Part == post.Signs && !e.Sure {
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
func (a Answer) entryWords(e post.Entry) string {
	id := e.ID
	if e.Part == post.Machine {
		id = "machine." + id
	}
	if e.Part == post.Signs {
		return a.seen(id, e.Value())
	}
	if e.Part == post.Readings {
		return a.Catalog.NameOf(id) + " " + strings.Join(e.Values, ", ")
	}
	f, _ := a.Catalog.Fact(id)
	if fact.Kind(f.Kind) == fact.YesNo {
		return f.Name + map[string]string{"no": ": no"}[e.Value()]
	}
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
func (a Answer) couldBe() []document.Block {
	var items []document.Item
	for _, c := range a.likely() {
		text := document.Join(document.Strong(capital(a.named(c.ID))), plain(" ("+Percent(c.Probability)+")"))
		if why := a.strongest(c.ID); why != "" {
			text = document.Join(text, plain(": "+why))
		}
		if told := a.onlyTold(c); told != "" {
			text = document.Join(text, plain(" "+capital(told)+"."))
		}
		items = append(items, document.NewItem(text))
	}
	if u := a.Explanation.Unlisted; u > unlistedAt {
		items = append(items, item(plain("Something else altogether ("+Percent(u)+")")))
	}
	list := document.Numbered(items...)
	return []document.Block{heading("What it could be"), list}
}

// likely are the causes worth a line in a reply: first the one that explains the
// complaint, then the others by probability.
func (a Answer) likely() []explain.Cause {
	lead := a.behindIt()
	out := []explain.Cause{lead}
	for _, c := range a.Explanation.Causes {
		if len(out) < repliedCauses && c.ID != lead.ID && c.Probability >= repliedAt {
			out = append(out, c)
		}
	}
	return out
}

// behindIt is the cause that a reply names first. One that was likelier than not
// before any sign was told by the writer himself; when it leaves most of the
// complaint open, the likeliest that explains more and is asked for comes before it.
func (a Answer) behindIt() explain.Cause {
	first := a.lead()
	explained := len(a.explains(first))
	if first.Balance.Prior() < 0 || 2*explained >= a.complaints() {
		return first
	}
	for _, c := range a.Explanation.Causes {
		if c.Probability >= leadProbability && asked(c) >= leadWeight && len(a.explains(c)) > explained {
			return c
		}
	}
	return first
}

// complaints counts the signs that are there.
func (a Answer) complaints() (n int) {
	for _, e := range a.Evidence {
		if e.Yes() {
			n++
		}
	}
	return n
}

// explains lists the signs seen that a cause leads to and that speak for it.
func (a Answer) explains(c explain.Cause) []string {
	var out []string
	for k, e := range c.Balance.Entries {
		if a.Evidence[k].Yes() && e.Decibans > 0 && len(a.chain(c.ID, e.ID)) > 0 {
			out = append(out, a.Catalog.NameOf(e.ID))
		}
	}
	return out
}

// onlyTold says of a cause that is likelier than the one behind the complaint what
// it rests on, "" of any other.
func (a Answer) onlyTold(c explain.Cause) string {
	lead := a.behindIt()
	if c.Probability <= lead.Probability || c.Balance.Prior() < 0 {
		return ""
	}
	switch signs := a.explains(c); {
	case len(signs) == 0:
		return "likely from what you told, but it explains nothing of what you see"
	case len(signs) < len(a.explains(lead)):
		return "likely from what you told, but it explains only " + quotedList(shortened(signs))
	}
	return "likely from what you told, and what you see hardly adds to it"
}

// shortReply is the likely causes and the first thing to look at, in two lines.
func (a Answer) shortReply() []document.Block {
	var names []string
	for _, c := range a.likely() {
		name := a.named(c.ID) + bracketed(Percent(c.Probability))
		if told := a.onlyTold(c); told != "" {
			name += ", " + told
		}
		names = append(names, name)
	}
	blocks := []document.Block{document.Paragraph(document.Strong("Likeliest: "), plain(strings.Join(names, "; then ")+"."))}
	if first := a.outside(); len(first) > 0 {
		blocks = append(blocks, document.Paragraph(document.Strong("Check first: "), plain(a.do(first[0])+bracketed(Minutes(first[0].Minutes))+".")))
	}
	return blocks
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
func (a Answer) askBack(r *post.Reading, ask []interview.Question) []document.Block {
	var texts []string
	for _, m := range r.Vague {
		for _, q := range a.Catalog.Questions {
			if q.ID == m.Question {
				texts = append(texts, q.Text)
			}
		}
	}
	for _, q := range ask {
		if t := a.asking(q); !slices.Contains(texts, t) {
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

// asking words a question for somebody who has no list of answers before him.
func (a Answer) asking(q interview.Question) string {
	text := questionOf(a.Catalog, q)
	if q.Kind != interview.Complaint && (q.Kind != interview.Signs || slices.ContainsFunc(a.Catalog.Questions, func(g catalog.Question) bool { return g.Text == text })) {
		return text
	}
	var names []string
	for _, id := range q.Options {
		names = append(names, optionName(a.Catalog, q, id))
	}
	if q.Kind == interview.Complaint {
		return "What does it do, and when does it do it? It may be about " + listed(names, "or") + "."
	}
	return strings.TrimSuffix(text, "?") + ": " + listed(append(names, "none of them"), "or") + "?"
}

// checkFirst is what can be looked at with nothing taken apart.
func (a Answer) checkFirst() []document.Block {
	var items []document.Item
	for _, p := range a.outside() {
		text := document.Join(document.Strong(capital(a.do(p))), plain(bracketed(Minutes(p.Minutes))))
		if how := a.howTo(p); how != "" {
			text = document.Join(text, plain(": "+how))
		}
		items = append(items, document.NewItem(text))
	}
	if len(items) == 0 {
		return nil
	}
	return []document.Block{heading("What to check first, with nothing taken apart"), document.Numbered(items...)}
}

// outside lists what is worth doing with nothing taken apart, best first.
func (a Answer) outside() []plan.Proposal {
	if a.Course == nil {
		return nil
	}
	var out []plan.Proposal
	said := map[string]bool{}
	for _, p := range a.Course.All() {
		if what := a.do(p); !said[what] && len(out) < checksFirst && p.Kind != plan.Service && a.pays(p.Opens) <= quickOpening {
			said[what] = true
			out = append(out, p)
		}
	}
	return out
}

// howTo is how something is done, in as many words as a post has room for.
func (a Answer) howTo(p plan.Proposal) string {
	if p.Confirmed || a.done(p) {
		return a.cause(p.Cause).Remedy.Do
	}
	c, _ := a.Catalog.Check(p.Check)
	return strings.Join(c.How[:min(2, len(c.How))], " ")
}

// firstCare is the first milder caution and how many more there are.
func (a Answer) firstCare() []document.Block {
	notes := cautionNotes(a.Catalog, a.Cautions, care)
	return notes[:min(2, len(notes))]
}

// howSure words the doubt in one sentence for someone who knows no figures.
func (a Answer) howSure() string {
	c := a.Explanation.Causes
	if len(c) == 0 {
		return ""
	}
	switch lead := a.behindIt(); {
	case lead.Probability < standsOut:
		return "Nothing stands out yet, so take the order as a first guess. "
	case lead.ID == c[0].ID && a.Explanation.Steadiness < 0.7:
		return "The first two could well be the other way round. "
	case lead.Probability > 0.9:
		return "The first is very likely, but look before you buy parts. "
	}
	return "The first is my best guess; look before you buy parts. "
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
