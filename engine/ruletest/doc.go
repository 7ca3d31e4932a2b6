// Package ruletest runs the tests that stand beside the rules and tells what
// they leave untried.
//
//	report, problems := ruletest.Run(os.DirFS("rules"), cat, set)
//	for _, f := range report.Failures { fmt.Println(f.Pos, f.Message) }
//	for _, g := range ruletest.Gaps(cat, set, report) { fmt.Println(g) }
//
// A rule with a condition fires when the condition holds. A link without one
// fires when the evidence of the test makes it more probable that the link
// acted, and is quiet when the evidence makes that less probable.
package ruletest
