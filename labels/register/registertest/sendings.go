package registertest

import (
	"testing"
	"time"

	"chablon/labels/register"
)

func sending(mark string, came register.Came) register.Sending {
	return register.Sending{Mark: mark, Printer: "roll-desk", What: "labels of tart 0001-0003", Series: "labels", From: 1, To: 3, Pages: 3, Came: came, At: start}
}

func (b *book) sendings() []register.Sending {
	b.Helper()
	all, err := b.Sendings(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	return all
}

// A job is noted before it is sent, and ends once; what nobody knows may still
// be found out.
func testSendings(t *testing.T, s Suite) {
	b := s.open(t)
	note := func(mark string, came register.Came) {
		t.Helper()
		step := sending(mark, came)
		step.At = start.Add(time.Duration(len(b.sendings())) * time.Second)
		if err := b.Sent(b.ctx, step); err != nil {
			t.Fatal(err)
		}
	}
	refused(t, "never sent", b.Sent(b.ctx, sending("A", register.Printed)), register.Input)
	note("A", register.Going)
	note("B", register.Going)
	note("A", register.Unknown)
	refused(t, "sent twice", b.Sent(b.ctx, sending("A", register.Going)), register.Input)
	note("A", register.Printed)
	note("B", register.Refused)
	refused(t, "ended twice", b.Sent(b.ctx, sending("A", register.Refused)), register.Input)
	refused(t, "ended twice", b.Sent(b.ctx, sending("B", register.Printed)), register.Input)
	for _, bad := range []func(*register.Sending){
		func(s *register.Sending) { s.Mark = "" }, func(s *register.Sending) { s.Printer = "" }, func(s *register.Sending) { s.Came = "gone" },
		func(s *register.Sending) { s.From = 0 }, func(s *register.Sending) { s.Series = "" }, func(s *register.Sending) { s.Pages = 0 },
	} {
		step := sending("C", register.Going)
		bad(&step)
		refused(t, "bad", b.Sent(b.ctx, step), register.Input)
	}
	var came []register.Came
	for i, step := range b.sendings() {
		came = append(came, step.Came)
		want := sending(step.Mark, step.Came)
		want.At = start.Add(time.Duration(i) * time.Second)
		same(t, "step", step, want)
	}
	same(t, "steps", came, []register.Came{register.Going, register.Going, register.Unknown, register.Printed, register.Refused})
}
