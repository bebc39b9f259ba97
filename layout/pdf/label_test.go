package pdf_test

import (
	"bytes"
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"
	"time"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
)

// Bar patterns as printed in figures of the GS1 General Specifications; 1 is
// a bar. The first is EAN-13 for 9501101531000, the second GS1-128 for
// (01)09501101530003, the third ITF-14 for 09501101530003.
const (
	ean13  = "10101100010100111011001100110010100111001100101010100111010000101100110111001011100101110010101"
	gs1128 = "11010011100111101011101100110110011001001000110001011101100010010011001101100110111011101101100110010010011000100110100001100011101011"
	itf14  = "101010100011101110001011101011100010001011100010101011100010001011101110100011100010001110101010101110001110001010001000111011101011101"
)

func run(face, text string, x, baseline, pt float64) page.Item {
	size := unit.Pts(pt)
	w := size.Mul(int64(len(text)), 2)
	return page.Item{
		Box:  page.Rect{X: mm(x), Y: mm(baseline) - size, W: w, H: size.Mul(5, 4)},
		Role: role.Note, Src: diag.Pos{File: "shop.yaml", Line: 4, Col: 7},
		Run: &page.Run{Text: text, Face: face, Size: size, Baseline: mm(baseline)},
	}
}

func mm(v float64) unit.Length { return unit.Length(v * float64(unit.MM)) }

// bars makes a linear symbol with modules of n dots, at dots x and y.
func bars(pattern string, dots unit.Dots, n, x, y, high int64) page.Item {
	cols := int64(len(pattern))
	s := &page.Symbol{
		Kind: "EAN-13", Cols: int(cols), Rows: 1, Dark: modules(pattern), Module: dots.At(n), Dots: dots,
		Bars: page.Rect{X: dots.At(x), Y: dots.At(y), W: dots.At(x+n*cols) - dots.At(x), H: dots.At(high)},
		Dot:  dots.At(1), Inset: dots.At(1) / 4,
	}
	return page.Item{Box: s.Bars, Role: role.Bars, Symbol: s}
}

// matrix makes a symbol of rows, one string each.
func matrix(rows []string, dots unit.Dots, n, x, y int64) page.Item {
	it := bars(rows[0], dots, n, x, y, 0)
	s := it.Symbol
	s.Rows, s.Dark = len(rows), modules(strings.Join(rows, ""))
	s.Bars.H = dots.At(y+n*int64(len(rows))) - dots.At(y)
	it.Box = s.Bars
	return it
}

func modules(pattern string) []byte {
	out := []byte(pattern)
	for i := range out {
		out[i] -= '0'
	}
	return out
}

func shape(k page.ShapeKind, x, y, w, h, stroke float64) page.Item {
	return page.Item{Box: page.Rect{X: mm(x), Y: mm(y), W: mm(w), H: mm(h)}, Role: role.Furniture,
		Shape: &page.Shape{Kind: k, Stroke: mm(stroke)}}
}

var fine = unit.Dots{N: 300, Per: unit.Inch}

// label is a sale label of the invented shop: 18 runs, about 700 characters,
// lines, boxes and a symbol of 30 bars.
func label() *page.Art {
	a := &page.Art{W: 100 * unit.MM, H: 60 * unit.MM}
	add := func(it ...page.Item) { a.Items = append(a.Items, it...) }
	add(run("bold", "Almond crescents with vanilla", 4, 7, 14))
	list := []string{
		"Ingredients: wheat flour, butter (milk), ground almonds, caster sugar, icing",
		"sugar (sugar, maize starch), egg yolk, vanilla, salt. Dark chocolate (cocoa mass,",
		"sugar, cocoa butter, emulsifier: soya lecithins, natural vanilla flavouring).",
		"Zutaten: Weizenmehl, Butter (Milch), gemahlene Mandeln, Zucker, Puderzucker",
	}
	for i, s := range list {
		add(run("regular", s, 4, 12+3*float64(i), 7))
	}
	add(run("bold", "MAY CONTAIN HAZELNUTS, PISTACHIO NUTS, PEANUTS.", 4, 25, 7))
	for i, s := range []string{"Energy", "Fat", "of which saturates", "Carbohydrate", "of which sugars", "Protein", "Salt"} {
		add(run("regular", s+" per 100 g of the product", 4, 31+3*float64(i), 6.5))
	}
	add(run("bold", "℮ 250 g", 46, 33, 12))
	add(run("regular", "Keep dry and below 20 °C, away from light.", 46, 38, 7))
	add(run("regular", "Quoin & Crumb Pastry, 7 Weighhouse Lane", 46, 42, 7))
	add(run("regular", "Port Ossel, QZ-2040", 46, 46, 7))
	add(run("regular", "9501101531000", 70, 57.5, 8))
	add(shape(page.Outlined, 2, 2, 96, 56, 0.25), shape(page.Filled, 4, 27, 40, 0.3, 0))
	add(shape(page.Filled, 46, 47, 10, 0.3, 0), shape(page.Outlined, 60, 29, 30, 6, 0.2))
	add(bars(ean13, fine, 3, 720, 560, 90))
	return a
}

// numbered yields n pages that place a and add a serial number and a batch.
func numbered(a *page.Art, n int) iter.Seq[*page.Page] {
	return func(yield func(*page.Page) bool) {
		for i := range n {
			p := &page.Page{W: a.W, H: a.H, Placed: []page.Placed{{Art: a}}, Items: []page.Item{
				run("regular", fmt.Sprintf("No. %06d", i+1), 46, 51, 7),
				run("regular", "L26076A", 46, 55, 7),
			}}
			if !yield(p) {
				return
			}
		}
	}
}

func one(items ...page.Item) iter.Seq[*page.Page] {
	return slices.Values([]*page.Page{{W: 100 * unit.MM, H: 60 * unit.MM, Items: items}})
}

func write(t testing.TB, d pdf.Doc) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func labels(n int) pdf.Doc {
	a := label()
	return pdf.Doc{Title: "Labels", Lang: "en", Made: time.Date(2026, 3, 17, 6, 30, 0, 0, time.UTC),
		Arts: []*page.Art{a}, Pages: numbered(a, n)}
}
