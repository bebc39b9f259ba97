package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/job"
)

func (a *app) diff() *cobra.Command {
	return &cobra.Command{
		Use:   "diff OLD NEW",
		Short: "Say what a change touches: cards, labels, tickets, cartons, approvals",
		Long: `Compares two folders of a shop, such as a copy of last week and the one of
today. It names the files that have changed and what they go into, every
product, card, label, ticket and carton that must be printed anew, how each
declaration changes, allergens first, and which approvals fall. Words that have
changed stand between ‹ and ›. To compare with an earlier revision, have your
version control check that out into a folder of its own. The exit status is 0, changed or not.`,
		Example: "  chablon diff shop-last-week my-shop",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 2 {
				return &lineError{"which two shops?", "write it like:" + firstLine(c.Example)}
			}
			return atMost(2)(c, args)
		},
		RunE: func(_ *cobra.Command, args []string) error {
			old, err := a.open(args[0])
			if err != nil {
				return err
			}
			new, err := a.open(args[1])
			if err != nil {
				return err
			}
			text, err := job.Diff(old, new)
			if err != nil {
				return err
			}
			if err := errors.Join(a.report(old), a.report(new)); err != nil {
				return err
			}
			if text == "" {
				text = "no differences\n"
			}
			fmt.Fprint(a.Out, text)
			return nil
		},
	}
}
