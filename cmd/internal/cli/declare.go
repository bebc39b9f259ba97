package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

func (a *app) declare() *cobra.Command {
	var r print.DeclareRequest
	var asJSON bool
	c := &cobra.Command{
		Use:   "declare PRODUCT",
		Short: "Say all that a label says, as text or as JSON",
		Long: `Prints the whole declaration of a product: name, ingredients with the
emphasised words between asterisks, allergens, nutrition, net quantity, date,
storage, statements, operator, the digest of the facts, and who approved them.

With --json it is meant for a web shop; chablon schema writes its schema,
declaration.schema.json. Food that is sold at a distance must be declared
before the purchase, all but the date (Regulation (EU) No 1169/2011 Art. 14);
the date, too, must be there when the food is delivered. A declaration that is
not approved must not be published: see "approved".`,
		Example: "  chablon declare pear-hazelnut-tartlet\n  chablon declare pistachio-choux --market GB --languages en --json",
		Args:    exactlyOne("product"),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			r.ID = args[0]
			p = p.About(r.ID)
			d, err := p.Declare(r)
			if err != nil {
				return err
			}
			if err := a.report(p, p.Found); err != nil {
				return err
			}
			if !asJSON {
				fmt.Fprint(a.Out, d.Text())
				return nil
			}
			data, err := d.JSON()
			if err == nil {
				_, err = a.Out.Write(data)
			}
			return err
		},
	}
	bind(c.Flags(), &r, nil)
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON, for a web shop")
	return a.ids(a.fromShop(c), (*print.Press).ProductIDs)
}

func (a *app) approve() *cobra.Command {
	var r print.ApproveRequest
	c := &cobra.Command{
		Use:   "approve PRODUCT --by NAME",
		Short: "Sign what a label says, so that it may be printed for sale",
		Long: `Prints the declaration of the product in each pack for each market of the shop,
and writes into approvals.yaml who approved it, when, and the digest of what was
approved. This command is the signature: read the declaration first (chablon
declare), against the specifications of the suppliers.

As soon as anything that a label says has changed, the digest no longer fits,
and nothing is printed for sale until somebody has approved it again. What is
approved already keeps its name and its day.`,
		Example: "  chablon approve pear-hazelnut-tartlet --by \"Mara B.\" --shop my-shop\n  chablon approve --all --by \"Mara B.\" --shop my-shop",
		Args:    atMost(1),
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 && !r.All {
				return exactlyOne("product")(c, args)
			}
			if len(args) == 1 && r.All {
				return usage.Errorf("write it like:"+firstLine(c.Example), "name either one product or --all")
			}
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			if !r.All {
				r.ID = args[0]
				p = p.About(r.ID)
			}
			return a.sign(p, r)
		},
	}
	bind(c.Flags(), &r, nil)
	return a.ids(a.fromShop(c), (*print.Press).ProductIDs)
}

// sign approves, shows what was approved and writes the file.
func (a *app) sign(p *print.Press, r print.ApproveRequest) error {
	all, err := p.Approve(r)
	if err != nil {
		return err
	}
	if err := a.report(p, p.Found); err != nil {
		return err
	}
	if p.AsItCame() && p.Name != "" {
		return usage.Errorf("chablon new DIR --demo writes a copy that can be signed", "the signatures of the demo shop as it came are renewed by its test alone")
	}
	file, err := p.SaveApprovals()
	if err != nil {
		return err
	}
	news := 0
	for _, d := range all {
		fmt.Fprintf(a.Out, "%s\n", d.Text())
		if !d.Before.Valid {
			news++
		}
	}
	for _, d := range all {
		fmt.Fprintf(a.Out, "%s  %s: %s\n", d.Fingerprint, d.Name(), d.Outcome())
	}
	fmt.Fprintf(a.Out, "%s: %s, %d as before\n", file, counted(news, "new approval", "new approvals"), len(all)-news)
	return nil
}
