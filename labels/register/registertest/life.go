package registertest

import (
	"context"
	"errors"
	"testing"
	"time"

	"chablon/labels/register"
)

// What is handed out and in may be changed without changing what is kept.
func testSharesNothing(t *testing.T, s Suite) {
	b := s.open(t)
	in := card("tartlet", "4", "bench")
	post := b.post(in)
	in.Langs[0], post.Copy.Langs[0] = "xx", "yy"
	b.posted()[0].Langs[0] = "zz"
	b.history("")[0].Langs[0] = "ww"
	near := card("tartlet", "4", "bench")
	near.N = 2
	b.post(near).Beside[0].Langs[0] = "vv"
	b.post(card("tartlet", "4", "bench")).Replaced[0].Langs[0] = "uu"
	for _, c := range b.history("") {
		same(t, "languages kept", c.Langs, []string{"en", "fr"})
	}
	b.take("cartons", 1, 1)
	b.taken("cartons")[0].To = 99
	same(t, "blocks kept", b.taken("cartons")[0].To, 1)
}

// calls are all calls of a register.
func calls(r register.Register) map[string]func(context.Context) error {
	return map[string]func(context.Context) error{
		"post":      func(ctx context.Context) error { _, err := r.Post(ctx, card("a", "1", "b")); return err },
		"take down": func(ctx context.Context) error { _, err := r.TakeDown(ctx, 1, start); return err },
		"posted":    func(ctx context.Context) error { _, err := r.Posted(ctx); return err },
		"history":   func(ctx context.Context) error { _, err := r.History(ctx, ""); return err },
		"take":      func(ctx context.Context) error { _, err := r.Take(ctx, want("a", 1, 1)); return err },
		"taken":     func(ctx context.Context) error { _, err := r.Taken(ctx, "a"); return err },
		"record":    func(ctx context.Context) error { _, err := r.Record(ctx, label("a", "b")); return err },
		"claim all": func(ctx context.Context) error {
			_, err := r.ClaimAll(ctx, []register.Print{label("a", "b")})
			return err
		},
		"prints":   func(ctx context.Context) error { _, err := r.Prints(ctx, register.Query{}); return err },
		"wrote":    func(ctx context.Context) error { return r.Wrote(ctx, []int64{1}, start) },
		"end":      func(ctx context.Context) error { return r.End(ctx, end(1, 1, register.Void)) },
		"ended":    func(ctx context.Context) error { _, err := r.Ended(ctx, "labels"); return err },
		"sent":     func(ctx context.Context) error { return r.Sent(ctx, sending("A", register.Going)) },
		"sendings": func(ctx context.Context) error { _, err := r.Sendings(ctx); return err },
	}
}

func testClosed(t *testing.T, s Suite) {
	b := s.open(t)
	b.post(card("a", "1", "b"))
	for range 2 { // closing twice does no harm
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	for name, call := range calls(b) {
		refused(t, name, call(context.Background()), register.Closed)
	}
}

func testEnded(t *testing.T, s Suite) {
	b := s.open(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for name, call := range calls(b) {
		if err := call(ctx); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: got %v, want that the context was ended", name, err)
		}
	}
	same(t, "nothing was done", len(b.history(""))+len(b.taken("a"))+len(b.prints(register.Query{})), 0)
	b.take("a", 1, 1) // and the register goes on
}

// What was kept is there after the register was closed and opened again.
func testKept(t *testing.T, s Suite) {
	if s.Reopen == nil {
		t.Skip("nothing outlives Close")
	}
	b := s.open(t)
	b.post(card("tartlet", "3", "oven wall"))
	next := card("tartlet", "4", "oven wall")
	next.At = start.Add(time.Hour)
	b.post(next)
	b.post(card("bar", "1", "bench"))
	if _, err := b.TakeDown(b.ctx, 3, start); err != nil {
		t.Fatal(err)
	}
	b.take("cartons", 12, 27)
	b.record(numbered("cartons", 27, 30))
	whole := numbered("labels", 1, 9)
	whole.Pack, whole.Market, whole.Langs, whole.Paper, whole.Asked, whole.File = "box-of-2", "here", "en,fr", "roll-100x60", "day", "labels-tartlet.pdf"
	p := b.claim(whole)[0]
	if err := errors.Join(b.Wrote(b.ctx, []int64{p.Number}, start), b.End(b.ctx, end(2, 4, register.Void))); err != nil {
		t.Fatal(err)
	}
	whole.Number, whole.Written = p.Number, true
	same(t, "each field", b.prints(register.Query{Series: "labels"})[0], whole)
	copies, hangs, blocks, prints := b.history(""), b.posted(), b.taken("cartons"), b.prints(register.Query{})
	ended := b.ended()
	for range 3 {
		b.Register = s.Reopen(t, b.Register)
		same(t, "copies", b.history(""), copies)
		same(t, "what hangs", b.posted(), hangs)
		same(t, "blocks", b.taken("cartons"), blocks)
		same(t, "prints", b.prints(register.Query{}), prints)
		same(t, "ends", b.ended(), ended)
	}
	same(t, "the next number", b.take("cartons", 1, 0).From, 39)
	same(t, "the next copy", b.post(card("x", "1", "y")).Copy.Number, 4)
	same(t, "the next print", b.record(label("x", "y")).Number, 3)
	_, err := b.Record(b.ctx, numbered("cartons", 30, 31))
	refused(t, "printed before", err, register.Before)
}
