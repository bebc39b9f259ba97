package emblem

import (
	"chablon/labels/unit"
	"chablon/layout/page"
)

// cell is how finely black is looked at for what it does to a printer.
const cell = 250 * unit.UM

// Solid is how much of an area is black without a gap, to a quarter of a
// millimetre: the area that shapes, paths and pictures cover, and the side of
// the largest square of nothing but black. Words and bars are not solid.
func Solid(items []page.Item, all page.Rect) (black unit.Area, square unit.Length) {
	var dark []page.Item
	most := unit.Area(0)
	for _, it := range items {
		if solid(it) {
			dark, most = append(dark, it), most+unit.AreaOf(it.Box.W, it.Box.H)
		}
	}
	if most < 40*unit.MM2 || all.W <= 0 || all.H <= 0 { // some rules: nothing to be asked
		return most, 0
	}
	b := &bits{w: int(all.W / cell), h: int(all.H / cell)}
	b.on = make([]bool, b.w*b.h)
	n := 0
	for _, it := range dark {
		b.ink(it, all)
	}
	for _, on := range b.on {
		if on {
			n++
		}
	}
	return unit.Area(n) * unit.AreaOf(cell, cell), unit.Length(b.largest()) * cell
}

func solid(it page.Item) bool {
	if s := it.Shape; s != nil {
		return s.Gray < 128 && (s.Kind == page.Filled || s.Kind == page.Path && s.Fill)
	}
	return it.Picture != nil
}

// ink blackens the cells that a mark covers by half.
func (b *bits) ink(it page.Item, all page.Rect) {
	x0, y0 := int((it.Box.X-all.X)/cell), int((it.Box.Y-all.Y)/cell)
	w, h := int((it.Box.W+cell/2)/cell), int((it.Box.H+cell/2)/cell)
	if w < 1 || h < 1 || w > 4*b.w+4 || h > 4*b.h+4 {
		return
	}
	at := func(int) byte { return 0 }
	switch {
	case it.Picture != nil:
		p := it.Picture
		gray := (&Emblem{W: int64(p.W), H: int64(p.H), Gray: p.Gray}).boxed(w, h)
		at = func(i int) byte { return gray[i] }
	case it.Shape.Kind == page.Path:
		gray := filled(scaled(it.Shape.Segs, it.Box, w, h), w, h)
		at = func(i int) byte { return gray[i] }
	}
	for i := range w * h {
		if x, y := x0+i%w, y0+i/w; at(i) < 128 && x >= 0 && y >= 0 && x < b.w && y < b.h {
			b.on[y*b.w+x] = true
		}
	}
}

// scaled are the steps of a path in 1/2^20 of a cell of w × h that cover box.
func scaled(steps []page.Seg, box page.Rect, w, h int) []page.Seg {
	out := make([]page.Seg, len(steps))
	for i, s := range steps {
		for k, p := range s.Pts {
			s.Pts[k] = page.Pt{X: (p.X - box.X).Mul(int64(w)<<20, int64(box.W)), Y: (p.Y - box.Y).Mul(int64(h)<<20, int64(box.H))}
		}
		out[i] = s
	}
	return out
}

// largest is the side of the largest square of black dots: each dot ends one
// that is a dot larger than the least of those of its three neighbours.
func (b *bits) largest() (most int) {
	last := make([]int, b.w+1)
	for y := range b.h {
		row := make([]int, b.w+1)
		for x := range b.w {
			if b.on[y*b.w+x] {
				row[x+1] = 1 + min(row[x], last[x], last[x+1])
				most = max(most, row[x+1])
			}
		}
		last = row
	}
	return most
}
