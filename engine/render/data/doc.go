// Package data writes results as JSON for other programs.
//
//	err := data.Write(os.Stdout, result)
//
// Keys stand in the order of the struct's fields, a number that is not whole has
// at most six significant digits, and text is written as it is. The same value
// gives the same bytes.
//
// It does not decide what is in the result: that is the struct's business, and
// its schema's.
package data
