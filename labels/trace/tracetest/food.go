package tracetest

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/trace"
	"chablon/labels/unit"
)

// kitchen is a random kitchen, and what is true of it whatever a book says:
// which allergens each lot holds, and which thing went into which.
type kitchen struct {
	book
	r         *rapid.T
	food      []trace.Thing // lots and batches
	cartons   []trace.Thing
	allergens map[trace.Thing]uint8 // of lots, a bit for each
	into      map[int64][2][]trace.Thing
	received  map[int64]unit.Mass
}

// testFood: whatever is made, split over two batches, worked in again the next
// day, packed, and taken back, a carton is followed back to lots with just the
// allergens that went in; and nothing grows: of no lot or batch more goes on than
// there was, and what is left of all is not more than what came in.
func testFood(t *testing.T, open func(testing.TB) trace.Book) {
	rapid.Check(t, func(r *rapid.T) {
		k := &kitchen{book: book{t, open(t)}, r: r, allergens: map[trace.Thing]uint8{}, into: map[int64][2][]trace.Thing{}, received: map[int64]unit.Mass{}}
		k.receive(0)
		for i := range rapid.IntRange(1, 30).Draw(r, "events") {
			switch rapid.IntRange(0, 5).Draw(r, "kind") {
			case 0:
				k.receive(i + 1)
			case 1:
				k.pack(i)
			case 2:
				k.undo()
			default:
				k.make(i)
			}
		}
		k.keepsAllergens()
		k.neverGrows()
	})
}

func (k *kitchen) pick() trace.Thing {
	return k.food[rapid.IntRange(0, len(k.food)-1).Draw(k.r, "of")]
}

func (k *kitchen) receive(i int) {
	l, m := lot("flour", fmt.Sprint("F", i)), unit.Mass(rapid.IntRange(1, 50).Draw(k.r, "kg"))*unit.Kilogram
	e := k.note(trace.Event{Kind: trace.Receive, Partner: "Corvane Mill", Out: []trace.Part{{Thing: l, Mass: m}}})
	k.allergens[l] = rapid.Uint8().Draw(k.r, "allergens")
	k.food, k.received[e.Number] = append(k.food, l), m
	k.into[e.Number] = [2][]trace.Thing{nil, {l}}
}

// make makes a batch, or goes on with one, from things that may be batches: a
// dough that is split, or what was left of yesterday. What comes out weighs what
// went in, or less.
func (k *kitchen) make(i int) {
	e := trace.Event{Kind: trace.Make}
	var in []trace.Thing
	sum := unit.Mass(0)
	for range rapid.IntRange(1, 3).Draw(k.r, "parts") {
		p := trace.Part{Thing: k.pick(), Mass: unit.Mass(rapid.IntRange(1, 9000).Draw(k.r, "use")) * unit.Gram}
		e.In, in, sum = append(e.In, p), append(in, p.Thing), sum+p.Mass
	}
	out := batch("dough", fmt.Sprint("B", rapid.IntRange(0, i/2).Draw(k.r, "batch")))
	e.Out = []trace.Part{{Thing: out, Mass: sum.Of(unit.Share(rapid.IntRange(70, 100).Draw(k.r, "yield")) * unit.Percent)}}
	got, err := k.try(e)
	if err != nil {
		return // more than there is, or of itself
	}
	k.food = append(k.food, out)
	k.into[got.Number] = [2][]trace.Thing{in, {out}}
}

func (k *kitchen) pack(i int) {
	from := k.pick()
	got, err := k.try(trace.Event{Kind: trace.Pack, In: bare(from), Out: bare(carton(int64(i + 1)))})
	if err != nil {
		return // a lot is packed by nobody
	}
	k.cartons = append(k.cartons, carton(int64(i+1)))
	k.into[got.Number] = [2][]trace.Thing{{from}, {carton(int64(i + 1))}}
}

func (k *kitchen) undo() {
	all, err := k.Events(context.Background())
	if err != nil {
		k.r.Fatal(err)
	}
	n := all[rapid.IntRange(0, len(all)-1).Draw(k.r, "undo")].Number
	if _, err := k.try(trace.Event{Kind: trace.Undo, Undoes: n, Why: "typed wrongly"}); err == nil {
		delete(k.into, n)
		delete(k.received, n)
	}
}

// keepsAllergens holds each carton against what truly went into it.
func (k *kitchen) keepsAllergens() {
	holds := map[trace.Thing]uint8{}
	for l, a := range k.allergens {
		holds[l] = a
	}
	for changed := true; changed; {
		changed = false
		for _, sides := range k.into {
			for _, out := range sides[1] {
				before := holds[out]
				for _, in := range sides[0] {
					holds[out] |= holds[in]
				}
				changed = changed || holds[out] != before
			}
		}
	}
	for _, c := range k.cartons {
		var got uint8
		for _, f := range k.walk(c, trace.Back).Of(trace.Lot) {
			got |= k.allergens[f.Thing]
		}
		if got != holds[c] {
			k.r.Fatalf("%s holds the allergens %08b, but the lots behind it say %08b", c, holds[c], got)
		}
	}
}

// neverGrows adds up what is left.
func (k *kitchen) neverGrows() {
	all, err := trace.Balances(context.Background(), k, k.food)
	if err != nil {
		k.r.Fatal(err)
	}
	var came, left unit.Mass
	for _, m := range k.received {
		came += m
	}
	for _, b := range all {
		m, _ := b.Left()
		if b.Mass.In == 0 {
			continue // nobody knows how much there was
		}
		if m < 0 {
			k.r.Fatalf("%s more of %s went on than there was", -m, b.Thing)
		}
		if n, known := b.Gone(); known && (n < 0 || n > 1000 || (n == 1000) != (m == 0)) {
			k.r.Fatalf("%d thousandths of %s went on, and %s is left", n, b.Thing, m)
		}
		left += m
	}
	if left > came {
		k.r.Fatalf("%s came in, and %s is left", came, left)
	}
	k.sameForth()
}

// sameForth: a walk forth knows the balances of what it came to.
func (k *kitchen) sameForth() {
	tree := k.walk(k.food[0], trace.Forth)
	got, err := tree.Balances(context.Background(), k)
	want, err2 := trace.Balances(context.Background(), k, tree.Things())
	if err != nil || err2 != nil || fmt.Sprint(got) != fmt.Sprint(want) {
		k.r.Fatalf("forth from %s: %v (%v)\nwant %v (%v)", k.food[0], got, err, want, err2)
	}
}
