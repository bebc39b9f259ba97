package preflight

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

const mm = unit.MM

func pos(line int) diag.Pos { return diag.Pos{File: "products/x.yaml", Line: line, Col: 3} }

// run is one line of words whose x-height is given; its other measures follow
// in proportions like those of a real face.
func run(role role.Role, x, y unit.Length, text string, xHeight unit.Length) page.Item {
	w := unit.Length(len([]rune(text))) * xHeight
	return page.Item{Box: page.Rect{X: x, Y: y, W: w, H: 2 * xHeight}, Role: role, Src: pos(7),
		Run: &page.Run{Text: text, Face: "regular", Size: 2 * xHeight, XHeight: xHeight, CapHeight: xHeight * 135 / 100, Baseline: y + 3*xHeight/2}}
}

func eu(t testing.TB) *market.Market {
	m, ok := market.Get("eu")
	if !ok {
		t.Fatal("no market eu")
	}
	return m
}

// good is a label that has nothing wrong: 100 × 60 mm, net 170 g, all that
// Reg. (EU) 1169/2011 Art. 9(1) asks of it.
func good(t testing.TB) (Sheet, []page.Item) {
	dots := unit.Dots{N: 12, Per: mm}
	x, h, err := symbol.Choose(gs1.EAN13, gs1.Retail, dots)
	if err != nil {
		t.Fatal(err)
	}
	s, err := symbol.EAN13("9520001000010", symbol.Module{X: x, Height: h, Dots: dots})
	if err != nil {
		t.Fatal(err)
	}
	bars := symbol.Place(s, 2*mm, 30*mm)
	bars.Src = pos(9)
	x12 := 1200 * unit.UM
	items := []page.Item{bars,
		run(role.Name, 2*mm, 2*mm, "Tartlet", 2*mm),
		run(role.List, 2*mm, 8*mm, "Ingredients: pear, butter (milk)", x12),
		run(role.Net, 50*mm, 30*mm, "170 g", 23*mm/10),
		run(role.Date, 50*mm, 36*mm, "Use by 19.03.2026", x12),
		run(role.Keep, 50*mm, 40*mm, "Keep at 5 °C.", x12),
		run(role.Operator, 50*mm, 44*mm, "Quoin & Crumb, Port Ossel", x12),
		run(role.Nutrition, 50*mm, 48*mm, "energy 1532 kJ", x12),
		run(role.Batch, 50*mm, 52*mm, "L26076A", x12),
	}
	today, _ := unit.ParseDate("2026-03-17")
	sheet := Sheet{What: "the label of x", Src: pos(1), Safe: page.Rect{W: 100 * mm, H: 60 * mm}.Inset(2 * mm), Market: eu(t),
		Pack: market.Pack{Sale: market.Prepacked, Face: 108 * unit.CM2, Net: market.Quantity{Mass: 170 * unit.Gram}, UseBy: true, DayMonth: true},
		Use:  gs1.Retail, Today: today, Date: today.AddDays(2)}
	return sheet, items
}

func findings(s Sheet, items []page.Item) []diag.Diag {
	var found diag.List
	Label(s, items, &found)
	return found.All()
}

func TestGoodLabelPasses(t *testing.T) {
	if got := findings(good(t)); len(got) > 0 {
		t.Fatalf("a good label is refused: %v", got)
	}
}

// without returns the items that have not the role.
func without(items []page.Item, role role.Role) []page.Item {
	var out []page.Item
	for _, it := range items {
		if it.Role != role {
			out = append(out, it)
		}
	}
	return out
}

// TestPlantedFaults plants one fault at a time: each is found by its rule, at
// the place in the shop's files that it came from, and nothing else is found.
func TestPlantedFaults(t *testing.T) {
	for _, c := range []struct {
		name   string
		plant  func(*Sheet, *[]page.Item)
		rule   string
		at     int
		phrase string
	}{
		{"text beyond the edge", func(_ *Sheet, i *[]page.Item) { (*i)[2].Box.W = 99 * mm }, "outside", 7, "beyond the edge"},
		{"text on text", func(_ *Sheet, i *[]page.Item) { (*i)[4].Box.Y = (*i)[5].Box.Y - mm }, "overlap", 7, "lies on"},
		{"text on bars", func(_ *Sheet, i *[]page.Item) { (*i)[8].Box.X = 30 * mm }, "overlap", 7, "EAN-13"},
		{"text in the quiet zone", func(_ *Sheet, i *[]page.Item) { (*i)[8].Box.X = (*i)[0].Box.Right() - mm }, "overlap", 7, "EAN-13"},
		// Art. 13(2), Annex IV: 1.2 mm where the largest face is 80 cm² or more.
		{"x-height", func(_ *Sheet, i *[]page.Item) { (*i)[2].Run.XHeight = 1199 * unit.UM }, "too-small", 7, "1.20 mm"},
		// Art. 9(1): each particular.
		{"no name", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.Name) }, "missing", 1, "name"},
		{"no list", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.List) }, "missing", 1, "list"},
		{"no net", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.Net) }, "missing", 1, "net"},
		{"no date", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.Date) }, "missing", 1, "date"},
		{"no storage behind a use-by date", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.Keep) }, "missing", 1, "keep"},
		{"no operator", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.Operator) }, "missing", 1, "operator"},
		{"no nutrition", func(_ *Sheet, i *[]page.Item) { *i = without(*i, role.Nutrition) }, "missing", 1, "nutrition"},
		{"blank name", func(_ *Sheet, i *[]page.Item) { (*i)[1].Run.Text = "  " }, "missing", 1, "name"},
		// Directive 76/211/EEC Annex I 3.1 (from memory): 3 mm up to 200 g.
		{"net figures", func(_ *Sheet, i *[]page.Item) { (*i)[3].Run.CapHeight = 2999 * unit.UM }, "net-height", 7, "3.00 mm"},
		// GS1 size table: EAN-13 in retail 0.264 to 0.660 mm.
		{"module too narrow", func(_ *Sheet, i *[]page.Item) { (*i)[0].Symbol.Module = 250 * unit.UM }, "bars", 9, "0.264 mm"},
		{"bars too low", func(_ *Sheet, i *[]page.Item) { (*i)[0].Symbol.Bars.H -= mm }, "bars", 9, "high"},
		{"no quiet zone", func(_ *Sheet, i *[]page.Item) { (*i)[0].Box = (*i)[0].Symbol.Bars }, "bars", 9, "white"},
		{"wrong use", func(s *Sheet, _ *[]page.Item) { s.Use = "the moon" }, "bars", 9, "the moon"},
		{"off the dots", func(_ *Sheet, i *[]page.Item) { (*i)[0].Symbol.Bars.X += 10 * unit.UM; (*i)[0].Box.X += 10 * unit.UM }, "dots", 9, "whole printer dots"},
		{"unknown printer", func(_ *Sheet, i *[]page.Item) { (*i)[0].Symbol.Dots = unit.Dots{} }, "dots", 9, "fineness"},
		{"check digit", func(_ *Sheet, i *[]page.Item) { (*i)[0].Symbol.Data = "9520001000011" }, "check-digit", 9, "EAN-13"},
		{"yesterday's date", func(s *Sheet, _ *[]page.Item) { s.Date = s.Today.AddDays(-1) }, "past", 1, "2026-03-16"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, items := good(t)
			c.plant(&s, &items)
			got := findings(s, items)
			if len(got) == 0 {
				t.Fatal("not found")
			}
			d := got[0]
			if d.Rule != c.rule || d.Pos != pos(c.at) || !strings.Contains(d.Msg, c.phrase) || d.Hint == "" || d.Warning {
				t.Errorf("found %v", d)
			}
		})
	}
}

// TestHeightByFace: Reg. (EU) 1169/2011 Art. 13(2) and (3), Annex IV; the
// boundary belongs to the larger letters ("less than 80 cm²").
func TestHeightByFace(t *testing.T) {
	for _, c := range []struct {
		w, h  unit.Length
		least unit.Length
	}{
		{100 * mm, 80 * mm, 1200 * unit.UM},
		{99 * mm, 80 * mm, 900 * unit.UM},
		{50 * mm, 20 * mm, 900 * unit.UM},
	} {
		s, items := good(t)
		s.Pack.Face = unit.AreaOf(c.w, c.h)
		for _, d := range []unit.Length{0, -unit.UM} {
			items[2].Run.XHeight = c.least + d
			small := 0
			for _, f := range findings(s, items) {
				if f.Rule == "too-small" {
					small++
				}
			}
			if (small > 0) != (d < 0) {
				t.Errorf("face %s × %s, x-height %s: %d findings", c.w, c.h, c.least+d, small)
			}
		}
	}
}

// TestReadingDistance: roles with a height of their own are held to that.
func TestReadingDistance(t *testing.T) {
	s, items := good(t)
	s.Market = nil
	s.Heights = map[role.Role]unit.Length{role.List: 3 * mm}
	got := findings(s, items)
	if len(got) != 1 || got[0].Rule != "too-small" || !strings.Contains(got[0].Msg, "reading distance") {
		t.Errorf("found %v", got)
	}
}

// TestOwn: a running number that would lie on the artwork is found, one that
// has its place is not.
func TestOwn(t *testing.T) {
	s, art := good(t)
	for _, c := range []struct {
		x, y unit.Length
		bad  bool
	}{{75 * mm, 52 * mm, false}, {52 * mm, 52 * mm, true}, {96 * mm, 52 * mm, true}} {
		var found diag.List
		Own(s, art, []page.Item{run(role.Serial, c.x, c.y, "0001", mm)}, &found)
		if (found.Errors() > 0) != c.bad {
			t.Errorf("a number at %s, %s: %v", c.x, c.y, found.All())
		}
	}
}

// TestPlaced: labels that touch may share a dot of the printer (25.4 mm ÷ 600
// is 0.0423 mm) and no more, without dots nothing; where marks may lie must be
// on the paper.
func TestPlaced(t *testing.T) {
	art := &page.Art{W: 99 * mm, H: 67 * mm}
	office := unit.Dots{N: 600, Per: unit.Inch}
	safe := art.Area().Inset(2 * mm)
	for _, c := range []struct {
		sheet Sheet
		at    []page.Placed
		bad   bool
	}{
		{Sheet{}, []page.Placed{{Art: art, X: 4 * mm}, {Art: art, X: 106 * mm}}, false},
		{Sheet{}, []page.Placed{{Art: art, X: 4 * mm}, {Art: art, X: 102 * mm}}, true}, // on each other
		{Sheet{}, []page.Placed{{Art: art, X: 112 * mm}}, true},                        // off the sheet
		{Sheet{}, []page.Placed{{Art: art}, {Art: art, Y: 67*mm - 1000}}, true},
		{Sheet{Dots: office}, []page.Placed{{Art: art}, {Art: art, Y: 67*mm - 42_000}}, false},
		{Sheet{Dots: office}, []page.Placed{{Art: art}, {Art: art, Y: 67*mm - 43_000}}, true},
		{Sheet{Dots: office}, []page.Placed{{Art: art, X: -42_000}}, false},
		{Sheet{Dots: office}, []page.Placed{{Art: art, X: -43_000}}, true},
		{Sheet{Dots: office, Safe: safe}, []page.Placed{{Art: art, X: -2 * mm}}, false},
		{Sheet{Dots: office, Safe: safe}, []page.Placed{{Art: art, X: -3 * mm}}, true},
	} {
		var found diag.List
		c.sheet.What = "the sheet"
		Placed(c.sheet, &page.Page{W: 210 * mm, H: 297 * mm, Placed: c.at}, &found)
		if (found.Errors() > 0) != c.bad {
			t.Errorf("%v: %v", c.at, found.All())
		}
	}
}

// TestDraftMayCross: the mark of a draft lies across everything.
func TestDraftMayCross(t *testing.T) {
	s, items := good(t)
	items = append(items, run(role.Draft, 20*mm, 5*mm, "DRAFT", 8*mm))
	if got := findings(s, items); len(got) > 0 {
		t.Errorf("found %v", got)
	}
}

func ExampleLabel() {
	var found diag.List
	small := page.Item{Box: page.Rect{X: 2 * mm, Y: 2 * mm, W: 20 * mm, H: 2 * mm}, Role: role.List,
		Src: diag.Pos{File: "products/tart.yaml", Line: 3, Col: 1},
		Run: &page.Run{Text: "Ingredients", XHeight: mm, CapHeight: 13 * mm / 10}}
	Label(Sheet{What: "the label of tart", Safe: page.Rect{W: 50 * mm, H: 50 * mm},
		Heights: map[role.Role]unit.Length{role.List: 1200 * unit.UM}}, []page.Item{small}, &found)
	fmt.Println(found.All()[0].Pos, found.All()[0].Rule)
	// Output: products/tart.yaml:3:1 too-small
}

// TestCornerMarksInMargin: corner marks may lie beyond the safe area; words
// that call themselves so may not.
func TestCornerMarksInMargin(t *testing.T) {
	s, items := good(t)
	mark := page.Item{Box: page.Rect{X: mm, Y: mm, W: mm / 2, H: mm / 2}, Role: role.Trim, Shape: &page.Shape{Kind: page.Path, Stroke: mm / 5}}
	if got := findings(s, append(items, mark)); len(got) > 0 {
		t.Errorf("a corner mark: %v", got)
	}
	words := run(role.Trim, 0, 0, "words", mm)
	if got := findings(s, append(items, words)); len(got) == 0 || got[0].Rule != "outside" {
		t.Errorf("words in the margin: %v", got)
	}
}
