// Package layouttest answers: is this paper what it should be?
//
// It is for tests only: what the tests of all sheets share. The demo shop and
// its languages and papers, golden files that -update writes anew, what a
// reader sees on a page, and the two judges of finished pages: preflight, and
// another reader of the PDF (layout/pdf/pdftest).
package layouttest

import (
	"slices"
	"sync"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// TB is a test, or one try of a random test.
type TB interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
}

// Day is the day of the demo, 17 March 2026.
func Day() unit.Date { return unit.Date{Year: 2026, Month: 3, Day: 17} }

// Office is a printer of sheets, with 600 dots to the inch.
func Office() unit.Dots { return unit.Dots{N: 600, Per: unit.Inch} }

// Desk is a printer of rolls, with 12 dots to the millimetre.
func Desk() unit.Dots { return unit.Dots{N: 12, Per: unit.MM} }

// Coarse is a printer of rolls, with 8 dots to the millimetre.
func Coarse() unit.Dots { return unit.Dots{N: 8, Per: unit.MM} }

// Shop reads the demo shop anew, so that a test may change it.
func Shop(t TB) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	if found.Errors() > 0 {
		t.Fatalf("the demo shop: %v", found.All())
	}
	return sh
}

var load = sync.OnceValues(text.Load)

// Faces are the two shipped faces, read once.
func Faces(t TB) *text.Faces {
	t.Helper()
	f, err := load()
	if err != nil {
		t.Fatalf("%v", err)
	}
	return f
}

// Langs are languages by their codes, in this order.
func Langs(t TB, codes ...string) []*words.Lang {
	t.Helper()
	var out []*words.Lang
	for _, c := range codes {
		l, ok := words.Get(c)
		if !ok {
			t.Fatalf("there is no language %q", c)
		}
		out = append(out, l)
	}
	return out
}

// Paper is a paper by its name.
func Paper(t TB, id string) *stock.Stock {
	t.Helper()
	s, ok := stock.Get(id)
	if !ok {
		t.Fatalf("there is no paper %q", id)
	}
	return s
}

// Sheets deals artworks out to sheets, from the first place on.
func Sheets(s *stock.Stock, by stock.Bed, arts ...*page.Art) []*page.Page {
	run := stock.Imposition{Stock: s, Bed: by, Count: len(arts),
		Label: func(n int) (*page.Art, []page.Item) { return arts[n-1], nil }}
	return slices.Collect(run.Pages(0, run.Sheets()))
}

// Market is a market by its code.
func Market(t TB, code string) *market.Market {
	t.Helper()
	m, ok := market.Get(code)
	if !ok {
		t.Fatalf("there is no market %q", code)
	}
	return m
}
