package registertest

import (
	"math"
	"strings"
	"testing"
	"time"

	"chablon/labels/register"
)

// A block is what was asked for, right above all that was given before.
func testTake(t *testing.T, s Suite) {
	b := s.open(t)
	for _, c := range []struct {
		series         string
		n, first       int64
		wantLo, wantHi int64
	}{
		{"cartons", 2, 27, 27, 28}, // begun at 27
		{"cartons", 1, 0, 29, 29},  // goes on
		{"cartons", 1, 27, 30, 30}, // a first number that was passed changes nothing
		{"cartons", 3, 31, 31, 33},
		{"cartons", 1, 40, 40, 40}, // jumps, leaving a gap
		{"cartons", 100, 35, 41, 140},
		{"labels", 5, 1, 1, 5}, // another series has its own numbers
		{"Labels", 1, 1, 1, 1}, // names are told apart by case
		{"étiquettes de lot", 1, math.MaxInt64, math.MaxInt64, math.MaxInt64},
	} {
		got := b.take(c.series, c.n, c.first)
		same(t, c.series, got, register.Block{Series: c.series, From: c.wantLo, To: c.wantHi, At: start, For: "tartlets"})
	}
}

func testTakeRefused(t *testing.T, s Suite) {
	b := s.open(t)
	ended := register.Want{Series: register.Series{Name: "short", First: 1, Last: 9}, N: 7, At: start}
	if _, err := b.Take(b.ctx, ended); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		want register.Want
		rule register.Rule
	}{
		{"no series", want("", 1, 1), register.Input},
		{"no numbers", want("x", 0, 1), register.Input},
		{"fewer than none", want("x", -1, 1), register.Input},
		{"a slip of the finger", want("x", 1_000_000_000, 1), register.Input},
		{"below none", want("x", 1, -1), register.Input},
		{"no moment", register.Want{Series: register.Series{Name: "x", First: 1}, N: 1}, register.Input},
		{"long words", register.Want{Series: register.Series{Name: "x", First: 1}, N: 1, At: start, For: strings.Repeat("a", 201)}, register.Input},
		{"not begun", want("x", 1, 0), register.NotBegun},
		{"more than are left", register.Want{Series: ended.Series, N: 3, At: start}, register.UsedUp},
		{"first above last", register.Want{Series: register.Series{Name: "y", First: 9, Last: 8}, N: 1, At: start}, register.UsedUp},
		{"past the largest", want("y", 2, math.MaxInt64), register.UsedUp},
	} {
		_, err := b.Take(b.ctx, c.want)
		refused(t, c.name, err, c.rule)
	}
	same(t, "refusals take nothing", len(b.taken("x"))+len(b.taken("y")), 0)
	ended.N = 2
	if got, err := b.Take(b.ctx, ended); err != nil || got.From != 8 || got.To != 9 {
		t.Fatalf("the last two: %+v, %v", got, err)
	}
	ended.N = 1
	_, err := b.Take(b.ctx, ended)
	refused(t, "used up", err, register.UsedUp)
	ended.Series.Last = 20
	if got, err := b.Take(b.ctx, ended); err != nil || got.From != 10 {
		t.Fatalf("a later end: %+v, %v", got, err)
	}
}

func testTaken(t *testing.T, s Suite) {
	b := s.open(t)
	same(t, "nothing", len(b.taken("cartons")), 0)
	var all []register.Block
	for i := range 5 {
		w := want("cartons", int64(i+1), 1)
		w.At, w.For = start.Add(time.Duration(i)*time.Minute), strings.Repeat("x", i)
		got, err := b.Take(b.ctx, w)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, got)
		b.take("labels", 1, 1)
	}
	same(t, "blocks", b.taken("cartons"), all)
	same(t, "the last", all[4].To, 15)
	same(t, "names are exact", len(b.taken("carton"))+len(b.taken("CARTONS"))+len(b.taken("%")), 0)
}
