package prose_test

import (
	"strings"
	"testing"
)

// How a complaint can be said not to be so, to be so, and neither. Whatever is made
// of a sentence, no answer may be turned round; where it is neither, a "no" may not
// be taken from it. Verbs have their forms: {b} slip, {s} slips, {g} slipping, {p}
// slipped; states have {S} the thing, {v} is or are, {a} what it is.
var turns = []struct {
	want      string // what may be read; the other may not
	templates []string
}{
	{"no", []string{
		"It doesn't {b}.",
		"It does not {b} at all.",
		"It has never {p}.",
		"It never {s}.",
		"Mine doesn't {b}.",
		"I wouldn't say it {s}.",
		"I can't get it to {b}.",
		"No way does it {b}.",
		"At no point does it {b}.",
		"Not once has it {p}.",
		"It won't {b}, whatever I try.",
		"It isn't {g}.",
		"It is not {g}, I checked.",
		"It isn't as if it {s}.",
		"It's not that it {s}.",
		"Nor does it {b}.",
		"It neither {s} nor rattles.",
		"It used to {b} but doesn't any more.",
		"It no longer {s}.",
		"It stopped {g} after the oil change.",
		"It has stopped {g}.",
		"I have never known it to {b}.",
		"I've yet to hear it {b}.",
		"It refuses to {b} for me.",
		"There's no {g}.",
		"I haven't noticed any {g}.",
		"I've had no {g}.",
		"Nobody has seen it {b}.",
		"Does it {b}? No.",
		"Does it {b}? Not at all.",
		"Does it {b}? Never.",
		"It {s}? No, it does not.",
		"I thought it was {g} but it isn't.",
		"I was told it {s} but it doesn't.",
		"People say these {b}, mine doesn't.",
		"{G} it isn't.",
		"{G}: no.",
		"It doesn't seem to {b}.",
		"I don't think it {s}.",
		"I don't believe it {s}.",
		"Without {g}.",
		"It doesn't {b} any longer.",
		"It doesn't {b} or anything.",
		"I'm glad to say it doesn't {b}.",
		"It is free of any {g}.",
		"It would {b} before, but now it doesn't.",
		"It {p} until I set the play, now it does not.",
		"Hasn't {p} once since I bought it.",
		"It has not {p} so far.",
		"It didn't {b} today.",
		"{S} {v}n't {a}.",
		"{S} {v} not {a}.",
		"{S} {v} not at all {a}.",
		"{S} {v} never {a}.",
		"I wouldn't call {s} {a}.",
		"I can't say {s} {v} {a}.",
		"{S} {v} anything but {a}.",
		"{S} {v} far from {a}.",
		"{S} {v} no longer {a}.",
		"{S} {v}n't {a} any more.",
		"Nobody would call {s} {a}.",
		"{A} {s} {v} not.",
		"It isn't as if {s} were {a}.",
		"It's not that {s} {v} {a}.",
		"I don't think {s} {v} {a}.",
		"{S} doesn't look {a}.",
		"{S} doesn't feel {a}.",
		"{S} used to be {a} but {v}n't now.",
		"I thought {s} {v} {a} but it isn't.",
		"Is {s} {a}? No.",
		"{S}: not {a}.",
		"{S} {v} neither {a} nor damaged.",
		"{S}, I checked, {v} not {a}.",
		"{S} {v} in no way {a}.",
		"{S} {v} by no means {a}.",
		"{S} {v} hardly what I'd call {a}.",
	}},
	{"yes", []string{
		"It {s}.",
		"It doesn't only {b}.",
		"It's not only {g}.",
		"There's no doubt it {s}.",
		"It {s}, no question.",
		"I can't understand why it {s}.",
		"I don't know why it {s}.",
		"No idea why it {s}.",
		"It won't stop {g}.",
		"It never stops {g}.",
		"It hasn't stopped {g}.",
		"It still {s}.",
		"It {s} no matter what I do.",
		"It {s} whatever the oil.",
		"I can't cure it of {g}.",
		"The trouble is that it {s}.",
		"It {s}, not that anybody believes me.",
		"It {s} and the dealer can't find why.",
		"Nothing I do changes the fact that it {s}.",
		"It {s}, doesn't it?",
		"It's no secret that it {s}.",
		"Apart from that it {s}.",
		"It doesn't rattle, it {s}.",
		"It isn't the noise, it's that it {s}.",
		"Why does it {b}?",
		"It can't be normal that it {s}.",
		"I don't like the way it {s}.",
		"It's not good that it {s}.",
		"I'm not happy that it {s}.",
		"It {s}, and no, I haven't changed the oil.",
		"It {s} but the lever isn't heavy.",
		"Without warning it {s}.",
		"There isn't a day when it doesn't {b}.",
		"Not a ride goes by without it {g}.",
		"It never fails to {b}.",
		"I wouldn't say it doesn't {b}, it does.",
		"The lever isn't heavy and it {s}.",
		"There's no smell, it just {s}.",
		"No leaks anywhere but it {s}.",
		"I have not touched it and it {s}.",
		"It {s} and I've not touched anything.",
		"It {s}, which it never did before.",
		"It never did this before: it {s}.",
		"Never had a problem until last week, now it {s}.",
		"It {s} though nothing was changed.",
		"Not sure what's going on, it {s}.",
		"I am no expert but it {s}.",
		"Neither the dealer nor I know why it {s}.",
		"I can't ride it because it {s}.",
		"It {s} so I can't ride it.",
		"Engine doesn't smoke but it {s}.",
		"It doesn't take long until it {s}.",
		"It has only {p} since last week.",
		"It shouldn't {b} but it does.",
		"It {s} less than before.",
		"It doesn't leak, doesn't rattle, but it {s}.",
		"I've changed nothing and it {s}.",
		"Not a clue why it {s}.",
		"I did not buy it knowing that it {s}.",
		"He never told me that it {s}.",
		"{S} {v} {a}.",
		"{S} {v} not only {a}.",
		"{S} {v} {a}, no doubt.",
		"No idea why {s} {v} {a}.",
		"{S} {v} {a} and I've not touched it.",
		"I haven't changed anything but {s} {v} {a}.",
		"{S} {v} really {a}.",
		"There's no denying {s} {v} {a}.",
		"The trouble is {s} {v} {a}.",
		"{S} {v} {a} but it doesn't leak.",
		"{S} {v} {a}, nothing else is.",
		"Never mind that {s} {v} {a}.",
		"I don't like how {a} {s} {v}.",
		"Nobody can tell me why {s} {v} {a}.",
	}},
	{"open", []string{
		"It didn't {b} until last week.",
		"It never {p} until I changed the oil.",
		"It didn't {b} before the oil change.",
		"I wish it didn't {b}.",
		"If only it didn't {b}.",
		"It doesn't always {b}.",
		"It doesn't {b} as badly as before.",
		"It doesn't {b} like it used to.",
		"I've never ridden a bike that {s} like this.",
		"It never {p} like this before.",
		"It hasn't always {p}.",
		"It doesn't {b} so much now.",
		"It had never {p} before.",
		"It did not {b} when I bought it.",
		"It never {p} before that.",
		"It isn't supposed to {b}.",
		"It shouldn't {b}.",
		"It didn't {b} with the old plates.",
		"{S} wasn't {a} until last week.",
		"{S} was never {a} before.",
		"{S} {v}n't always {a}.",
		"{S} {v}n't as {a} as before.",
		"{S} {v}n't so {a} now.",
		"{S} shouldn't be {a}.",
		"I wish {s} weren't so {a}.",
		"{S} wasn't {a} when I bought it.",
	}},
	{"nothing", []string{
		"If it {s} I'll sell it.",
		"I hope it doesn't {b}.",
		"I don't want it to {b}.",
		"I'm afraid it will {b}.",
		"What if it {s}?",
		"Does it {b} when the plates are worn?",
		"Will it {b} with thinner oil?",
		"My mate's {s}.",
		"My old bike {p}.",
		"It might {b} with the wrong oil.",
		"It would {b} if the springs were weak.",
		"If the plates were worn it would {b}.",
		"It hardly {s}.",
		"Would stiffer springs stop it {g}?",
		"I read that they {b}.",
		"To see if it {s} I rode around.",
		"They told me to check whether it {s}.",
		"Make sure it doesn't {b}.",
		"I'd expect it to {b}.",
		"It used to {b}.",
		"It will {b} sooner or later.",
		"Should it {b}?",
		"It {p} before I changed the oil.",
		"If {s} {v} {a} I'll change it.",
		"Is {s} {a}?",
		"Could {s} be {a}?",
		"I hope {s} {v}n't {a}.",
		"Check that {s} {v} not {a}.",
		"I want to see if {s} {v} {a}.",
		"Would it help if {s} were {a}?",
		"Do I need to look whether {s} {v} {a}?",
		"On my old bike {s} was {a}.",
		"Make sure {s} {v} not {a}.",
		"I was worried {s} might be {a}.",
	}},
}

var turnedVerbs = []struct{ sign, b, s, g, p string }{
	{"slips_loaded", "slip uphill", "slips uphill", "slipping uphill", "slipped uphill"},
	{"creeps_hot", "creep when hot", "creeps when hot", "creeping when hot", "crept when hot"},
	{"judders_moving_off", "judder when I pull away", "judders when I pull away", "juddering when I pull away", "juddered when I pull away"},
	{"grinds_into_gear", "grind going into first", "grinds going into first", "grinding going into first", "ground going into first"},
	{"jumps_out", "jump out of gear", "jumps out of gear", "jumping out of gear", "jumped out of gear"},
	{"whine", "whine", "whines", "whining", "whined"},
	{"burnt_smell", "smell burnt", "smells burnt", "smelling burnt", "smelt burnt"},
	{"lurches_into_first", "lurch into first", "lurches into first", "lurching into first", "lurched into first"},
}

var turnedStates = []struct{ sign, s, v, a string }{
	{"lever_heavy", "the lever", "is", "heavy"},
	{"lever_spongy", "the lever", "is", "spongy"},
	{"oil_milky", "the oil", "is", "milky"},
	{"cable_frayed_seen", "the cable", "is", "frayed"},
	{"fingers_notched_found", "the basket", "is", "notched"},
	{"steels_warped_found", "the steels", "are", "warped"},
	{"fluid_dark_seen", "the fluid", "is", "dark"},
	{"lever_gritty", "the lever", "is", "gritty"},
	{"release_bearing_rough_found", "the release bearing", "is", "rough"},
	{"chain_slack_found", "the chain", "is", "loose"},
}

func TestNothingIsTurnedRound(t *testing.T) {
	l, cat := lexicon(t)
	said := 0
	check := func(sign, want, text string) {
		got := ""
		for e := range entries(t, text, l.Read(text).Draft(), cat) {
			if id, v, _ := strings.Cut(direction(e), "="); id == sign {
				got = v
			}
		}
		switch {
		case want == "no" && got == "yes", want == "yes" && got == "no", want == "open" && got == "no", want == "nothing" && got != "":
			t.Errorf("%s\n  got %s=%s, want %s", text, sign, got, want)
		case got == want:
			said++
		}
	}
	all := 0
	for _, turn := range turns {
		for _, text := range turn.templates {
			for _, c := range turnedVerbs {
				if strings.Contains(text, "{a}") || strings.Contains(text, "{A}") {
					break
				}
				check(c.sign, turn.want, fill(text, "b", c.b, "s", c.s, "g", c.g, "p", c.p, "G", c.g))
				all += btoi(turn.want == "no" || turn.want == "yes")
			}
			for _, c := range turnedStates {
				if !strings.Contains(text, "{a}") && !strings.Contains(text, "{A}") {
					break
				}
				check(c.sign, turn.want, fill(text, "s", c.s, "v", c.v, "a", c.a, "S", c.s, "A", c.a))
				all += btoi(turn.want == "no" || turn.want == "yes")
			}
		}
	}
	if t.Logf("%d of %d read as meant", said, all); said*10 < all*8 {
		t.Errorf("%d of %d sentences are read as they are meant: silence is safe, but not this much of it", said, all)
	}
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// fill puts words in the places of a template; a capital letter capitalises them.
func fill(text string, pairs ...string) string {
	for i := 0; i < len(pairs); i += 2 {
		name, word := pairs[i], pairs[i+1]
		if name >= "A" && name <= "Z" {
			word = strings.ToUpper(word[:1]) + word[1:]
		}
		text = strings.ReplaceAll(text, "{"+name+"}", word)
	}
	return text
}
