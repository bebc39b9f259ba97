package trace

import (
	"context"

	"chablon/labels/unit"
)

// Balance is how much of a lot or batch came in or was made, and how much of it
// went on, as far as it was noted.
type Balance struct {
	Thing
	Mass, Pieces struct{ In, Out int64 } // nanograms, pieces
	Unknown      int                     // uses without an amount
}

// Left is what is left by the book, in the unit in which the thing came in.
func (b Balance) Left() (unit.Mass, unit.Count) {
	return unit.Mass(b.Mass.In - b.Mass.Out), unit.Count(b.Pieces.In - b.Pieces.Out)
}

// Gone is how many thousandths of what came in went on, and never all of them
// where something is left; false where it is not known how much came in, or how
// much of it went on.
func (b Balance) Gone() (int64, bool) {
	in, out := b.Mass.In, b.Mass.Out
	if b.Pieces.In > 0 {
		in, out = b.Pieces.In, b.Pieces.Out
	}
	if in == 0 || b.Unknown > 0 {
		return 0, false
	}
	n := unit.MulDiv(1000, out, in)
	if n == 1000 && out < in {
		n--
	}
	return n, true
}

// Balances are the balances of the lots and batches among things, in their order.
func Balances(ctx context.Context, r Reader, list []Thing) ([]Balance, error) {
	l := newLedger(list)
	if err := l.came(ctx, r); err != nil {
		return nil, err
	}
	went, err := r.With(ctx, In, l.things, Make, Pack)
	l.add(In, went)
	return l.all, err
}

// Balances are the balances of the lots and batches of a walk forth, which has
// been to all that they went into.
func (t Tree) Balances(ctx context.Context, r Reader) ([]Balance, error) {
	l := newLedger(t.Things())
	l.add(In, t.Events)
	return l.all, l.came(ctx, r)
}

// ledger is balances being drawn up.
type ledger struct {
	all    []Balance
	things []Thing
	at     map[Thing]int
}

func newLedger(list []Thing) *ledger {
	l := &ledger{at: map[Thing]int{}}
	for _, t := range list {
		if _, twice := l.at[t]; !twice && (t.Kind == Lot || t.Kind == Batch) {
			l.at[t] = len(l.all)
			l.all, l.things = append(l.all, Balance{Thing: t}), append(l.things, t)
		}
	}
	return l
}

// came adds what came in or was made.
func (l *ledger) came(ctx context.Context, r Reader) error {
	came, err := r.With(ctx, Out, l.things, Receive, Make)
	l.add(Out, came)
	return err
}

func (l *ledger) add(side Side, events []Event) {
	for _, e := range events {
		for _, p := range e.side(side) {
			if i, ok := l.at[p.Thing]; ok && e.Kind != Withdraw {
				l.all[i].add(side, p)
			}
		}
	}
}

func (b *Balance) add(side Side, p Part) {
	if side == Out {
		b.Mass.In += int64(p.Mass)
		b.Pieces.In += int64(p.Pieces)
		return
	}
	b.Mass.Out += int64(p.Mass)
	b.Pieces.Out += int64(p.Pieces)
	if p.Mass == 0 && p.Pieces == 0 {
		b.Unknown++
	}
}
