package cli

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
)

// writes adds the flags of commands that write files.
func (a *app) writes(c *cobra.Command) *cobra.Command {
	c.Flags().StringVar(&a.out, "out", "", "folder for the finished files, made if missing; out/ and the day when left out")
	c.Flags().StringVar(&a.as, "as", "", "how pages are written: "+strings.Join(print.Forms(), ", ")+"; pdf when left out, and a picture is of one page")
	c.Flags().StringVar(&a.to, "to", "", "id of a printer in shop.yaml that it is sent to, with no viewer in between")
	_ = c.Flags().SetAnnotation("to", completes, []string{"printer"})
	_ = c.Flags().SetAnnotation("as", completes, []string{"form"})
	return c
}

// fromShop adds the flag that names the shop.
func (a *app) fromShop(c *cobra.Command) *cobra.Command {
	c.Flags().StringVar(&a.shop, "shop", "", "the shop's folder; when left out, the folder you are in, or the nearest above it that is a shop")
	c.Flags().BoolVar(&a.demo, "demo", false, "take the invented demo shop that is part of the program")
	return c
}

func flagNames(c *cobra.Command) []string {
	var names []string
	c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}

func (a *app) check() *cobra.Command {
	format := "text"
	c := a.fromShop(&cobra.Command{
		Use:     "check [SHOP]",
		Short:   "Read a shop's files and say everything that is wrong",
		Long:    "Reads every file of the shop, computes every declaration and sets every paper\nof every kind, without printing. Each finding has its file, line and column.",
		Example: "  chablon check samples/quoin-and-crumb",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			n, b, err := p.Check()
			if err != nil {
				return err
			}
			switch format {
			case "text":
			case "json":
				return asJSON(a.Out, p, b.Found)
			default:
				return usage.Errorf("write text or json", "there is no format %q", format)
			}
			a.findings(p, b.Found)
			if n := b.Found.Errors(); n > 0 {
				fmt.Fprintf(a.Err, "%s found; chablon explain RULE says more of the word in brackets\n", counted(n, "error", "errors"))
				return errFindings
			}
			fmt.Fprintf(a.Out, "%s: %s, no errors\n", p.Title(), n)
			for _, l := range p.Counter() {
				fmt.Fprintln(a.Out, l)
			}
			return nil
		},
	})
	c.Flags().StringVar(&format, "format", "text", "text, or json: a line for each finding on standard output, for another program")
	return c
}

func (a *app) day() *cobra.Command {
	var o print.DayOptions
	c := &cobra.Command{
		Use:   "day [SHOP]",
		Short: "Print all paper of one day",
		Long: "Reads the shop's plan for today (or the day given with --today) and writes all paper\nof that day: " + print.OfDay() + ".\n" +
			"What a fault touches is left out, and stands first on the run sheet; the rest is\nprinted, and the exit status is 1. A fault of the shop itself stops all.\n" +
			"Without a shop it uses the folder you are in, or the nearest above it that is one.",
		Example: "  chablon day samples/quoin-and-crumb --today 2026-03-17 --out paper",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			b, err := p.Day(o)
			if err != nil {
				return asked(err)
			}
			return a.write(p, b, "Check one label of each run against its card, sign the run sheet, then print the rest.\n"+
				"Print without scaling (\"actual size\").")
		},
	}
	c.Flags().BoolVar(&o.WholeOnly, "all-or-nothing", false, "print nothing where anything is wrong")
	c.Flags().BoolVar(&o.Draft, "draft", false, "print what nobody has approved yet, with the mark of a draft across it")
	return a.fromShop(a.writes(c))
}

func (a *app) fresh() *cobra.Command {
	demo := false
	c := &cobra.Command{
		Use:   "new DIR",
		Short: "Write a small shop into a folder, as a start",
		Long: "Writes a shop that prints at once: three ingredients, a formula, a product and a\nplan, with what must be decided as comments, and the schemas that editors use.\n" +
			"What must become your own says EXAMPLE; while any of it is left, what goes to a\nbuyer is a draft.",
		Example: "  chablon new my-shop",
		Args:    exactlyOne("folder"),
		RunE: func(_ *cobra.Command, args []string) error {
			n, err := print.New(args[0], demo)
			if err != nil {
				return err
			}
			dir := diag.Visible(args[0])
			fmt.Fprintf(a.Out, "%s: %d files\nNext: edit %s, then: chablon check %s\n", dir, n, filepath.Join(dir, "shop.yaml"), dir)
			return nil
		},
	}
	c.Flags().BoolVar(&demo, "demo", false, "write the whole demo shop, without its signatures")
	return c
}

func (a *app) schema() *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:     "schema",
		Short:   "Write the JSON Schemas of the shop's files, for editors",
		Example: "  chablon schema --out schemas",
		Args:    atMost(0),
		RunE: func(_ *cobra.Command, _ []string) error {
			files, err := print.Schemas()
			if err != nil {
				return err
			}
			return a.saveSchemas(out, files)
		},
	}
	c.Flags().StringVar(&out, "out", "schemas", "folder for the schemas; made if missing")
	return c
}

// saveSchemas writes the schemas, one line each.
func (a *app) saveSchemas(dir string, files []keep.File) error {
	f, err := keep.OpenFolder(a.Disk, dir)
	if err != nil {
		return err
	}
	d, err := f.Draft("schemas", files)
	if err != nil {
		return err
	}
	if err := d.Name(); err != nil {
		return err
	}
	for _, s := range files {
		fmt.Fprintln(a.Out, f.Path(s.Name))
	}
	fmt.Fprintln(a.Out, "Next: Tell your editor to use them; DEVELOPERS.md says how.")
	return nil
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
