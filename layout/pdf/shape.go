package pdf

import (
	"chablon/labels/unit"
	"chablon/layout/marks"
	"chablon/layout/page"
)

// Fill implements [marks.Pen].
func (p *pen) Fill(b page.Rect, gray uint8) error {
	p.setFill(gray)
	p.rect(b.X, b.Y, b.Right(), b.Bottom())
	p.op("f\n")
	return p.took()
}

// Outline implements [marks.Pen].
func (p *pen) Outline(b page.Rect, s *page.Shape) error {
	p.setLine(s.Gray, s.Stroke)
	p.setJoin('0')
	p.rect(b.X, b.Y, b.Right(), b.Bottom())
	p.op("S\n")
	return p.took()
}

// Hatch implements [marks.Pen].
func (p *pen) Hatch(b page.Rect, s *page.Shape) error {
	p.setLine(s.Gray, s.Stroke)
	p.setJoin('0')
	marks.Hatch(b, s.Stroke, func(from, to page.Pt) {
		p.at(from.X, from.Y)
		p.op(" m")
		p.at(to.X, to.Y)
		p.op(" l\n")
	})
	p.op("S\n")
	return p.took()
}

// Path implements [marks.Pen].
func (p *pen) Path(s *page.Shape) error {
	if s.Fill {
		p.setFill(s.Gray)
	}
	if marks.Stroked(s) {
		p.setLine(s.Gray, s.Stroke)
		p.setJoin('1')
	}
	for _, g := range s.Segs {
		p.seg(g)
	}
	p.op(paint(s.Fill, marks.Stroked(s)))
	return p.took()
}

func (p *pen) seg(g page.Seg) {
	used, _ := marks.Points(g)
	for _, pt := range used {
		p.at(pt.X, pt.Y)
	}
	switch g.Op {
	case page.Move:
		p.op(" m\n")
	case page.Line:
		p.op(" l\n")
	case page.Curve:
		p.op(" c\n")
	case page.Close:
		p.op("h\n")
	}
}

func paint(fill, stroke bool) string {
	switch {
	case fill && stroke:
		return "B\n"
	case fill:
		return "f\n"
	}
	return "S\n"
}

// Symbol implements [marks.Pen].
func (p *pen) Symbol(s *page.Symbol) error {
	p.setFill(0)
	marks.Bars(s, func(left, top, right, bottom unit.Length) { p.rect(left, top, right, bottom) })
	p.op("f\n")
	return p.took()
}
