// Package registertest answers: does a register keep its word?
//
// It is the one suite that every implementation of register.Register passes:
// [Suite.Run] for what each call does, for many goroutines and for random
// calls; [Crowd] and [Crash] for several processes and for processes that are
// killed; [Suite.Bench] for speed.
package registertest

import (
	"context"
	"reflect"
	"strings"
	"testing"
	"time"

	"chablon/labels/register"
)

// Suite is one implementation.
type Suite struct {
	// New makes an empty register that shares nothing with any other; the
	// suite closes it.
	New func(tb testing.TB) register.Register

	// Reopen closes r and opens what it kept. Nil means that nothing outlives
	// Close.
	Reopen func(tb testing.TB, r register.Register) register.Register
}

// Run tests the implementation.
func (s Suite) Run(t *testing.T) {
	for _, c := range []struct {
		name string
		test func(*testing.T, Suite)
	}{
		{"post", testPost},
		{"replace", testReplace},
		{"take down", testTakeDown},
		{"walk", testWalk},
		{"history", testHistory},
		{"copies refused", testCopiesRefused},
		{"take", testTake},
		{"take refused", testTakeRefused},
		{"taken", testTaken},
		{"record", testRecord},
		{"record numbers", testRecordNumbers},
		{"prints", testPrints},
		{"claim", testClaim},
		{"claim refused", testClaimRefused},
		{"asked once", testAskedOnce},
		{"states", testStates},
		{"end refused", testEndRefused},
		{"void", testVoid},
		{"sendings", testSendings},
		{"shares nothing", testSharesNothing},
		{"closed", testClosed},
		{"ended context", testEnded},
		{"kept", testKept},
		{"goroutines take", testGoroutinesTake},
		{"goroutines post", testGoroutinesPost},
		{"goroutines claim", testGoroutinesClaim},
		{"random calls", testRandom},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, s) })
	}
}

// open makes a register that the test closes.
func (s Suite) open(tb testing.TB) *book {
	b := &book{TB: tb, Register: s.New(tb), ctx: context.Background()}
	tb.Cleanup(func() {
		if err := b.Close(); err != nil {
			tb.Errorf("closing: %v", err)
		}
	})
	return b
}

// book is a register under test; its methods end the test on an error.
type book struct {
	testing.TB
	register.Register
	ctx context.Context
}

func (b *book) post(c register.Copy) register.Posting {
	b.Helper()
	p, err := b.Post(b.ctx, c)
	if err != nil {
		b.Fatal(err)
	}
	return p
}

func (b *book) posted() []register.Copy {
	b.Helper()
	all, err := b.Posted(b.ctx)
	if err != nil {
		b.Fatal(err)
	}
	return all
}

func (b *book) history(id string) []register.Copy {
	b.Helper()
	all, err := b.History(b.ctx, id)
	if err != nil {
		b.Fatal(err)
	}
	return all
}

func (b *book) take(name string, n, first int64) register.Block {
	b.Helper()
	block, err := b.Take(b.ctx, want(name, n, first))
	if err != nil {
		b.Fatal(err)
	}
	return block
}

func (b *book) taken(series string) []register.Block {
	b.Helper()
	all, err := b.Taken(b.ctx, series)
	if err != nil {
		b.Fatal(err)
	}
	return all
}

func (b *book) record(p register.Print) register.Print {
	b.Helper()
	p, err := b.Record(b.ctx, p)
	if err != nil {
		b.Fatal(err)
	}
	return p
}

func (b *book) prints(q register.Query) []register.Print {
	b.Helper()
	all, err := b.Prints(b.ctx, q)
	if err != nil {
		b.Fatal(err)
	}
	return all
}

// failer is a test or a random try of one.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// same ends the test unless got is want.
func same[T any](tb failer, what string, got, want T) {
	tb.Helper()
	if !reflect.DeepEqual(got, want) {
		tb.Fatalf("%s:\n got %+v\nwant %+v", what, got, want)
	}
}

// refused ends the test unless err is a refusal by rule, with a hint and in the
// form of all findings.
func refused(tb failer, what string, err error, rule register.Rule) {
	tb.Helper()
	if register.RuleOf(err) != rule {
		tb.Fatalf("%s: got %v (%s), want a refusal by %s", what, err, register.RuleOf(err), rule)
	}
	hinted, ok := err.(interface{ Hint() string })
	if !ok || hinted.Hint() == "" || strings.HasSuffix(err.Error(), ".") {
		tb.Fatalf("%s: %q needs a hint and no full stop", what, err)
	}
}

// start is the moment of the first call.
var start = time.Date(2026, 3, 17, 4, 30, 0, 0, time.UTC)

// card is a copy of a card that can be posted.
func card(id, version, place string) register.Copy {
	return register.Copy{ID: id, Version: version, Issued: "2026-03-02", CheckWord: "MALT", Size: "48 pieces",
		N: 1, Of: 3, Place: place, Paper: "card-a4", Langs: []string{"en", "fr"}, At: start}
}

func want(name string, n, first int64) register.Want {
	return register.Want{Series: register.Series{Name: name, First: first}, N: n, At: start, For: "tartlets"}
}

// label is a print without numbers.
func label(id, batch string) register.Print {
	return register.Print{Kind: "label", ID: id, Version: "4", CheckWord: "MALT", Batch: batch, Made: "2026-03-17",
		Count: 24, Digest: "8f14e45fceea167a", At: start}
}

// numbered is a print with numbers.
func numbered(series string, from, to int64) register.Print {
	p := label("pear-hazelnut-tartlet", "L26076A")
	p.Series, p.From, p.To = series, from, to
	return p
}
