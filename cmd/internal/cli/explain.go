package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/usage"
	"chablon/labels/rulebook"
)

// explain says what the book of rules says of one rule.
func (a *app) explain() *cobra.Command {
	c := &cobra.Command{
		Use: "explain RULE", Short: "Say why a finding is one, what mends it, and where that stands",
		Long:    "Every finding ends with the name of its rule in square brackets. Without a name it\nlists all rules.",
		Example: "  chablon explain trade-word",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				for _, rule := range rulebook.Rules() {
					page, _ := rulebook.Get(rule)
					fmt.Fprintf(a.Out, "%-18s %s\n", rule, page.What)
				}
				return nil
			}
			rule := strings.Trim(args[0], "[]")
			page, ok := rulebook.Get(rule)
			if !ok {
				return usage.Unknown("rule", rule, rulebook.Rules())
			}
			fmt.Fprintln(a.Out, strings.Join(wrapped(page.What, lineWidth), "\n"))
			for _, said := range [][2]string{{"why", page.Why}, {"what to do", page.Do}, {"where it stands", page.Law}} {
				a.said(said[0], said[1])
			}
			return nil
		},
	}
	c.ValidArgsFunction = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return rulebook.Rules(), cobra.ShellCompDirectiveNoFileComp // read where it is asked for, not at every start
	}
	return c
}

// said writes a heading with its text beside it.
func (a *app) said(head, text string) {
	for _, line := range wrapped(text, lineWidth-18) {
		fmt.Fprintf(a.Out, "  %-16s%s\n", head, line)
		head = ""
	}
}
