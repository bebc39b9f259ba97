// Package tracetest answers: does a book of events keep its word?
//
// [Run] is the one suite that every implementation of trace.Book passes.
package tracetest

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"chablon/labels/gs1"
	"chablon/labels/register"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// Run tests an implementation; open makes an empty book that shares nothing
// with any other and is closed when the test ends.
func Run(t *testing.T, open func(testing.TB) trace.Book) {
	for _, c := range []struct {
		name string
		test func(*testing.T, book)
	}{
		{"walk", testWalk},
		{"refuses", testRefuses},
		{"undo", testUndo},
		{"withdrawn", testWithdrawn},
		{"meant for another", testMeant},
		{"kept", testKept},
		{"two at once", testTwo},
		{"all or none", testAll},
	} {
		t.Run(c.name, func(t *testing.T) { c.test(t, book{t, open(t)}) })
	}
	t.Run("random graphs", func(t *testing.T) { testRandom(t, open) })
	t.Run("random food", func(t *testing.T) { testFood(t, open) })
}

var noon = time.Date(2026, 3, 17, 12, 0, 0, 0, time.UTC)

func lot(id, code string) trace.Thing { return trace.Thing{Kind: trace.Lot, ID: id, Code: code} }
func batch(id, code string) trace.Thing {
	return trace.Thing{Kind: trace.Batch, ID: id, Code: code}
}
func carton(n int64) trace.Thing {
	code, err := gs1.SSCC(0, "9520001", n)
	if err != nil {
		panic(err)
	}
	return trace.Thing{Kind: trace.Carton, ID: "bench-tin", Code: code}
}
func pallet(n int64) trace.Thing {
	return trace.Thing{Kind: trace.Pallet, Code: carton(n).Code}
}
func g(t trace.Thing, mass string) trace.Part {
	m, err := unit.ParseMass(mass)
	if err != nil {
		panic(err)
	}
	return trace.Part{Thing: t, Mass: m}
}
func pieces(t trace.Thing, n unit.Count) trace.Part { return trace.Part{Thing: t, Pieces: n} }
func bare(list ...trace.Thing) (out []trace.Part) {
	for _, t := range list {
		out = append(out, trace.Part{Thing: t})
	}
	return out
}

// book is a book under test.
type book struct {
	testing.TB
	trace.Book
}

func (b book) note(e trace.Event) trace.Event {
	b.Helper()
	got, err := b.try(e)
	if err != nil {
		b.Fatalf("%s: %v", e.Kind, err)
	}
	return got
}

func (b book) try(e trace.Event) (trace.Event, error) {
	if e.At.IsZero() {
		e.At = noon
	}
	if e.Noted.IsZero() {
		e.Noted = noon
	}
	if e.Kind == trace.Make && e.Made == "" {
		e.Made = "2026-03-17"
	}
	got, err := b.Note(context.Background(), e)
	if err != nil {
		return trace.Event{}, err
	}
	return got[0], nil
}

func (b book) refused(e trace.Event, says string) {
	b.Helper()
	before, _ := b.Events(context.Background())
	_, err := b.try(e)
	var r *register.Error
	if !errors.As(err, &r) || !strings.Contains(err.Error(), says) {
		b.Errorf("%s is not refused with %q: %v", e.Kind, says, err)
	}
	if after, _ := b.Events(context.Background()); len(after) != len(before) {
		b.Errorf("the refused %s left %d events", e.Kind, len(after)-len(before))
	}
}

func (b book) walk(from trace.Thing, way trace.Direction) trace.Tree {
	b.Helper()
	t, err := trace.Walk(context.Background(), b, from, way)
	if err != nil {
		b.Fatal(err)
	}
	return t
}

// apricots is the demo's recall: a lot of dried apricots goes into a dough, the
// dough into biscuits, the biscuits into tins and into an assortment, both into
// cartons, and the cartons to two customers.
func apricots(b book) {
	b.note(trace.Event{Kind: trace.Receive, Partner: "Orrow Fruit", Out: []trace.Part{g(lot("dried-apricot", "OF-88"), "5 kg")}})
	b.note(trace.Event{Kind: trace.Receive, Partner: "Corvane Mill", Out: []trace.Part{g(lot("wheat-flour", "CM-1"), "25 kg")}})
	b.note(trace.Event{Kind: trace.Make, In: []trace.Part{g(lot("dried-apricot", "OF-88"), "180 g"), g(lot("wheat-flour", "CM-1"), "500 g")},
		Out: []trace.Part{g(batch("rye-shortbread", "L26076A"), "2 kg")}})
	b.note(trace.Event{Kind: trace.Make, In: []trace.Part{g(batch("rye-shortbread", "L26076A"), "1.9 kg")},
		Out: []trace.Part{pieces(batch("rye-shortbread-tin", "L26076A"), 120)}})
	b.note(trace.Event{Kind: trace.Make, In: []trace.Part{pieces(batch("rye-shortbread-tin", "L26076A"), 60)},
		Out: []trace.Part{pieces(batch("bench-tin", "L26076A"), 10)}})
	b.note(trace.Event{Kind: trace.Pack, In: []trace.Part{pieces(batch("bench-tin", "L26076A"), 10)}, Out: []trace.Part{pieces(carton(6), 10)}})
	b.note(trace.Event{Kind: trace.Pack, In: []trace.Part{pieces(batch("rye-shortbread-tin", "L26076A"), 60)}, Out: bare(carton(7), carton(8))})
	b.note(trace.Event{Kind: trace.Load, In: bare(carton(7), carton(8)), Out: bare(pallet(20))})
	b.note(trace.Event{Kind: trace.Ship, Partner: "Ossel Larder", Order: "4711", In: bare(carton(6))})
	b.note(trace.Event{Kind: trace.Ship, Partner: "Quay Stores", In: bare(pallet(20))})
}

func customers(t trace.Tree) (out []string) {
	for _, e := range t.Events {
		if e.Kind == trace.Ship {
			out = append(out, e.Partner)
		}
	}
	return out
}

// One step forward to the customers, one step back to the suppliers: Reg. (EC)
// 178/2002 Art. 18(2) and (3).
func testWalk(t *testing.T, b book) {
	apricots(b)
	forth := b.walk(lot("dried-apricot", "OF-88"), trace.Forth)
	if got := fmt.Sprint(customers(forth)); got != "[Ossel Larder Quay Stores]" {
		t.Errorf("customers %s", got)
	}
	if got := len(forth.Of(trace.Carton)); got != 3 {
		t.Errorf("%d cartons, not 3", got)
	}
	back := b.walk(carton(8), trace.Back)
	if got := back.Of(trace.Lot); len(got) != 2 || got[0].Depth != 3 {
		t.Errorf("lots behind the carton: %v", got)
	}
	if got := customers(b.walk(lot("wheat-flour", "CM-1"), trace.Back)); got != nil {
		t.Errorf("a lot has no customers behind it: %v", got)
	}
}

func testRefuses(t *testing.T, b book) {
	apricots(b)
	flour, dough := lot("wheat-flour", "CM-1"), batch("rye-shortbread", "L26076A")
	for _, c := range []struct {
		says string
		e    trace.Event
	}{
		{"was ever noted", trace.Event{Kind: trace.Make, In: bare(lot("butter", "HD-1")), Out: bare(batch("x", "1"))}},
		{"made of itself", trace.Event{Kind: trace.Make, In: bare(batch("bench-tin", "L26076A")), Out: bare(dough)}},
		{"made of itself", trace.Event{Kind: trace.Make, In: bare(dough), Out: bare(dough)}},
		{"not 2026-03-18", trace.Event{Kind: trace.Make, Made: "2026-03-18", In: bare(flour), Out: bare(dough)}},
		{"only 24500 g is left", trace.Event{Kind: trace.Make, In: []trace.Part{g(flour, "24501 g")}, Out: bare(batch("x", "1"))}},
		{"only 0 are left of 120", trace.Event{Kind: trace.Pack, In: []trace.Part{pieces(batch("rye-shortbread-tin", "L26076A"), 1)}, Out: bare(carton(9))}},
		{"was packed on", trace.Event{Kind: trace.Pack, In: bare(dough), Out: bare(carton(7))}},
		{"was loaded on", trace.Event{Kind: trace.Load, In: bare(carton(7)), Out: bare(pallet(21))}},
		{"was shipped on 2026-03-17 to Quay Stores", trace.Event{Kind: trace.Ship, Partner: "Ossel Larder", In: bare(carton(7))}},
		{"was shipped on 2026-03-17 to Ossel Larder", trace.Event{Kind: trace.Ship, Partner: "Quay Stores", In: bare(carton(6))}},
		{"customer is missing", trace.Event{Kind: trace.Ship, In: bare(carton(6))}},
		{"supplier is missing", trace.Event{Kind: trace.Receive, Out: []trace.Part{g(flour, "1 kg")}}},
		{"how much of", trace.Event{Kind: trace.Receive, Partner: "Corvane Mill", Out: bare(flour)}},
		{"cannot be what goes in", trace.Event{Kind: trace.Pack, In: bare(flour), Out: bare(carton(9))}},
		{"reason is missing", trace.Event{Kind: trace.Withdraw, In: bare(flour)}},
		{"is not a carton number", trace.Event{Kind: trace.Ship, Partner: "x", In: bare(trace.Thing{Kind: trace.Carton, ID: "x", Code: "095200010000000011"})}},
		{"has not come yet", trace.Event{Kind: trace.Receive, At: noon.Add(48 * time.Hour), Partner: "x", Out: []trace.Part{g(flour, "1 kg")}}},
		{"not an offset", trace.Event{Kind: trace.Receive, Zone: "CET", Partner: "x", Out: []trace.Part{g(flour, "1 kg")}}},
		{"before it is made", trace.Event{Kind: trace.Make, Until: "2026-03-16", Out: bare(batch("x", "1"))}},
		{"used by event 3", trace.Event{Kind: trace.Undo, Undoes: 1, Why: "slip"}},
		{"there is no event 99", trace.Event{Kind: trace.Undo, Undoes: 99, Why: "slip"}},
	} {
		b.refused(c.e, c.says)
	}
}

// What was undone is as if it had never been, and can be noted rightly.
func testUndo(t *testing.T, b book) {
	apricots(b)
	undone := b.note(trace.Event{Kind: trace.Undo, Undoes: 9, Why: "other customer"})
	b.refused(trace.Event{Kind: trace.Undo, Undoes: 9, Why: "again"}, "undone before")
	b.refused(trace.Event{Kind: trace.Undo, Undoes: undone.Number, Why: "again"}, "undone before")
	b.note(trace.Event{Kind: trace.Ship, Partner: "Quay Stores", In: bare(carton(6))})
	if got := fmt.Sprint(customers(b.walk(lot("dried-apricot", "OF-88"), trace.Forth))); got != "[Quay Stores Quay Stores]" {
		t.Errorf("customers %s", got)
	}

	// A lot that came in twice: so much was used of it that neither delivery can go.
	twice := lot("sugar", "S-1")
	first := b.note(trace.Event{Kind: trace.Receive, Partner: "Osmer Sugar", Out: []trace.Part{g(twice, "5 kg")}})
	b.note(trace.Event{Kind: trace.Receive, Partner: "Osmer Sugar", Out: []trace.Part{g(twice, "2 kg")}})
	use := b.note(trace.Event{Kind: trace.Make, In: []trace.Part{g(twice, "3 kg")}, Out: bare(batch("syrup", "1"))})
	b.refused(trace.Event{Kind: trace.Undo, Undoes: first.Number, Why: "typed wrongly"}, "more of lot S-1 of sugar was used than there would be left")
	b.note(trace.Event{Kind: trace.Undo, Undoes: use.Number, Why: "typed wrongly"})
	b.note(trace.Event{Kind: trace.Undo, Undoes: first.Number, Why: "typed wrongly"})
}

// Nothing made of what was withdrawn is used, packed or shipped.
func testWithdrawn(_ *testing.T, b book) {
	apricots(b)
	b.note(trace.Event{Kind: trace.Pack, In: bare(batch("rye-shortbread", "L26076A")), Out: bare(carton(30))})
	b.note(trace.Event{Kind: trace.Withdraw, Why: "glass found by the supplier", In: bare(lot("dried-apricot", "OF-88"))})
	const says = "was withdrawn on 2026-03-17: glass found by the supplier"
	b.refused(trace.Event{Kind: trace.Ship, Partner: "Ossel Larder", In: bare(carton(30))}, says)
	b.refused(trace.Event{Kind: trace.Make, In: bare(batch("rye-shortbread", "L26076A")), Out: bare(batch("x", "1"))}, says)
	b.note(trace.Event{Kind: trace.Make, In: bare(lot("wheat-flour", "CM-1")), Out: bare(batch("x", "1"))})
}

// A carton whose label names one customer goes to no other, neither by itself
// nor on a pallet; what was packed for nobody goes to anybody.
func testMeant(_ *testing.T, b book) {
	apricots(b)
	dough := bare(batch("rye-shortbread", "L26076A"))
	b.note(trace.Event{Kind: trace.Pack, Partner: "Ossel Larder", Order: "4712", In: dough, Out: bare(carton(30), carton(31))})
	b.note(trace.Event{Kind: trace.Pack, In: dough, Out: bare(carton(32))})
	const says = "was packed for Ossel Larder"
	b.refused(trace.Event{Kind: trace.Ship, Partner: "Quay Stores", In: bare(carton(30))}, says)
	b.refused(trace.Event{Kind: trace.Load, Partner: "Quay Stores", In: bare(carton(32), carton(31)), Out: bare(pallet(40))}, says)
	b.refused(trace.Event{Kind: trace.Load, In: bare(carton(31)), Out: bare(pallet(40))}, says)
	b.note(trace.Event{Kind: trace.Load, Partner: "Ossel Larder", In: bare(carton(31), carton(32)), Out: bare(pallet(40))})
	b.refused(trace.Event{Kind: trace.Ship, Partner: "Quay Stores", In: bare(pallet(40))}, "for Ossel Larder")
	b.note(trace.Event{Kind: trace.Ship, Partner: "Ossel Larder", In: bare(pallet(40))})
	b.note(trace.Event{Kind: trace.Ship, Partner: "Ossel Larder", In: bare(carton(30))})
}

// Random days: whatever is noted, back of forth leads home, no thing is found
// twice, and no more is used of a thing than there is.
func testRandom(t *testing.T, open func(testing.TB) trace.Book) {
	rapid.Check(t, func(r *rapid.T) {
		b := book{t, open(t)}
		var all []trace.Thing
		have := map[trace.Thing]unit.Mass{}
		for i := range rapid.IntRange(1, 40).Draw(r, "events") {
			pick := func() trace.Thing { return all[rapid.IntRange(0, len(all)-1).Draw(r, "of")] }
			if len(all) == 0 || rapid.IntRange(0, 3).Draw(r, "kind") == 0 {
				l := lot("flour", fmt.Sprint("F", rapid.IntRange(0, 9).Draw(r, "lot")))
				m := unit.Mass(rapid.IntRange(1, 1000).Draw(r, "kg")) * unit.Kilogram
				b.note(trace.Event{Kind: trace.Receive, Partner: "Corvane Mill", Out: []trace.Part{{Thing: l, Mass: m}}})
				have[l] += m
				all = append(all, l)
				continue
			}
			e := trace.Event{Kind: trace.Make}
			for range rapid.IntRange(1, 4).Draw(r, "parts") {
				e.In = append(e.In, trace.Part{Thing: pick(), Mass: unit.Mass(rapid.IntRange(0, 500).Draw(r, "use")) * unit.Kilogram})
			}
			out := batch("dough", fmt.Sprint("B", rapid.IntRange(0, i).Draw(r, "batch")))
			e.Out = bare(out)
			if _, err := b.try(e); err != nil {
				continue
			}
			for _, p := range e.In {
				if p.Kind == trace.Lot {
					have[p.Thing] -= p.Mass
					if have[p.Thing] < 0 {
						r.Fatalf("%s below nothing", p.Thing)
					}
				}
			}
			all = append(all, out)
		}
		from := all[rapid.IntRange(0, len(all)-1).Draw(r, "from")]
		seen := map[trace.Thing]bool{}
		for _, f := range b.walk(from, trace.Forth).Found {
			if seen[f.Thing] {
				r.Fatalf("%s twice", f.Thing)
			}
			seen[f.Thing] = true
			home := false
			for _, x := range b.walk(f.Thing, trace.Back).Found {
				home = home || x.Thing == from
				if x.Thing == f.Thing && x.Depth > 0 {
					r.Fatalf("%s is made of itself", f.Thing)
				}
			}
			if !home {
				r.Fatalf("forth from %s to %s, but not back", from, f.Thing)
			}
		}
	})
}

// What is noted comes back as it was, each field.
func testKept(t *testing.T, b book) {
	in := trace.Event{Kind: trace.Receive, At: noon, Noted: noon.Add(time.Minute), Zone: "+01:00", Who: "Sanne", Partner: "Corvane  Mill",
		Order: "D-7", Until: "2026-09-01", Facts: "AAAA", Why: "first", Out: []trace.Part{g(lot("wheat-flour", "CM-1"), "25 kg")}}
	b.note(in)
	in.Number, in.Partner = 1, "Corvane Mill"
	all, err := b.Events(context.Background())
	if err != nil || len(all) != 1 || !reflect.DeepEqual(all[0], in) {
		t.Errorf("kept %+v (%v)\nwant %+v", all, err, in)
	}
	got, err := b.Named(context.Background(), "CM-1")
	if err != nil || len(got) != 1 || got[0] != lot("wheat-flour", "CM-1") {
		t.Errorf("named %v, %v", got, err)
	}
}

// Of two who ship one carton at once one is refused.
func testTwo(t *testing.T, b book) {
	apricots(b)
	b.note(trace.Event{Kind: trace.Pack, In: bare(batch("rye-shortbread", "L26076A")), Out: bare(carton(30))})
	done := make(chan error)
	for _, who := range []string{"Ossel Larder", "Quay Stores"} {
		go func() {
			_, err := b.try(trace.Event{Kind: trace.Ship, Partner: who, In: bare(carton(30))})
			done <- err
		}()
	}
	if a, c := <-done, <-done; (a == nil) == (c == nil) {
		t.Errorf("both were told the same: %v, %v", a, c)
	}
}

// Of several events all are kept or none, and the refusal says which it was.
func testAll(t *testing.T, b book) {
	in := trace.Event{Kind: trace.Receive, At: noon, Noted: noon, Partner: "Corvane Mill", Out: []trace.Part{g(lot("wheat-flour", "CM-1"), "25 kg")}}
	use := trace.Event{Kind: trace.Make, At: noon, Noted: noon, Made: "2026-03-17", In: []trace.Part{g(lot("wheat-flour", "CM-1"), "20 kg")}, Out: bare(batch("dough", "1"))}
	_, err := b.Note(context.Background(), in, use, use)
	var which *trace.RefusedError
	if !errors.As(err, &which) || which.Place != 2 || register.RuleOf(err) != register.Input {
		t.Errorf("got %v", err)
	}
	got, err := b.Note(context.Background(), in, use)
	if err != nil || len(got) != 2 || got[0].Number != 1 || got[1].Number != 2 {
		t.Errorf("got %+v, %v", got, err)
	}
}
