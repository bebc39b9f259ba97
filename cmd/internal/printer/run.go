package printer

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"
)

// Part is one job of a run.
type Part struct {
	Ticket
	Pages int
	Doc   func() ([]byte, error)
}

// Came is what became of a part.
type Came string

// What may become of it. Only what has come to Refused or Unsent is surely on no
// paper, and only Printed is surely on paper.
const (
	Sending Came = "sending" // noted before it is sent; where it stays so, nobody knows
	Done    Came = "printed"
	Refusal Came = "refused" // by the printer, or it was not reached: nothing was printed
	Broken  Came = "stopped" // by the printer or at it: a part may be printed
	Lost    Came = "unknown" // nobody knows whether it was printed
	Unsent  Came = "unsent"  // an earlier part did not end well, so this one was kept back
)

// Outcome is what became of a part, and why.
type Outcome struct {
	Part Part
	Came Came
	Why  string
}

// Log keeps what becomes of parts where a crash does not lose it.
type Log interface {
	Note(ctx context.Context, part Part, came Came, why string) error
}

// Run sends the parts of a run one after another, each noted before it is sent
// and when it has ended. Behind the first one that does not end well none is
// sent. Every part has its outcome, in their order; the error is that of the log,
// and nothing is sent that it did not take.
func (p *Printer) Run(ctx context.Context, parts []Part, log Log, patience time.Duration, tell func(string)) (out []Outcome, err error) {
	for i, part := range parts {
		o, err := p.one(ctx, part, log, patience, tell)
		out = append(out, o)
		if err != nil || o.Came != Done {
			for _, rest := range parts[i+1:] {
				out = append(out, Outcome{rest, Unsent, ""})
			}
			return out, err
		}
	}
	return out, nil
}

func (p *Printer) one(ctx context.Context, part Part, log Log, patience time.Duration, tell func(string)) (Outcome, error) {
	doc, err := part.Doc()
	if err != nil {
		return Outcome{part, Unsent, err.Error()}, err
	}
	if err := log.Note(ctx, part, Sending, ""); err != nil {
		return Outcome{part, Unsent, err.Error()}, fmt.Errorf("nothing was sent, because it could not be noted: %w", err)
	}
	came, why := p.deliver(ctx, part, doc, patience, tell)
	if err := log.Note(context.WithoutCancel(ctx), part, came, why); err != nil {
		return Outcome{part, came, why}, fmt.Errorf("what became of %s could not be noted: %w", part.Name, err)
	}
	return Outcome{part, came, why}, nil
}

// deliver sends a part and follows it to its end.
func (p *Printer) deliver(ctx context.Context, part Part, doc []byte, patience time.Duration, tell func(string)) (Came, string) {
	job, err := p.Send(ctx, part.Ticket, doc)
	var lost *Unknown
	switch {
	case errors.As(err, &lost):
		return Lost, err.Error()
	case err != nil:
		return Refusal, err.Error()
	}
	job, err = p.Follow(ctx, job, patience, func(why []string) { tell(strings.Join(why, ", ")) })
	switch {
	case err != nil:
		return Lost, err.Error()
	case job.State == Stopped:
		return Broken, fmt.Sprintf("the job ended after %d of %d pages%s", min(job.Pages, part.Pages), part.Pages, why(job.Reasons))
	}
	return Done, ""
}
