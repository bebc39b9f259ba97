package registertest

import (
	"fmt"
	"testing"

	"chablon/labels/register"
)

func end(from, to int64, s register.State) register.End {
	e := register.End{Series: "labels", From: from, To: to, State: s, At: start}
	if s == register.Void {
		e.Why = "torn"
	}
	return e
}

func (b *book) ended() []register.End {
	b.Helper()
	all, err := b.Ended(b.ctx, "labels")
	if err != nil {
		b.Fatal(err)
	}
	return all
}

// spans says in one line how far each number has come.
func (b *book) spans() (out string) {
	for _, s := range register.Spans(b.taken("labels"), b.prints(register.Query{Series: "labels"}), b.ended()) {
		out += fmt.Sprintf("%d-%d %s, ", s.From, s.To, s.State)
	}
	return out
}

// A number is taken, written, and then applied or void; it never goes back.
func testStates(t *testing.T, s Suite) {
	b := s.open(t)
	b.take("labels", 3, 1)
	first := b.claim(numbered("labels", 1, 3))[0]
	same(t, "claimed", b.spans(), "1-3 taken, ")
	same(t, "written", first.Written, false)
	second := b.claim(numbered("labels", 4, 23))[0]
	for range 2 { // noting it twice does no harm
		if err := b.Wrote(b.ctx, []int64{second.Number}, start); err != nil {
			t.Fatal(err)
		}
	}
	same(t, "written", b.prints(register.Query{Series: "labels"})[1].Written, true)
	refused(t, "no such print", b.Wrote(b.ctx, []int64{second.Number, 99}, start), register.Input)
	if err := b.End(b.ctx, end(7, 7, register.Void), end(12, 13, register.Void), end(4, 6, register.Applied)); err != nil {
		t.Fatal(err)
	}
	same(t, "spans", b.spans(), "1-3 taken, 4-6 applied, 7-7 void, 8-11 written, 12-13 void, 14-23 written, ")
	if err := b.End(b.ctx, end(5, 5, register.Void), end(1, 1, register.Void)); err != nil { // taken off again; and never printed
		t.Fatal(err)
	}
	same(t, "spans", b.spans(), "1-1 void, 2-3 taken, 4-4 applied, 5-5 void, 6-6 applied, 7-7 void, 8-11 written, 12-13 void, 14-23 written, ")
}

// What an end is refused for, and that nothing of the call is then kept.
func testEndRefused(t *testing.T, s Suite) {
	b := s.open(t)
	b.take("labels", 3, 1)
	p := b.claim(numbered("labels", 4, 23))[0]
	if err := b.Wrote(b.ctx, []int64{p.Number}, start); err != nil {
		t.Fatal(err)
	}
	if err := b.End(b.ctx, end(7, 9, register.Void), end(10, 11, register.Applied)); err != nil {
		t.Fatal(err)
	}
	unsaid, strange, unborn := end(20, 20, register.Void), end(20, 20, register.Taken), end(20, 20, register.Void)
	unsaid.Why, unborn.Series = "", "unheard of"
	for _, c := range []struct {
		name string
		e    register.End
		rule register.Rule
	}{
		{"never given", end(23, 24, register.Void), register.NotTaken},
		{"another series", unborn, register.NotTaken},
		{"applied, on no paper", end(3, 4, register.Applied), register.NotTaken},
		{"void twice", end(6, 7, register.Void), register.Ended},
		{"applied twice", end(11, 12, register.Applied), register.Ended},
		{"applied after void", end(9, 9, register.Applied), register.Ended},
		{"twice in one call", end(19, 19, register.Void), register.Ended},
		{"no reason", unsaid, register.Input},
		{"no end", strange, register.Input},
		{"backwards", end(20, 19, register.Void), register.Input},
	} {
		before := b.ended()
		refused(t, c.name, b.End(b.ctx, end(19, 19, register.Void), c.e), c.rule)
		same(t, c.name+" leaves nothing", b.ended(), before)
	}
}

// A void number is on no paper any more, not even again.
func testVoid(t *testing.T, s Suite) {
	b := s.open(t)
	b.claim(numbered("labels", 1, 5))
	b.take("labels", 5, 0)
	if err := b.End(b.ctx, end(3, 3, register.Void), end(7, 7, register.Void)); err != nil {
		t.Fatal(err)
	}
	again := numbered("labels", 2, 4)
	again.Again = "jam"
	_, err := b.ClaimAll(b.ctx, []register.Print{again})
	refused(t, "claimed again", err, register.Ended)
	_, err = b.Record(b.ctx, again)
	refused(t, "recorded again", err, register.Ended)
	_, err = b.ClaimAll(b.ctx, []register.Print{numbered("labels", 6, 10)})
	refused(t, "claimed", err, register.Ended)
	again.From, again.To = 4, 5
	b.claim(again, numbered("labels", 8, 10))
	same(t, "prints", len(b.prints(register.Query{})), 3)
}
