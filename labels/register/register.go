// Package register answers: which number is next, what left the house?
//
// A [Register] keeps three books of one kitchen: which copy of which card hangs
// where, which numbers were given out, and what was printed. Nothing is ever
// deleted or written over, and a number once given is never given again,
// whatever crashes: a gap in the numbers is allowed, a double is not.
//
// The package knows no clock: each call is handed its moment. [Memory] keeps
// the books for as long as the program runs; package sqlite keeps them in one
// file; package registertest is what every other implementation must pass.
//
// What no register can know is a backup put back: numbers given since then are
// forgotten. Then begin each series anew above all numbers on paper, with
// [Series].First.
package register

import (
	"context"
	"time"
)

// A Register may be used by several goroutines at once. Every method refuses
// what it cannot take with an [*Error] and then has changed nothing. When a
// call fails otherwise (a disk, an ended context), what it asked for may have
// been kept: numbers may be lost that way, but not given twice.
type Register interface {
	// Post notes that a copy was hung up. The same card at the same place
	// (see [Copy.SameAs]) is noted as taken down at that moment.
	Post(ctx context.Context, c Copy) (Posting, error)

	// TakeDown notes that the copy with this number no longer hangs.
	TakeDown(ctx context.Context, number int64, at time.Time) (Copy, error)

	// Posted lists what hangs, by place, then card, then number.
	Posted(ctx context.Context) ([]Copy, error)

	// History lists every copy of a card ever posted, in the order of posting;
	// of all cards when id is "".
	History(ctx context.Context, id string) ([]Copy, error)

	// Take gives numbers of a series that were never given before.
	Take(ctx context.Context, w Want) (Block, error)

	// Taken lists the blocks of numbers given of a series, in rising order.
	Taken(ctx context.Context, series string) ([]Block, error)

	// Record notes that something is printed. Numbers on it must have been
	// taken before, and no other print may bear them unless p says why it is
	// printed again.
	Record(ctx context.Context, p Print) (Print, error)

	// ClaimAll takes exactly the numbers that the prints bear, where they are
	// not taken yet, and records the prints, all or none of them: see
	// [Print.Due]. It gives them in the order in which they were handed in. What
	// came of one asking ([Print.Once]) is claimed in one call: a second one is
	// refused.
	ClaimAll(ctx context.Context, claims []Print) ([]Print, error)

	// Prints lists what was printed and matches q, in the order of recording.
	Prints(ctx context.Context, q Query) ([]Print, error)

	// Wrote notes that the prints with these numbers of [Print.Number] reached
	// the disk under their final names: only then may their paper be out. One
	// that is noted already stays as it is.
	Wrote(ctx context.Context, numbers []int64, at time.Time) error

	// End notes what became of numbers, all of it or nothing: see [End.May].
	End(ctx context.Context, list ...End) error

	// Ended lists what became of the numbers of a series, in the order in which
	// it was noted.
	Ended(ctx context.Context, series string) ([]End, error)

	// Sent notes a step of a job that goes to a printer: see [Sending.May].
	Sent(ctx context.Context, s Sending) error

	// Sendings lists the steps of all jobs, in the order in which they were noted.
	Sendings(ctx context.Context) ([]Sending, error)

	// Close ends the use of the register; every later call is refused.
	Close() error
}
