package pdf_test

import (
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
)

// inked is the box of all dots darker than limit.
func inked(img *image.Gray, limit uint8) image.Rectangle {
	var out image.Rectangle
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.GrayAt(x, y).Y < limit {
				out = out.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return out
}

// share is how much of a picture is inked, from 0 to 1.
func share(img *image.Gray) float64 {
	sum := 0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			sum += 255 - int(img.GrayAt(x, y).Y)
		}
	}
	return float64(sum) / 255 / float64(img.Rect.Dx()*img.Rect.Dy())
}

// A sheet of a whole number of dots at 203, 300 and 600 dots per inch, so that
// the reader does not stretch it.
func dotSheet(items ...page.Item) pdf.Doc {
	return pdf.Doc{Pages: slices.Values([]*page.Page{{W: 4 * unit.Inch, H: 3 * unit.Inch, Items: items}})}
}

// A printer inks a dot when its middle is covered, or when it is touched at
// all; by either rule bars and gaps have to be whole modules, at their place.
func TestBarsFallOnDots(t *testing.T) {
	const x0, y0, high = 37, 41, 60
	for _, dpi := range []int{203, 300, 600} {
		for n := int64(2); n <= 6; n++ {
			for _, pattern := range []string{ean13, gs1128, itf14} {
				dots := unit.Dots{N: int64(dpi), Per: unit.Inch}
				if x0+n*int64(len(pattern)) > 4*int64(dpi) {
					continue
				}
				img := pdftest.Raster(t, write(t, dotSheet(bars(pattern, dots, n, x0, y0, high))), 0, dpi)
				for rule, limit := range map[string]uint8{"middle": 128, "touched": 254} {
					if got := scan(img, y0+high/2, x0, n, limit, len(pattern)); got != pattern {
						t.Errorf("%d dpi, %d dots, %s rule: drawn\n%s\nwant\n%s", dpi, n, rule, got, pattern)
					}
				}
			}
		}
	}
}

// scan reads modules of n dots along a row from x on; "?" is a module that is
// neither all dark nor all light.
func scan(img *image.Gray, y, x, n int64, limit uint8, modules int) string {
	var b strings.Builder
	for m := range int64(modules) {
		dark := int64(0)
		for i := range n {
			if img.GrayAt(int(x+m*n+i), int(y)).Y < limit {
				dark++
			}
		}
		b.WriteByte(map[int64]byte{0: '0', n: '1'}[dark])
	}
	return strings.ReplaceAll(b.String(), "\x00", "?")
}

func TestMatrixFallsOnDots(t *testing.T) {
	const x0, y0 = 33, 21
	for _, dpi := range []int{203, 300, 600} {
		for n := int64(2); n <= 5; n++ {
			dots := unit.Dots{N: int64(dpi), Per: unit.Inch}
			img := pdftest.Raster(t, write(t, dotSheet(matrix(dataMatrix, dots, n, x0, y0))), 0, dpi)
			for row, want := range dataMatrix {
				for i := range n {
					for _, limit := range []uint8{128, 254} {
						if got := scan(img, y0+int64(row)*n+i, x0, n, limit, len(want)); got != want {
							t.Errorf("%d dpi, %d dots, limit %d, row %d: drawn %s, want %s", dpi, n, limit, row, got, want)
						}
					}
				}
			}
		}
	}
}

// Where dark meets dark nothing may be taken off: no white within a dark area.
func TestMatrixHasNoHairs(t *testing.T) {
	dark := []string{"1111", "1111", "1111", "1111"}
	img := pdftest.Raster(t, write(t, dotSheet(matrix(dark, unit.Dots{N: 50, Per: unit.Inch}, 2, 4, 4))), 0, 600)
	box := inked(img, 128)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if img.GrayAt(x, y).Y > 0 {
				t.Fatalf("dot %d, %d inside %v is not black", x, y, box)
			}
		}
	}
}

func TestShapes(t *testing.T) {
	const dpi = 600
	draw := func(it page.Item) *image.Gray {
		return pdftest.Raster(t, write(t, dotSheet(it)), 0, dpi)
	}
	want := image.Rect(300, 150, 900, 450) // dots of the box below
	box := func(k page.ShapeKind, gray uint8) page.Item {
		it := shape(k, 12.7, 6.35, 25.4, 12.7, 0.4233)
		it.Shape.Gray = gray
		return it
	}
	for name, it := range map[string]page.Item{
		"filled": box(page.Filled, 0), "outlined": box(page.Outlined, 0), "hatched": box(page.Hatched, 0)} {
		got := inked(draw(it), 128) // the reader grows a filled box to whole dots
		if !want.In(got) || !got.In(want.Inset(-1)) {
			t.Errorf("%s covers %v, want %v", name, got, want)
		}
	}
	for _, gray := range []uint8{0, 51, 128, 230} {
		if got := draw(box(page.Filled, gray)).GrayAt(600, 300).Y; got != gray {
			t.Errorf("gray %d is drawn as %d", gray, got)
		}
	}
	sheet := 4.0 * 3 * 25.4 * 25.4
	outline := 2 * (25.4 + 12.7 - 2*0.4233) * 0.4233
	if got := share(draw(box(page.Outlined, 0))) * sheet; math.Abs(got-outline) > 0.05*outline {
		t.Errorf("the outline covers %.3f mm², want %.3f", got, outline)
	}
	// Lines six strokes apart along the edge cover √2/6 of the field.
	inside := draw(box(page.Hatched, 0)).SubImage(image.Rect(320, 170, 880, 430)).(*image.Gray)
	inside = &image.Gray{Pix: inside.Pix, Stride: inside.Stride, Rect: inside.Rect.Sub(inside.Rect.Min)}
	if got := share(inside); math.Abs(got-math.Sqrt2/6) > 0.02 {
		t.Errorf("the hatch covers %.3f of the field, want %.3f", got, math.Sqrt2/6)
	}
}

// A circle of four curves, control points at 0.5523 of the radius.
func circle(x, y, r float64) []page.Seg {
	k := 0.5523 * r
	pt := func(dx, dy float64) page.Pt { return page.Pt{X: mm(x + dx), Y: mm(y + dy)} }
	curve := func(a, b, c page.Pt) page.Seg { return page.Seg{Op: page.Curve, Pts: [3]page.Pt{a, b, c}} }
	return []page.Seg{
		{Op: page.Move, Pts: [3]page.Pt{pt(r, 0)}},
		curve(pt(r, k), pt(k, r), pt(0, r)), curve(pt(-k, r), pt(-r, k), pt(-r, 0)),
		curve(pt(-r, -k), pt(-k, -r), pt(0, -r)), curve(pt(k, -r), pt(r, -k), pt(r, 0)),
		{Op: page.Close},
	}
}

func TestPaths(t *testing.T) {
	const r, stroke = 10.0, 1.0
	sheet := 4.0 * 3 * 25.4 * 25.4
	tests := []struct {
		name  string
		shape page.Shape
		want  float64 // mm² of ink
		reach float64 // mm from the middle
	}{
		{"filled", page.Shape{Fill: true}, math.Pi * r * r, r},
		{"stroked", page.Shape{Stroke: mm(stroke)}, math.Pi * 2 * r * stroke, r + stroke/2},
		{"both", page.Shape{Fill: true, Stroke: mm(stroke)}, math.Pi * (r + stroke/2) * (r + stroke/2), r + stroke/2},
	}
	for _, tt := range tests {
		tt.shape.Kind, tt.shape.Segs = page.Path, circle(30, 25, r)
		img := pdftest.Raster(t, write(t, dotSheet(page.Item{Shape: &tt.shape})), 0, 300)
		if got := share(img) * sheet; math.Abs(got-tt.want) > 0.01*tt.want {
			t.Errorf("%s: %.2f mm² of ink, want %.2f", tt.name, got, tt.want)
		}
		box := inked(img, 128)
		if got := float64(box.Dx()) * 25.4 / 300 / 2; math.Abs(got-tt.reach) > 0.1 {
			t.Errorf("%s: reaches %.2f mm, want %.2f", tt.name, got, tt.reach)
		}
	}
}
