package follow

import (
	"context"
	"fmt"
	"strings"
	"time"

	"chablon/labels/trace"
)

// Line says an event in one line.
func Line(e trace.Event) string {
	s := fmt.Sprintf("%4d  %s  ", e.Number, e.At.Format(time.DateOnly))
	switch e.Kind {
	case trace.Receive:
		s += "came in: " + list(e.Out) + " from " + e.Partner
	case trace.Make:
		s += "made: " + list(e.Out)
		if len(e.In) > 0 {
			s += ", with " + list(e.In)
		}
	case trace.Pack:
		s += "packed: " + list(e.Out) + ", from " + list(e.In)
	case trace.Load:
		s += "loaded: " + list(e.Out) + ", with " + list(e.In)
	case trace.Ship:
		s += "shipped to " + e.Partner + ": " + list(e.In)
	case trace.Withdraw:
		s += "withdrawn: " + list(e.In)
	case trace.Undo:
		s += fmt.Sprintf("undone: event %d", e.Undoes)
	}
	s += behind(", order ", e.Order) + behind(", keeps until ", e.Until)
	return s + behind(", because ", e.Why)
}

// list names parts; of many only the first few.
func list(parts []trace.Part) string {
	const few = 4
	var out []string
	for i, p := range parts {
		if i == few {
			out = append(out, fmt.Sprintf("and %d more", len(parts)-few))
			break
		}
		s := p.Thing.String()
		if p.Mass > 0 {
			s = mass(p.Mass) + " of " + s
		} else if p.Pieces > 0 {
			s = count(p.Pieces) + " of " + s
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// Way is the direction of a question: the one asked for, else forth from what
// came in or was made, and back from what leaves.
func (d *Desk) Way(ctx context.Context, code, of string, back, forth bool) (trace.Direction, error) {
	t, err := d.Named(ctx, code, of)
	switch {
	case back:
		return trace.Back, err
	case forth || t.Kind == trace.Lot || t.Kind == trace.Batch:
		return trace.Forth, err
	}
	return trace.Back, err
}
