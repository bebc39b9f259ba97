package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/read"
)

// keys says what may be written in the shop's files, from the table that they
// are read by.
func (a *app) keys() *cobra.Command {
	kinds, names := print.FileKinds(), []string{}
	for _, k := range kinds {
		names = append(names, k.ID)
	}
	return &cobra.Command{
		Use: "keys [KIND]", Short: "Say what may be written in the shop's files",
		Long: "Lists every key of one kind of file, with what is written there; a star marks those\n" +
			"that must stand there. Without a kind it lists the kinds. The same words show in an\n" +
			"editor that knows the schemas (chablon schema).",
		Example:   "  chablon keys ingredient",
		Args:      atMost(1),
		ValidArgs: names,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				for _, k := range kinds {
					fmt.Fprintf(a.Out, "%-12s %s\n", k.ID, k.Title)
				}
				return nil
			}
			for _, k := range kinds {
				if k.ID == args[0] {
					fmt.Fprintf(a.Out, "%s; * must be written\n\n", k.Title)
					showKeys(a.Out, k.Keys())
					return nil
				}
			}
			return usage.Unknown("kind of file", args[0], names)
		},
	}
}

// Width of the column of keys, and of a line.
const (
	keyColumn = 30
	lineWidth = 100
)

func showKeys(w io.Writer, keys []read.Key) {
	for _, k := range keys {
		name := strings.Repeat("  ", k.Depth) + k.Name
		if k.Must {
			name += "*"
		}
		said := k.Help
		if k.Form != "" {
			said += " (" + k.Form + ")"
		}
		if k.Of != "" {
			said += " Keys as under " + k.Of + "."
		}
		for i, line := range wrapped(said, lineWidth-keyColumn) {
			if i > 0 {
				name = ""
			}
			fmt.Fprintf(w, "%-*s%s\n", keyColumn, name, line)
		}
	}
}

// wrapped cuts a text into lines of at most n letters, at its spaces.
func wrapped(s string, n int) (lines []string) {
	line := ""
	for _, word := range strings.Fields(s) {
		switch {
		case line == "":
			line = word
		case len([]rune(line))+1+len([]rune(word)) <= n:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}
