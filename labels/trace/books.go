package trace

import (
	"context"

	"chablon/labels/register"
)

// Books are the two books of a kitchen where they are kept together: what was
// printed, and what happened to the food. A number that is on a carton and what
// is in the carton are one fact, so both are kept in one transaction.
//
// Whoever implements it promises what [register.Register] and [Book] say, on one
// machine or for many stations: every call is one transaction that is there for
// good when the call returns, ends with its context, and refuses with a
// [*register.Error]; moments come from the caller. Nothing is promised about
// files, nor that the caller is the only one. Package tracetest has the suite.
type Books interface {
	register.Register
	Book

	// ClaimWith claims as [register.Register.ClaimAll] does, and notes events as
	// [Book.Note] does, all or none of both. Prints of a batch that was withdrawn
	// are refused ([FreeToPrint]). An event that only opens a batch that is known
	// already is not kept again ([Opens]).
	ClaimWith(ctx context.Context, claims []register.Print, events []Event) ([]register.Print, error)

	// Try refuses what ClaimWith would refuse now, and keeps nothing.
	Try(ctx context.Context, claims []register.Print, events []Event) error

	// EndWith notes what became of numbers, as [register.Register.End] does, and
	// events, all or none of both.
	EndWith(ctx context.Context, ends []register.End, events []Event) error
}
