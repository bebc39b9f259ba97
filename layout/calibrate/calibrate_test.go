package calibrate_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"slices"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/calibrate"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/stock"
	"chablon/layout/text"
)

const mm = unit.MM

var faces = sync.OnceValues(text.Load)

func made(t testing.TB, id string, dots unit.Dots) *page.Page {
	t.Helper()
	faces, err := faces()
	if err != nil {
		t.Fatal(err)
	}
	s, ok := stock.Get(id)
	if !ok {
		t.Fatalf("no paper %q", id)
	}
	var found diag.List
	pg := calibrate.Compose(calibrate.Sheet{Printer: "desk", Stock: s, Dots: dots}, faces, &found)
	if pg == nil || found.Len() > 0 {
		t.Fatalf("%s: %v", id, found.All())
	}
	return pg
}

func drawn(t testing.TB, pg *page.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, pdf.Doc{Title: "t", Lang: "en", Pages: slices.Values([]*page.Page{pg})}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestEveryPaper: on every paper, at every fineness, all marks lie in the frame,
// and the frame is 2 mm inside the edge.
func TestEveryPaper(t *testing.T) {
	for _, id := range stock.IDs() {
		for _, d := range []unit.Dots{{N: 8, Per: mm}, {N: 12, Per: mm}, {N: 300, Per: unit.Inch}, {N: 600, Per: unit.Inch}} {
			pg := made(t, id, d)
			frame := pg.Items[0].Box
			if near := pg.Area().Inset(2 * mm); frame.X-near.X > d.At(1) || near.X-frame.X > d.At(1) || frame.Right()-near.Right() > d.At(1) || near.Bottom()-frame.Bottom() > d.At(1) {
				t.Errorf("%s at %v: the frame lies at %v", id, d, frame)
			}
			for _, it := range pg.Items {
				if !frame.Contains(it.Box) {
					t.Errorf("%s at %v: a mark lies at %v, outside of the frame", id, d, it.Box)
				}
			}
		}
	}
}

// TestRead: in the finished PDF the frame is where a ruler looks for it, to a
// tenth of a millimetre, and another's decoder reads the bars lying and standing.
func TestRead(t *testing.T) {
	file := drawn(t, made(t, "card-a6", unit.Dots{N: 12, Per: mm}))
	const dpi = 300
	img := pdftest.Raster(t, file, 0, dpi)
	at := func(x, y int) bool { return img.GrayAt(x, y).Y < 128 }
	mid := image.Pt(img.Rect.Dx()/2, img.Rect.Dy()/2)
	first := func(dark func(i int) bool) float64 {
		for i := range 200 {
			if dark(i) {
				return float64(i) * 25.4 / dpi
			}
		}
		return -1
	}
	for side, got := range map[string]float64{
		"left": first(func(i int) bool { return at(i, mid.Y) }), "top": first(func(i int) bool { return at(mid.X+4, i) }),
		"right": first(func(i int) bool { return at(img.Rect.Dx()-1-i, mid.Y) }), "bottom": first(func(i int) bool { return at(mid.X, img.Rect.Dy()-1-i) }),
	} {
		if got < 1.9 || got > 2.1 {
			t.Errorf("%s: the frame lies %.2f mm from the edge", side, got)
		}
	}
	for way, high := range map[string]func(r page.Rect) unit.Length{"lying": func(r page.Rect) unit.Length { return r.H }, "standing": func(r page.Rect) unit.Length { return r.W }} {
		pg := made(t, "card-a6", unit.Dots{N: 12, Per: mm})
		pg.Items = slices.DeleteFunc(pg.Items, func(it page.Item) bool { return it.Shape == nil || high(it.Box) != 15*mm })
		codes := pdftest.Decode(t, pdftest.Raster(t, drawn(t, pg), 0, dpi))
		if len(codes) != 1 || codes[0].Text != "2000000000008" {
			t.Errorf("the %s bars read as %v", way, codes)
		}
	}
}

// TestFound: the lines for a printer whose faults are known: one that prints
// 0.6 mm too far left and 0.4 mm too low, and one that feeds long.
func TestFound(t *testing.T) {
	for _, c := range []struct {
		m    calibrate.Measured
		want string
	}{
		{calibrate.Measured{Left: 2 * mm, Top: 2 * mm}, ""},
		{calibrate.Measured{Left: 2 * mm, Top: 2 * mm, Wide: 206 * mm, High: 293 * mm}, ""},
		{calibrate.Measured{Left: 1400 * unit.UM, Top: 2400 * unit.UM}, "right: 0.6 mm; down: -0.4 mm"},
		{calibrate.Measured{Left: 2 * mm, Top: 2 * mm, Wide: 205400 * unit.UM, High: 293600 * unit.UM}, "wide-100-mm: 99.7 mm; high-100-mm: 100.2 mm"},
		{calibrate.Measured{Left: 0, Top: 5 * mm}, "right: 2 mm; down: -3 mm"},
	} {
		got, err := calibrate.Found(210*mm, 297*mm, c.m)
		if err != nil || strings.Join(got.Lines(), "; ") != c.want {
			t.Errorf("%+v: %v, %v, want %q", c.m, got.Lines(), err, c.want)
		}
	}
	for say, m := range map[string]calibrate.Measured{
		"the printer scales to 97.0 %":     {Left: 2 * mm, Top: 2 * mm, Wide: 199800 * unit.UM},
		"the printer scales to 104.0 %":    {Left: 2 * mm, Top: 2 * mm, High: 304700 * unit.UM},
		"the frame lies 14 mm from":        {Left: 14 * mm, Top: 2 * mm},
		"--top: the frame lies 12.5 mm fr": {Left: 2 * mm, Top: 12500 * unit.UM},
	} {
		_, err := calibrate.Found(210*mm, 297*mm, m)
		var told *unit.Error
		if !errors.As(err, &told) || !strings.Contains(told.Msg, say) || told.Hint == "" {
			t.Errorf("%+v: %v, want %q", m, err, say)
		}
	}
}

// TestUndone: whatever a printer does within reason, what is written for it
// brings any place of the paper back to where it belongs, to a tenth of a
// millimetre of the ruler on each side.
func TestUndone(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		off := unit.Length(rapid.Int64Range(-7900, 7900).Draw(r, "off")) * unit.UM // drawn at 0 it comes out here
		ppm := rapid.Int64Range(-4000, 4000).Draw(r, "stretch")
		out := func(l unit.Length) unit.Length { return off + l.Mul(1_000_000+ppm, 1_000_000) }
		m := calibrate.Measured{Left: out(2 * mm), Top: out(2 * mm), Wide: out(208*mm) - out(2*mm), High: out(295*mm) - out(2*mm)}
		s, err := calibrate.Found(210*mm, 297*mm, m)
		if err != nil {
			r.Fatal(err)
		}
		b := stock.Bed{Right: s.Right, Down: s.Down, Wide100: s.HundredWide, High100: s.HundredHigh}
		place := page.Rect{X: unit.Length(rapid.Int64Range(0, 110).Draw(r, "x")) * mm, Y: unit.Length(rapid.Int64Range(0, 230).Draw(r, "y")) * mm, W: 99 * mm, H: 67 * mm}
		x, y := b.Place(place)
		for _, l := range []unit.Length{out(x+place.W/2) - place.X - place.W/2, out(y+place.H/2) - place.Y - place.H/2} {
			if max(l, -l) > 250*unit.UM { // half a tenth for the offset, and for the scale half a tenth on each 100 mm
				r.Fatalf("%v comes out %s beside its place with %+v", place, l, s)
			}
		}
	})
}

func ExampleFound() {
	s, err := calibrate.Found(210*unit.MM, 297*unit.MM, calibrate.Measured{Left: 1400 * unit.UM, Top: 2600 * unit.UM, Wide: 205_800 * unit.UM})
	fmt.Println(s.Lines(), err)
	// Output: [right: 0.6 mm down: -0.6 mm wide-100-mm: 99.9 mm] <nil>
}
