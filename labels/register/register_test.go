package register_test

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"chablon/labels/register"
	"chablon/labels/register/registertest"
)

var start = time.Date(2026, 3, 17, 4, 30, 0, 0, time.UTC)

func memory() registertest.Suite {
	return registertest.Suite{New: func(testing.TB) register.Register { return new(register.Memory) }}
}

func TestMemory(t *testing.T) { memory().Run(t) }

func BenchmarkMemory(b *testing.B) { memory().Bench(b) }

func Example() {
	ctx := context.Background()
	var r register.Register = new(register.Memory)
	morning := time.Date(2026, 3, 17, 4, 30, 0, 0, time.UTC)

	card := register.Copy{ID: "pear-hazelnut-tartlet", Version: "3", CheckWord: "MALT", Size: "48 pieces",
		N: 1, Of: 2, Place: "oven wall", At: morning}
	posting, err := r.Post(ctx, card)
	fmt.Println("copy", posting.Copy.Number, err)

	posted, _ := r.Posted(ctx)
	for _, s := range register.OutOfDate(posted, func(register.Copy) (register.Current, bool) {
		return register.Current{Version: "4", CheckWord: "FERN"}, true
	}) {
		fmt.Printf("%s: take down %s version %s, now %s\n", s.Copy.Place, s.Copy.CheckWord, s.Copy.Version, s.Now.Version)
	}

	cartons := register.SSCC(0, "9520001")
	_, err = r.Take(ctx, register.Want{Series: cartons, N: 2, At: morning})
	fmt.Println(err)
	cartons.First = 27
	block, _ := r.Take(ctx, register.Want{Series: cartons, N: 2, At: morning})
	fmt.Println(block.From, "to", block.To)
	// Output:
	// copy 1 <nil>
	// oven wall: take down MALT version 3, now 4
	// no number of the series sscc/0/9520001 was ever given
	// 27 to 28
}

func TestOutOfDate(t *testing.T) {
	posted := []register.Copy{
		{Number: 1, ID: "same", Version: "4", CheckWord: "MALT"},
		{Number: 2, ID: "version", Version: "3", CheckWord: "MALT"},
		{Number: 3, ID: "word", Version: "4", CheckWord: "FERN"},
		{Number: 4, ID: "gone", Version: "4", CheckWord: "MALT"},
		{Number: 5, ID: "version", Version: "3", CheckWord: "MALT", Down: start},
		{Number: 6, ID: "small", Size: "24 pieces", Version: "4", CheckWord: "MALT"},
		{Number: 7, ID: "case", Version: "4", CheckWord: "malt"},
	}
	now := register.Current{Version: "4", CheckWord: "MALT"}
	got := register.OutOfDate(posted, func(c register.Copy) (register.Current, bool) {
		switch {
		case c.ID == "gone":
			return register.Current{}, false
		case c.Size == "24 pieces": // the word is made from what stands on the card
			return register.Current{Version: "4", CheckWord: "ROWAN"}, true
		}
		return now, true
	})
	var said []string
	for _, s := range got {
		said = append(said, fmt.Sprintf("%d %v %v", s.Copy.Number, s.Now, s.Gone))
	}
	if want := "2 {4 MALT} false 3 {4 MALT} false 4 { } true 6 {4 ROWAN} false 7 {4 MALT} false"; strings.Join(said, " ") != want {
		t.Errorf("got  %s\nwant %s", strings.Join(said, " "), want)
	}
	if got := register.OutOfDate(nil, nil); len(got) != 0 {
		t.Errorf("of nothing: %v", got)
	}
}

// An SSCC has 17 digits before its check digit: one extension digit, and 16
// for company prefix and serial reference (GS1 General Specifications, AI 00).
func TestSSCCHasSixteenDigits(t *testing.T) {
	for prefix, last := range map[string]int64{
		"9520001":               999_999_999,
		"401234567":             9_999_999,
		"401234567890":          9_999,
		"4012":                  999_999_999_999,
		"":                      9_999_999_999_999_999,
		"4012345678901":         999, // longer than any prefix, and still not endless
		strings.Repeat("4", 17): 1,
	} {
		s := register.SSCC(3, prefix)
		if s.Last != last || s.First != 0 || s.Name != "sscc/3/"+prefix {
			t.Errorf("%q: %+v, want last %d", prefix, s, last)
		}
	}
}

// Names of series differ where the numbers must be told apart.
func TestSeriesNames(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range []register.Series{register.SSCC(0, "9520001"), register.SSCC(1, "9520001"), register.SSCC(0, "19520001"),
		register.Labels("a", "b"), register.Labels("b", "a"), register.Labels("a-b", "c"), register.Labels("a", "b-c")} {
		if seen[s.Name] {
			t.Errorf("%s stands for two series", s.Name)
		}
		seen[s.Name] = true
	}
}

func TestNextIsAboveAllGiven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		last := rapid.Int64Range(0, math.MaxInt64).Draw(t, "last")
		w := register.Want{N: rapid.Int64Range(1, 100).Draw(t, "n"), Series: register.Series{Name: "x",
			First: rapid.Int64Range(0, math.MaxInt64).Draw(t, "first"), Last: rapid.Int64Range(0, math.MaxInt64).Draw(t, "end")}}
		b, err := w.Next(last)
		if err != nil {
			if register.RuleOf(err) == "" {
				t.Fatalf("an error that is no refusal: %v", err)
			}
			return
		}
		if b.From <= last || b.From < w.Series.First || b.To < b.From || b.To-b.From+1 != w.N || w.Series.Last != 0 && b.To > w.Series.Last {
			t.Fatalf("%+v after %d gives %+v", w, last, b)
		}
	})
}

// Spans agrees with looking at each number alone.
func TestSpans(t *testing.T) {
	ctx, states := context.Background(), []register.State{register.Taken, register.Written, register.Applied, register.Void}
	rapid.Check(t, func(rt *rapid.T) {
		b, want := new(register.Memory), map[int64]register.State{}
		for range rapid.IntRange(1, 12).Draw(rt, "calls") {
			from := rapid.Int64Range(1, 30).Draw(rt, "from")
			to := from + rapid.Int64Range(0, 9).Draw(rt, "more")
			state := rapid.SampledFrom(states).Draw(rt, "state")
			if state == register.Applied || state == register.Void {
				if b.End(ctx, register.End{Series: "labels", From: from, To: to, State: state, Why: "torn", At: start}) != nil {
					continue
				}
			} else {
				p, err := b.ClaimAll(ctx, []register.Print{{Kind: "label", ID: "tartlet", Series: "labels", From: from, To: to, Count: 1, Digest: "d", At: start}})
				if err != nil {
					continue
				}
				if state == register.Written {
					_ = b.Wrote(ctx, []int64{p[0].Number}, start)
				}
			}
			for n := from; n <= to; n++ {
				want[n] = state
			}
		}
		given, _ := b.Taken(ctx, "labels")
		prints, _ := b.Prints(ctx, register.Query{Series: "labels"})
		ended, _ := b.Ended(ctx, "labels")
		got, last := map[int64]register.State{}, register.Span{}
		for _, s := range register.Spans(given, prints, ended) {
			if s.From <= last.To || s.From == last.To+1 && s.State == last.State {
				rt.Fatalf("%v behind %v", s, last)
			}
			for last = s; s.From <= s.To; s.From++ {
				got[s.From] = s.State
			}
		}
		if !maps.Equal(got, want) {
			rt.Fatalf("got  %v\nwant %v", got, want)
		}
	})
}

func TestCovers(t *testing.T) {
	blocks := []register.Block{{From: 1, To: 3}, {From: 4, To: 4}, {From: 8, To: 9}}
	for n := range int64(12) {
		for m := n; m < 12; m++ {
			want := true
			for i := n; i <= m; i++ {
				want = want && (1 <= i && i <= 4 || 8 <= i && i <= 9)
			}
			if got := register.Covers(blocks, n, m); got != want {
				t.Errorf("%d to %d: %v", n, m, got)
			}
		}
	}
}

func TestErrors(t *testing.T) {
	cause := fs.ErrPermission
	err := fmt.Errorf("posting: %w", register.Refuse(register.Unwritten, "is the disk full?", "the file %q cannot be written", "a").Because(cause))
	if register.RuleOf(err) != register.Unwritten || !errors.Is(err, cause) {
		t.Errorf("%v lost its rule or its cause", err)
	}
	if got, want := err.Error(), `posting: the file "a" cannot be written (permission denied)`; got != strings.Replace(want, "permission denied", cause.Error(), 1) {
		t.Errorf("got %q", got)
	}
	if register.RuleOf(nil) != "" || register.RuleOf(cause) != "" {
		t.Error("an error that is no refusal has a rule")
	}
	if _, err := register.Moment(start); err != nil {
		t.Errorf("a moment that can be: %v", err) // a nil *Error in an error would not be nil
	}
}

// Texts from outside are refused or kept in a form that is kept again the same.
func FuzzClean(f *testing.F) {
	for _, s := range []string{"oven wall", " oven\twall ", "", "\xff", "a\x00", "é", "\u2028", strings.Repeat("x", 300)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := register.Copy{ID: s, Version: s, CheckWord: s, Place: s, Size: s, Paper: s, Langs: []string{s}, N: 1, Of: 1, At: start}.Clean()
		if err != nil {
			return
		}
		again, err := c.Clean()
		if err != nil || fmt.Sprint(again) != fmt.Sprint(c) || !again.SameAs(c) {
			t.Fatalf("%q: %+v becomes %+v, %v", s, c, again, err)
		}
	})
}
