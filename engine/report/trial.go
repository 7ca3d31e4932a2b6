package report

import (
	"fmt"
	"slices"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/trial"
)

// hands words who worked in a trial.
var hands = map[string]string{
	trial.Planner:         "this planner",
	trial.OutsideIn:       "from the outside in",
	trial.MostLikely:      "likeliest part first",
	trial.MostInformative: "most telling test first",
	trial.Told:            "had they been told",
}

// Trial is the page of a trial: what each hand needed on the same machines.
func Trial(scores []trial.Score, seed uint64) document.Document {
	if len(scores) == 0 {
		return document.New("Nothing was tried")
	}
	page := document.New(fmt.Sprintf("Trial on %s", counted(scores[0].Machines, "drawn machine", "drawn machines")))
	page.Blocks = append(page.Blocks, saved(scores), minutesTable(scores), waste(scores),
		document.Paragraph(plain("When something is found, the planner also looks at what often comes with it before the machine is closed. The habits put right what they found and try the machine.")),
		document.Note(document.Doubt, document.Plainf("The machines are drawn from the same knowledge that judges them (seed %d). "+
			"The trial says what the order of work is worth if that knowledge is right, not whether it is.", seed)))
	return page
}

// saved is the planner's saving in words, with the error of the comparison.
func saved(scores []trial.Score) document.Block {
	planner := scores[0]
	var parts []string
	for _, s := range scores[1:] {
		if s.Hand != trial.Told && s.MeanMinutes > 0 {
			parts = append(parts, fmt.Sprintf("%s less than %s", Percent(max(0, 1-planner.MeanMinutes/s.MeanMinutes)), hands[s.Hand]))
		}
	}
	text := fmt.Sprintf("The planner needs %s on average (give or take %s)", whole(planner.MeanMinutes), whole(planner.StandardError))
	if len(parts) > 0 {
		text += ": " + Join(parts)
	}
	return document.Paragraph(plain(text + "."))
}

// minutesTable is the table of minutes.
func minutesTable(scores []trial.Score) document.Block {
	var rows [][]string
	for _, s := range scores {
		rows = append(rows, []string{hands[s.Hand], minutesOf(s.MeanMinutes), minutesOf(s.Median), minutesOf(s.Ninetieth), minutesOf(s.Worst)})
	}
	right := document.Right
	return document.Table([]string{"minutes", "mean", "median", "9 of 10 below", "worst"},
		[]document.Align{document.Left, right, right, right, right}, rows...)
}

func minutesOf(x float64) string { return fmt.Sprintf("%.0f", x) }

// waste is the table of what was done for nothing, per hundred machines.
func waste(scores []trial.Score) document.Block {
	var rows [][]string
	for _, s := range slices.DeleteFunc(slices.Clone(scores), func(s trial.Score) bool { return s.Hand == trial.Told }) {
		rows = append(rows, []string{hands[s.Hand], minutesOf(100 * s.NeedlessOpenings), minutesOf(100 * s.WrongParts), minutesOf(100 * s.GivenUp)})
	}
	right := document.Right
	return document.Table([]string{"per 100 machines", "opened for nothing", "sound parts renewed", "given up"},
		[]document.Align{document.Left, right, right, right}, rows...)
}
