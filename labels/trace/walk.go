package trace

import (
	"context"
	"slices"
)

// Direction is which way a trace goes.
type Direction string

// The directions.
const (
	Back  Direction = "back"  // to what it was made of
	Forth Direction = "forth" // to what became of it
)

// Found is a thing that a trace came to.
type Found struct {
	Part
	Depth  int   // how many events lie between
	Event  int64 // number of the event that led there first
	Before Thing // from where
}

// Tree is where a trace leads: each thing once, the nearest first, and each
// event on the way once, in the order of their numbers.
type Tree struct {
	From   Thing
	Way    Direction
	Found  []Found
	Events []Event
}

// Of lists what was found of one kind.
func (t Tree) Of(k Kind) (out []Found) {
	for _, f := range t.Found {
		if f.Kind == k {
			out = append(out, f)
		}
	}
	return out
}

func (t Tree) things() []Thing {
	out := make([]Thing, len(t.Found))
	for i, f := range t.Found {
		out[i] = f.Thing
	}
	return out
}

// Walk follows a thing back to all that it was made of, or forth to all that
// it became. The thing itself stands first, at depth 0.
func Walk(ctx context.Context, r Reader, from Thing, way Direction) (Tree, error) {
	t, err := walk(ctx, r, []Thing{from}, way)
	t.From = from
	return t, err
}

// walk goes level by level, so that a book is asked once a level.
func walk(ctx context.Context, r Reader, from []Thing, way Direction) (Tree, error) {
	t := Tree{Way: way}
	seen := map[Thing]bool{}
	events := map[int64]bool{}
	for _, f := range from {
		if !seen[f] {
			seen[f] = true
			t.Found = append(t.Found, Found{Part: Part{Thing: f}})
		}
	}
	near, far := Out, In
	if way == Forth {
		near, far = In, Out
	}
	for level := from; len(level) > 0; {
		list, err := r.With(ctx, near, level)
		if err != nil {
			return t, err
		}
		at := map[Thing]bool{}
		for _, l := range level {
			at[l] = true
		}
		level = nil
		for _, e := range list {
			if events[e.Number] || e.Kind == Withdraw {
				continue
			}
			events[e.Number] = true
			t.Events = append(t.Events, e)
			i := slices.IndexFunc(e.side(near), func(p Part) bool { return at[p.Thing] })
			for _, p := range e.side(far) {
				if !seen[p.Thing] {
					seen[p.Thing] = true
					level = append(level, p.Thing)
					t.Found = append(t.Found, Found{Part: p, Event: e.Number, Before: e.side(near)[i].Thing})
				}
			}
		}
	}
	t.depths()
	slices.SortFunc(t.Events, func(a, b Event) int { return int(a.Number - b.Number) })
	return t, nil
}

// depths counts the events on the way to each thing. What leads to a thing is
// found before it.
func (t *Tree) depths() {
	depth := map[Thing]int{}
	for i, f := range t.Found {
		if f.Event != 0 {
			t.Found[i].Depth = depth[f.Before] + 1
		}
		depth[f.Thing] = t.Found[i].Depth
	}
}
