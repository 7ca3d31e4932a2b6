package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/document"
	"example.org/takeup/engine/inspect"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/unit"
)

// What the page of measurements shows unless the working is asked for.
const (
	doubtsShown  = 1
	missingShown = 4
	givesShown   = 2
	movesAt      = 1 // decibans from which a measurement moves a cause
	roomy        = 4 // expanded uncertainties of room from which no mistake is likely to hide wear
)

// Measured is an inspection as JSON.
type Measured struct {
	Schema     int                `json:"schema"`
	Inspection inspect.Inspection `json:"inspection"`
}

// Inspection is the page of measurements: verdicts first, then what they add up to,
// then what is missing. With working every figure has its formula, inputs and source.
func (a Answer) Inspection(in inspect.Inspection, working bool) document.Document {
	page := document.New("Measurements: "+a.heading(), document.Paragraph(plain(a.verdicts(in))))
	add := func(blocks ...document.Block) { page.Blocks = append(page.Blocks, blocks...) }
	add(cautionNotes(a.Catalog, a.Cautions, danger)...)
	var items []document.Item
	for _, r := range in.Readings {
		items = append(items, a.measurement(r, working))
	}
	if len(items) > 0 {
		add(document.List(items...))
	}
	add(a.sums(in, working)...)
	add(a.wanted(in, working)...)
	last := decides
	if a.Case.Invented {
		last += invented
	}
	add(document.Note(document.Doubt, plain(last)))
	if !working && len(in.Readings)+len(in.Groups) > 0 {
		add(document.Note(document.Hint, document.Code("--show-working"), plain(" gives formulas, inputs, sources and every way to measure wrong")))
	}
	return page
}

// verdicts is the outcome in a sentence or two.
func (a Answer) verdicts(in inspect.Inspection) string {
	if len(in.Readings) == 0 {
		return "Nothing has been measured yet."
	}
	var past, close, inside, open []string
	for _, r := range in.Readings {
		name := a.Catalog.NameOf(r.ID)
		switch {
		case r.Judged == nil && !a.limited(r):
			// never held against anything
		case r.Judged == nil:
			open = append(open, name)
		case r.Judged.Verdict == mechanics.Past:
			past = append(past, name)
		case r.Judged.Verdict == mechanics.TooClose:
			close = append(close, name)
		default:
			inside = append(inside, name)
		}
	}
	var out []string
	say := func(names []string, one, many string) {
		if len(names) > 0 {
			verb := one
			if len(names) > 1 {
				verb = many
			}
			out = append(out, capital(Join(names))+" "+verb+".")
		}
	}
	say(past, "is past its limit", "are past their limits")
	say(close, "is too close to its limit to call", "are too close to their limits to call")
	switch {
	case len(inside) > 2 && len(past)+len(close) == 0:
		out = append(out, "Everything that has a limit is inside it.")
	case len(inside) > 2:
		out = append(out, fmt.Sprintf("The other %d are inside.", len(inside)))
	default:
		say(inside, "is inside its limit", "are inside their limits")
	}
	say(open, "has no limit to be held against", "have no limits to be held against")
	if len(out) == 0 {
		return "Nothing that was measured has a limit."
	}
	return strings.Join(out, " ")
}

// limited reports whether the machine sheet could hold a limit for a reading.
func (a Answer) limited(r inspect.Measurement) bool {
	c, _ := a.Catalog.Reading(r.ID)
	return c.Limit+c.LimitMin+c.LimitMax != ""
}

// measurement is one reading with its verdict and what it does.
func (a Answer) measurement(r inspect.Measurement, working bool) document.Item {
	c, _ := a.Catalog.Reading(r.ID)
	said := []string{a.held(c, r)}
	if r.Wear != nil {
		said = append(said, wearWords(r))
	}
	if r.Judged != nil && r.Judged.Verdict != mechanics.Inside {
		said = append(said, c.Means)
	}
	said = append(said, a.moved(r, working))
	if r.Apart >= 0 {
		said = append(said, fmt.Sprintf("Value %d, %s, stands apart from the others; measure it again.", r.Apart+1, shown(r.Values[r.Apart], c.Unit)))
	}
	head := capital(c.Name) + ": " + verdictWords(r) + "."
	if r.Judged == nil && !a.limited(r) {
		head = capital(c.Name) + "."
	}
	text := document.Join(document.Strong(head), plain(" "+strings.Join(nonEmpty(said...), " ")))
	if doubts := a.ruleOut(r, working); len(doubts) > 0 {
		text = document.Join(text, document.Emphasis(" Rule out: "), plain(strings.Join(doubts, " ")))
	}
	return document.NewItem(text)
}

// ruleOut lists the ways to measure wrong that are worth a thought: not one that would
// hide wear where there is plenty of room.
func (a Answer) ruleOut(r inspect.Measurement, working bool) []string {
	switch {
	case working:
		return r.Doubts
	case r.Judged != nil && r.Apart < 0 && r.Judged.Room > roomy*r.Judged.Expanded:
		return nil
	}
	return r.Doubts[:min(doubtsShown, len(r.Doubts))]
}

func verdictWords(r inspect.Measurement) string {
	if r.Judged == nil {
		return "no limit known"
	}
	usual := ""
	if r.Limit.General {
		usual = " what is usual"
	}
	switch r.Judged.Verdict {
	case mechanics.Past:
		return "past" + usual
	case mechanics.TooClose:
		return "too close to call"
	}
	return "inside" + usual
}

// held sets the counted value against the limit, with the gauge.
func (a Answer) held(c catalog.Reading, r inspect.Measurement) string {
	value := shown(r.Counted, c.Unit)
	if n := len(r.Values); n > 1 {
		value += fmt.Sprintf(" (%s of %d)", extremeWord(c, r), n)
	}
	if r.Listed {
		value += ", from the list of parts"
	}
	gauge := r.Gauge
	if g, ok := a.Catalog.Gauge(r.Gauge); ok {
		gauge = g.Name
	}
	gauge = "±" + short(inspect.Coverage*r.Sigma, c.Unit) + " with the " + gauge
	if r.Judged == nil {
		return fmt.Sprintf("%s, %s.", value, gauge)
	}
	text := value + ", wanted " + limitWords(r.Limit, c.Unit) + ": "
	switch room := r.Judged.Room; {
	case r.Judged.Verdict == mechanics.TooClose:
		text += fmt.Sprintf("%s, so %s that it is past", gauge, Percent(r.Judged.PastProb))
	case room < 0:
		text += fmt.Sprintf("%s past, %s", short(-room, c.Unit), gauge)
	default:
		text += short(room, c.Unit) + " to spare"
	}
	if r.Limit.General {
		text += " (a general figure, " + basisIn(a.Catalog, r.Limit.Basis) + "; the sheet gives none)"
	}
	return text + "."
}

// extremeWord says which of several values was counted.
func extremeWord(c catalog.Reading, r inspect.Measurement) string {
	switch {
	case c.Sense == "none" && r.Limit == nil:
		return "the mean"
	case r.Counted == slices.Min(r.Values):
		return "the least"
	}
	return "the greatest"
}

// limitWords is a limit as a manual states it.
func limitWords(l *inspect.Limit, symbol string) string {
	switch {
	case l.HasMin && l.HasMax:
		return shown(l.Min, symbol) + " to " + shown(l.Max, symbol)
	case l.HasMin:
		return "at least " + shown(l.Min, symbol)
	}
	return "at most " + shown(l.Max, symbol)
}

// wearWords says how much of the allowed wear is used. A part thicker than new has
// not worn backwards: it was measured wrong, is swollen, or is another part.
func wearWords(r inspect.Measurement) string {
	fresh := shown(r.Wear.New, r.Unit)
	switch used := r.Wear.Used; {
	case r.Counted-r.Wear.New > inspect.Coverage*r.Sigma:
		return "That is more than the " + fresh + " of a new one."
	case used <= 0:
		return "As new (" + fresh + ")."
	case used >= 1:
		return fmt.Sprintf("Worn from %s by %.0f%s%% of what is allowed.", fresh, used*100, nbsp)
	default:
		return fmt.Sprintf("Worn from %s by %.0f%s%% of what is allowed, %.0f%s%% left.", fresh, used*100, nbsp, 100-used*100, nbsp)
	}
}

// moved says which cause the reading moves most, and by how much: for one that is
// past its limit the cause it speaks for. With working every sign read off it is
// accounted for with all the causes it moves.
func (a Answer) moved(r inspect.Measurement, working bool) string {
	if working {
		return a.accounted(r)
	}
	past := r.Judged != nil && r.Judged.Verdict == mechanics.Past
	var most inspect.Weight
	for _, s := range r.Shows {
		for _, w := range s.Causes {
			if math.Abs(w.Decibans) > math.Abs(most.Decibans) && (!past || w.Decibans > 0) {
				most = w
			}
		}
	}
	if math.Abs(most.Decibans) < movesAt {
		return ""
	}
	return "Moves " + a.movedBy(most) + "."
}

func (a Answer) movedBy(w inspect.Weight) string {
	return fmt.Sprintf("%s by %s", a.named(w.Cause), Decibans(w.Decibans))
}

// accounted lists the signs read off a reading, each with the rule that read it.
func (a Answer) accounted(r inspect.Measurement) string {
	var out []string
	for _, s := range r.Shows {
		answer := "yes"
		if s.Probability < 0.5 {
			answer = "no"
		}
		text := fmt.Sprintf("Read as “%s” by %s", a.seen(s.Sign, answer), s.Rule)
		if s.Verdict == rule.Soft {
			text += fmt.Sprintf(" (%s that it is so)", Percent(max(s.Probability, 1-s.Probability)))
		}
		var moves []string
		for _, w := range s.Causes {
			if math.Abs(w.Decibans) >= movesAt {
				moves = append(moves, a.movedBy(w))
			}
		}
		if len(moves) > 0 {
			text += ": moves " + Join(moves)
		}
		out = append(out, text+".")
	}
	return strings.Join(out, " ")
}

// shown is a value in a unit, to as many digits as workshop gauges give.
func shown(si float64, symbol string) string { return withDigits(si, symbol, 4) }

func withDigits(si float64, symbol string, digits int) string {
	u, _ := unit.Find(symbol)
	return unit.Format(si, u, digits)
}

// short is a difference or an uncertainty: two digits.
func short(si float64, symbol string) string {
	u, _ := unit.Find(symbol)
	u.Offset = 0
	return unit.Format(si, u, 2)
}

// plusMinus is a value with its expanded uncertainty U, both to the place that U
// leaves meaning in: two digits of a U that begins with 1 or 2, else one.
func plusMinus(si, expanded float64, symbol string) string {
	if expanded <= 0 {
		return three(si, symbol)
	}
	u, _ := unit.Find(symbol)
	spread := expanded / u.Factor
	place := math.Floor(math.Log10(spread))
	if spread/math.Pow(10, place) < 3 {
		place--
	}
	step := math.Pow(10, place)
	value := math.Round(u.FromSI(si)/step) * step
	number := func(x float64) string {
		return strings.Replace(fmt.Sprintf("%.*f", max(0, int(-place)), x), "-", minus, 1)
	}
	return number(value+0) + nbsp + "±" + nbsp + number(math.Round(spread/step)*step) + nbsp + u.Symbol
}
