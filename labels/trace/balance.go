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
	var out []Balance
	var asked []Thing
	at := map[Thing]int{}
	for _, t := range list {
		if _, twice := at[t]; !twice && (t.Kind == Lot || t.Kind == Batch) {
			at[t] = len(out)
			out, asked = append(out, Balance{Thing: t}), append(asked, t)
		}
	}
	for _, side := range []Side{Out, In} {
		events, err := r.With(ctx, side, asked, Receive, Make, Pack)
		if err != nil {
			return nil, err
		}
		for _, e := range events {
			for _, p := range e.side(side) {
				if i, ok := at[p.Thing]; ok {
					out[i].add(side, p)
				}
			}
		}
	}
	return out, nil
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
