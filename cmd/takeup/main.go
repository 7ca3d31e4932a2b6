// Command takeup reasons about faults of a wet multi-plate motorcycle clutch.
package main

import (
	"os"

	"example.org/takeup/cmd/internal/cli"
)

func main() { os.Exit(cli.Main()) }
