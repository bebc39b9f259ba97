package tracetest

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"

	"chablon/labels/register"
	"chablon/labels/trace"
)

// RunBooks tests an implementation of trace.Books beyond what [Run] and
// registertest test of its two halves; open is as there.
func RunBooks(t *testing.T, open func(testing.TB) trace.Books) {
	for _, c := range []struct {
		name string
		test func(*testing.T, books)
	}{
		{"claim with", testClaimWith},
		{"try", testTry},
		{"nothing withdrawn is printed", testNotPrinted},
		{"one batch, one label", testOneLabel},
		{"end with", testEndWith},
		{"recall and print at once", testRecallAtOnce},
		{"ended context", testContext},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := open(t)
			c.test(t, books{Books: b, book: book{t, b}})
		})
	}
}

// books are books under test.
type books struct {
	trace.Books
	book book
}

// label is a claim of labels of a batch of the bench tin.
func label(code string, from, to int64) register.Print {
	return register.Print{Kind: "label", ID: "bench-tin", Batch: code, Made: "2026-03-17", Series: "label/bench-tin/" + code,
		From: from, To: to, Count: to - from + 1, Digest: "8f14e45f", At: noon}
}

// opens is the event that opens a batch with what its label says.
func opens(code, facts string) trace.Event {
	return trace.Event{Kind: trace.Make, At: noon, Noted: noon, Made: "2026-03-17", Facts: facts, Out: bare(batch("bench-tin", code))}
}

// holds ends the test unless the books hold so many prints and events.
func (b books) holds(what string, prints, events int) {
	b.book.Helper()
	p, err := b.Prints(context.Background(), register.Query{})
	e, err2 := b.Events(context.Background())
	if err := errors.Join(err, err2); err != nil || len(p) != prints || len(e) != events {
		b.book.Fatalf("%s: %d prints and %d events, want %d and %d (%v)", what, len(p), len(e), prints, events, err)
	}
}

// Claims and events are kept together or not at all; a batch is opened once.
func testClaimWith(t *testing.T, b books) {
	ctx := context.Background()
	pack := trace.Event{Kind: trace.Pack, At: noon, Noted: noon, In: bare(batch("bench-tin", "L1")), Out: bare(carton(1))}
	if _, err := b.ClaimWith(ctx, []register.Print{label("L1", 1, 5)}, []trace.Event{opens("L1", "AA"), pack}); err != nil {
		t.Fatal(err)
	}
	b.holds("first", 1, 2)
	if _, err := b.ClaimWith(ctx, []register.Print{label("L1", 6, 9)}, []trace.Event{opens("L1", "AA")}); err != nil {
		t.Fatal(err)
	}
	b.holds("opened once", 2, 2)
	_, err := b.ClaimWith(ctx, []register.Print{label("L1", 10, 11)}, []trace.Event{pack})
	if register.RuleOf(err) != register.Input {
		t.Errorf("one carton is packed twice: %v", err)
	}
	_, err = b.ClaimWith(ctx, []register.Print{label("L1", 9, 11)}, []trace.Event{opens("L2", "AA")})
	if register.RuleOf(err) != register.Before {
		t.Errorf("one number twice: %v", err)
	}
	b.holds("refused", 2, 2)
}

// Try says what ClaimWith would say, and keeps nothing.
func testTry(t *testing.T, b books) {
	ctx := context.Background()
	if err := b.Try(ctx, []register.Print{label("L1", 1, 5)}, []trace.Event{opens("L1", "AA")}); err != nil {
		t.Fatal(err)
	}
	b.holds("tried", 0, 0)
	if _, err := b.ClaimWith(ctx, []register.Print{label("L1", 1, 5)}, []trace.Event{opens("L1", "AA")}); err != nil {
		t.Fatal(err)
	}
	if err := b.Try(ctx, []register.Print{label("L1", 5, 6)}, nil); register.RuleOf(err) != register.Before {
		t.Errorf("got %v", err)
	}
	if err := b.Try(ctx, []register.Print{label("L1", 6, 6)}, []trace.Event{opens("L1", "BB")}); register.RuleOf(err) == "" {
		t.Errorf("got %v", err)
	}
	b.holds("refused", 1, 1)
}

// Labels of what was withdrawn, or is made of it, are refused, the first ones and
// again; of what is made of something else they are not.
func testNotPrinted(t *testing.T, b books) {
	ctx := context.Background()
	apricots(b.book) // bench-tin L26076A is made of it
	if _, err := b.ClaimWith(ctx, []register.Print{label("L26076A", 1, 5)}, nil); err != nil {
		t.Fatal(err)
	}
	gone := b.book.note(trace.Event{Kind: trace.Withdraw, Why: "glass", In: bare(lot("dried-apricot", "OF-88"))})
	again := label("L26076A", 2, 2)
	again.Again = "jam"
	for what, p := range map[string]register.Print{"the next": label("L26076A", 6, 9), "again": again} {
		if _, err := b.ClaimWith(ctx, []register.Print{label("L26077A", 1, 1), p}, nil); register.RuleOf(err) != register.Withdrawn {
			t.Errorf("%s of a withdrawn batch: %v", what, err)
		}
	}
	if _, err := b.ClaimWith(ctx, []register.Print{label("L26077A", 1, 1)}, nil); err != nil {
		t.Errorf("another batch: %v", err)
	}
	b.book.note(trace.Event{Kind: trace.Undo, Undoes: gone.Number, Why: "another lot"})
	if _, err := b.ClaimWith(ctx, []register.Print{again}, nil); err != nil {
		t.Errorf("the withdrawal was undone: %v", err)
	}
}

// A batch has one day, one date and one label.
func testOneLabel(t *testing.T, b books) {
	ctx := context.Background()
	if _, err := b.ClaimWith(ctx, []register.Print{label("L1", 1, 5)}, []trace.Event{opens("L1", "AA")}); err != nil {
		t.Fatal(err)
	}
	day, until := opens("L1", "AA"), opens("L1", "AA")
	day.Made, until.Until = "2026-03-18", "2026-03-20"
	if _, err := b.ClaimWith(ctx, nil, []trace.Event{until}); err != nil { // no date was said until now
		t.Fatal(err)
	}
	until.Until = "2026-03-21"
	for what, e := range map[string]trace.Event{"another day": day, "another date": until, "another label": opens("L1", "BB")} {
		if _, err := b.ClaimWith(ctx, []register.Print{label("L1", 6, 6)}, []trace.Event{e}); register.RuleOf(err) == "" {
			t.Errorf("%s: %v", what, err)
		}
	}
	b.holds("refused", 1, 2)
}

// What became of numbers and what is undone with it are one fact.
func testEndWith(t *testing.T, b books) {
	ctx := context.Background()
	pack := trace.Event{Kind: trace.Pack, At: noon, Noted: noon, In: bare(batch("bench-tin", "L1")), Out: bare(carton(1))}
	if _, err := b.ClaimWith(ctx, []register.Print{label("L1", 1, 5)}, []trace.Event{opens("L1", "AA"), pack}); err != nil {
		t.Fatal(err)
	}
	void := register.End{Series: "label/bench-tin/L1", From: 1, To: 1, State: register.Void, Why: "not in the plan", At: noon}
	undo := trace.Event{Kind: trace.Undo, At: noon, Noted: noon, Undoes: 2, Why: "not in the plan"}
	bad := undo
	bad.Undoes = 99
	if err := b.EndWith(ctx, []register.End{void}, []trace.Event{bad}); err == nil {
		t.Error("an event that is not there is undone")
	}
	if all, err := b.Ended(ctx, void.Series); err != nil || len(all) != 0 {
		t.Errorf("half of it was kept: %v %v", all, err)
	}
	if err := b.EndWith(ctx, []register.End{void}, []trace.Event{undo}); err != nil {
		t.Fatal(err)
	}
	if err := b.EndWith(ctx, []register.End{void}, nil); register.RuleOf(err) != register.Ended {
		t.Errorf("void twice: %v", err)
	}
	b.holds("ended", 1, 3)
}

// A recall and a print at the same moment: the print comes before the recall in
// the book, or is refused.
func testRecallAtOnce(t *testing.T, b books) {
	ctx := context.Background()
	for i := range 8 {
		code := fmt.Sprint("R", i)
		b.book.note(opens(code, "AA"))
		var wg sync.WaitGroup
		wg.Go(func() {
			_, err := b.ClaimWith(ctx, []register.Print{label(code, 1, 1)}, nil)
			if rule := register.RuleOf(err); err != nil && rule != register.Withdrawn {
				t.Errorf("refused by %q: %v", rule, err)
			}
		})
		wg.Go(func() {
			b.book.note(trace.Event{Kind: trace.Withdraw, Why: "glass", In: bare(batch("bench-tin", code))})
		})
		wg.Wait()
		if _, err := b.ClaimWith(ctx, []register.Print{label(code, 2, 2)}, nil); register.RuleOf(err) != register.Withdrawn {
			t.Errorf("printed after the recall: %v", err)
		}
	}
}

// A call whose context is over has done nothing, and says so.
func testContext(t *testing.T, b books) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for name, call := range map[string]func() error{
		"claim with": func() error { _, err := b.ClaimWith(ctx, []register.Print{label("L1", 1, 1)}, nil); return err },
		"try":        func() error { return b.Try(ctx, []register.Print{label("L1", 1, 1)}, nil) },
		"end with":   func() error { return b.EndWith(ctx, nil, []trace.Event{opens("L1", "AA")}) },
		"note":       func() error { _, err := b.Note(ctx, opens("L1", "AA")); return err },
		"with": func() error {
			_, err := b.With(ctx, trace.Out, []trace.Thing{batch("bench-tin", "L1")})
			return err
		},
		"named": func() error { _, err := b.Named(ctx, "L1"); return err },
	} {
		if err := call(); !errors.Is(err, context.Canceled) {
			t.Errorf("%s: %v", name, err)
		}
	}
	b.holds("nothing", 0, 0)
}
