package cli

import (
	"context"
	"errors"
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
// writes the files.
func (a *app) write(p *print.Press, make func() ([]print.Paper, error), next string) error {
	papers, err := make()
	if err != nil {
		return asked(err)
	}
	if err := a.report(p); err != nil {
		return err
	}
	claim := func() error { return asked(p.Claim(context.Background())) }
	if err := a.save(setOf(papers), papers, claim, next); err != nil {
		return err
	}
	if p.Name == "" {
		fmt.Fprintln(a.Out, "This is the paper of the demo shop. Name your own shop with --shop, or give the command in its folder.")
	}
	return nil
}

// setOf names what the papers of a request are all of: the day, or one run.
func setOf(papers []print.Paper) string {
	for _, p := range papers {
		if strings.HasPrefix(p.Name, "run-sheet-") {
			return "day"
		}
	}
	if len(papers) == 0 {
		return ""
	}
	return papers[0].Set()
}

// save writes the files, one line each, and ends with what to do next. The
// numbers on them are claimed when all of them are on the disk and none has its
// name: a full disk costs no number, and no number is on two papers.
func (a *app) save(set string, papers []print.Paper, claim func() error, next string) (err error) {
	f, err := keep.OpenFolder(a.Disk, a.out)
	if err != nil {
		return err
	}
	bar := a.bar(papers)
	var files []keep.File
	for _, p := range papers {
		files = append(files, p.File(func() { _ = bar.Add(1) }))
	}
	draft, err := f.Draft(set, files)
	_ = bar.Clear()
	if err != nil {
		return err
	}
	if err := claim(); err != nil {
		return errors.Join(err, draft.Discard())
	}
	if err := draft.Name(); err != nil {
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
