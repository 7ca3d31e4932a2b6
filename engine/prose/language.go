package prose

import "sync"

// language is what this package knows of English.
type language struct {
	fillers     map[string]bool // words that a text may put anywhere without changing what a phrase says
	dropped     map[string]bool // the shortest of them, which a phrase itself need not have
	articles    map[string]bool // all that even a phrase of two little words does without
	contrasts   map[string]bool // set what follows against what went before
	joints      map[string]bool // join without setting anything against anything
	subjects    map[string]bool // begin a clause of their own
	keeping     map[string]bool // say that something stayed as it was
	openers     map[string]bool // begin a question
	answerNo    map[string]bool
	answerYes   map[string]bool
	updates     map[string]bool // head a later part of a post
	originals   map[string]bool // head an earlier part
	smallTalk   map[string]bool // greetings and thanks
	abbreviated map[string]bool // end with a point and no sentence
	shortened   map[string]bool // keep the "s" that follows their apostrophe

	nounless      map[string]bool   // deny the noun right after them and no more
	verbs         map[string]bool   // stand for the verb of the clause before
	echoes        map[string]bool   // may stand beside such a verb
	laymen        map[string]bool   // have opinions
	guesses       map[string]bool   // say that it is one
	didWork       map[string]bool   // work in the past, but for the regular verbs
	unlesses      map[string]bool   // begin a circumstance that says by itself how it is meant
	justs         map[string]bool   // with a "not" before them deny nothing
	woulds        map[string]bool   // leave open whether it happens
	opines        map[string]bool   // denied, deny the "that" clause behind them too
	limits        map[string]bool   // leave something of a denial before them
	roads         map[string]string // words that show what distances are counted in
	wholly        map[string]bool   // leave something of what is denied
	short         map[string]string // verbs before "not", and both in one
	nots          map[string]bool   // hold a "not" and say nothing more
	wonders       map[string]bool   // make a question of "whether"
	closed        map[string]bool   // may follow what is over; "when" and its like say that it is not always
	over          map[string]bool   // said behind a complaint: there is none any more
	openings      map[string]bool   // show that a sentence goes on where the one before ended
	fragmentWords map[string]bool   // belong to such a sentence without being its subject
	bystanders    map[string]bool   // may stand beside "fine" without being its subject

	idioms    map[string][]idiom // by their first word, the longest first
	irregular map[string]string  // forms that the stemmer leaves apart
	about     map[string]bool    // mark a number as not exact
	vague     map[string]bool    // stand for a number that nobody gave
	numbers   map[string]float64 // written out
	unitWords map[string]string  // units in the words of prose; "" for words that are none here
}

// lang is built on first use: most runs of the program read no prose.
var lang = sync.OnceValue(func() *language {
	return &language{
		abbreviated: set(`approx cust no nr vs eg ie e g i etc ca mr mrs dr incl excl max min temp temps est ref rh lh`),
		about:       set(`about around roughly approx approximately circa say nearly almost over under maybe probably perhaps ish some`),
		answerNo:    set(`no none nope never nil zero negative nah`),
		answerYes:   set(`yes yep yeah yup definitely affirmative always`),
		articles:    set(`a an the`),
		bystanders:  set(`everything problem issue engine fine then first hot cold bad road day good when once after while if until till nice ride`),
		contrasts:   set(`but although though tho however whereas except unless otherwise yet`),
		dropped: set(`a an the my this that these those it its is are was were be been am im ive i he she her you your we our us they them their there
	have has had having do does did to of at for into onto from by with when while as and so just really very quite bit also both if`),
		fillers: set(`if whether badly immediately nicely heavily severely really horribly terribly seriously deeply visibly clearly shows show showing shown looks look looking a an the my this that these those it its is are was were be been being am im ive i me he she her you your we our us they them their there theres
	have has had having do does did doing done got get gets getting gotten just really very so quite bit pretty rather fairly too also even still now again then
	of to at for into onto from by with when while as and or some any all well like kind sort lot lots bits much more most
	thing one ones itself completely totally absolutely literally basically actually definitely certainly honestly obviously properly slightly somewhat little
	which who whose what where will would can could should may might must shall ill id youd
	super mega dead proper bloody damn fucking effing freaking bleeding flipping ridiculously extremely incredibly noticeably clearly usually normally generally often sometimes always constantly mostly mainly especially particularly recently lately today yesterday
	starting started start starts seems seem seemed feel feels felt become becomes becoming became gone going goes go went keeps keep kept turns wants tends tend bit
	about around roughly approx approximately ok so-called myself yet already ever both either each every own same such than though tho well near nearly almost
	in on up down out off over here oh yeah yes mind sure think maybe perhaps probably possibly reckon guess`),
		fragmentWords: set(`only mostly mainly especially particularly even never not except unless apart just usually always worse worst bad nothing no any`),
		idioms: compileIdioms(map[role]string{
			denies: `no|not|never|nobody|no one|noone|dont|doesnt|didnt|isnt|arent|wasnt|werent|wont|wouldnt|cant|cannot|couldnt|havent|hasnt|hadnt|aint|dosent|doesent|
		without|none|nor|neither|zero|no longer|no more|not any|not a|nothing|stopped|stops|cured|cures|got rid of|sorted|hasnt got|rather than|instead of|free of|not really any|does not|do not|did not|
		not so much|isnt as if|is not as if|not as if|isnt as though|is not as though|not as though|isnt that|is not that|not that|not because|no sign of|no hint of|no trace of|not a trace of|not a hint of|not a sign of|far from|anything but|not once|not a single|ruled out|can rule out|rule out|yet to|refuses to|refuse to|refused to|fails to|failed to|rules out|no way does|no way is|no way will|no way can|no reason to think|no reason to believe|no reason to suspect|no evidence that|no indication|no evidence|dosnt|dosen|dnt|didn|isn|wasn|hasn|couldn|wouldn`,
			doubts: `not always|hasnt always|havent always|didnt always|doesnt always|does not always|isnt always|dont always|wont always|not every time|not necessarily|doesnt necessarily|not invariably|think|maybe|perhaps|probably|possibly|might|may|seems|seem|seemed|reckon|guess|suppose|suspect|apparently|presumably|could be|
		not sure|not certain|not entirely sure|not totally sure|not too sure|not 100 sure|not # sure|not # certain|unsure|appears|appear|likely|i believe|feel like|not convinced|pretty sure|fairly sure|
		my mate says|my mate reckons|my mate thinks|my dad says|my dad reckons|my dad thinks|my friend says|my friend thinks|my brother says|my brother reckons|a mate reckons|a friend says|mechanic says|mechanic said|mechanic reckons|dealer says|dealer said|shop says|shop said|garage says|garage said|told me|hard to tell|hard to say|cant be sure|not positive|if im honest|imagine`,
			denyDoubts: `dont think|do not think|doubt|dont believe|doesnt seem|dont seem|does not seem|didnt seem|doesnt appear|probably not|probably isnt|probably doesnt|not really|dont reckon|unlikely|didnt think|dont feel|cant really`,
			wasOnce:    `used to`,
			plans: `going to|gonna|planning|plan|plan to|thinking of|thinking about|want to|should i|before i|ordered|order|ordering|considering|about to|
		hoping to|shall i|instead of buying|tempted|looking to|on order|in the post|on the way|on its way|on their way|will be|havent yet|buy|buying|waiting for|recommend|recommended|price|suggest|suggested|suggests|next job|next step|intend`,
			would: `will|ill|would|should|shall|could|need|needs|need to|needs to|needed`,
			others: `my mate|my mates|mate of mine|a mate|my friend|my friends|a friend|my brother|my brothers|my buddy|my buddys|buddy of mine|my other|my old one|the other one|my dad|my son|my wife|my neighbour|my neighbor|
		his|yours|someone elses|other people|some people|people say|people said|i read|ive read|i have read|they say|a guy|some guys|everyone says|forum says|internet says|youtube|others say|lots of people|a lot of people|heard of|heard that|the last one i had|my cousin|colleague|workmate`,
			mine: `mine|my own`,
			asks: `could it be|could this be|could that be|can it be|could the|is it the|is it a|is it my|is it worth|is this the|should i|do i need|do i have|does anyone|does anybody|has anyone|has anybody|anyone had|anyone else|anybody else|anyone got|do you|does yours|did you|have you|what if|would it|would a|would the|will a|might it be|are the|are they|is there a|is there any|
		is that the|can a|can the|wondering if|wonder if|wondering whether|wonder whether|or is it|or could it|shall i|am i right|is it possible|would you|can i|could i|where do|which one|any chance|wanted to ask if|want to know if|like to know if|how do i check|how do i tell`,
			supposes: `if|whether|in case|assuming|unless|i thought|i had thought|i assumed|i feared|id expect|i would expect|i would have expected|id have expected|i expected|i was expecting|i half expected|youd think|you would think|youd expect|you would expect|i suspected|i imagined|i was told to expect|supposing|were it|
		dont want it to|do not want it to|dont want to|afraid it|afraid that|worried it|worried that|worry that|fear it|fear that|hope it|hoping it|hope that|hopefully|scared it|scared that|risk of|to avoid|to prevent|so it doesnt|so that it doesnt|lest|
		said it might|says it might|said it could|says it could|said it may|says it may`,
			weakens: `hardly|barely|scarcely|rarely|seldom|hardly any|barely any|hardly ever`,
			fixes: `that fixed it|that cured it|that sorted it|that did it|that did the trick|which fixed it|which cured it|which sorted it|which did the trick|fixed it|cured it|sorted it|
		problem solved|problem is solved|problem fixed|problem is fixed|problem cured|problem gone|problem is gone|problem has gone|problem went away|issue solved|issue resolved|issue fixed|trouble is over|
		all good now|all is good now|all is well now|all well now|all fine now|everything is fine now|everything fine now|everything is good now|everything works now|works perfectly now|perfect now|good as new|all sorted|completely cured|as good as new|all is well again|all is fine now`,
			tangles: `check that|i hope|we hope|hopefully|worried the|afraid the|i wish|wish it|if only|supposed to|meant to|shouldnt|should not|ought not|oughtnt|make sure|making sure|be sure|ensure|isnt a day|not a day|not a ride|isnt a ride|no ride goes|not a week|isnt a time|nothing i do|nothing i try|no secret|
		cant be normal|cannot be normal|cant be right|cannot be right|isnt normal|not normal|cant be good|never not|im told|i was told|i am told`,
			corrects: `or rather|i mean|scratch that|no wait|correction|i tell a lie`,
			mends:    `its clear now|its clean now|its fine now|its ok now|it is fine now|it is clear now|is clear now|is clean now|is fine now|is ok now|is good now|clear now|clean now|fine now|ok now|good now|now its fine|now it is fine|now its clear|now its ok|now fine|since replaced|since fixed|since cured`,
			adopts:   `asked me to look|asked me to have a look|asked me to take a look|asked me to fix|asked me to sort|asked me to help|asked me for help|im helping|trying to help|helping a friend|helping a mate|helping my|posting for|posting this for|asking for a friend|asking for a mate|asking for my|writing for|on behalf of|brought it to me|brought it round`,
			presumes: `why|how come|what makes|what would make|what could make|what causes|what would cause|what could cause|what can cause|whats causing|what is causing|what could be causing|is it normal|is this normal|is that normal|how do i stop|how can i stop|how to stop|how do i cure|how to cure|how do i fix|how to fix|what could be making|is normal`,
			says: `without warning|without fail|without exception|without question|without doubt|without a doubt|without reason|without any reason|without cause|cant cure|cannot cure|couldnt cure|cant shake|dont like the way|dont like that|dont like how|dont like it when|do not like|dont see why|dont see how|cant see why|cant see how|never fails to|never fail to|doesnt matter|does not matter|doesnt fail to|no denying|no escaping|no mistaking|no hiding|no getting away from|no shortage of|no lack of|cant deny|cannot deny|wont stop|will not stop|cant stop|doesnt just|doesnt only|does not just|does not only|isnt just|isnt only|is not just|is not only|not merely|dont just|arent just|wasnt just|by a mate|by a friend|by my mate|by my friend|by my brother|by my dad|by a guy|by my neighbour|with a mate|mates garage|mates shed|not only|not just|no doubt|no idea|no ideas|no question|no wonder|not to mention|dont know|do not know|dont understand|dont get|cant work out|cant figure|cannot figure|cant understand|no matter|why not|if not|not happy|
		no luck|no joy|no clue|not a mechanic|no mechanic|no expert|not an expert|cant afford|dont want|no need|not good|not great|not right|not nice|not bad|no rush|no idea why|never mind|not had it long|not long|not much|cant help|dont mind|not new to|no way|dont worry|stopped at|stops at|stopped in|stops in|stopped by|not as|nothing else|not been able|if i|if im|if you|even if|as if|as though|not know|havent got a clue|havent a clue|never again|isnt right|not ideal|not the best|whenever|no end|not sure why|not sure what|not sure how|dont really know|doesnt help|didnt help|not helped|made no difference|makes no difference|no difference|no change|no better|no fun|not to be|not ridden|not too long`,
			ends: `has gone|is gone|have gone|all gone|went away|has disappeared|have disappeared|disappeared completely|vanished|is cured|was cured|is fixed|is history|left alone|were left alone|was left alone|were left|untouched|not touched|reused|re used|has stopped|have stopped|is sorted|gone now|has now gone|no more|
		havent got that|havent got it|havent got any|dont get that|dont have that|dont get it|dont have it|not had that|havent had that|isnt an issue|is not an issue|isnt a problem|is not a problem|i can rule out|can be ruled out|not present|is not something|isnt something|not something|nowhere to be seen|that isnt there|that is not there`,
		}),
		irregular: map[string]string{
			"worn": "wear", "wore": "wear", "broken": "break", "broke": "break", "stuck": "stick", "bent": "bend", "went": "go", "burnt": "burn", "burned": "burn",
			"smelt": "smell", "smelled": "smell", "gone": "gone", "gears": "gears", "topped": "topup", "dropped": "dropped", "topping": "topup", "covered": "covered", "bubbled": "bubbled", "bubbling": "bubbled", "warped": "warped", "adjuster": "adjuster", "adjusters": "adjuster", "stank": "stank", "stunk": "stank", "swapped": "swap", "goes": "go", "ground": "grind", "hung": "hang", "held": "hold", "torn": "tear", "spun": "spin", "shook": "shake", "shaken": "shake",
			"bled": "bleed", "lost": "lose", "losing": "lose", "left": "left", "leaky": "leak", "grabby": "grab", "snatchy": "snatch", "jerky": "jerk", "juddery": "judder", "notchy": "notchi", "notched": "notch",
			"crunchy": "crunch", "clunky": "clunk", "rattly": "rattl", "slippy": "slip", "slipy": "slip", "slippage": "slip", "whiny": "whine", "squeaky": "squeak", "felt": "feel", "let": "let", "found": "find", "fit": "fit", "fitted": "fit", "fitting": "fit",
			"rang": "ring", "rung": "ring", "swollen": "swell", "cooked": "cook", "frozen": "freez", "came": "come", "took": "take", "taken": "take", "sat": "sit", "sitting": "sit", "stood": "stand", "rode": "ride", "ridden": "ride", "riding": "ride", "bought": "buy",
			"thumpy": "thump", "shudders": "shudder", "stalled": "stall", "heavier": "heavi", "heavy": "heavi", "stiffer": "stiff", "lighter": "light", "easier": "easi", "easily": "easi", "harder": "hard", "hotter": "hot", "colder": "cold", "louder": "loud", "loudly": "loud", "softer": "soft", "bigger": "big", "higher": "high", "lower": "low", "warmer": "warm", "worse": "wors", "badly": "bad", "smoothly": "smooth", "slowly": "slow", "slower": "slow", "instantly": "instant", "suddenly": "sudden", "gradually": "gradual", "looser": "loos", "tighter": "tight", "thicker": "thick", "thinner": "thin", "fuller": "full",
			"filtering": "filtering", "gearing": "gearing", "didn": "didnt", "lights": "lights", "hardly": "hardly", "barely": "barely", "doesn": "doesnt"},
		joints:  set(`and because so then plus since after before until till once whenever which or nor when while as`),
		keeping: set(`kept keeping keep reused reusing retained retaining`),
		numbers: map[string]float64{
			"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
			"eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
			"couple": 2, "dozen": 12, "half": 0.5},
		openers:  set(`is are was were does do did can could should would will has have any anyone anybody anything what where which who wheres whats am might shall or`),
		openings: set(`only mostly mainly especially particularly even never not except worse worst usually always also sometimes`),
		nounless: set(`no without zero none`),
		verbs:    set(`does do did is was has had are were doesnt dont didnt isnt wasnt hasnt hadnt arent werent aint`),
		echoes:   set(`now any more longer anymore at all still always since again just simply either actually that this these those she so just too certainly sure definitely`),
		laymen: set(`neighbour neighbor mate friend buddy pal brother sister cousin uncle dad father mum son daughter wife husband colleague bloke guy lad lads someone somebody people everyone everybody everybodys
	forum internet youtube instructor salesman others chap fella missus workmate partner`),
		guesses:   set(`reckon reckons reckoned say says said think thinks thought claim claims claimed suspect suspects suspected insist insists swear swears suggest suggests suggested blame blames blamed believe believes guess guesses bets tells told convinced wonders wondered certain`),
		didWork:   set(`did had took put got set bought made undid`),
		unlesses:  set(`unless until`),
		justs:     set(`not is does do are was doesnt isnt dont arent wasnt`),
		woulds:    set(`would will might could may shall wouldnt wont`),
		opines:    set(`say saying says claim think believe mean case true found find noticed notice seen see hear heard`),
		limits:    pairs(`until|till|before|as badly|as bad|as much|as often|so much|so badly|so bad|so often|quite as|anything like|like it|every time|always|all the time|often|when new|when i bought|when i got|when i first|when i had|when we bought|when we got|when it was|with the old|with the previous|with the original|with the other|at first|originally|previously|then|back then`),
		roads:     map[string]string{"miles": "mi", "mileage": "", "kms": "km", "km": "km", "kilometres": "km", "kilometers": "km"},
		wholly:    set(`fully completely entirely properly cleanly totally wholly quite always so as`),
		short:     map[string]string{"does": "doesnt", "do": "dont", "did": "didnt", "is": "isnt", "was": "wasnt", "are": "arent", "were": "werent", "has": "hasnt", "have": "havent", "had": "hadnt", "will": "wont", "can": "cant", "could": "couldnt", "would": "wouldnt"},
		nots:      set(`isnt arent wasnt werent doesnt dont didnt hasnt havent`),
		wonders:   set(`know sure wonder wondering ask asking asked tell see check checked unsure question decide find out say`),
		closed:    set(`i ive and so because since after now again completely altogether entirely too then today yesterday by thanks for`),
		over:      set(`gone cured sorted fixed solved resolved absent`),
		originals: set(`original originally`),
		shortened: set(`its thats whats wheres theres hes shes lets heres hows whos`),
		smallTalk: set(`hi hello hey guys all folks everyone chaps lads thanks thank thx cheers ta regards best help please advance appreciated ideas idea advice evening morning afternoon first post gentle sorry english long cheap new here
	any suggestions suggestion welcome greetings ttfn mate mates dave ted anyway update edit solved lol haha happy days sunday monday tuesday wednesday thursday friday saturday`),
		subjects: set(`i it he she they we you its theres im ive`),
		unitWords: map[string]string{
			"thou": "thou", "mil": "mm", "mils": "mm", "mill": "mm", "milometers": "mi", "clicks": "km", "klicks": "km", "kliks": "km",
			"yr": "years", "yrs": "years", "mth": "months", "mths": "months", "wk": "weeks", "wks": "weeks", "c": "°C", "f": "°F",
			"yard": "", "yards": "", "foot": "ft", "ft": "ft", "in": "", "m": "", "h": "", "s": "", "l": "", "n": "N", "nm": "N·m", "k": "", "g": "", "d": "",
			"kg": "kg", "lb": "lb", "lbs": "lb", "winters": "years", "turn": "turns"},
		updates: set(`update updates edit updated edited solved followup sorted`),
		vague:   set(`few several some many handful`),
	}
})
