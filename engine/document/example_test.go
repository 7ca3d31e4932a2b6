package document_test

import (
	"fmt"

	"example.org/takeup/engine/document"
)

func ExampleInline() {
	name := "steels_*warped*" // from a file: never given to Inline
	line := document.Join(document.Inline("The **first** is "), document.Plain(name))
	for _, span := range line {
		fmt.Printf("%q %q\n", span.Text, span.Style)
	}
	// Output:
	// "The " ""
	// "first" "strong"
	// " is " ""
	// "steels_*warped*" ""
}

func ExampleAligned() {
	sheet := document.Ledger(
		document.NewEntry(document.Plain("before anything was known"), "-13.1 dB"),
		document.NewEntry(document.Plain("it creeps when hot"), "+6.2 dB"),
		document.NewTotal(document.Plain("now"), "-6.9 dB"),
	)
	for _, line := range document.Aligned(sheet, 60) {
		fmt.Println(line)
	}
	// Output:
	// -13.1 dB  before anything was known
	//  +6.2 dB  it creeps when hot
	// ────────
	//  -6.9 dB  now
}
