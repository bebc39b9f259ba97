package trace

import (
	"context"
	"time"

	"chablon/labels/register"
)

// Withdrawn gives the first withdrawal of a thing, or of anything that it was
// made of.
func Withdrawn(ctx context.Context, r Reader, t Thing) (Event, bool, error) {
	tree, err := walk(ctx, r, []Thing{t}, Back)
	if err != nil {
		return Event{}, false, err
	}
	return withdrawn(ctx, r, tree.Things())
}

// withdrawn gives the first withdrawal of one of the things.
func withdrawn(ctx context.Context, r Reader, list []Thing) (Event, bool, error) {
	gone, err := r.With(ctx, In, list, Withdraw)
	if err != nil || len(gone) == 0 {
		return Event{}, false, err
	}
	return gone[0], true, nil
}

// Free refuses a thing that was withdrawn, or is made of what was. The refusal is
// an [*register.Error].
func Free(ctx context.Context, r Reader, t Thing) error {
	e, gone, err := Withdrawn(ctx, r, t)
	return refuseGone(e, gone, err)
}

// free refuses things one of which was withdrawn itself.
func free(ctx context.Context, r Reader, list []Thing) error {
	e, gone, err := withdrawn(ctx, r, list)
	return refuseGone(e, gone, err)
}

func refuseGone(e Event, gone bool, err error) error {
	if err != nil || !gone {
		return err
	}
	return register.Refuse(register.Withdrawn, "keep it apart; if it was withdrawn by mistake, undo that: chablon undo EVENT",
		"%s was withdrawn on %s: %s [event %d]", e.In[0].Thing, e.At.Format(time.DateOnly), e.Why, e.Number)
}

// FreeToPrint refuses prints of batches that were withdrawn, or are made of what
// was. Books call it in the transaction of the claim, so that a recall that is
// noted at the same moment comes before or after it.
func FreeToPrint(ctx context.Context, r Reader, claims []register.Print) error {
	seen := map[Thing]bool{}
	for _, p := range claims {
		t := Thing{Kind: Batch, ID: p.ID, Code: p.Batch}
		if p.Batch == "" || seen[t] {
			continue
		}
		seen[t] = true
		if err := Free(ctx, r, t); err != nil {
			return err
		}
	}
	return nil
}
