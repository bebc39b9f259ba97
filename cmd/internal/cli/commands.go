package cli

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/unit"
)

// writes adds the flags of commands that write files.
func (a *app) writes(c *cobra.Command) *cobra.Command {
	c.Flags().StringVar(&a.out, "out", "out", "folder for the finished files; made if missing")
	return c
}

// fromShop adds the flag that names the shop.
func (a *app) fromShop(c *cobra.Command) *cobra.Command {
	c.Flags().StringVar(&a.shop, "shop", "", "the shop's folder; when left out, the folder you are in if it is a shop, else the demo shop")
	return c
}

func flagNames(c *cobra.Command) []string {
	var names []string
	c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}

func (a *app) check() *cobra.Command {
	return a.fromShop(&cobra.Command{
		Use:     "check [SHOP]",
		Short:   "Read a shop's files and say everything that is wrong",
		Long:    "Reads every file of the shop, computes every declaration and sets every label\nand card, without printing. Each finding has its file, line and column.",
		Example: "  chablon check samples/quoin-and-crumb",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			n := p.Check()
			if err := a.report(p); err != nil {
				return err
			}
			fmt.Fprintf(a.Out, "%s: %s, no errors\n", p.Title(), n)
			return nil
		},
	})
}

func (a *app) day() *cobra.Command {
	return a.fromShop(a.writes(&cobra.Command{
		Use:     "day [SHOP]",
		Short:   "Print all paper of one day",
		Long:    "Reads the shop's plan for today (or the day given with --today) and writes the\nbench cards, sale labels, carton labels and the run sheet of that day.\nWithout a shop it uses the folder you are in if that is one, else the demo shop.",
		Example: "  chablon day samples/quoin-and-crumb --today 2026-03-17 --out paper",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			return a.write(p, p.Day, "Check one label of each run against its card, sign the run sheet, then print the rest.\n"+
				"Print without scaling (\"actual size\").")
		},
	}))
}

func (a *app) card() *cobra.Command {
	var r print.CardRequest
	var have, copies string
	var hang bool
	c := &cobra.Command{
		Use:     "card FORMULA-or-PRODUCT",
		Short:   "Print the bench card of a formula or product",
		Long:    "Prints the card that hangs above the bench, for a number of pieces, a mass, or\nas much as one ingredient allows.",
		Example: "  chablon card pear-hazelnut-tartlet --pieces 48\n  chablon card sweet-pastry --mass \"2 kg\" --paper card-a5\n  chablon card pear-hazelnut-tartlet --pieces 48 --sizes 24,48,96 --ready 09:00\n  chablon card passion-caramel-bar --have \"passion-puree=1.2 kg\" --languages en,fr",
		Args:    exactlyOne("formula or product"),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			r.ID = args[0]
			if r.Ingredient, r.Have, err = cutHave(have); err != nil {
				return err
			}
			if r.Copy, r.Copies, err = cutCopy(copies); err != nil {
				return err
			}
			err = a.write(p, func() ([]print.Paper, error) { return p.Card(r) }, "Laminate it, hang it where the work is done, and take the old one down.")
			if err == nil && hang {
				err = a.hang(p, r)
			}
			return err
		},
	}
	c.Flags().Var(textFlag(&r.Pieces, "number"), "pieces", "how many good pieces")
	c.Flags().Var(textFlag(&r.Mass, "mass"), "mass", "how much of the formula, such as \"2 kg\"")
	c.Flags().StringVar(&have, "have", "", "make as much as this allows, such as \"passion-puree=1.2 kg\"")
	c.Flags().StringVar(&r.Paper, "paper", "card-a4", "id of the card: card-a3, card-a4, card-a4-landscape, card-a5, card-a6, card-letter")
	c.Flags().StringSliceVar(&r.Languages, "languages", nil, "one or two languages, such as en,fr; the shop's when left out")
	c.Flags().StringVar(&copies, "copy", "1/1", "which copy of how many, such as 2/3")
	c.Flags().StringVar(&r.Place, "place", "", "where this copy hangs")
	c.Flags().Var(list{&r.Sizes}, "sizes", "up to three batch sizes to show side by side, such as 24,48,96")
	c.Flags().Var(clock{&r.Ready}, "ready", "time of day at which all is to be ready, such as 09:00: shows when to start")
	c.Flags().BoolVar(&r.Baker, "baker", false, "show amounts as a percentage of the base of their formula too")
	c.Flags().BoolVar(&hang, "hang", false, "note in the shop's print book that this copy was hung up at its place")
	return a.ids(a.fromShop(a.writes(c)), (*print.Press).CardIDs)
}

func (a *app) label() *cobra.Command {
	var r print.LabelRequest
	c := &cobra.Command{
		Use:     "label PRODUCT",
		Short:   "Print the sale labels of a product",
		Example: "  chablon label pear-hazelnut-tartlet --count 24 --batch L26076A\n  chablon label lemon-thyme-marshmallow --count 9 --first-place 3 --skip 5",
		Args:    exactlyOne("product"),
		RunE: a.printing(func(p *print.Press, args []string) ([]print.Paper, error) {
			r.ID = args[0]
			return p.Labels(r)
		}, next(&r.Draft, "Check the first label against the product, then print the rest without scaling.")),
	}
	c.Flags().Var(textFlag(&r.Count, "number"), "count", "how many labels; 1 when left out")
	c.Flags().Var(textFlag(&r.Made, "day"), "made", "the day made; today when left out")
	c.Flags().StringVar(&r.Batch, "batch", "", "batch code; by the shop's rule when left out")
	c.Flags().StringVar(&r.Pack, "pack", "", "id of the pack; the product's first when left out")
	c.Flags().StringVar(&r.Paper, "paper", "", "id of the label paper; the pack's when left out")
	c.Flags().StringVar(&r.Market, "market", "", "code of the market; the shop's first when left out")
	c.Flags().StringSliceVar(&r.Languages, "languages", nil, "languages, such as en,fr; the pack's when left out")
	c.Flags().Var(textFlag(&r.FirstPlace, "number"), "first-place", "first free place on a part-used sheet, counted from 1")
	c.Flags().Var(textFlag(&r.FirstSerial, "number"), "first-serial", "running number of the first label; 1 when left out")
	c.Flags().BoolVar(&r.Draft, "draft", false, "print what nobody has approved yet, with the mark of a draft across it")
	c.Flags().IntSliceVar(&r.Skip, "skip", nil, "places of the first sheet to leave empty, such as 3,5")
	return a.ids(a.fromShop(a.writes(c)), (*print.Press).ProductIDs)
}

func (a *app) carton() *cobra.Command {
	var r print.CartonRequest
	c := &cobra.Command{
		Use:     "carton PRODUCT",
		Short:   "Print the carton labels of a product",
		Long:    "Prints one label for each shipped carton. Print it after the carton is closed\nand counted. A serial reference must never be used for a second carton.",
		Example: "  chablon carton pear-hazelnut-tartlet --count 2 --sscc-from 27 --today 2026-03-17",
		Args:    exactlyOne("product"),
		RunE: a.printing(func(p *print.Press, args []string) ([]print.Paper, error) {
			r.ID = args[0]
			return p.Cartons(r)
		}, next(&r.Draft, "Stick it on the closed and counted carton, on a dry face.")),
	}
	c.Flags().Var(textFlag(&r.Count, "number"), "count", "how many cartons; 1 when left out")
	c.Flags().Var(textFlag(&r.Made, "day"), "made", "the day made; today when left out")
	c.Flags().StringVar(&r.Batch, "batch", "", "batch code; by the shop's rule when left out")
	c.Flags().BoolVar(&r.Draft, "draft", false, "print what nobody has approved yet, with the mark of a draft across it")
	c.Flags().StringVar(&r.SSCCFrom, "sscc-from", "", "serial reference of the first carton's SSCC")
	c.Flags().StringVar(&r.Paper, "paper", "", "id of the label paper; the carton's when left out")
	c.Flags().StringSliceVar(&r.Languages, "languages", nil, "languages, such as en,fr; the pack's when left out")
	return a.ids(a.fromShop(a.writes(c)), (*print.Press).ProductIDs)
}

func (a *app) fresh() *cobra.Command {
	return &cobra.Command{
		Use:     "new DIR",
		Short:   "Write the demo shop into a folder, as a start",
		Example: "  chablon new my-shop",
		Args:    exactlyOne("folder"),
		RunE: func(_ *cobra.Command, args []string) error {
			n, err := print.New(args[0])
			if err != nil {
				return err
			}
			fmt.Fprintf(a.Out, "%s: %d files\nNext: edit %s, then: chablon check %s\n", args[0], n, filepath.Join(args[0], "shop.yaml"), args[0])
			return nil
		},
	}
}

func (a *app) schema() *cobra.Command {
	return a.writes(&cobra.Command{
		Use:     "schema",
		Short:   "Write the JSON Schemas of the shop's files, for editors",
		Example: "  chablon schema --out schemas",
		Args:    atMost(0),
		RunE: func(_ *cobra.Command, _ []string) error {
			papers, err := print.Schemas()
			if err != nil {
				return err
			}
			return a.save("", papers, func() error { return nil }, "Tell your editor to use them; DEVELOPERS.md says how.")
		},
	})
}

func (a *app) version() *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "Say which version this is",
		Example: "  chablon version",
		Args:    atMost(0),
		Run:     func(_ *cobra.Command, _ []string) { fmt.Fprintf(a.Out, "chablon %s\n", Version) },
	}
}

// ids completes the ids of products or formulas for the shell.
func (a *app) ids(c *cobra.Command, list func(*print.Press) []string) *cobra.Command {
	c.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		p, err := a.open(a.shop)
		if err != nil || len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return list(p), cobra.ShellCompDirectiveNoFileComp
	}
	return c
}

// cutHave reads "passion-puree=1.2 kg".
func cutHave(s string) (id string, m unit.Mass, err error) {
	if s == "" {
		return "", 0, nil
	}
	id, mass, ok := strings.Cut(s, "=")
	if ok {
		m, err = unit.ParseMass(mass)
	}
	if !ok || err != nil {
		return "", 0, usage.Errorf(`write it like --have "passion-puree=1.2 kg"`, "--have %q cannot be read", s)
	}
	return strings.TrimSpace(id), m, nil
}

// cutCopy reads "2/3".
func cutCopy(s string) (n, of int, err error) {
	if _, err := fmt.Sscanf(s, "%d/%d", &n, &of); err != nil || n < 1 || of < n || of > 99 {
		return 0, 0, usage.Errorf("write it like --copy 2/3", "--copy %q cannot be read", s)
	}
	return n, of, nil
}
