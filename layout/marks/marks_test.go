package marks_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/layouttest"
	. "chablon/layout/marks"
	"chablon/layout/page"
)

// tally is a pen that notes what it is asked to draw.
type tally []string

func (p *tally) note(s string) error { *p = append(*p, s); return nil }

func (p *tally) Run(unit.Length, *page.Run) error       { return p.note("run") }
func (p *tally) Symbol(*page.Symbol) error              { return p.note("symbol") }
func (p *tally) Fill(page.Rect, uint8) error            { return p.note("fill") }
func (p *tally) Outline(page.Rect, *page.Shape) error   { return p.note("outline") }
func (p *tally) Hatch(page.Rect, *page.Shape) error     { return p.note("hatch") }
func (p *tally) Path(*page.Shape) error                 { return p.note("path") }
func (p *tally) Picture(page.Rect, *page.Picture) error { return p.note("picture") }

// TestEveryKindOfMark: each kind of mark that a page can hold stands on the page
// of [layouttest.EveryMark] that all ways of drawing are held against, and
// reaches the pen. A kind that is added to page.Item or page.Shape fails here
// until it does.
func TestEveryKindOfMark(t *testing.T) {
	p := layouttest.EveryMark(t, layouttest.Desk())
	var got tally
	if err := Draw(&got, p.Items); err != nil {
		t.Fatal(err)
	}
	pen := reflect.TypeFor[Pen]()
	for i := range pen.NumMethod() {
		if name := strings.ToLower(pen.Method(i).Name); !strings.Contains(strings.Join(got, " "), name) {
			t.Errorf("nothing of EveryMark is drawn with %s", name)
		}
	}
	item := reflect.TypeFor[page.Item]()
	for i := range item.NumField() {
		f := item.Field(i)
		if f.Type.Kind() != reflect.Pointer || f.Type == reflect.TypeFor[*page.PanelPart]() { // which says of what panel a mark is
			continue
		}
		found := false
		for _, it := range p.Items {
			found = found || !reflect.ValueOf(it).Field(i).IsNil()
		}
		if !found {
			t.Errorf("no mark of EveryMark is a %s", f.Name)
		}
	}
	for kind := range page.Path + 20 {
		sh := &page.Shape{Kind: kind, Stroke: unit.MM, Fill: true, Segs: []page.Seg{{Op: page.Move}}}
		err := Draw(new(tally), []page.Item{{Box: page.Rect{W: 9 * unit.MM, H: 9 * unit.MM}, Shape: sh}})
		if known := kind <= page.Path; (err == nil) != known {
			t.Errorf("shape %d: %v", kind, err)
		}
	}
}

// TestBars: what is dark in a symbol is covered, and nothing else, whichever way
// its modules lie.
func TestBars(t *testing.T) {
	dots := unit.Dots{N: 10, Per: unit.MM}
	dark := []byte{1, 1, 0, 0, 1, 1, 0, 0, 1}
	s := &page.Symbol{Kind: "QR", Cols: 3, Rows: 3, Dark: dark, Module: unit.MM, Dots: dots, Inset: unit.MM / 4, Bars: page.Rect{X: unit.MM, Y: 2 * unit.MM, W: 3 * unit.MM, H: 3 * unit.MM}}
	var boxes []page.Rect
	Bars(s, func(l, top, r, b unit.Length) { boxes = append(boxes, page.Rect{X: l, Y: top, W: r - l, H: b - top}) })
	for i, d := range dark {
		at := page.Rect{X: unit.MM + unit.Length(i%3)*unit.MM, Y: 2*unit.MM + unit.Length(i/3)*unit.MM, W: unit.MM, H: unit.MM}.Inset(unit.MM * 3 / 10)
		over := false
		for _, b := range boxes {
			over = over || b.Overlaps(at)
		}
		if over != (d == 1) {
			t.Errorf("module %d is covered: %t", i, over)
		}
	}
	joined := page.Rect{X: 2*unit.MM + unit.MM/4, Y: 3*unit.MM - unit.MM/4, W: unit.MM / 2, H: unit.MM / 2}
	for _, b := range boxes {
		if b.Contains(joined) {
			return
		}
	}
	t.Errorf("a hair of white lies between dark modules: %v", boxes)
}

func ExampleRuns() {
	s := &page.Symbol{Cols: 8, Rows: 1, Dark: []byte{1, 1, 0, 1, 0, 0, 1, 1}}
	Runs(s, func(_, _, from, to int) { fmt.Print(from, "-", to, " ") })
	// Output: 0-2 3-4 6-8
}
