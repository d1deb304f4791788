// Command plait turns a folder of lessons in colour and cut into a course that can be
// trusted: checked, recomputed and readable without a network.
package main

import (
	"os"

	"plait/internal/cli"
)

func main() { os.Exit(cli.Main()) }
