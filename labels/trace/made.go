package trace

import (
	"context"
	"slices"
)

// Made is a batch that was made: what its label says, and whether it is
// withdrawn.
type Made struct {
	Thing
	Day, Until string  // ISO 8601 days; "" where nobody noted them
	Facts      string  // fingerprint of what its label says, or ""
	Why        string  // why it differs from its formula, or ""
	Stopped    []Event // withdrawals of it, or of what it was made of
}

// Batches lists the batches that were made, in the order of their first events.
func Batches(ctx context.Context, b Book) ([]Made, error) {
	all, err := b.Events(ctx)
	if err != nil {
		return nil, err
	}
	var out []Made
	at := map[Thing]int{}
	all = standing(all)
	for _, e := range all {
		if e.Kind != Make {
			continue
		}
		i, known := at[e.Out[0].Thing]
		if !known {
			i = len(out)
			at[e.Out[0].Thing] = i
			out = append(out, Made{Thing: e.Out[0].Thing})
		}
		m := &out[i]
		for _, s := range []struct {
			to   *string
			from string
		}{{&m.Day, e.Made}, {&m.Until, e.Until}, {&m.Facts, e.Facts}, {&m.Why, e.Why}} {
			if *s.to == "" {
				*s.to = s.from
			}
		}
	}
	return out, stopped(ctx, b, all, func(t Thing, e Event) {
		if i, ok := at[t]; ok {
			out[i].Stopped = append(out[i].Stopped, e)
		}
	})
}

// stopped calls tell for each withdrawal and each thing that it holds back.
func stopped(ctx context.Context, r Reader, all []Event, tell func(Thing, Event)) error {
	for _, e := range all {
		if e.Kind != Withdraw {
			continue
		}
		tree, err := walk(ctx, r, slices.Clone(things(e.In)), Forth)
		if err != nil {
			return err
		}
		for _, t := range tree.Things() {
			tell(t, e)
		}
	}
	return nil
}
