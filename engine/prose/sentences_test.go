package prose_test

import (
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

// TestSentences holds one construction each. What is wanted is all that may be
// found of signs and facts; "-" stands for nothing.
func TestSentences(t *testing.T) { hold(t, sentences) }

// TestWordings holds the same for the many ways of saying one thing.
func TestWordings(t *testing.T) {
	text, err := os.ReadFile("testdata/wordings.txt")
	if err != nil {
		t.Fatal(err)
	}
	hold(t, strings.Split(strings.TrimSpace(string(text)), "\n"))
}

func hold(t *testing.T, list []string) {
	t.Helper()
	l, cat := lexicon(t)
	for _, c := range list {
		text, want, _ := strings.Cut(c, " => ")
		got := entries(t, text, l.Read(text).Draft(), cat)
		var wanted []string
		for _, w := range strings.Fields(want) {
			if w != "-" {
				wanted = append(wanted, strings.ReplaceAll(w, "_not=", "="))
			}
		}
		found := slices.Sorted(maps.Keys(got))
		for i := range found {
			found[i] = strings.ReplaceAll(found[i], " ", "_")
		}
		slices.Sort(wanted)
		if !slices.Equal(found, wanted) {
			t.Errorf("%s\n  got  %v\n  want %v", text, found, wanted)
		}
	}
}

var sentences = []string{
	// Denials: before, inside, behind, over "or", and twice.
	"No slip in top gear. => slips_top_gear=no",
	"It doesn't slip in top gear. => slips_top_gear=no",
	"It never slips in top gear, not even uphill. => slips_top_gear=no slips_loaded=no",
	"The lever does not feel spongy at all. => lever_spongy=no",
	"The lever isn't heavy or gritty. => lever_heavy=no lever_gritty=no",
	"No judder, rattle or whine. => judders_moving_off=no whine=no",
	"Slips in top gear? No. => slips_top_gear=no",
	"Does it creep when hot? Yes. => creeps_hot=yes",
	"It is not that it doesn't slip in top gear. => slips_top_gear=yes",
	"It hasn't stopped slipping in top gear. => slips_top_gear=yes",
	"The tinny rattle has gone. => tinny_rattle=no",
	"It stopped slipping in top gear after I changed the springs. => slips_top_gear=no changed=springs clutch_opened=yes",
	"It no longer creeps when hot. => creeps_hot=no",
	"It slips in top gear but not uphill. => slips_top_gear=yes slips_loaded=no",
	"It doesn't slip, except in top gear. => slips_top_gear=yes",
	"Not only does it slip in top gear, it also grabs. => slips_top_gear=yes grabs=yes",
	"I can't understand why it slips in top gear. => slips_top_gear=yes",
	"No idea why it creeps when cold. => creeps_cold=yes",
	"No free play and it slips uphill. => free_play_gone=yes slips_loaded=yes",
	"No noise, but it slips uphill. => slips_loaded=yes",
	"I never had it slip in top gear. => slips_top_gear=no",
	"I did not soak the plates first. => soaked=no",
	"Nobody has had the clutch cover off. => clutch_opened=no",
	"It finds neutral easily, never slips uphill. => neutral_hard_at_rest=no slips_loaded=no",
	"I didn't bleed it. => -",
	"It creeps hot not cold. => creeps_hot=yes creeps_cold=no",
	"It doesn't creep, not when hot. => creeps_hot=no",
	"What it does: grab. What it doesn't do: whine, crunch into first. => grabs=yes whine=no grinds_into_gear=no",
	"It bangs into first in the morning but it has never been left standing. => clunk_into_first=yes first_engagement_bang=yes",
	"It never grinds going into gear. => grinds_into_gear=no",
	// Conditions and what leans on the sentence before.
	"It only slips when hot. Cold it is fine. => slips_hot_only=yes",
	"Cold it's fine but when hot it creeps. => creeps_cold=no creeps_hot=yes",
	"It creeps when hot, fine when cold. => creeps_hot=yes creeps_cold=no",
	"Clutch slips. Only in top gear mind you. => slips_top_gear=yes",
	"Clutch slips. It happens in fifth and when I go uphill. => slips_top_gear=yes slips_loaded=yes",
	"It drags hot or cold. => creeps_hot=yes creeps_cold=yes",
	"When I open it up to overtake the revs shoot up. => slips_snatched=yes",
	"The revs climb but the speed stays the same in sixth. => slips_top_gear=yes",
	"Fine when cold but once it's warm I can't find neutral. It creeps with the lever in. => neutral_hard_at_rest=yes creeps_hot=yes",
	"Once it's warm I can't find neutral. It creeps with the lever in. => neutral_hard_at_rest=yes creeps_hot=probably",
	"Once it's warm I can't find neutral. It creeps when cold too. => neutral_hard_at_rest=yes creeps_cold=yes",
	"Once it's warm I can't find neutral. It doesn't creep. => neutral_hard_at_rest=yes",
	"I can't find neutral at the lights, have to switch the engine off. => neutral_hard_at_rest=yes neutral_easy_engine_off=yes",
	"When it is hot the needle jumps, cold it is fine. => slips_hot_only=yes",
	// Doubt.
	"I think it slips in top gear. => slips_top_gear=probably",
	"Not sure but maybe it creeps when hot. => creeps_hot=probably",
	"I don't think it slips in top gear. => slips_top_gear=probably_not",
	"The mechanic says the plates are worn out. => linings_thin_found=probably",
	// No evidence: questions, plans, ifs, other machines, former times, quotes.
	"Could it be that the steels are warped? => -",
	"Are the springs too short? => -",
	"Why does it slip in top gear? => slips_top_gear=yes",
	"Is it normal that it clunks into first? => clunk_into_first=yes",
	"If it slips in top gear the plates are gone, they say. => -",
	"My mate's bike slips in top gear. => -",
	"My mate's bike slips in top gear but mine doesn't. => -",
	"My old bike used to grab, mine creeps when hot. => creeps_hot=yes",
	"I'm going to replace the friction plates. => -",
	"Thinking of fitting heavy duty springs. => -",
	"I will change the oil next week. => -",
	"It was fine before I changed the oil. => changed=oil",
	"Anything to look at before I change the oil? => -",
	"It used to slip uphill. => -",
	"A friend's bike stood for two years. He asked me to look. It slips uphill. => stood_for=6.3115e+07 slips_loaded=yes",
	"My mate asked me to look at his. His slips uphill, mine doesn't. => -",
	"> it slips in top gear\nMine grabs when I let the clutch out. => grabs=yes",
	"[quote]it slips uphill[/quote] Mine creeps when cold. => creeps_cold=yes",
	"[QUOTE=Al]it slips [quote]uphill[/quote] it grabs[/QUOTE] Mine creeps when cold. => creeps_cold=yes",
	// History and figures.
	"I had the clutch apart 200 miles ago. => clutch_opened=yes distance_since_open=3.2187e+05",
	"I have never had the clutch apart. => clutch_opened=no",
	"Changed the oil two hundred miles ago. => changed=oil oil_distance=3.2187e+05",
	"It stood in a shed for a couple of years. => stood_for=6.3115e+07",
	"The bike has 38k miles. => mileage=6.1155e+07",
	"The bike has a few thousand miles. => -",
	"The friction plates measure 2.8 to 2.9 mm. => friction_thickness=[0.0028_0.0029]",
	"Free play is 2-3mm. => -",
	"Free play was 20 mm. I set the free play to 4 mm. => lever_free_play=[0.004]",
	"Cable free play is 3 mm. => machine.actuation=cable lever_free_play=[0.003]",
	"Replaced the friction plates, kept the old steels. => changed=frictions clutch_opened=yes",
	"Oil level correct, oil not milky. => oil_level_high_found=no oil_level_low_found=no oil_milky=no",
	"Torqued the hub nut to 90 Nm, used a new nut. => changed=hub_nut nut_torqued=yes hub_nut_torque=[90] new_nut=yes",
	// Slips of the pen, and American words.
	"the cluthc slps in top geer => -",
	"my clucth sliping in top gear => slips_top_gear=yes",
	"The throwout bearing is shot and the transmission is hard to shift. => shifts_hard=yes release_bearing_rough_found=yes",
	// Said one way or the other, and both.
	"It slips in top gear. Mind you it doesn't slip in top gear. => -",
	"It slips in top gear. UPDATE: new plates, no longer slips. => changed=frictions clutch_opened=yes slips_top_gear=no",
	// A clause that only repeats the verb overrules what stands before it.
	"I thought it slipped uphill, but it doesn't. => slips_loaded=no",
	"I'd expect it to slip uphill, and it does. => slips_loaded=yes",
	"It slips uphill, doesn't it? => slips_loaded=yes",
	"It juddered when I pulled away. It no longer does. => judders_moving_off=no",
	"My mate's bike slips uphill, mine doesn't. => -",
	// What is over, and what is not.
	"Slips uphill. Whines. New springs went in and that cured it. => changed=springs clutch_opened=yes",
	"It whined until I set the play. => -",
	"The rattle has gone worse. It slips uphill. => slips_loaded=yes",
	"The oil was milky, it's clear now. => -",
	// Neither yes nor no, guesses, and a word taken back.
	"It hardly slips uphill. => -",
	"It doesn't slip uphill until it is late. => -",
	"My mate reckons the release bearing is shot. => -",
	"It whines, or rather it slips uphill. => slips_loaded=yes",
	"It won't fully disengage. => -",
	"Whether the engine is hot or cold it slips uphill. => slips_loaded=yes",
	"I don't know whether it slips uphill. => -",
	// Figures in lists and as others write them.
	"Springs measure 41.2, 41.0 and 40.9 mm. => spring_free_length=[0.0412_0.041_0.0409]",
	"Half an inch of free play. => lever_free_play=[0.0127]",
	"The clock says 54.000 km. => mileage=5.4e+07",
	"It idles at 1,100. => idle_speed=[115.19]",
	"27,000 on the clock (miles). => mileage=4.3452e+07",
}
