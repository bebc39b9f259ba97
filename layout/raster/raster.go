// Package raster answers: which dots does a printer burn for this page?
//
// A page becomes a bitmap at the printer's own dots. Modules of bar codes are
// laid by whole dots, so that no program between here and the paper rounds
// them; a symbol that was chosen for other dots is refused. A label printer
// burns a dot or does not: there a grey is one fixed pattern, the same on every
// label, and a dot under the edge of a letter is black where half of it or more
// is covered.
package raster

import (
	"fmt"
	"image"
	"slices"

	"chablon/labels/unit"
	"chablon/layout/marks"
	"chablon/layout/outline"
	"chablon/layout/page"
)

// A Bed is what the dots of a printer are: how fine, and whether each can be
// grey or only black.
type Bed struct {
	Dots  unit.Dots
	Greys bool
}

// most is how many dots a page may have: a poster at the finest usual printer.
const most = 400_000_000

// A Plate makes bitmaps, one page after another. What stands still from label
// to label is drawn once.
type Plate struct {
	bed    Bed
	still  *image.Gray // with the artwork of the last page
	placed []page.Placed
}

// New makes a plate. It is not for several goroutines at once.
func New(b Bed) *Plate { return &Plate{bed: b} }

// Draw gives the dots of a page, 0 for black and 255 for white; without greys
// there is nothing between.
func (pl *Plate) Draw(p *page.Page) (*image.Gray, error) {
	w, h, err := pl.bed.size(p)
	if err != nil {
		return nil, err
	}
	if pl.still == nil || pl.still.Rect.Dx() != w || pl.still.Rect.Dy() != h || !slices.Equal(pl.placed, p.Placed) {
		if err := pl.art(p, w, h); err != nil {
			return nil, err
		}
	}
	img := &image.Gray{Pix: slices.Clone(pl.still.Pix), Stride: w, Rect: pl.still.Rect}
	return img, marks.Draw(&burner{pl.bed, img}, p.Items)
}

// art draws what is placed on a page, on white paper.
func (pl *Plate) art(p *page.Page, w, h int) error {
	pl.still = nil
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	still := page.Page{Placed: p.Placed}
	if err := marks.Draw(&burner{pl.bed, img}, still.All()); err != nil {
		return err
	}
	pl.still, pl.placed = img, slices.Clone(p.Placed)
	return nil
}

// size is how many dots a page has.
func (b Bed) size(p *page.Page) (w, h int, err error) {
	if err := marks.Sheet(p); err != nil {
		return 0, 0, err
	}
	if b.Dots.N < 1 || b.Dots.Per < 1 {
		return 0, 0, fmt.Errorf("nothing is known of the printer's dots")
	}
	w, h = b.near(p.W), b.near(p.H)
	if w < 1 || h < 1 || int64(w)*int64(h) > most {
		return 0, 0, fmt.Errorf("a sheet of %v by %v has %d × %d dots on a printer with %s, and cannot be drawn", p.W, p.H, w, h, b.Dots)
	}
	return w, h, nil
}

// near is the nearest whole number of dots.
func (b Bed) near(l unit.Length) int { return int(unit.MulDiv(int64(l), b.Dots.N, int64(b.Dots.Per))) }

// part is a length in dots, with what is between two of them.
func (b Bed) part(l unit.Length) float32 {
	return float32(float64(l) * float64(b.Dots.N) / float64(b.Dots.Per))
}

// A burner draws the marks of one page. It implements [marks.Pen].
type burner struct {
	Bed
	img *image.Gray
}

// Run implements [marks.Pen].
func (d *burner) Run(x unit.Length, r *page.Run) error {
	var f figure
	err := outline.Run(x, r, func(l outline.Letter) {
		at := func(p outline.Pt) point {
			q := l.At(p)
			return point{d.part(q.X), d.part(q.Y)}
		}
		for _, s := range l.Segs {
			switch s.Op {
			case 'M':
				f.move(at(s.Pts[0]))
			case 'L':
				f.line(at(s.Pts[0]))
			case 'Q':
				f.quad(at(s.Pts[0]), at(s.Pts[1]))
			case 'C':
				f.cube(at(s.Pts[0]), at(s.Pts[1]), at(s.Pts[2]))
			}
		}
	})
	if err == nil {
		d.ink(&f, r.Gray)
	}
	return err
}

// Symbol implements [marks.Pen]: a module is as many dots as it was chosen for.
func (d *burner) Symbol(s *page.Symbol) error {
	n := d.near(s.Module)
	if s.Dots != d.Dots || n < 1 || d.Dots.At(int64(n)) != s.Module {
		return fmt.Errorf("the %s symbol has modules of %v for a printer with %s, and this one has %s: choose its module for the printer that burns it", s.Kind, s.Module, s.Dots, d.Dots)
	}
	x, y := d.near(s.Bars.X), d.near(s.Bars.Y)
	marks.Runs(s, func(row, rows, from, to int) {
		top, bottom := y, d.near(s.Bars.Bottom())
		if s.Rows > 1 {
			top, bottom = y+row*n, y+(row+rows)*n
		}
		d.box(image.Rect(x+from*n, top, x+to*n, bottom), 0)
	})
	return nil
}

// Fill implements [marks.Pen].
func (d *burner) Fill(b page.Rect, gray uint8) error {
	d.box(d.snap(b), gray)
	return nil
}

// snap puts a box onto whole dots. A line is as thick wherever it stands, and
// nothing becomes too thin to be seen.
func (d *burner) snap(b page.Rect) image.Rectangle {
	side := func(from, to unit.Length) (int, int) {
		lo, hi, n := d.near(from), d.near(to), d.near(to-from)
		if n <= 4 {
			hi = lo + max(1, n)
		}
		return lo, hi
	}
	x0, x1 := side(b.X, b.Right())
	y0, y1 := side(b.Y, b.Bottom())
	return image.Rect(x0, y0, x1, y1)
}

// Outline implements [marks.Pen].
func (d *burner) Outline(b page.Rect, s *page.Shape) error {
	out := d.snap(b.Inset(-s.Stroke / 2))
	n := max(1, d.near(s.Stroke))
	in := out.Inset(n)
	if in.Empty() {
		d.box(out, s.Gray)
		return nil
	}
	d.box(image.Rect(out.Min.X, out.Min.Y, out.Max.X, in.Min.Y), s.Gray)
	d.box(image.Rect(out.Min.X, in.Max.Y, out.Max.X, out.Max.Y), s.Gray)
	d.box(image.Rect(out.Min.X, in.Min.Y, in.Min.X, in.Max.Y), s.Gray)
	d.box(image.Rect(in.Max.X, in.Min.Y, out.Max.X, in.Max.Y), s.Gray)
	return nil
}

// Hatch implements [marks.Pen].
func (d *burner) Hatch(b page.Rect, s *page.Shape) error {
	var f figure
	marks.Hatch(b, s.Stroke, func(from, to page.Pt) {
		f.stroke([]point{d.at(from), d.at(to)}, d.wide(s), false)
	})
	d.ink(&f, s.Gray)
	return nil
}

func (d *burner) at(p page.Pt) point { return point{d.part(p.X), d.part(p.Y)} }

// wide is how thick a line is, a dot at the least.
func (d *burner) wide(s *page.Shape) float32 { return max(1, d.part(s.Stroke)) }

// Path implements [marks.Pen].
func (d *burner) Path(s *page.Shape) error {
	if s.Fill {
		var f figure
		f.path(s.Segs, d.at)
		d.ink(&f, s.Gray)
	}
	if marks.Stroked(s) {
		var f figure
		for _, l := range lines(s.Segs, d.at) {
			f.stroke(l.pts, d.wide(s), l.closed)
		}
		d.ink(&f, s.Gray)
	}
	return nil
}

// Picture implements [marks.Pen]: a dot is the mean of the pixels under it.
func (d *burner) Picture(b page.Rect, pic *page.Picture) error {
	box := image.Rect(d.near(b.X), d.near(b.Y), max(d.near(b.X)+1, d.near(b.Right())), max(d.near(b.Y)+1, d.near(b.Bottom())))
	w, h := box.Dx(), box.Dy()
	for y := range h {
		y0 := y * pic.H / h
		y1 := max(y0+1, (y+1)*pic.H/h)
		for x := range w {
			x0 := x * pic.W / w
			x1 := max(x0+1, (x+1)*pic.W/w)
			sum := 0
			for py := y0; py < y1; py++ {
				for _, g := range pic.Gray[py*pic.W+x0 : py*pic.W+x1] {
					sum += int(g)
				}
			}
			n := (y1 - y0) * (x1 - x0)
			d.set(box.Min.X+x, box.Min.Y+y, uint8((sum+n/2)/n))
		}
	}
	return nil
}

// box gives all dots of a box one grey.
func (d *burner) box(b image.Rectangle, gray uint8) {
	b = b.Intersect(d.img.Rect)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			d.img.Pix[y*d.img.Stride+x] = d.tone(x, y, gray)
		}
	}
}

func (d *burner) set(x, y int, gray uint8) {
	if (image.Point{X: x, Y: y}).In(d.img.Rect) {
		d.img.Pix[y*d.img.Stride+x] = d.tone(x, y, gray)
	}
}

// screen is the pattern of greys where a dot is black or white: of each 4 by 4
// dots as many are black as the grey asks for, growing from the middle, so that
// dots hang together and heat spreads into few gaps. It is the order of a
// clustered-dot screen, as halftoning handbooks show it.
var screen = [4][4]int{{12, 5, 6, 13}, {4, 0, 1, 7}, {11, 3, 2, 8}, {15, 10, 9, 14}}

// tone is what a dot becomes that is to be grey.
func (d *burner) tone(x, y int, gray uint8) uint8 {
	if d.Greys || gray == 0 || gray == 255 {
		return gray
	}
	if screen[y&3][x&3] < (int(255-gray)*16+127)/255 {
		return 0
	}
	return 255
}
