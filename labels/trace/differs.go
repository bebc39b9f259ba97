package trace

import "context"

// Differs finds the first event by which a batch, or a batch that it is made of,
// was made otherwise than its formula says; ok is false where all were made as
// written. A batch of another batch's own label is looked at no further.
func Differs(ctx context.Context, r Reader, t Thing) (e Event, ok bool, err error) {
	tree, err := walk(ctx, r, []Thing{t}, Back)
	if err != nil {
		return Event{}, false, err
	}
	for _, e := range tree.Events {
		if e.Kind == Make && e.Why != "" {
			return e, true, nil
		}
	}
	return Event{}, false, nil
}
