package cli

import (
	"fmt"
	"path"
	"path/filepath"
	"slices"

	"chablon/cmd/internal/print"
	"chablon/labels/diag"
)

const (
	mostShown = 1000 // findings shown of one command, over all files
	fewAlike  = 3    // cautions of one rule that are each shown; of more, the first
)

// report writes the findings; it returns errFindings when one is an error.
func (a *app) report(p *print.Press, found *diag.List) error {
	a.findings(p, found)
	if n := found.Errors(); n > 0 {
		fmt.Fprintf(a.Err, "%s found; nothing was printed\n", counted(n, "error", "errors"))
		return errFindings
	}
	return nil
}

// findings writes the findings, errors before cautions: many cautions of one
// rule in one line, and of a great many findings the first. It is the one
// printer of findings.
func (a *app) findings(p *print.Press, found *diag.List) {
	all := found.All()
	slices.SortStableFunc(all, func(x, y diag.Diag) int { return b2i(x.Warning) - b2i(y.Warning) })
	alike := map[string]int{}
	for _, d := range all {
		if d.Warning {
			alike[d.Rule]++
		}
	}
	folded := map[string]bool{}
	for i, d := range all {
		if a.told == mostShown {
			fmt.Fprintf(a.Err, "%s not shown here: mend those above first\n", counted(len(all)-i, "more finding is", "more findings are"))
			return
		}
		if n := alike[d.Rule]; d.Warning && n > fewAlike && !a.every {
			if folded[d.Rule] {
				continue
			}
			folded[d.Rule] = true
			d.Msg = fmt.Sprintf("%s; and %d more of this kind, which --every-caution shows", d.Msg, n-1)
		}
		a.told++
		fmt.Fprintln(a.Err, shown(p, d))
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// shown is a finding as it is said on a terminal.
func shown(p *print.Press, d diag.Diag) string { return placed(p, d).String() }

// placed puts the shop's folder before the file of a finding, so that the place
// can be opened from where the command was given.
func placed(p *print.Press, d diag.Diag) diag.Diag {
	if d.Pos.Known() && p.Name != "" {
		d.Pos.File = path.Join(filepath.ToSlash(p.Name), d.Pos.File)
	}
	return d
}
