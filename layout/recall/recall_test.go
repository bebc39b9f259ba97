package recall

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

func sscc(n int64) string {
	s, err := gs1.SSCC(0, "9520001", n)
	if err != nil {
		panic(err)
	}
	return s
}

func box(n int64, packs unit.Count) Box {
	return Box{trace.Part{Thing: trace.Thing{Kind: trace.Carton, ID: "bench-tin", Code: sscc(n)}, Pieces: packs}, "L26076A", "2026-04-14"}
}

// demo is a mock recall of a lot of butter in the demo shop: one customer of the
// shop's and one whom it does not know.
func demo(t layouttest.TB, lang string) Sheet {
	t.Helper()
	butter := trace.Thing{Kind: trace.Lot, ID: "butter", Code: "HD-4471"}
	tin := trace.Thing{Kind: trace.Batch, ID: "bench-tin", Code: "L26076A"}
	s := Sheet{Shop: layouttest.Shop(t), Day: layouttest.Day(), Of: butter, Why: "glass found by the supplier", Dots: layouttest.Office(),
		Goods: []Gone{{"Ossel Larder Trade", "4711", layouttest.Day(), []Box{box(1, 10), box(2, 10), box(3, 10), box(7, 6)}}, {"Somebody Else", "", layouttest.Day(), []Box{box(9, 10)}}},
		Here:  []trace.Part{{Thing: butter, Mass: 8308 * unit.Gram}, {Thing: tin, Pieces: 12}, {Thing: trace.Thing{Kind: trace.Pallet, Code: sscc(20)}}},
		Lots:  []Source{{trace.Part{Thing: butter, Mass: 10 * unit.Kilogram}, "Halewyn Dairy", "D-4", layouttest.Day(), "2026-05-01", true}}}
	began := time.Date(2026, 3, 18, 4, 2, 10, 0, time.FixedZone("", 3600))
	s.Mock = &Mock{Began: began, Ended: began.Add(1234 * time.Millisecond), Took: 1234 * time.Millisecond, Batches: 3, Proof: sscc(1),
		Balances: []trace.Balance{{Thing: butter, Mass: struct{ In, Out int64 }{int64(10 * unit.Kilogram), int64(1692 * unit.Gram)}}, {Thing: tin, Pieces: struct{ In, Out int64 }{10, 10}, Unknown: 2}}}
	s.Lang, s.Stock = layouttest.Langs(t, lang)[0], layouttest.Paper(t, "card-a4")
	return s
}

func pagesOf(t layouttest.TB, s Sheet) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(s, layouttest.Faces(t), found) })
}

func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

func Example() {
	fmt.Println(len(pagesOf(layouttest.Aloud{}, demo(layouttest.Aloud{}, "en"))), "pages")
	// Output: 6 pages
}

func TestGolden(t *testing.T) {
	for i, pg := range pagesOf(t, demo(t, "en")) {
		layouttest.Golden(t, fmt.Sprintf("mock-%d.dump", i+1), pg.Dump())
	}
}

func passes(t layouttest.TB, s Sheet, pages []*page.Page) {
	t.Helper()
	layouttest.Passes(t, preflight.Sheet{What: "the sheet", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
}

// In every language that has the words, on every usual paper.
func TestPreflight(t *testing.T) {
	for _, code := range words.Codes() {
		l, _ := words.Get(code)
		if !l.Has("sheet") {
			continue
		}
		for _, id := range []string{"card-a4", "card-letter"} {
			s := demo(t, code)
			s.Stock = layouttest.Paper(t, id)
			passes(t, s, pagesOf(t, s))
		}
	}
}

// Article 18 of Reg. (EC) No 178/2002 asks for any person from whom a food came
// and any business to which it went; the record gives both, with times, and the
// facts of Art. 3(1) of Reg. (EU) No 931/2011 (a) to (h) for food of animal
// origin: description, quantity, sender, owner, receiver, consignee, lot, day.
func TestRecordSaysWhatTheLawAsks(t *testing.T) {
	got := said(pagesOf(t, demo(t, "en")))
	layouttest.Has(t, got, "butter, lot HD-4471", "glass found by the supplier", "18 March 2026, 04:02:10 +01:00", "18 March 2026, 04:02:11 +01:00", "1.234 s",
		"Halewyn Dairy", "order D-4", "Ossel Larder Trade, Unit 3, Ropewalk", "order 4711", "Somebody Else", "10 000 g", "1692 g", "8308 g", "16.9 %", "2 without an amount",
		"carton "+sscc(1)+", followed back, leads to it", "L26076A", "14.04.2026")
	animal := said(pagesOf(t, demo(t, "en"))[5:])
	layouttest.Has(t, animal, "butter", "10 000 g", "Halewyn Dairy", "sender and address", "owner, if another", "Quoin & Crumb Pastry, 7 Weighhouse Lane", "HD-4471", "day sent", "17 March 2026")
}

// A list that is no exercise has the lists alone, and one without findings no
// page of them.
func TestWithoutMock(t *testing.T) {
	s := demo(t, "en")
	s.Mock, s.Lots, s.Here = nil, nil, nil
	pages := pagesOf(t, s)
	if got := said(pages); len(pages) != 1 || strings.Contains(got, layouttest.Bare("mock recall")) || !strings.Contains(got, sscc(7)) {
		t.Errorf("%d pages: %s", len(pages), got)
	}
}

// Cartons whose numbers follow each other stand on one line, and no carton is
// lost or counted twice; an SSCC's serial number stands before its check digit
// (GS1 General Specifications, 7.9).
func TestRuns(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var boxes []Box
		seen := map[int64]bool{}
		for range rapid.IntRange(1, 40).Draw(rt, "cartons") {
			n := rapid.Int64Range(1, 60).Draw(rt, "n")
			if b := box(n, unit.Count(n)); !seen[n] {
				seen[n] = true
				b.Batch = rapid.SampledFrom([]string{"A", "B"}).Draw(rt, "batch")
				boxes = append(boxes, b)
			}
		}
		var n int
		var packs unit.Count
		for _, r := range runs(boxes) {
			if first, last := serial(r.first.Code), serial(r.last); last-first+1 != int64(r.n) {
				rt.Fatalf("%s to %s are said to be %d", r.first.Code, r.last, r.n)
			}
			for i := range r.n {
				code := sscc(serial(r.first.Code)%1_000_000_000 + int64(i))
				found := false
				for _, b := range boxes {
					found = found || b.Code == code && b.Batch == r.first.Batch
				}
				if !found {
					rt.Fatalf("carton %s of batch %s is on the list and was not shipped", code, r.first.Batch)
				}
			}
			n, packs = n+r.n, packs+r.packs
		}
		var want unit.Count
		for _, b := range boxes {
			want += b.Pieces
		}
		if n != len(boxes) || packs != want {
			rt.Fatalf("%d cartons with %d packs, want %d with %d", n, packs, len(boxes), want)
		}
	})
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Sheet)
		rule   string
	}{
		"a language without the words": {func(s *Sheet) { s.Lang, _ = words.Get("et") }, "words"},
		"a letter that no face has":    {func(s *Sheet) { s.Goods[0].Customer = "烤箱" }, "glyph"},
	} {
		var found diag.List
		s := demo(t, "en")
		c.change(&s)
		if pages := Compose(s, layouttest.Faces(t), &found); len(pages) != 0 || found.Errors() != 1 || found.All()[0].Rule != c.rule {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
}
