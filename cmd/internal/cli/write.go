package cli

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"chablon/cmd/internal/print"
)

// write says what was found, and writes the papers of a batch where it has any:
// one line for each, and at the end what to do next.
func (a *app) write(p *print.Press, b print.Batch, next string) (err error) {
	for _, l := range b.Left {
		fmt.Fprintf(a.Err, "left out: %s\n", l)
	}
	if len(b.Papers) == 0 {
		return a.report(p, b.Found)
	}
	var send *print.Sender
	if a.to != "" {
		if send, err = p.Reach(context.Background(), a.to, &b); err != nil {
			return asked(err)
		}
		if send == nil || len(b.Left) == 0 && b.Found.Errors() > 0 {
			return a.report(p, b.Found)
		}
	}
	a.findings(p, b.Found)
	if err := a.save(p, b, next); err != nil {
		return err
	}
	if err := a.send(send); err != nil {
		return err
	}
	if b.Elsewhere > 0 {
		fmt.Fprintf(a.Err, "%s elsewhere in the shop's files, which touch none of this: chablon check%s lists them\n", counted(b.Elsewhere, "error", "errors"), named(p))
	}
	if p.Name == "" {
		fmt.Fprintln(a.Out, "This is the paper of the demo shop. Name your own shop with --shop, or give the command in its folder.")
	}
	if len(b.Left) > 0 {
		fmt.Fprintf(a.Err, "%s found; what they touch was left out, the rest was printed\n", counted(b.Found.Errors(), "error", "errors"))
		return errFindings
	}
	return nil
}

// named is the shop as the last word of a command.
func named(p *print.Press) string {
	if p.Name == "" {
		return ""
	}
	return " " + p.Name
}

// save writes the files, one line each, and ends with what to do next.
func (a *app) save(p *print.Press, b print.Batch, next string) error {
	dir := a.out
	if dir == "" {
		dir = filepath.Join("out", p.Today.String())
		if strings.HasPrefix(p.Name, "..") {
			dir = filepath.Join(p.Name, dir) // beside shop.yaml, not among its files
		}
	}
	bar := newProgress(a.terminal, b.Papers)
	paths, err := p.Save(context.Background(), a.Disk, b, dir, bar.tick)
	bar.clear()
	if err != nil {
		return asked(err)
	}
	if p.Unseen != nil {
		fmt.Fprintf(a.Err, "the numbers are noted in the print book alone, so a copy of it would not be noticed: %v\n", p.Unseen)
	}
	for i, q := range b.Papers {
		fmt.Fprintf(a.Out, "%s  %s\n", paths[i], q.About)
	}
	if a.to != "" {
		next, _, _ = strings.Cut(next, ", then print the rest") // all of it is sent, at its size
	}
	if next != "" {
		fmt.Fprintf(a.Out, "Next: %s\n", strings.ReplaceAll(next, "\n", "\n      "))
	}
	return nil
}
