// Package freeze writes plain values as bytes and reads them back fast.
//
//	data, err := freeze.Write(&pack)
//	err = freeze.Read(string(data), &pack)
//
// It is for data that is made once and read by every process, such as the
// built-in pack, and is no format to exchange: only the same types can read it,
// and Read refuses data of others. Strings that are read are parts of the data
// and cost no memory of their own.
//
// It takes structs (their exported fields), slices, pointers, strings, booleans,
// integers and float64; pointers must not lead back to where they came from. A
// slice without entries is read as nil.
package freeze
