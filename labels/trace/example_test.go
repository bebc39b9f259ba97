package trace_test

import (
	"context"
	"fmt"
	"time"

	"chablon/labels/trace"
	"chablon/labels/unit"
)

func ExampleWalk() {
	ctx, book := context.Background(), &trace.Memory{}
	flour := trace.Part{Thing: trace.Thing{Kind: trace.Lot, ID: "wheat-flour", Code: "CM-1"}, Mass: 25 * unit.Kilogram}
	dough := trace.Part{Thing: trace.Thing{Kind: trace.Batch, ID: "sweet-pastry", Code: "L26076A"}}
	at := time.Date(2026, 3, 17, 6, 0, 0, 0, time.UTC)
	for _, e := range []trace.Event{
		{Kind: trace.Receive, At: at, Noted: at, Partner: "Corvane Mill", Out: []trace.Part{flour}},
		{Kind: trace.Make, At: at, Noted: at, Made: "2026-03-17", In: []trace.Part{flour}, Out: []trace.Part{dough}},
	} {
		if _, err := book.Note(ctx, e); err != nil {
			fmt.Println(err)
		}
	}
	tree, err := trace.Walk(ctx, book, dough.Thing, trace.Back)
	fmt.Println(tree.Found[1].Thing, err)
	// Output: lot CM-1 of wheat-flour <nil>
}
