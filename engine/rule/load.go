package rule

import (
	"fmt"
	"io/fs"
	"strings"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// rawRule is a rule as it stands in the file.
type rawRule struct {
	ID       source.Text    `yaml:"id,required"`
	When     source.Text    `yaml:"when"`
	Given    source.Text    `yaml:"given"`
	Until    source.Text    `yaml:"until"`
	Cause    source.Text    `yaml:"cause"`
	Effect   source.Text    `yaml:"effect"`
	Brings   source.Text    `yaml:"brings"`
	Strength source.Text    `yaml:"strength"`
	Raises   []source.Entry `yaml:"raises"`
	Lowers   []source.Entry `yaml:"lowers"`
	RulesOut []source.Text  `yaml:"rules_out"`
	Shows    source.Text    `yaml:"shows"`
	Caution  source.Text    `yaml:"caution"`
	Because  source.Text    `yaml:"because,required"`
	Basis    source.Text    `yaml:"basis,required"`

	Pos source.Pos `yaml:"-"`
}

type rawFile struct {
	Rules []rawRule `yaml:"rules,required"`
}

// IsTest reports whether a file of the rules folder holds tests of rules.
func IsTest(name string) bool { return strings.HasSuffix(name, "_test.yaml") }

// Load reads and checks every rule file of a folder; files that end in
// _test.yaml are left alone. The set is usable only when no problem is an error.
func Load(fsys fs.FS, words *fact.Vocabulary) (*Set, source.Problems) {
	set := &Set{index: map[string]int{}, eval: newEvaluator()}
	files, ps := source.DecodeFolder[rawFile](fsys, func(name string) bool { return !IsTest(name) })
	l := loader{set: set, words: words, ps: &ps}
	for _, file := range files {
		for _, raw := range file.Rules {
			l.rule(raw)
		}
	}
	ps.Sort()
	return set, ps
}

// loader turns raw rules into checked ones.
type loader struct {
	set   *Set
	words *fact.Vocabulary
	ps    *source.Problems
}

func (l loader) errorf(at source.Text, code, hint, format string, args ...any) {
	pos := at.Pos
	l.ps.Errorf(code, pos, max(1, len([]rune(at.Value))), format, args...).Hint = hint
}

func (l loader) rule(raw rawRule) {
	r := Rule{ID: raw.ID.Value, Because: raw.Because.Value, Basis: raw.Basis.Value, Pos: raw.Pos}
	if !fact.IsID(r.ID) {
		l.errorf(raw.ID, "R101", "ids are lower case letters, digits and underscores", "rule id %q is not in snake_case", r.ID)
	}
	if i, taken := l.set.index[r.ID]; taken {
		p := l.ps.Errorf("R102", raw.ID.Pos, len(r.ID), "rule id %q is taken", r.ID)
		p.Related = append(p.Related, source.Related{Pos: l.set.Rules[i].Pos, Message: "first used here"})
		return
	}
	l.action(raw, &r)
	l.basis(raw)
	l.when(raw, &r)
	l.given(raw, &r)
	l.until(raw, &r)
	l.set.index[r.ID] = len(l.set.Rules)
	l.set.Rules = append(l.set.Rules, r)
}

func (l loader) basis(raw rawRule) {
	if raw.Basis.Value == "" || raw.Basis.Value == fact.CommonPractice || l.words.Has("source:"+raw.Basis.Value, fact.RoleSource) {
		return
	}
	known := []string{fact.CommonPractice}
	for _, id := range l.words.IDs(fact.RoleSource) {
		known = append(known, strings.TrimPrefix(id, "source:"))
	}
	l.errorf(raw.Basis, "R103", source.DidYouMean(raw.Basis.Value, known), "unknown basis %q, expected a source id or common practice", raw.Basis.Value)
}

// action finds the one action of a rule and fills it in.
func (l loader) action(raw rawRule, r *Rule) {
	var found []string
	for _, a := range []struct {
		name Action
		here bool
		fill func(rawRule, *Rule)
	}{
		{Brings, raw.Brings.Value != "", l.brings},
		{Raises, raw.Raises != nil, func(raw rawRule, r *Rule) { r.Factors = l.factors(raw.Raises) }},
		{Lowers, raw.Lowers != nil, func(raw rawRule, r *Rule) { r.Factors = l.factors(raw.Lowers) }},
		{RulesOut, raw.RulesOut != nil, l.rulesOut},
		{Shows, raw.Shows.Value != "", l.shows},
		{Cautions, raw.Caution.Value != "", l.caution},
	} {
		if a.here {
			found = append(found, string(a.name))
			r.Action = a.name
			a.fill(raw, r)
		}
	}
	if len(found) != 1 {
		l.errorf(raw.ID, "R104", "split it: a rule is one statement", "rule %s has %s, expected exactly one of brings, raises, lowers, rules_out, shows, caution", r.ID, listOr(found))
	}
	if r.Action != Brings && (raw.Cause.Value+raw.Effect.Value+raw.Strength.Value) != "" {
		l.errorf(raw.ID, "R105", "", "rule %s: cause, effect and strength belong to brings", r.ID)
	}
}

func listOr(found []string) string {
	if len(found) == 0 {
		return "no action"
	}
	return strings.Join(found, " and ")
}

// known checks that an id is a word of one of the roles.
func (l loader) known(id source.Text, what string, roles ...fact.Role) {
	if id.Value != "" && !l.words.Has(id.Value, roles...) {
		l.errorf(id, "R106", source.DidYouMean(id.Value, l.words.IDs(roles...)), "unknown %s %q", what, id.Value)
	}
}

func (l loader) brings(raw rawRule, r *Rule) {
	from := raw.Cause
	if raw.Effect.Value != "" {
		from = raw.Effect
		l.known(from, "effect", fact.RoleEffect)
	} else {
		l.known(from, "cause", fact.RoleCause)
	}
	if (raw.Cause.Value == "") == (raw.Effect.Value == "") {
		l.errorf(raw.ID, "R107", "", "rule %s: brings needs either a cause or an effect to act", r.ID)
	}
	r.From, r.To = from.Value, raw.Brings.Value
	to := []fact.Role{fact.RoleEffect, fact.RoleSign, fact.RoleCause}
	if raw.Effect.Value != "" {
		to = to[:2]
	}
	l.known(raw.Brings, "effect, sign or cause", to...)
	r.Strength, r.Word = l.strength(raw.ID, raw.Strength)
}

func (l loader) strength(owner, text source.Text) (float64, string) {
	if text.Value == "" {
		l.errorf(owner, "R108", "", "rule %s: brings needs a strength", owner.Value)
		return 0.5, ""
	}
	if w, ok := l.words.Lookup("strength:" + text.Value); ok {
		return w.Number, text.Value
	}
	var p float64
	if _, err := fmt.Sscanf(text.Value, "%g", &p); err != nil || !(p > 0 && p < 1) {
		var known []string
		for _, id := range l.words.IDs(fact.RoleStrength) {
			known = append(known, strings.TrimPrefix(id, "strength:"))
		}
		l.errorf(text, "R109", source.DidYouMean(text.Value, known), "strength %q is neither a number between 0 and 1 (both excluded) nor one of %s", text.Value, strings.Join(known, ", "))
		return 0.5, ""
	}
	return p, ""
}

func (l loader) factors(entries []source.Entry) []Factor {
	var out []Factor
	for _, e := range entries {
		l.known(e.Key, "cause", fact.RoleCause)
		var by float64
		text, ok := e.Value.Scalar()
		if _, err := fmt.Sscanf(text.Value, "%g", &by); !ok || err != nil || !(by > 1 && by <= 1000) {
			l.errorf(e.Key, "R112", "raises multiplies and lowers divides the prior odds", "factor %q for %s, expected a number above 1 and at most 1000", text.Value, e.Key.Value)
		}
		out = append(out, Factor{e.Key.Value, by})
	}
	return out
}

func (l loader) rulesOut(raw rawRule, r *Rule) {
	for _, c := range raw.RulesOut {
		l.known(c, "cause", fact.RoleCause)
		r.Causes = append(r.Causes, c.Value)
	}
}

func (l loader) shows(raw rawRule, r *Rule) {
	l.known(raw.Shows, "sign", fact.RoleSign)
	r.To = raw.Shows.Value
}

func (l loader) caution(raw rawRule, r *Rule) {
	l.known(raw.Caution, "caution", fact.RoleCaution)
	r.To = raw.Caution.Value
}

// contextOnly is the complaint about evidence in the condition of a rule that
// moves beliefs.
func contextOnly(w fact.Word) string {
	if w.Role.Context() {
		return ""
	}
	return fmt.Sprintf("%s is a %s; this condition may use only facts of the history and the machine", w.ID, w.Role)
}

func anything(fact.Word) string { return "" }

func (l loader) when(raw rawRule, r *Rule) {
	if raw.When.Value == "" {
		if r.Action != Brings {
			l.errorf(raw.ID, "R114", "", "rule %s: %s needs a condition, `when`", r.ID, r.Action)
		}
		return
	}
	allowed := contextOnly
	if r.Action == Shows || r.Action == Cautions {
		allowed = anything
	}
	r.When = l.condition(raw.When, allowed)
}

// condition reads and checks one; nil when it cannot be read.
func (l loader) condition(text source.Text, allowed func(fact.Word) string) *Condition {
	if text.Comment != "" {
		p := l.ps.Warnf("R113", text.Pos, len([]rune(text.Value)), "the text after # is not part of the condition: %q", text.Comment)
		p.Hint = "quote the condition, or move the comment to a line of its own"
	}
	c, p := l.set.eval.parse(text.Value)
	if p != nil {
		p.report(text, l.ps)
		return nil
	}
	for _, p := range (typer{words: l.words, functions: l.set.eval.functions, allowed: allowed}).condition(c) {
		p.report(text, l.ps)
	}
	return c
}

// sheetKind begins the name of a kind of part in the stack of the machine sheet.
const sheetKind = "machine.stack."

// until wants a word that says what a rule of thumb can only guess at. Only what is
// read off the machine is guessed at: a rule about causes holds or does not.
func (l loader) until(raw rawRule, r *Rule) {
	r.Until = raw.Until.Value
	if r.Until == "" {
		return
	}
	if kind, inStack := strings.CutPrefix(r.Until, sheetKind); !inStack {
		l.known(raw.Until, "word", fact.RoleFact, fact.RoleMachine)
	} else if !l.words.Has("part:"+kind, fact.RolePart) {
		l.errorf(raw.Until, "R133", source.DidYouMean(kind, typer{words: l.words}.bare(fact.RolePart)), "unknown kind of part %q", kind)
	}
	l.onlyShows(raw.Until, "until", r)
}

// given is about the machine and its history alone.
func (l loader) given(raw rawRule, r *Rule) {
	if raw.Given.Value == "" {
		return
	}
	l.onlyShows(raw.Given, "given", r)
	r.Given = l.condition(raw.Given, contextOnly)
}

func (l loader) onlyShows(at source.Text, key string, r *Rule) {
	if r.Action != Shows {
		l.errorf(at, "R116", "write it into the condition", "rule %s: %s belongs to shows", r.ID, key)
	}
}
