// Package trace answers: where did it come from, and where did it go?
//
// What happens to food is noted as an [Event]: a lot comes in, a batch is made
// of lots and of other batches, cartons are packed from batches, pallets are
// loaded with cartons, and all of it is shipped to a customer. An event leads
// from the things that go into it (In) to the things that come out of it (Out),
// so that [Walk] can follow a lot forth to the customers, and a carton back to
// the lots (Reg. (EC) 178/2002 Art. 18: one step back and one step forward).
//
// Nothing is ever deleted or written over: what was noted wrongly is undone by
// another event. What cannot be (a batch of itself, more of a lot than came in,
// one carton with two customers) is refused by [Check], which every book asks
// before it keeps an event. The package knows no clock, no file and no paper.
package trace

import (
	"context"
	"time"

	"chablon/labels/unit"
)

// Kind is what a thing is.
type Kind string

// The kinds of things.
const (
	Lot    Kind = "lot"    // an ingredient as it came in, under the supplier's code
	Batch  Kind = "batch"  // a formula or product as it was made, under the kitchen's code
	Carton Kind = "carton" // a shipped box, under its SSCC
	Pallet Kind = "pallet" // cartons on one base, under its SSCC
)

// A Thing is named by what it is of and by its code: many products may share
// one batch code, so the pair names a batch.
type Thing struct {
	Kind Kind
	ID   string // ingredient, formula or product; of a pallet ""
	Code string // lot code, batch code, or SSCC of 18 digits
}

// String is the thing in words for a report, such as "lot HD-4471 of butter".
func (t Thing) String() string {
	if t.ID == "" {
		return string(t.Kind) + " " + t.Code
	}
	return string(t.Kind) + " " + t.Code + " of " + t.ID
}

// Part is how much of a thing goes in or comes out; what is not known is zero.
type Part struct {
	Thing
	Mass   unit.Mass
	Pieces unit.Count // of a product; of a carton its packs
}

// EventKind is what happened.
type EventKind string

// The kinds of events.
const (
	Receive  EventKind = "receive"  // lots come in from a supplier
	Make     EventKind = "make"     // lots and batches become a batch
	Pack     EventKind = "pack"     // batches go into cartons
	Load     EventKind = "load"     // cartons go onto a pallet
	Ship     EventKind = "ship"     // cartons and pallets leave for a customer
	Withdraw EventKind = "withdraw" // a lot or batch may no longer be used or sold
	Undo     EventKind = "undo"     // an event was noted wrongly
)

// Event is one thing that happened.
type Event struct {
	Number int64 // given by the book, from 1
	Kind   EventKind
	At     time.Time // when it happened; UTC, whole seconds
	Noted  time.Time // what the clock of the machine said when it was noted
	Zone   string    // offset of the place from UTC at that moment, such as "+01:00"
	Who    string    // who noted it, or ""
	In     []Part
	Out    []Part

	Partner string // supplier or customer
	Order   string // number of the order or delivery note, or ""
	Made    string // ISO 8601 day on which the batch that comes out was made
	Until   string // ISO 8601 day until which what comes out keeps
	Facts   string // fingerprint of what the batch's label says
	Why     string // of a withdrawal, an undoing, or a batch that differs
	Undoes  int64  // number of the event that is undone
}

// Side says on which side of an event a thing stands.
type Side string

// The sides.
const (
	In  Side = "in"
	Out Side = "out"
)

// A Reader looks events up. Undone events and the undoing ones are left out.
type Reader interface {
	// With gives every event that has one of the things on that side, in the
	// order of their numbers, each once; of the kinds that are named, or of all.
	With(ctx context.Context, side Side, things []Thing, kinds ...EventKind) ([]Event, error)

	// Event gives the event with this number, undone or not; the error is an
	// [*register.Error] where there is none.
	Event(ctx context.Context, number int64) (Event, bool, error)

	// Named gives every thing with this code, whatever it is of.
	Named(ctx context.Context, code string) ([]Thing, error)
}

// A Book keeps events.
type Book interface {
	Reader

	// Note keeps events, all or none, and gives them their numbers. It refuses
	// what [Check] refuses with a [*register.Error], each event being held
	// against those before it in the list too.
	Note(ctx context.Context, list ...Event) ([]Event, error)

	// Events gives all events, undone ones and the undoing ones too, in the
	// order of their numbers.
	Events(ctx context.Context) ([]Event, error)
}
