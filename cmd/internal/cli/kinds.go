package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

// prints makes the command of one kind of paper. Its flags are the fields of
// the request, so a new kind has its command as soon as it is in the list.
func (a *app) prints(k *print.Kind) *cobra.Command {
	var r print.Request
	c := &cobra.Command{Use: k.Name + " " + subject(k), Short: k.Short, Long: k.Long, Example: k.Example, Args: args(k)}
	bind(c.Flags(), &r, k)
	if k.Own != nil {
		r.Own = k.Own()
		bind(c.Flags(), r.Own, nil)
	}
	c.RunE = func(_ *cobra.Command, args []string) error {
		p, err := a.pressFor(k, args)
		if err != nil {
			return err
		}
		r.IDs = args
		b, err := p.Print(k, r)
		if err != nil {
			return asked(err)
		}
		next := k.Next
		if r.Draft {
			next = "Read it; none of it may be sold. Once it is right: chablon approve."
		}
		if err := a.write(p, b, next); err != nil || len(b.Papers) == 0 {
			return err
		}
		a.sheets(b)
		return a.hang(p, r)
	}
	return a.ids(a.fromShop(a.writes(c)), func(p *print.Press) []string { return k.IDs(p) })
}

// sheets shows how a used sheet lies in the printer, and what is left of the last.
func (a *app) sheets(b print.Batch) {
	for _, q := range b.Papers {
		if len(q.Map) > 0 {
			fmt.Fprintf(a.Out, "The first sheet (- used up, x left empty, . free):\n    %s\n", strings.Join(q.Map, "\n    "))
		}
		if q.Left > 0 {
			fmt.Fprintf(a.Out, "The last sheet is free from place %d on: --first-place %d prints there.\n", q.Left, q.Left)
		}
	}
}

// pressFor opens the shop: for a kind of the whole day it may be the word behind
// the command.
func (a *app) pressFor(k *print.Kind, args []string) (*print.Press, error) {
	if k.Of == print.Plan || k.Of == print.Shop {
		return a.openNamed(args)
	}
	return a.open(a.shop)
}

// subject is what stands behind the command.
func subject(k *print.Kind) string {
	switch k.Of {
	case print.Product:
		return "PRODUCT"
	case print.Products:
		return "PRODUCT..."
	case print.Formula:
		return "FORMULA"
	case print.Made:
		return "FORMULA-or-PRODUCT"
	case print.Cartons:
		return "[SSCC...]"
	}
	return "[SHOP]"
}

// args asks for the words that a kind needs.
func args(k *print.Kind) cobra.PositionalArgs {
	switch k.Of {
	case print.Product:
		return exactlyOne("product")
	case print.Formula:
		return exactlyOne("formula")
	case print.Made:
		return exactlyOne("formula or product")
	case print.Cartons:
		return nil
	case print.Products:
		return func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage.Errorf("write it like:"+firstLine(c.Example), "which product?")
			}
			return nil
		}
	}
	return atMost(1)
}

// hang notes in the print book that a card was hung up, where that is asked for.
func (a *app) hang(p *print.Press, r print.Request) error {
	if o, ok := r.Own.(*print.CardOptions); !ok || !o.Hang {
		return nil
	}
	done, err := p.Post(context.Background(), r)
	if err != nil {
		return asked(err)
	}
	fmt.Fprintf(a.Out, "hung up as number %d at %s\n", done.Copy.Number, done.Copy.Place)
	for _, c := range done.Replaced {
		fmt.Fprintf(a.Out, "take down number %d: %s %s, %s\n", c.Number, c.ID, c.Version, c.CheckWord)
	}
	for _, c := range done.Beside {
		fmt.Fprintf(a.Out, "also noted at %s: number %d, %s %s, %s\n", c.Place, c.Number, c.ID, c.Version, c.Size)
	}
	return nil
}
