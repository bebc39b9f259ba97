package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/register"
)

func (a *app) wall() *cobra.Command {
	var down []int64
	var begin bool
	c := &cobra.Command{
		Use:     "wall [SHOP]",
		Short:   "List the cards that hang in the kitchen, and which must come down",
		Long:    "Lists every copy of a card that hangs in the kitchen, and prints a withdraw\nsheet of those that are out of date: their version or check word is not the current\none. Copies get into the print book with chablon card --hang. The print book also\nknows which SSCCs are on cartons, so that carton and day give none to a second one;\n--begin begins it.",
		Example: "  chablon wall my-shop\n  chablon wall my-shop --down 3,7\n  chablon wall shop-last-week --begin",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			if err := a.report(p, p.Found); err != nil {
				return err
			}
			if begin {
				return a.begin(p)
			}
			got, err := p.Posted(context.Background(), down)
			if err != nil {
				return asked(err)
			}
			a.list(got)
			if len(got.Stale) == 0 {
				return nil
			}
			b, err := p.Withdraw(got)
			if err != nil {
				return asked(err)
			}
			return a.write(p, b, p.KindOf("withdraw").Next)
		},
	}
	c.Flags().Int64SliceVar(&down, "down", nil, "numbers of copies that were taken down, such as 3,7")
	c.Flags().BoolVar(&begin, "begin", false, "begin an empty print book in the shop's folder, where there never was one")
	return a.fromShop(a.writes(c))
}

// begin begins a register, and says what it cannot know.
func (a *app) begin(p *print.Press) error {
	err := p.Begin(context.Background())
	if register.RuleOf(err) == register.There {
		return usage.Errorf("it is in use as it is; nothing was changed", "this shop has a print book already")
	}
	if err != nil {
		return asked(err)
	}
	fmt.Fprintf(a.Out, "a print book was begun in %s\nNext: begin the SSCCs of new cartons above all that are on cartons already; it knows none of them.\n", p.Title())
	return nil
}

// list says what hangs where, one line each.
func (a *app) list(p print.Posted) {
	stale := map[int64]register.Stale{}
	for _, s := range p.Stale {
		stale[s.Copy.Number] = s
	}
	for _, c := range p.Copies {
		line := fmt.Sprintf("%3d  %s: %s %s, %s, copy %d of %d, %s", c.Number, c.Place, c.ID, c.Version, c.CheckWord, c.N, c.Of, looks(c))
		if s, ok := stale[c.Number]; ok && s.Gone {
			line += "  OUT OF DATE: there is no such card any more"
		} else if ok {
			line += fmt.Sprintf("  OUT OF DATE: now %s, %s", s.Now.Version, s.Now.CheckWord)
		}
		fmt.Fprintln(a.Out, line)
	}
	fmt.Fprintf(a.Out, "%s on the wall, %d out of date\n", counted(len(p.Copies), "copy", "copies"), len(p.Stale))
}

// looks tells copies of one card apart: the size of its batch, the paper, and
// the languages that it speaks.
func looks(c register.Copy) string {
	size := c.Size
	if size == "" {
		size = "as written"
	}
	return size + " on " + c.Paper + " in " + strings.Join(c.Langs, ", ")
}

// asked turns what the register refuses into a mistake of the command line;
// other faults are the machine's.
func asked(err error) error {
	var e *register.Error
	if !errors.As(err, &e) {
		return err
	}
	switch e.Rule {
	case register.Input, register.NotPosted, register.NotBegun, register.UsedUp, register.NotTaken, register.Before, register.Passed, register.Ended, register.Withdrawn:
		return &usage.Error{Msg: e.Error(), Hint: e.Hint()}
	}
	return err
}
