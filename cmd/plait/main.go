// Command plait turns a folder of hair-colour lessons into a course that can be
// trusted: checked, recomputed and readable without a network.
package main

import (
	"os"

	"plait/internal/cli"
)

func main() { os.Exit(cli.Main()) }
