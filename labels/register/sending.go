package register

import (
	"slices"
	"time"
)

// A Sending is one step of a job that went to a printer. Steps are added and
// never changed: the last one of a job says how far it has come.
type Sending struct {
	Mark     string // of the job, and of no other
	Printer  string // id
	What     string // what was sent
	Series   string // name of the series that its numbers are of, or ""
	From, To int64  // its numbers; 0 without a series
	Pages    int64
	Came     Came
	Why      string
	At       time.Time // UTC, whole seconds
}

// Came is how far a job has come.
type Came string

// How far a job may have come. Where it stays at Sending or Unknown nobody knows
// whether it is on paper; what is Refused is on none.
const (
	Going   Came = "sending" // noted before it is sent
	Printed Came = "printed"
	Refused Came = "refused" // by the printer, or nothing reached it
	Stopped Came = "stopped" // a part of it may be on paper
	Unknown Came = "unknown"
)

// cames are all of them.
var cames = []Came{Going, Printed, Refused, Stopped, Unknown}

// Open reports whether nobody knows what became of the job.
func (s Sending) Open() bool { return s.Came == Going || s.Came == Unknown }

// Clean is s as a register keeps it. The error is an [*Error].
func (s Sending) Clean() (Sending, error) {
	var f fields
	s.Mark, s.Printer, s.What = f.must("the job", s.Mark), f.must("the printer", s.Printer), f.must("what was sent", s.What)
	s.Series, s.Why = f.text("the series", s.Series), f.text("why", s.Why)
	if !slices.Contains(cames, s.Came) {
		f.refuse("say how far it has come", "a job cannot be %q", s.Came)
	}
	if s.Series == "" && (s.From != 0 || s.To != 0) || s.Series != "" && (s.From < 1 || s.To < s.From) {
		f.refuse("say which series they are of", "numbers %d to %d cannot be sent", s.From, s.To)
	}
	if s.Pages < 1 {
		f.refuse("say how many pages it has", "a job of %d pages cannot be sent", s.Pages)
	}
	s.At = f.moment(s.At)
	return s, f.done()
}

// May refuses a step that cannot be, before being the steps of the same job: a
// job begins with [Going], and behind an end of it nothing comes. It is the
// one rule, for all implementations. The error is an [*Error].
func (s Sending) May(before []Sending) error {
	if len(before) == 0 {
		if s.Came != Going {
			return Refuse(Input, "note it before it is sent", "job %s was never noted as sent", s.Mark)
		}
		return nil
	}
	if last := before[len(before)-1]; !last.Open() || s.Came == Going {
		return Refuse(Input, "send it as a new job", "job %s is noted as %s already", s.Mark, last.Came)
	}
	return nil
}
