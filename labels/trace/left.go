package trace

import (
	"context"
	"slices"
	"strings"

	"chablon/labels/unit"
)

// Held is a lot of which something is left.
type Held struct {
	Thing
	Came, Left unit.Mass
	Until      string // ISO 8601 day, or ""
	From       string // supplier
}

// Lots lists the lots of which something is left, those that keep shortest
// first. Withdrawn lots are left out.
func Lots(ctx context.Context, b Book) ([]Held, error) {
	all, err := b.Events(ctx)
	if err != nil {
		return nil, err
	}
	at := map[Thing]*Held{}
	for _, e := range standing(all) {
		for _, p := range e.Out {
			if e.Kind != Receive {
				continue
			}
			if at[p.Thing] == nil {
				at[p.Thing] = &Held{Thing: p.Thing, From: e.Partner}
			}
			h := at[p.Thing]
			h.Came, h.Left, h.Until = h.Came+p.Mass, h.Left+p.Mass, earlier(h.Until, e.Until)
		}
		for _, p := range e.In {
			if h := at[p.Thing]; h != nil && e.Kind == Withdraw {
				h.Left = 0
			} else if h != nil {
				h.Left -= p.Mass
			}
		}
	}
	var out []Held
	for _, h := range at {
		if h.Left > 0 {
			out = append(out, *h)
		}
	}
	slices.SortFunc(out, func(a, b Held) int {
		return cmpAll(strings.Compare(a.ID, b.ID), strings.Compare(day(a.Until), day(b.Until)), strings.Compare(a.Code, b.Code))
	})
	return out, nil
}

// day sorts what has no day behind all days.
func day(s string) string {
	if s == "" {
		return "9999"
	}
	return s
}

func cmpAll(list ...int) int {
	for _, n := range list {
		if n != 0 {
			return n
		}
	}
	return 0
}

func earlier(a, b string) string {
	if a == "" || b != "" && b < a {
		return b
	}
	return a
}

// standing leaves out what was undone, and the undoing.
func standing(all []Event) (out []Event) {
	undone := map[int64]bool{}
	for _, e := range all {
		if e.Kind == Undo {
			undone[e.Undoes] = true
		}
	}
	for _, e := range all {
		if e.Kind != Undo && !undone[e.Number] {
			out = append(out, e)
		}
	}
	return out
}
