package epcis_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"chablon/labels/trace"
	"chablon/labels/trace/epcis"
	"chablon/labels/unit"
)

var update = flag.Bool("update", false, "rewrite the golden document")

var noon = time.Date(2026, 3, 17, 12, 0, 0, 0, time.UTC)

func house() epcis.House {
	return epcis.House{Stem: "https://label.example", Name: "Quoin & Crumb Pastry",
		GTIN:  func(id string) string { return map[string]string{"bench-tin": "9520001000065"}[id] },
		Until: func(string) string { return "best-before" }}
}

// day is one event of each kind, the shipping noted twice and once undone.
func day(t *testing.T) []trace.Event {
	t.Helper()
	lot := trace.Thing{Kind: trace.Lot, ID: "dried-apricot", Code: "OF 88/2"}
	dough := trace.Thing{Kind: trace.Batch, ID: "rye-shortbread", Code: "L26076A"}
	tin := trace.Thing{Kind: trace.Batch, ID: "bench-tin", Code: "L26076A"}
	carton := trace.Thing{Kind: trace.Carton, ID: "bench-tin", Code: "095200010000000065"}
	other := trace.Thing{Kind: trace.Carton, ID: "bench-tin", Code: "095200010000000072"}
	pallet := trace.Thing{Kind: trace.Pallet, Code: "095200010000000201"}
	part := func(x trace.Thing, m unit.Mass, n unit.Count) trace.Part {
		return trace.Part{Thing: x, Mass: m, Pieces: n}
	}
	var book trace.Memory
	for _, e := range []trace.Event{
		{Kind: trace.Receive, Partner: "Orrow Fruit", Order: "D-7", Out: []trace.Part{part(lot, 5*unit.Kilogram, 0)}},
		{Kind: trace.Make, Out: []trace.Part{part(dough, 0, 0)}},
		{Kind: trace.Make, In: []trace.Part{part(lot, 180*unit.Gram, 0)}, Out: []trace.Part{part(dough, 2*unit.Kilogram, 0)}},
		{Kind: trace.Make, Until: "2026-05-26", In: []trace.Part{part(dough, 0, 0)}, Out: []trace.Part{part(tin, 0, 20)}},
		{Kind: trace.Pack, In: []trace.Part{part(tin, 0, 20)}, Out: []trace.Part{part(carton, 0, 10), part(other, 0, 10)}},
		{Kind: trace.Load, In: []trace.Part{part(carton, 0, 0), part(other, 0, 0)}, Out: []trace.Part{part(pallet, 0, 0)}},
		{Kind: trace.Ship, Partner: "Quay Stores", In: []trace.Part{part(pallet, 0, 0)}},
		{Kind: trace.Undo, Undoes: 7, Why: "other customer"},
		{Kind: trace.Ship, Partner: "Ossel Larder", Order: "4711", In: []trace.Part{part(pallet, 0, 0)}},
		{Kind: trace.Withdraw, Why: "glass", In: []trace.Part{part(lot, 0, 0)}},
	} {
		e.At, e.Noted, e.Made, e.Zone = noon, noon.Add(time.Minute), "2026-03-17", "+01:00"
		if _, err := book.Note(t.Context(), e); err != nil {
			t.Fatal(e.Kind, err)
		}
	}
	all, err := book.Events(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestDocument(t *testing.T) {
	got, err := epcis.Document(house(), noon, day(t))
	if err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/day.json"
	if *update {
		if err := os.WriteFile(golden, append(got, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil || string(want) != string(got)+"\n" {
		t.Errorf("another document than %s (%v)", golden, err)
	}
}

// The members that EPCIS 2.0 asks of every event and of each kind (EPCIS 2.0,
// 7.4.1 to 7.4.6, from memory; checked against the published JSON Schema when
// the golden document was made).
func TestMembers(t *testing.T) {
	got, err := epcis.Document(house(), noon, day(t))
	if err != nil {
		t.Fatal(err)
	}
	var d struct {
		Body struct {
			List []map[string]any `json:"eventList"`
		} `json:"epcisBody"`
	}
	if err := json.Unmarshal(got, &d); err != nil {
		t.Fatal(err)
	}
	need := map[string][]string{"ObjectEvent": {"action"}, "AggregationEvent": {"action", "parentID"}, "TransformationEvent": {"inputQuantityList", "outputQuantityList"}}
	kinds, ids := map[string]int{}, map[any]bool{}
	for _, e := range d.Body.List {
		kind := fmt.Sprint(e["type"])
		kinds[kind]++
		for _, m := range append(need[kind], "eventTime", "eventTimeZoneOffset", "eventID", "bizStep") {
			if e[m] == nil {
				t.Errorf("%s %v lacks %s", kind, e["eventID"], m)
			}
		}
		if ids[e["eventID"]] {
			t.Errorf("%v stands twice", e["eventID"])
		}
		ids[e["eventID"]] = true
	}
	if got := fmt.Sprint(kinds); got != "map[AggregationEvent:3 ObjectEvent:5 TransformationEvent:2]" {
		t.Error(got)
	}
	if n := strings.Count(string(got), "errorDeclaration"); n != 1 {
		t.Errorf("%d events are declared wrong, not 1", n)
	}
}

func ExampleDocument() {
	e := trace.Event{Number: 1, Kind: trace.Ship, At: noon, Noted: noon, Zone: "+01:00", Partner: "Ossel Larder",
		In: []trace.Part{{Thing: trace.Thing{Kind: trace.Carton, ID: "bench-tin", Code: "095200010000000065"}}}}
	doc, err := epcis.Document(epcis.House{Stem: "https://label.example", Name: "Quoin & Crumb Pastry"}, noon, []trace.Event{e})
	fmt.Println(strings.Contains(string(doc), "https://label.example/00/095200010000000065"), err)
	// Output: true <nil>
}
