// Package interview decides what to ask next about a case, reads what was typed
// in answer, and says what to write into the case file.
//
// The main function is [Next]: from a [Situation] to one [Question], the one
// that tells most about the causes for its minutes. It may ask what the
// complaint is about, for facts of the history, for signs one by one or several
// at once, and for a measured figure. [Read] turns typed text into changes of
// the case file, or says what is wrong with it.
//
//	q, standing, err := interview.Next(interview.Situation{Catalog: cat, Rules: set, Words: words, Derived: table, Case: c})
//	if standing.End == "" {
//		answer, slip := interview.Read(cat, c, q, "2")
//		err = intake.Change(c.File, answer.Edits...)
//	}
//
// What a question tells is the mutual information of its answer and what is
// wrong, in bits (Shannon 1948), where one of the suspected causes, or something
// else, is taken to be wrong. An answer about the history counts as well: it
// makes rules speak that wait for it. How often it is given comes from the
// shares in the knowledge, corrected by how well it goes with the evidence.
//
// The package keeps no state between questions and words nothing: the same
// situation gives the same question.
package interview
