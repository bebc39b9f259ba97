package cli

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/printer"
	"chablon/cmd/internal/usage"
)

// send brings papers that are saved to their printer, and says what became of
// each job.
func (a *app) send(s *print.Sender) error {
	if s == nil {
		return nil
	}
	for _, name := range s.Left {
		fmt.Fprintf(a.Err, "not sent: %s is for another printer\n", name)
	}
	done, err := s.Send(context.Background(), func(why string) { fmt.Fprintf(a.Err, "%s waits: %s\n", a.to, why) })
	bad := err
	for _, o := range done {
		fmt.Fprintf(a.Out, "%s: %s: %s\n", a.to, o.What, cameAs[o.Came])
		if o.Came != printer.Done {
			bad = errors.Join(bad, errNotPrinted)
		}
		if o.Why != "" {
			fmt.Fprintf(a.Err, "%s: %s\n", a.to, o.Why)
		}
	}
	if bad == nil {
		return nil
	}
	if err != nil {
		return asked(err)
	}
	return usage.Errorf("look at the printer; chablon printers asks it once more; what is not there is printed under its own numbers with --again (labels) or chablon again (cartons), and the files are kept",
		"not all of it was printed")
}

// errNotPrinted marks a job that did not end well.
var errNotPrinted = errors.New("a job was not printed")

// cameAs is what became of a job, for a cook.
var cameAs = map[printer.Came]string{
	printer.Done:    "printed",
	printer.Refusal: "nothing was printed",
	printer.Broken:  "stopped: a part of it may be printed",
	printer.Lost:    "not known whether it was printed",
	printer.Unsent:  "kept back, nothing was printed",
}

// printers asks the printers of the shop, and lists those on the net.
func (a *app) printers() *cobra.Command {
	wait := 2 * time.Second
	c := &cobra.Command{
		Use: "printers [SHOP]", Short: "Ask the shop's printers what they are, and find those on the net",
		Long:    "Asks each printer of shop.yaml that has an address what it is and which paper is in\nit, and holds that against shop.yaml. Lists the printers that can be found on the net.\nAsks once more for jobs of which nobody knows whether they were printed.",
		Example: "  chablon printers my-shop",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			ctx := context.Background()
			wrong := a.compared(p.Printers(ctx))
			if wait > 0 {
				a.found(printer.Search(ctx, wait))
			}
			open, err := p.Open(ctx)
			if err != nil {
				return asked(err)
			}
			for _, s := range open {
				fmt.Fprintf(a.Out, "not known whether it was printed: %s, sent to %s on %s\n", s.What, s.Printer, s.At.Format("2006-01-02 15:04"))
			}
			if wrong > 0 {
				return errFindings
			}
			return nil
		},
	}
	c.Flags().DurationVar(&wait, "search", wait, "how long to look for printers on the net; 0s not at all")
	return a.fromShop(c)
}

// compared says what each printer is, and counts what is wrong.
func (a *app) compared(all []print.Compared) (wrong int) {
	for _, c := range all {
		switch {
		case c.Address == "":
			fmt.Fprintf(a.Out, "%s: no address in shop.yaml\n", c.ID)
		case c.Err != nil:
			fmt.Fprintf(a.Out, "%s  %s\n", c.ID, c.Address)
			fmt.Fprintf(a.Err, "  %v\n", c.Err)
			wrong++
		default:
			fmt.Fprintf(a.Out, "%s  %s  %s\n", c.ID, c.Address, c.Said.Model)
			for _, w := range c.Ways {
				fmt.Fprintf(a.Out, "  %s\n", w)
			}
			for _, w := range c.Wrong {
				fmt.Fprintf(a.Err, "  %s\n", w)
			}
			for _, w := range c.Said.Reasons {
				fmt.Fprintf(a.Out, "  the printer says: %s\n", w)
			}
		}
	}
	return wrong
}

// found lists the printers on the net.
func (a *app) found(all []printer.OnNet, err error) {
	if err != nil {
		fmt.Fprintf(a.Err, "the net could not be searched: %v\n", err)
		return
	}
	for _, n := range all {
		fmt.Fprintf(a.Out, "on the net: %s  address: %s\n", n.Name, n.Address)
	}
	if len(all) == 0 {
		fmt.Fprintln(a.Out, "on the net: no printer was found")
	}
}
