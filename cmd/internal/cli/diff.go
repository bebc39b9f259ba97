package cli

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

func (a *app) diff() *cobra.Command {
	return &cobra.Command{
		Use:   "diff OLD NEW",
		Short: "Say what a change touches: cards, labels, tickets, cartons, approvals",
		Long: `Compares two folders of a shop, such as a copy of last week and the one of
today. Every paper of every kind is set in both states and compared, for the same
day: what must be printed anew is named, beside the files that have changed and
what they go into. It tells how each declaration changes, allergens first, and
which approvals fall. Words that have changed stand between ‹ and ›. Where git
keeps the shop, FOLDER@REVISION is the folder as it was in that revision:
chablon diff my-shop@HEAD~1 my-shop. The exit status is 0, changed or not.`,
		Example: "  chablon diff shop-last-week my-shop",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 2 {
				return usage.Errorf("write it like:"+firstLine(c.Example), "which two shops?")
			}
			return atMost(2)(c, args)
		},
		RunE: func(_ *cobra.Command, args []string) error {
			old, err := a.openRevision(args[0])
			if err != nil {
				return err
			}
			new, err := a.openRevision(args[1])
			if err != nil {
				return err
			}
			text, err := print.Diff(old, new)
			if err != nil {
				return err
			}
			if err := errors.Join(a.report(old, old.Found), a.report(new, new.Found)); err != nil {
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

// openRevision reads a shop, or an earlier revision of it.
func (a *app) openRevision(dir string) (*print.Press, error) {
	today, made, err := a.clock()
	if err != nil {
		return nil, err
	}
	return print.OpenRevision(dir, today, made)
}
