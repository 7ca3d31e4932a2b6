// Package cli is the command line: it reads flags and files, calls the engine
// and prints what engine/report words and engine/render lays out.
//
//	func main() { os.Exit(cli.Main()) }
//
// The main type is session: the flags every command shares and what is known of
// the terminal. A command is one file with one function that returns its
// cobra.Command. The answer goes to stdout and all talk to stderr. Main returns
// 0 when the work is done, 1 when something was found (problems in rules, failed
// rule tests), 2 for wrong usage or unreadable input and 3 for a fault of the
// program itself.
//
// It reasons about nothing and words no page.
package cli
