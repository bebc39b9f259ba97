// Package calibrate answers: does this printer print where it is told, and as
// large?
//
// [Compose] makes a page to measure with a ruler, and [Found] says what to write
// for the printer from the two, or four, lengths that were measured. The words
// on the page are the flags that take what is measured there.
package calibrate

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// Inset is how far the frame lies inside the edge of the paper.
const Inset = 2 * unit.MM

// Sheet is what a page to measure is made of.
type Sheet struct {
	Printer string // its name in the shop
	Stock   *stock.Stock
	Dots    unit.Dots
}

// number stands in bars that are no product's: the first digit 2 is for use
// inside a house (GS1 General Specifications, 1.4.3; from memory).
const number = "2000000000008"

// Compose sets the page: a frame [Inset] inside the edge of the paper, rulers
// from its corner, bars and gaps of 2 to 8 dots both ways, the same symbol
// lying and standing, greys. What a small paper has no room for is left out,
// the frame and the rulers never.
func Compose(s Sheet, faces *text.Faces, found *diag.List) *page.Page {
	p := &sheet{Sheet: s, Setter: compose.On(s.Stock, s.Dots, faces).Setter()}
	w, h := s.Stock.Width.V, s.Stock.Height.V
	p.frame = page.Rect{W: w, H: h}.Inset(Inset)
	p.Frame(p.frame, 2*s.Dots.At(1))
	p.rulers()
	p.words()
	p.blocks()
	if err := p.Err(); err != nil {
		found.AddError(err, diag.Diag{Pos: s.Stock.Width.Pos, Rule: "calibrate", Msg: fmt.Sprintf("the page to measure does not fit on %s: %v", s.Stock.ID, err), Hint: "take a larger paper of the printer"})
		return nil
	}
	return &page.Page{W: w, H: h, Items: p.Items}
}

type sheet struct {
	Sheet
	*compose.Setter
	frame page.Rect
	y     unit.Length // where the first row of blocks stands
}

// How long the ticks of the rulers are, at each millimetre, fifth and tenth.
const (
	tick  = 1 * unit.MM
	fifth = 1500 * unit.UM
	tenth = 2500 * unit.UM
	ruled = 5 * unit.MM // with the figures
)

func (p *sheet) size() unit.Length { return text.Hundredths(600) }

// rulers count millimetres from the top left corner of the frame.
func (p *sheet) rulers() {
	st := flow.Style{Size: p.size(), Align: flow.Centre}
	for i := unit.Length(1); i*unit.MM < p.frame.W-unit.MM; i++ {
		p.Upright(p.frame.X+i*unit.MM, p.frame.Y, long(i), p.Dots.At(1))
		if i%10 == 0 && i*unit.MM < p.frame.W-4*unit.MM {
			p.Line(p.frame.X+i*unit.MM, p.frame.Y+ruled, note(fmt.Sprint(int64(i))), st)
		}
	}
	for i := unit.Length(1); i*unit.MM < p.frame.H-unit.MM; i++ {
		p.Rule(p.frame.X, p.frame.Y+i*unit.MM, long(i), p.Dots.At(1))
		if i%10 == 0 && i*unit.MM < p.frame.H-4*unit.MM {
			p.Line(p.frame.X+tenth+unit.MM/2, p.frame.Y+i*unit.MM+p.size()/3, note(fmt.Sprint(int64(i))), flow.Style{Size: p.size()})
		}
	}
}

func long(i unit.Length) unit.Length {
	switch {
	case i%10 == 0:
		return tenth
	case i%5 == 0:
		return fifth
	}
	return tick
}

func note(s string) text.Para { return text.Para{Role: role.Note, Spans: []text.Span{{Text: s}}} }

// words say which printer and paper, and what is measured where.
func (p *sheet) words() {
	r := page.Rect{X: p.frame.X + 8*unit.MM, Y: p.frame.Y + ruled + unit.MM, W: p.frame.W - 9*unit.MM, H: p.frame.H - ruled - 2*unit.MM}
	for _, line := range []string{
		p.Printer + ", " + p.Stock.ID + ", " + p.Dots.String(),
		"--left, --top: edge to frame",
		fmt.Sprintf("--wide, --high: frame, %s × %s", p.frame.W, p.frame.H),
	} {
		r = r.Below(p.Para(r, note(line), flow.Style{Size: p.size()}))
	}
	p.y = r.Y
}

// blocks set what there is room for, in rows from left to right.
func (p *sheet) blocks() {
	const gap = 3 * unit.MM
	left, right, bottom := p.frame.X+8*unit.MM, p.frame.Right()-2*unit.MM, p.frame.Bottom()-2*unit.MM
	x, y, high := left, p.y+gap, unit.Length(0)
	for _, b := range []struct {
		w, h unit.Length
		set  func(x, y unit.Length)
	}{
		{p.ladderWide(), 8 * unit.MM, p.ladder},
		{33 * unit.MM, 5 * unit.MM, p.wedge},
		{113 * p.module(), 15 * unit.MM, func(x, y unit.Length) { p.bars(x, y, 15*unit.MM, false) }},
		{15 * unit.MM, 113 * p.module(), func(x, y unit.Length) { p.bars(x, y, 15*unit.MM, true) }},
		{8 * unit.MM, p.ladderWide(), p.standing},
	} {
		if x > left && x+b.w > right {
			x, y, high = left, y+high+gap, 0
		}
		if x+b.w <= right && y+b.h <= bottom {
			b.set(p.Dots.Snap(x), p.Dots.Snap(y))
			x, high = x+b.w+gap, max(high, b.h)
		}
	}
}

// The ladder has for each width from least to most dots so many bars.
const (
	leastDots, mostDots = 2, 8
	barsEach            = 4
)

// ladderWide is how wide all steps of the ladder are, side by side.
func (p *sheet) ladderWide() (w unit.Length) {
	for n := int64(leastDots); n <= mostDots; n++ {
		w += p.Dots.At(2*barsEach*n) + 2*unit.MM
	}
	return w
}

// ladder sets upright bars and gaps of each number of dots.
func (p *sheet) ladder(x, y unit.Length) {
	for n := int64(leastDots); n <= mostDots; n++ {
		for i := range int64(barsEach) {
			p.Add([]page.Item{bar(page.Rect{X: x + p.Dots.At(2*i*n), Y: y, W: p.Dots.At(n), H: 5 * unit.MM})}, 0, 0)
		}
		p.Line(x, y+8*unit.MM, note(fmt.Sprint(n)), flow.Style{Size: p.size()})
		x = p.Dots.Snap(x + p.Dots.At(2*barsEach*n) + 2*unit.MM)
	}
}

// standing is the ladder with level bars, for the direction of the feed.
func (p *sheet) standing(x, y unit.Length) {
	for n := int64(leastDots); n <= mostDots; n++ {
		for i := range int64(barsEach) {
			p.Add([]page.Item{bar(page.Rect{X: x, Y: y + p.Dots.At(2*i*n), W: 5 * unit.MM, H: p.Dots.At(n)})}, 0, 0)
		}
		p.Line(x+6*unit.MM, y+p.size(), note(fmt.Sprint(n)), flow.Style{Size: p.size()})
		y = p.Dots.Snap(y + p.Dots.At(2*barsEach*n) + 2*unit.MM)
	}
}

// wedge is eleven greys from black to white.
func (p *sheet) wedge(x, y unit.Length) {
	for i := range unit.Length(11) {
		p.Tint(page.Rect{X: x + i*3*unit.MM, Y: y, W: 3 * unit.MM, H: 5 * unit.MM}, uint8(i*255/10))
	}
}

func bar(r page.Rect) page.Item {
	return page.Item{Box: r, Role: role.Furniture, Shape: &page.Shape{Kind: page.Filled}}
}

// module is that of the bars: nearest to the usual 0.33 mm.
func (p *sheet) module() unit.Length {
	return p.Dots.At(max(2, p.Dots.Floor(330*unit.UM+p.Dots.At(1)/2)))
}

// bars draws the symbol with its white, lying or standing: a scanner reads both
// or the printer smears in one direction.
func (p *sheet) bars(x, y, long unit.Length, standing bool) {
	m := p.module()
	s, err := symbol.EAN13(number, symbol.Module{X: m, Height: long, Dots: p.Dots})
	if err != nil {
		p.Fail(err)
		return
	}
	for i, dark := range s.Dark {
		at := m * unit.Length(i+11)
		switch {
		case dark == 0:
		case standing:
			p.Add([]page.Item{bar(page.Rect{X: x, Y: y + at, W: long, H: m})}, 0, 0)
		default:
			p.Add([]page.Item{bar(page.Rect{X: x + at, Y: y, W: m, H: long})}, 0, 0)
		}
	}
}
