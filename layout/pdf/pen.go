package pdf

import (
	"errors"
	"strconv"

	"chablon/labels/unit"
)

// A pen writes drawing operators (ISO 32000-1 Annex A) for one page or one
// artwork. It remembers the graphics state, so that only changes are written;
// at first nothing is known, since a form inherits whatever its page has set.
type pen struct {
	out   []byte
	inks  *inks
	shown *album
	h     int64 // height of the sheet in thousandths of a point
	err   error
	fill  int
	line  int
	width int64
	join  byte
	face  int
	size  int64
}

func newPen(k *inks, a *album, h int64) *pen {
	return &pen{inks: k, shown: a, h: h, fill: -1, line: -1, width: -1, face: -1}
}

// took gives the fault of what was written last, and forgets it.
func (p *pen) took() error {
	err := p.err
	p.err = nil
	return err
}

// do places form n with its lower left corner at x, y.
func (p *pen) do(n int, x, y int64) {
	p.op("q 1 0 0 1")
	p.num(x)
	p.num(y)
	p.op(" cm /A")
	p.out = strconv.AppendInt(p.out, int64(n), 10)
	p.op(" Do Q\n")
}

func (p *pen) op(s string) { p.out = append(p.out, s...) }

// num writes a blank and thousandths of a point as a decimal number, without
// trailing zeros.
func (p *pen) num(v int64) {
	if v > longest || v < -longest {
		p.err = errors.New("a mark lies off any sheet")
	}
	p.out = append(p.out, ' ')
	p.out = appendMilli(p.out, v)
}

func appendMilli(b []byte, v int64) []byte {
	if v < 0 {
		b, v = append(b, '-'), -v
	}
	b = strconv.AppendInt(b, v/1000, 10)
	if v %= 1000; v == 0 {
		return b
	}
	b = append(b, '.', byte('0'+v/100))
	if v %= 100; v == 0 {
		return b
	}
	b = append(b, byte('0'+v/10))
	if v %= 10; v == 0 {
		return b
	}
	return append(b, byte('0'+v))
}

// at writes a point that is measured from the top left corner.
func (p *pen) at(x, y unit.Length) {
	p.num(milli(x))
	p.num(p.h - milli(y))
}

// rect writes a box; its edges are rounded one by one, so that boxes which
// touch on the page touch in the file.
func (p *pen) rect(left, top, right, bottom unit.Length) {
	x, y := milli(left), p.h-milli(bottom)
	p.num(x)
	p.num(y)
	p.num(milli(right) - x)
	p.num(p.h - milli(top) - y)
	p.op(" re\n")
}

func (p *pen) setFill(gray uint8) {
	if p.fill != int(gray) {
		p.fill = int(gray)
		p.gray(gray, " g\n")
	}
}

func (p *pen) setLine(gray uint8, width unit.Length) {
	if p.line != int(gray) {
		p.line = int(gray)
		p.gray(gray, " G\n")
	}
	if w := milli(width); p.width != w {
		p.width = w
		p.num(w)
		p.op(" w\n")
	}
}

func (p *pen) gray(g uint8, op string) {
	p.num((int64(g)*1000 + 127) / 255)
	p.op(op)
}

// setJoin sets how lines meet: '0' with a sharp corner, '1' with a round one.
func (p *pen) setJoin(j byte) {
	if p.join != j {
		p.join = j
		p.out = append(p.out, j, ' ', 'j', '\n')
	}
}
