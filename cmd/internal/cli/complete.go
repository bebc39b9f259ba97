package cli

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
)

// choices lists, for flags of a command that name something known, what they
// may name. The word before is the product, where there is one.
func choices(command, flag string) func(p *print.Press, args []string) []string {
	fixed := func(all []string) func(*print.Press, []string) []string {
		return func(*print.Press, []string) []string { return all }
	}
	switch flag {
	case "paper":
		return fixed(slices.DeleteFunc(print.StockIDs(), func(id string) bool { return strings.HasPrefix(id, "card-") != (command == "card") }))
	case "market":
		return fixed(print.MarketCodes())
	case "languages":
		return fixed(print.LanguageCodes())
	case "pack":
		return func(p *print.Press, args []string) []string {
			if len(args) == 0 {
				return nil
			}
			return p.PackIDs(args[0])
		}
	}
	return nil
}

// completeFlags lets the shell complete the flags of c.
func (a *app) completeFlags(c *cobra.Command) {
	for _, name := range flagNames(c) {
		of := choices(c.Name(), name)
		if of == nil {
			continue
		}
		_ = c.RegisterFlagCompletionFunc(name, func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			p, err := a.open(a.shop)
			if err != nil {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return of(p, args), cobra.ShellCompDirectiveNoFileComp
		})
	}
}
