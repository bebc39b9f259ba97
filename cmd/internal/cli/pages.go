package cli

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"
)

// pages writes what the links on packs lead to.
func (a *app) pages() *cobra.Command {
	c := &cobra.Command{
		Use:   "pages [SHOP]",
		Short: "Write the web pages that the links on packs lead to, for the shop's own host",
		Long: "Writes a page for each batch of today's plan whose packs bear batch-mark: link, and\n" +
			"anew for those in the print book that are withdrawn, or whose label says what it\n" +
			"said then: what the label says, in every language that the shop's words reach.\n" +
			"Copy the folder to where link-stem leads; the paths are those in the marks. A page\n" +
			"needs no program on the host: a folder with index.html answers. linkset.json beside\n" +
			"it is for a resolver (RFC 9264). Give the command again after chablon recall.",
		Example: "  chablon pages my-shop --out web",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			s, err := p.Pages()
			if err != nil {
				return asked(err)
			}
			a.findings(p, s.Found)
			for _, l := range s.Left {
				fmt.Fprintf(a.Err, "no page: %s\n", l)
			}
			dir := a.out
			if dir == "" {
				dir = filepath.Join("out", "pages")
			}
			paths, err := p.Publish(a.Disk, s, dir)
			for i, path := range paths {
				fmt.Fprintf(a.Out, "%s  %s\n", path, s.Pages[i].About)
			}
			switch {
			case err != nil:
				return asked(err)
			case s.Found.Errors() > 0:
				return errFindings
			case len(paths) == 0:
				fmt.Fprintln(a.Out, "no pack of today's plan, and no batch in the print book, bears a link")
				return nil
			}
			fmt.Fprintf(a.Out, "Next: copy what is in %s to where %s leads, then scan a label with a phone.\n", dir, p.Shop.Profile.LinkStem.V)
			return nil
		},
	}
	c.Flags().StringVar(&a.out, "out", "", "folder for the pages, made if missing; out/pages when left out")
	return a.fromShop(c)
}
