package cli

import (
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"chablon/cmd/internal/print"
)

// choices lists what a flag may name. The word before is the product, where
// there is one.
func choices(of, command string, p *print.Press, args []string) []string {
	switch of {
	case "paper":
		return p.PaperIDs(command)
	case "market":
		return print.MarketCodes()
	case "language":
		return print.LanguageCodes()
	case "printer":
		return p.PrinterIDs()
	case "form":
		return print.Forms()
	case "customer":
		return p.CustomerIDs()
	case "pack":
		if len(args) > 0 {
			return p.PackIDs(args[0])
		}
	}
	return nil
}

// completeFlags lets the shell complete the flags of c.
func (a *app) completeFlags(c *cobra.Command) {
	c.Flags().VisitAll(func(f *pflag.Flag) {
		of := f.Annotations[completes]
		if of == nil {
			return
		}
		_ = c.RegisterFlagCompletionFunc(f.Name, func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			p, err := a.open(a.shop)
			if err != nil {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return choices(of[0], c.Name(), p, args), cobra.ShellCompDirectiveNoFileComp
		})
	})
}
