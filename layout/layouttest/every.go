package layouttest

import (
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// EveryMark is a page, 100 mm by 60 mm, with a mark of each kind that can be
// drawn, its bars for a printer with dots. What each way of drawing makes of it
// can be held against another.
func EveryMark(t TB, dots unit.Dots) *page.Page {
	t.Helper()
	const mm = unit.MM
	faces := Faces(t)
	line := func(bold bool, text string, x, y, size unit.Length) page.Item {
		f := faces.Of(bold)
		up, down := f.Ascent(size), f.Descent(size)
		return page.Item{Box: page.Rect{X: x, Y: y - up, W: f.Width(text, size), H: up + down}, Role: role.Note,
			Run: &page.Run{Text: text, Face: f.Name(), Size: size, XHeight: f.XHeight(size), CapHeight: f.CapHeight(size), Baseline: y}}
	}
	shape := func(x, y, w, h unit.Length, s page.Shape) page.Item {
		return page.Item{Box: page.Rect{X: x, Y: y, W: w, H: h}, Role: role.Furniture, Shape: &s}
	}
	pt := func(x, y unit.Length) page.Pt { return page.Pt{X: x * mm, Y: y * mm} }
	heart := []page.Seg{{Op: page.Move, Pts: [3]page.Pt{pt(72, 22)}}, {Op: page.Curve, Pts: [3]page.Pt{pt(60, 14), pt(70, 6), pt(72, 13)}},
		{Op: page.Curve, Pts: [3]page.Pt{pt(74, 6), pt(84, 14), pt(72, 22)}}, {Op: page.Close}}
	bent := []page.Seg{{Op: page.Move, Pts: [3]page.Pt{pt(84, 8)}}, {Op: page.Line, Pts: [3]page.Pt{pt(96, 8)}}, {Op: page.Line, Pts: [3]page.Pt{pt(86, 16)}}, {Op: page.Line, Pts: [3]page.Pt{pt(96, 22)}}}
	items := []page.Item{
		line(true, "Almond crescents, ½ Ångström — ℮ 250 g", 4*mm, 8*mm, 5*mm),
		line(false, "Ingredients: wheat flour, butter (milk), ground almonds, sugar, salt.", 4*mm, 13*mm, 2500*unit.UM),
		shape(4*mm, 16*mm, 12*mm, 4*mm, page.Shape{Kind: page.Filled, Gray: 190}),
		shape(18*mm, 16*mm, 12*mm, 4*mm, page.Shape{Kind: page.Filled}),
		shape(32*mm, 16*mm, 12*mm, 8*mm, page.Shape{Kind: page.Outlined, Stroke: mm / 2}),
		shape(46*mm, 16*mm, 12*mm, 8*mm, page.Shape{Kind: page.Hatched, Stroke: mm / 4}),
		{Box: page.Rect{X: 62 * mm, Y: 6 * mm, W: 20 * mm, H: 17 * mm}, Role: role.Furniture, Shape: &page.Shape{Kind: page.Path, Fill: true, Gray: 90, Stroke: mm / 2, Segs: heart}},
		{Box: page.Rect{X: 84 * mm, Y: 8 * mm, W: 12 * mm, H: 14 * mm}, Role: role.Furniture, Shape: &page.Shape{Kind: page.Path, Stroke: mm, Segs: bent}},
		{Box: page.Rect{X: 80 * mm, Y: 26 * mm, W: 16 * mm, H: 8 * mm}, Role: role.Figure, Picture: wedge()},
	}
	white := line(true, "on black", 19*mm, 19*mm, 2*mm)
	white.Run.Gray = 255
	return &page.Page{W: 100 * mm, H: 60 * mm, Items: append(append(items, white), everySymbol(t, dots)...)}
}

// wedge is a picture that goes from black on the left to white on the right.
func wedge() *page.Picture {
	p := &page.Picture{W: 16, H: 8, Digest: "wedge", Alt: []string{"a wedge of greys"}}
	for i := range p.W * p.H {
		p.Gray = append(p.Gray, uint8(i%p.W*17))
	}
	return p
}

// everySymbol is a symbol of bars and two of rows.
func everySymbol(t TB, dots unit.Dots) []page.Item {
	t.Helper()
	ean := must(t)(symbol.EAN13("9520001000010", module(t, gs1.EAN13, dots)))
	matrix := must(t)(symbol.GS1DataMatrix("0109520001000010\x1d10L26076A", module(t, gs1.GS1DataMatrix, dots)))
	qr := must(t)(symbol.QR("https://label.example/01/09520001000010/10/L26076A", symbol.M, module(t, gs1.QR, dots)))
	return []page.Item{symbol.Place(ean, 4*unit.MM, 27*unit.MM), symbol.Place(matrix, 46*unit.MM, 34*unit.MM), symbol.Place(qr, 70*unit.MM, 36*unit.MM)}
}

func module(t TB, kind string, dots unit.Dots) symbol.Module {
	t.Helper()
	x, h, err := symbol.Choose(kind, gs1.Retail, dots)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return symbol.Module{X: x, Height: h, Dots: dots}
}

func must(t TB) func(*page.Symbol, error) *page.Symbol {
	return func(s *page.Symbol, err error) *page.Symbol {
		t.Helper()
		if err != nil {
			t.Fatalf("%v", err)
		}
		return s
	}
}
