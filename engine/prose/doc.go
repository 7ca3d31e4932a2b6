// Package prose finds facts, signs and readings in plain English text, such as a
// post in a forum or a customer's note, and writes them down as a draft case.
//
// What it looks for is data: the folder phrases/ of a knowledge folder says how
// people word a sign, a fact or a measurement. The package itself knows English
// only: who denies, doubts, asks, plans or speaks of another machine, and how far
// such a word reaches. It never guesses in silence: every entry carries the words
// it was taken from, what was left out carries the reason, and the rest of the
// text is listed as not understood.
//
// Text comes from strangers. It is cleaned before anything else is done with it,
// quotes of other people are cut out, and nothing of it is ever taken as markup.
package prose
