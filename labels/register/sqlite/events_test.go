package sqlite

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"chablon/labels/gs1"
	"chablon/labels/trace"
	"chablon/labels/trace/tracetest"
	"chablon/labels/unit"
)

func TestEvents(t *testing.T) {
	tracetest.Run(t, func(tb testing.TB) trace.Book { return begun(tb) })
}

func TestBooks(t *testing.T) {
	tracetest.RunBooks(t, func(tb testing.TB) trace.Books { return begun(tb) })
}

func begun(tb testing.TB) *Register {
	r, err := Begin(context.Background(), filepath.Join(tb.TempDir(), FileName))
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { _ = r.Close() })
	return r
}

// BenchmarkTrace follows one lot into 100,000 cartons and one of them back.
func BenchmarkTrace(b *testing.B) {
	ctx, r := context.Background(), begun(b)
	noon := time.Date(2026, 3, 17, 12, 0, 0, 0, time.UTC)
	note := func(e trace.Event) {
		e.At, e.Noted, e.Made = noon, noon, "2026-03-17"
		if _, err := r.Note(ctx, e); err != nil {
			b.Fatal(err)
		}
	}
	lot := trace.Thing{Kind: trace.Lot, ID: "butter", Code: "HD-4471"}
	note(trace.Event{Kind: trace.Receive, Partner: "Hearnmoor Dairy", Out: []trace.Part{{Thing: lot, Mass: 1000 * unit.Kilogram}}})
	var last trace.Thing
	for d := range 100 {
		batch := trace.Thing{Kind: trace.Batch, ID: "tartlet", Code: fmt.Sprintf("L%05d", d)}
		note(trace.Event{Kind: trace.Make, In: []trace.Part{{Thing: lot, Mass: unit.Kilogram}}, Out: []trace.Part{{Thing: batch}}})
		for c := range 10 {
			e := trace.Event{Kind: trace.Pack, In: []trace.Part{{Thing: batch}}}
			for n := range 100 {
				sscc, err := gs1.SSCC(0, "9520001", int64(d*1000+c*100+n+1))
				if err != nil {
					b.Fatal(err)
				}
				last = trace.Thing{Kind: trace.Carton, ID: "tartlet", Code: sscc}
				e.Out = append(e.Out, trace.Part{Thing: last, Pieces: 12})
			}
			note(e)
			note(trace.Event{Kind: trace.Ship, Partner: "Ossel Larder", In: e.Out})
		}
	}
	b.ResetTimer()
	for range b.N {
		forth, err := trace.Walk(ctx, r, lot, trace.Forth)
		if err != nil || len(forth.Of(trace.Carton)) != 100_000 {
			b.Fatal(len(forth.Found), err)
		}
		back, err := trace.Walk(ctx, r, last, trace.Back)
		if err != nil || len(back.Of(trace.Lot)) != 1 {
			b.Fatal(len(back.Found), err)
		}
	}
}
