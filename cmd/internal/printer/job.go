package printer

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/OpenPrinting/goipp"

	"chablon/labels/unit"
)

// Ticket says how a document is to be printed.
type Ticket struct {
	Mark     string // begins the job's name, and no other job's: it is found again by it
	Name     string // what is printed
	Format   string
	W, H     unit.Length // of the paper
	Unscaled bool        // the printer can be told not to scale
}

// Job is what a printer says of a job.
type Job struct {
	ID      int
	State   State
	Reasons []string
	Pages   int // printed so far, where it says so
}

// State is how far a job has come.
type State int

// The states of RFC 8011, 5.3.7, as far as they differ for who waits.
const (
	Waiting  State = iota // it will be printed
	Standing              // it is held up by something that somebody can mend
	Printed
	Stopped // canceled or aborted: a part of it may be printed
)

// name is the job's name, of 255 bytes at most.
func (t Ticket) name() string {
	s := t.Mark + " " + t.Name
	for len(s) > 200 {
		s = s[:len(s)-1]
	}
	return strings.ToValidUTF8(s, "")
}

// fill writes the ticket into a request.
func (t Ticket) fill(m *goipp.Message) {
	m.Operation.Add(goipp.MakeAttr("job-name", goipp.TagName, goipp.String(t.name())))
	m.Operation.Add(goipp.MakeAttr("ipp-attribute-fidelity", goipp.TagBoolean, goipp.Boolean(true)))
	m.Operation.Add(goipp.MakeAttr("document-format", goipp.TagMimeType, goipp.String(t.Format)))
	hundredths := func(l unit.Length) goipp.Integer { return goipp.Integer(l.Mul(100, int64(unit.MM))) }
	m.Job.Add(goipp.MakeAttrCollection("media-col", goipp.MakeAttrCollection("media-size",
		goipp.MakeAttr("x-dimension", goipp.TagInteger, hundredths(t.W)), goipp.MakeAttr("y-dimension", goipp.TagInteger, hundredths(t.H)))))
	if t.Unscaled {
		m.Job.Add(goipp.MakeAttr("print-scaling", goipp.TagKeyword, goipp.String("none")))
	}
}

// Validate lets the printer say whether it would take a job (RFC 8011, 4.2.3).
func (p *Printer) Validate(ctx context.Context, t Ticket) error {
	return p.patiently(ctx, func() error {
		_, err := p.ask(ctx, goipp.OpValidateJob, nil, t.fill)
		return err
	})
}

// mostBusy is how long a busy printer is asked again.
const mostBusy = time.Minute

// patiently tries again as long as the printer is busy, and only then: 0.1
// seconds later, 0.2, 0.4 and so on, a minute at most.
func (p *Printer) patiently(ctx context.Context, try func() error) error {
	waited := time.Duration(0)
	for wait := 100 * time.Millisecond; ; wait *= 2 {
		err := try()
		var no *Refused
		if !errors.As(err, &no) || !no.Busy || waited >= mostBusy {
			return err
		}
		wait = min(wait, mostBusy-waited)
		if e := p.Sleep(ctx, wait); e != nil {
			return err
		}
		waited += wait
	}
}

// Send sends a document as one job (RFC 8011, 4.2.1). Where the answer is lost,
// the printer is asked for the job by its name; the error is [Unknown] where that
// does not tell either, and the job may then be printed or not.
func (p *Printer) Send(ctx context.Context, t Ticket, doc []byte) (Job, error) {
	var job Job
	err := p.patiently(ctx, func() error {
		m, err := p.ask(ctx, goipp.OpPrintJob, doc, t.fill)
		if err != nil {
			return err
		}
		if job = jobOf(m.Job); job.ID == 0 {
			return &Unknown{errors.New("it names no job")}
		}
		return nil
	})
	var lost *Unknown
	if errors.As(err, &lost) {
		if found, ok := p.again(ctx, t.Mark); ok {
			return found, nil
		}
	}
	return job, err
}

// again looks for a job whose answer was lost, some seconds long: a printer may
// note it a little later than it came.
func (p *Printer) again(ctx context.Context, mark string) (Job, bool) {
	for wait := 200 * time.Millisecond; wait < 10*time.Second; wait *= 2 {
		if job, ok, err := p.Find(ctx, mark); err == nil && ok {
			return job, true
		}
		if p.Sleep(ctx, wait) != nil {
			break
		}
	}
	return Job{}, false
}

// Find asks for a job by the mark that its name begins with (RFC 8011, 4.2.6).
// That there is none does not say that none was printed: printers forget.
func (p *Printer) Find(ctx context.Context, mark string) (job Job, found bool, err error) {
	for _, which := range []string{"not-completed", "completed"} {
		m, err := p.ask(ctx, goipp.OpGetJobs, nil, func(m *goipp.Message) {
			m.Operation.Add(goipp.MakeAttr("which-jobs", goipp.TagKeyword, goipp.String(which)))
			m.Operation.Add(asked())
		})
		if err != nil {
			return Job{}, false, err
		}
		for _, g := range m.Groups {
			if g.Tag == goipp.TagJobGroup && strings.HasPrefix(first(texts(g.Attrs, "job-name")), mark+" ") {
				return jobOf(g.Attrs), true, nil
			}
		}
	}
	return Job{}, false, nil
}

func asked() goipp.Attribute {
	return goipp.MakeAttr("requested-attributes", goipp.TagKeyword, goipp.String("job-id"), goipp.String("job-name"), goipp.String("job-state"),
		goipp.String("job-state-reasons"), goipp.String("job-impressions-completed"), goipp.String("job-media-sheets-completed"))
}

// Job asks how far a job has come (RFC 8011, 4.3.4).
func (p *Printer) Job(ctx context.Context, id int) (Job, error) {
	m, err := p.ask(ctx, goipp.OpGetJobAttributes, nil, func(m *goipp.Message) {
		m.Operation.Add(goipp.MakeAttr("job-id", goipp.TagInteger, goipp.Integer(id)))
		m.Operation.Add(asked())
	})
	if err != nil {
		return Job{}, err
	}
	job := jobOf(m.Job)
	if job.ID != id {
		return Job{}, &Unknown{errors.New("it is about another job")}
	}
	return job, nil
}

// jobOf reads a job. A state that is not known is waited for.
func jobOf(a goipp.Attributes) Job {
	j := Job{ID: number(a, "job-id"), Reasons: reasons(texts(a, "job-state-reasons")), Pages: max(number(a, "job-impressions-completed"), number(a, "job-media-sheets-completed"))}
	switch number(a, "job-state") {
	case 6:
		j.State = Standing
	case 7, 8:
		j.State = Stopped
	case 9:
		j.State = Printed
	}
	return j
}

// Follow asks how far a job has come until it has ended, or the patience is
// over; it then is what was known last, and the error [Unknown]. tell is called
// with what holds it up, each time that it is something else.
func (p *Printer) Follow(ctx context.Context, job Job, patience time.Duration, tell func(why []string)) (Job, error) {
	said, waited := "", time.Duration(0)
	var lost error
	for wait := 100 * time.Millisecond; ; wait = min(2*wait, 2*time.Second) {
		switch {
		case job.State == Printed || job.State == Stopped:
			return job, nil
		case waited >= patience && lost == nil:
			return job, &Unknown{errors.New("it does not end")}
		case waited >= patience:
			return job, lost
		}
		if err := p.Sleep(ctx, wait); err != nil {
			return job, &Unknown{err}
		}
		waited += wait
		now, err := p.Job(ctx, job.ID)
		if lost = err; err != nil {
			lost = &Unknown{err}
			continue
		}
		job = now
		why := job.Reasons
		if job.State == Standing {
			if said, err := p.Ask(ctx); err == nil && len(said.Reasons) > 0 {
				why = said.Reasons
			}
		}
		if s := strings.Join(why, ", "); job.State == Standing && s != said {
			said = s
			tell(why)
		}
	}
}
