package raster_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
	. "chablon/layout/raster"
)

const mm = unit.MM

// A page with one bar, at three dots a millimetre.
func ExamplePlate_Draw() {
	bed := Bed{Dots: unit.Dots{N: 3, Per: mm}}
	img, err := New(bed).Draw(&page.Page{W: 4 * mm, H: mm, Items: []page.Item{{Box: page.Rect{X: mm, W: mm, H: mm}, Role: role.Furniture, Shape: &page.Shape{}}}})
	fmt.Println(img.Rect.Max, img.Pix[:12], err)
	// Output: (12,3) [255 255 255 0 0 0 255 255 255 255 255 255] <nil>
}

func drawn(t testing.TB, b Bed, p *page.Page) *image.Gray {
	t.Helper()
	img, err := New(b).Draw(p)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

var printers = []unit.Dots{layouttest.Desk(), layouttest.Coarse(), layouttest.Office(), {N: 300, Per: unit.Inch}}

// TestAnotherRasteriser: poppler makes the same dots of the document, but for
// less than one of a hundred, at the edges of letters; and no module differs.
func TestAnotherRasteriser(t *testing.T) {
	for _, dots := range printers {
		p := layouttest.EveryMark(t, dots)
		want := poppler(t, layouttest.PDF(t, p), dots)
		got := drawn(t, Bed{Dots: dots, Greys: true}, p)
		if off := pdftest.Off(got, want); off > 0.01 || !near(got.Rect, want.Rect) {
			t.Errorf("%v: %.2f %% of the dots differ, %v and %v", dots, 100*off, got.Rect, want.Rect)
		}
		plain := *p
		plain.Items = slices.DeleteFunc(slices.Clone(p.Items), greyed)
		got, want = drawn(t, Bed{Dots: dots}, &plain), poppler(t, layouttest.PDF(t, &plain), dots)
		if off := pdftest.Off(got, twoTones(want)); off > 0.01 {
			t.Errorf("%v in black and white: %.2f %% of the dots differ", dots, 100*off)
		}
		for _, it := range p.Items {
			if it.Symbol != nil {
				modules(t, got, want, it.Symbol)
			}
		}
	}
}

func near(a, b image.Rectangle) bool { // poppler rounds up
	return max(a.Dx()-b.Dx(), b.Dx()-a.Dx(), a.Dy()-b.Dy(), b.Dy()-a.Dy()) <= 1
}

func greyed(it page.Item) bool {
	return it.Picture != nil || it.Shape != nil && it.Shape.Gray != 0
}

func twoTones(img *image.Gray) *image.Gray {
	out := &image.Gray{Pix: slices.Clone(img.Pix), Stride: img.Stride, Rect: img.Rect}
	for i, v := range out.Pix {
		out.Pix[i] = 255 * (v >> 7)
	}
	return out
}

// modules holds every module against what the symbol says: all of its dots in
// our bitmap, and its middle in the other.
func modules(t *testing.T, got, other *image.Gray, s *page.Symbol) {
	t.Helper()
	n := int(s.Dots.Floor(s.Module))
	x0, y0 := int(s.Dots.Floor(s.Bars.X+s.Dot/2)), int(s.Dots.Floor(s.Bars.Y+s.Dot/2))
	high := n
	if s.Rows == 1 {
		high = int(s.Dots.Floor(s.Bars.H + s.Dot/2))
	}
	for i, dark := range s.Dark {
		x, y := x0+i%s.Cols*n, y0+i/s.Cols*n
		for dy := range high {
			for dx := range n {
				if (got.GrayAt(x+dx, y+dy).Y == 0) != (dark == 1) {
					t.Fatalf("%s on %v: dot %d,%d of module %d is wrong", s.Kind, s.Dots, dx, dy, i)
				}
			}
		}
		if (other.GrayAt(x+n/2, y+high/2).Y < 128) != (dark == 1) {
			t.Fatalf("%s on %v: module %d is another one in the document", s.Kind, s.Dots, i)
		}
	}
}

// poppler is a document as pdftoppm shows it at the dots of a printer.
func poppler(t *testing.T, pdf []byte, dots unit.Dots) *image.Gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("NOT COMPARED: pdftoppm (poppler-utils) is not installed")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "a.pdf"), filepath.Join(dir, "a")
	if err := os.WriteFile(in, pdf, 0o666); err != nil {
		t.Fatal(err)
	}
	dpi := fmt.Sprint(float64(dots.N) * float64(unit.Inch) / float64(dots.Per))
	return pdftest.ShownBy(t, out+".png", "pdftoppm", "-gray", "-png", "-singlefile", "-r", dpi, in, out)
}

// TestReads: another decoder reads each symbol off the dots.
func TestReads(t *testing.T) {
	for _, dots := range printers {
		read := pdftest.Decode(t, drawn(t, Bed{Dots: dots}, layouttest.EveryMark(t, dots)))
		if len(read) != 3 {
			t.Errorf("%v: read %v", dots, read)
		}
	}
}

// TestOtherDots: a symbol that was chosen for another printer is refused: drawn
// at eight dots a millimetre, bars chosen for twelve ran into the words beside
// them.
func TestOtherDots(t *testing.T) {
	for _, dots := range printers[1:] {
		_, err := New(Bed{Dots: dots}).Draw(layouttest.EveryMark(t, layouttest.Desk()))
		if err == nil || !strings.Contains(err.Error(), "for a printer with 12 per mm, and this one has "+dots.String()) {
			t.Errorf("%v: %v", dots, err)
		}
	}
	p := layouttest.EveryMark(t, layouttest.Desk())
	for i, it := range p.Items {
		if it.Symbol != nil {
			s := *it.Symbol
			s.Module += unit.UM // no whole number of dots
			p.Items[i].Symbol = &s
		}
	}
	if _, err := New(Bed{Dots: layouttest.Desk()}).Draw(p); err == nil {
		t.Error("a module between two numbers of dots was drawn")
	}
	if _, err := New(Bed{}).Draw(p); err == nil {
		t.Error("drawn without dots")
	}
}

// TestGreys: on a printer without greys as much of a field is black as its grey
// asks for, in one pattern that stays where it is.
func TestGreys(t *testing.T) {
	bed := Bed{Dots: layouttest.Desk()}
	field := func(gray uint8) *image.Gray {
		return drawn(t, bed, &page.Page{W: 20 * mm, H: 20 * mm, Items: []page.Item{{Box: page.Rect{W: 20 * mm, H: 20 * mm}, Role: role.Furniture, Shape: &page.Shape{Gray: gray}}}})
	}
	for gray := range 256 {
		img := field(uint8(gray))
		black := 0
		for _, v := range img.Pix {
			if v != 0 && v != 255 {
				t.Fatalf("there is a dot of grey %d", v)
			}
			if v == 0 {
				black++
			}
		}
		if got, want := float64(black)/float64(len(img.Pix)), float64(255-gray)/255; got < want-1.0/31 || got > want+1.0/31 {
			t.Errorf("grey %d: %.3f is black, want %.3f", gray, got, want)
		}
		if again := field(uint8(gray)); !bytes.Equal(again.Pix, img.Pix) {
			t.Errorf("grey %d is not the same twice", gray)
		}
	}
}

// TestStill: pages of one artwork are what they are one by one.
func TestStill(t *testing.T) {
	every := layouttest.EveryMark(t, layouttest.Desk())
	art := &page.Art{W: every.W, H: every.H, Items: every.Items[2:]}
	bed := Bed{Dots: layouttest.Desk()}
	plate := New(bed)
	for i, at := range []unit.Length{0, 0, 0, mm} {
		p := &page.Page{W: every.W + mm, H: every.H, Placed: []page.Placed{{Art: art, X: bed.Dots.Snap(at)}}, Items: every.Items[i%2 : i%2+1]}
		got, err := plate.Draw(p)
		if err != nil {
			t.Fatal(err)
		}
		if want := drawn(t, bed, p); !bytes.Equal(got.Pix, want.Pix) {
			t.Errorf("page %d differs when it is drawn behind others", i+1)
		}
	}
}

// TestPNG: a picture is read back as the same dots, one bit each where there are
// no greys, and says its size.
func TestPNG(t *testing.T) {
	for _, greys := range []bool{false, true} {
		bed := Bed{Dots: layouttest.Desk(), Greys: greys}
		img := drawn(t, bed, layouttest.EveryMark(t, bed.Dots))
		var b bytes.Buffer
		if err := bed.PNG(&b, img); err != nil {
			t.Fatal(err)
		}
		depth := map[bool]byte{false: 1, true: 8}[greys]
		if got := b.Bytes()[24]; got != depth {
			t.Errorf("%d bits a dot, want %d", got, depth)
		}
		if i := bytes.Index(b.Bytes(), []byte("pHYs\x00\x00\x2e\xe0\x00\x00\x2e\xe0\x01")); i < 0 { // 12,000 a metre
			t.Error("it does not say its size")
		}
		back, err := png.Decode(&b)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(pdftest.Gray(back).Pix, img.Pix) {
			t.Error("other dots come back")
		}
	}
}
