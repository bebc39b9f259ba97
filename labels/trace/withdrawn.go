package trace

import "context"

// Withdrawn gives the first withdrawal of a thing, or of anything that it was
// made of.
func Withdrawn(ctx context.Context, r Reader, t Thing) (Event, bool, error) {
	tree, err := walk(ctx, r, []Thing{t}, Back)
	if err != nil {
		return Event{}, false, err
	}
	return withdrawn(ctx, r, tree.things())
}

// withdrawn gives the first withdrawal of one of the things.
func withdrawn(ctx context.Context, r Reader, list []Thing) (Event, bool, error) {
	gone, err := r.With(ctx, In, list, Withdraw)
	if err != nil || len(gone) == 0 {
		return Event{}, false, err
	}
	return gone[0], true, nil
}
