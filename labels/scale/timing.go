package scale

import (
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Timing is how long a step takes for a batch: its hands-on time in all, and
// its waiting, which comes once in each round. A round is one load of the oven
// or one bowl; they go one after the other. Most steps have one round.
type Timing struct {
	Hands  unit.Span // of all rounds together
	Wait   unit.Span // of each round, at least
	Over   unit.Span // how much longer than that it may wait, where a range is written
	Rounds int64     // 1 or more
}

// Long is how long the step takes from its beginning to its end.
func (t Timing) Long() unit.Span { return t.Hands + t.Waits() }

// Waits is the waiting of all rounds.
func (t Timing) Waits() unit.Span { return min(t.Wait*unit.Span(max(t.Rounds, 1)), maxTime) }

// Round is the hands-on time of round k, counted from 0: what does not divide
// into whole minutes comes in the first ones.
func (t Timing) Round(k int64) unit.Span {
	n := unit.Span(max(t.Rounds, 1))
	each := (t.Hands + n - 1) / n
	if t.Hands%unit.Minute == 0 {
		each = (each + unit.Minute - 1) / unit.Minute * unit.Minute
	}
	return max(0, min(each, t.Hands-each*unit.Span(k)))
}

// maxTime keeps sums of times far from overflowing: one year.
const maxTime = 365 * 24 * unit.Hour

func hands(s *shop.Step) unit.Span { return min(max(s.HandsOn.V, 0), maxTime) }
func wait(s *shop.Step) unit.Span  { return min(max(s.Waits().Least, 0), maxTime) }

// over is how much longer than that a step may wait; without a range it may as
// long as the day goes on.
func over(s *shop.Step) unit.Span { return max(min(s.Waits().Most, maxTime)-wait(s), 0) }

// timing is how long a step takes for the batch; f is the formula whose step it
// is, or nil for a step of the product. A time without its for holds for every
// batch, but a product's oven is filled as often as it must be.
func (b *Batch) timing(f *shop.Formula, s *shop.Step) Timing {
	t := Timing{Hands: hands(s), Wait: wait(s), Over: over(s), Rounds: 1}
	of := s.Per.V
	switch of.Of {
	case shop.ByBatch:
		return t
	case shop.ByPiece:
		t.grow(int64(b.Pieces), of.N)
	case shop.ByTray:
		t.grow(b.trays(), of.N)
	case shop.ByBowl:
		t.repeat(b.bowls(f), of.N)
		return t
	case shop.ByMass:
		if m, ok := b.Make(f); ok && Baked(s) {
			t.repeat(int64((m.Out+of.Mass-1)/of.Mass), 1)
		} else if ok {
			t.grow(int64(m.Out), int64(of.Mass))
		}
	case shop.ByLoad:
		t.repeat(b.loads(), of.N)
		return t
	}
	if f == nil && Baked(s) {
		n := b.loads()
		if of.Of == "" {
			t.repeat(n, 1)
		} else {
			t.Rounds = max(n, 1)
		}
	}
	return t
}

// Baked reports whether a step has the oven for itself.
func Baked(s *shop.Step) bool { return slices.Contains(shop.ToolsOf(s), shop.Oven) }

// grow makes the hands-on time one for n where it was for of, in whole minutes
// upwards. Nothing is known of a batch without a number.
func (t *Timing) grow(n, of int64) {
	if n <= 0 || of <= 0 || n == of || t.Hands == 0 {
		return
	}
	minutes := ceil(mul(rat(int64(t.Hands), int64(unit.Minute)), rat(n, of)))
	t.Hands = unit.Minute * unit.Span(min(minutes, int64(maxTime/unit.Minute)))
}

// repeat makes it as many rounds as n are, where each round is for of.
func (t *Timing) repeat(n, of int64) {
	if n <= 0 || of <= 0 {
		return
	}
	t.Rounds = min((n-1)/of+1, int64(maxTime/unit.Minute))
	t.Hands = min(t.Hands*unit.Span(t.Rounds), maxTime)
}

// trays is how many trays the pieces need, 0 where the product names none.
func (b *Batch) trays() int64 {
	if b.Product == nil || b.Product.Tray == nil {
		return 0
	}
	return int64(Trays(b.Pieces, b.Product.Tray.Holds.V).Vessels)
}

// loads is how often the oven is filled, 0 where nobody says what it takes.
func (b *Batch) loads() int64 {
	if b.Product == nil {
		return 0
	}
	fill, _ := Bakes(b.Product, b.Pieces)
	return int64(fill.Vessels)
}

// bowls is how many bowls of a formula are made, 0 where it names none.
func (b *Batch) bowls(f *shop.Formula) int64 {
	m, ok := b.Make(f)
	if !ok {
		return 0
	}
	fill, _ := m.Bowls()
	return int64(fill.Vessels)
}
