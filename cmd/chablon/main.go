// Command chablon prints the paper of a pastry kitchen; see cmd/internal/cli.
package main

import (
	"os"

	"chablon/cmd/internal/cli"
)

func main() {
	os.Exit(cli.Main(cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv}, os.Args[1:]))
}
