// Package rule reads rule files and fires their rules against what is known.
//
// A rule is one statement with an optional condition. Its main types are Set,
// the checked rules of a folder, and Firing, what one rule says about one
// case: yes, no, or cannot tell yet, with the clause that decided.
//
//	set, problems := rule.Load(os.DirFS("rules"), words)
//	for _, f := range set.Fire(known) {
//		if f.Verdict == rule.Unknown { fmt.Println(f.Rule, "waits for", f.Waits) }
//	}
//
// Conditions are three-valued. The and/or/not tree is kept here; the leaves
// are expr expressions, evaluated only when every word in them is known. The
// package gives no probabilities to causes: that is the network's job.
package rule
