// Package term decides how wide the output is and whether it has colour.
//
// The main type is Facts: what is known about the streams and the environment.
// It is read once, by Read in main; everything else is a pure function of it.
//
//	facts := term.Read(os.Stdin, os.Stdout, os.Stderr, os.Getenv)
//	width := facts.Width(flagWidth)
//	colour, err := facts.Colour(flagColour, facts.Stdout)
//
// Nothing is asked of the terminal itself: one that does not answer would hold
// the program up for seconds.
package term
