package cli

import (
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"chablon/cmd/internal/print"
)

// longRun is from how many pages on progress is shown.
const longRun = 500

// progress shows on a terminal how much of a long run is done, on one line that
// goes away at the end.
type progress struct {
	to          io.Writer // nil shows nothing
	total, done int
	line        string
}

// newProgress counts the pages of papers.
func newProgress(to io.Writer, papers []print.Paper) *progress {
	p := &progress{}
	for _, q := range papers {
		p.total += q.Pages
	}
	if f, ok := to.(*os.File); ok && p.total > longRun && term.IsTerminal(int(f.Fd())) {
		p.to = to
	}
	return p
}

// tick counts one page.
func (p *progress) tick() {
	p.done++
	if p.to == nil {
		return
	}
	if line := fmt.Sprintf("printing: %d %% of %d pages", p.done*100/p.total, p.total); line != p.line {
		p.line = line
		fmt.Fprintf(p.to, "\r%s", line)
	}
}

// clear takes the line away.
func (p *progress) clear() {
	if p.line != "" {
		fmt.Fprintf(p.to, "\r%s\r", strings.Repeat(" ", len(p.line)))
	}
}
