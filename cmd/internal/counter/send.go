package counter

import (
	"context"
	"fmt"
	"net/url"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/labels/register"
)

// printers are those that a paper can be sent to without a viewer in between: the
// one that is loaded with it, where shop.yaml says where it is reached.
func (a *ask) printers(paper string) (out []option) {
	for _, e := range a.press.Shop.Profile.Printers {
		for _, t := range e.V.Papers {
			if t.V == paper && len(out) == 0 && e.V.Address.Set() {
				return []option{{Value: e.Key.V, Text: e.Key.V}}
			}
			if t.V == paper {
				return nil
			}
		}
	}
	return nil
}

// reach finds the printer that a form names, by its id in shop.yaml, and lets it
// say whether it takes the papers. Nothing is claimed or sent yet.
func (a *ask) reach(ctx context.Context, q url.Values, b *print.Batch) (*print.Sender, error) {
	to := q.Get("to")
	if to == "" {
		return nil, nil
	}
	s, err := a.press.Reach(ctx, to, b)
	if err != nil {
		return nil, &refusal{502, "not-printed", err}
	}
	if b.Found.Errors() > 0 || s == nil {
		return nil, &refusal{409, "not-printed", fmt.Errorf("%s", firstError(b))}
	}
	return s, nil
}

// send sends what is saved while the visitor goes on; what becomes of it stands in
// the print book, job by job.
func (c *Counter) send(s *print.Sender) {
	if s == nil {
		return
	}
	c.sending.Go(func() {
		_, _ = s.Send(context.Background(), func(string) {}) // the print book has what came of it
	})
}

// Wait waits until all that is being sent is sent.
func (c *Counter) Wait() { c.sending.Wait() }

// sentLine is one job that went to a printer.
type sentLine struct {
	Printer, What, Came, Why string
	Going, Bad               bool
}

// sent is what the print book knows of jobs with the numbers or the names of what
// was printed, from then on.
func (a *ask) sent(done []register.Print) (out []sentLine, err error) {
	last := map[string]register.Sending{}
	var marks []string
	err = a.press.Reads(a.r.Context(), func(book keep.Books) error {
		all, err := book.Sendings(a.r.Context())
		for _, s := range all {
			if !slices.ContainsFunc(done, func(p register.Print) bool { return sentOf(p, s) }) {
				continue
			}
			if _, ok := last[s.Mark]; !ok {
				marks = append(marks, s.Mark)
			}
			last[s.Mark] = s
		}
		return err
	})
	for _, m := range marks {
		s := last[m]
		came := "came-" + string(s.Came)
		out = append(out, sentLine{s.Printer, s.What, a.W(came), s.Why, s.Came == register.Going, s.Came != register.Going && s.Came != register.Printed})
	}
	return out, err
}

// sentOf reports whether a job is of a print.
func sentOf(p register.Print, s register.Sending) bool {
	if s.At.Before(p.At) {
		return false
	}
	if s.Series != "" {
		return p.Bears(s.Series, s.From, s.To)
	}
	return p.Series == "" && p.File != "" && strings.HasPrefix(s.What, strings.TrimSuffix(p.File, ".pdf"))
}
