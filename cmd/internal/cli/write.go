package cli

import (
	"context"
	"fmt"
	"os"
	"strings"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
)

// printing is the work of a command that prints from the shop of --shop: make
// makes the papers, next says what to do with them.
func (a *app) printing(make func(p *print.Press, args []string) ([]print.Paper, error), next func() string) func(*cobra.Command, []string) error {
	return func(_ *cobra.Command, args []string) error {
		p, err := a.open(a.shop)
		if err != nil {
			return err
		}
		return a.write(p, func() ([]print.Paper, error) { return make(p, args) }, next())
	}
}

// then is a fixed thing to do next.
func then(s string) func() string { return func() string { return s } }

// write makes the papers, says what was found, and only when nothing is wrong
// takes their numbers from the register and writes the files.
func (a *app) write(p *print.Press, make func() ([]print.Paper, error), next string) error {
	papers, err := make()
	if err != nil {
		return asked(err)
	}
	if err := a.report(p); err != nil {
		return err
	}
	if err := p.Claim(context.Background()); err != nil {
		return asked(err)
	}
	if err := a.save(papers, next); err != nil {
		return err
	}
	if p.Name == "" {
		fmt.Fprintln(a.Out, "This is the paper of the demo shop. Name your own shop with --shop, or give the command in its folder.")
	}
	return nil
}

// save writes the files, one line each, and ends with what to do next.
func (a *app) save(papers []print.Paper, next string) error {
	f, err := keep.OpenFolder(a.out)
	if err != nil {
		return err
	}
	bar := a.bar(papers)
	var files []keep.File
	for _, p := range papers {
		files = append(files, p.File(func() { _ = bar.Add(1) }))
	}
	err = f.SaveAll(files)
	_ = bar.Clear()
	if err != nil {
		return err
	}
	for _, p := range papers {
		fmt.Fprintf(a.Out, "%s  %s\n", f.Path(p.Name), p.About)
	}
	if next != "" {
		fmt.Fprintf(a.Out, "Next: %s\n", strings.ReplaceAll(next, "\n", "\n      "))
	}
	return nil
}

// bar is a progress bar over all pages. It shows only on a terminal, and only
// on long runs.
func (a *app) bar(papers []print.Paper) *progressbar.ProgressBar {
	total := 0
	for _, p := range papers {
		total += p.Pages
	}
	err, ok := a.Err.(*os.File)
	long := ok && term.IsTerminal(int(err.Fd())) && total > 500
	return progressbar.NewOptions(total, progressbar.OptionSetWriter(a.Err), progressbar.OptionSetVisibility(long),
		progressbar.OptionSetDescription("printing"), progressbar.OptionShowCount(), progressbar.OptionClearOnFinish())
}
