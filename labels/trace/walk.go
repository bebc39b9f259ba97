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

// Things are the things that were found, in their order.
func (t Tree) Things() []Thing {
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
	w := walker{Tree: Tree{Way: way}, at: map[Thing]int{}, events: map[int64]bool{}}
	for _, f := range from {
		w.find(Found{Part: Part{Thing: f}})
	}
	near := Out
	if way == Forth {
		near = In
	}
	for begin := 0; begin < len(w.Found); {
		end := len(w.Found)
		list, err := r.With(ctx, near, Tree{Found: w.Found[begin:end]}.Things())
		if err != nil {
			return w.Tree, err
		}
		for _, e := range list {
			w.event(e, begin, end)
		}
		begin = end
	}
	slices.SortFunc(w.Events, func(a, b Event) int { return int(a.Number - b.Number) })
	return w.Tree, nil
}

// walker is a walk under way.
type walker struct {
	Tree
	at     map[Thing]int // place of each thing in Found
	events map[int64]bool
}

func (w *walker) find(f Found) {
	if _, seen := w.at[f.Thing]; !seen {
		w.at[f.Thing] = len(w.Found)
		w.Found = append(w.Found, f)
	}
}

// event goes through an event that one of the things from begin to end is in.
func (w *walker) event(e Event, begin, end int) {
	if w.events[e.Number] || e.Kind == Withdraw {
		return
	}
	w.events[e.Number] = true
	w.Events = append(w.Events, e)
	near, far := e.Out, e.In
	if w.Way == Forth {
		near, far = e.In, e.Out
	}
	i := slices.IndexFunc(near, func(p Part) bool {
		n, found := w.at[p.Thing]
		return found && begin <= n && n < end
	})
	before := w.Found[w.at[near[i].Thing]]
	for _, p := range far {
		w.find(Found{Part: p, Depth: before.Depth + 1, Event: e.Number, Before: before.Thing})
	}
}
