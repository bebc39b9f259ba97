package flow

import (
	"sort"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Block is what stays together on a page: marks drawn from the corner (0, 0)
// and the height they take. Above is more white above it, unless it is the first
// on its page. Tied means that the next block has to be on the same page.
type Block struct {
	H, Above unit.Length
	Items    []page.Item
	Tied     bool
	Src      diag.Pos
}

// Block makes a block of width w with the marks that set draws from the
// corner (0, 0); set returns the height it used.
func (p *Pen) Block(w unit.Length, set func(*Pen, page.Rect) (unit.Length, error)) (Block, error) {
	in := p.Fresh()
	h, err := set(in, page.Rect{W: w, H: endless})
	return Block{H: h, Items: in.Items}, err
}

// endless is higher than any paper: ten metres.
const endless = 10_000 * unit.MM

// Stack puts blocks under each other from the top of area, gap between them,
// as many as fit, and returns how many that were and the height used. Blocks
// begin on whole dots.
func (p *Pen) Stack(area page.Rect, gap unit.Length, blocks []Block) (placed int, used unit.Length) {
	n, _ := p.fit(area, gap, blocks)
	y := area.Y
	for i, b := range blocks[:n] {
		if i > 0 {
			y = p.OnDot(y + gap + b.Above)
		}
		p.Add(b.Items, area.X, y)
		y += b.H
	}
	return n, y - area.Y
}

// fit tells how many blocks go into area, ties unbroken, and how high the
// first group of tied blocks is.
func (p *Pen) fit(area page.Rect, gap unit.Length, blocks []Block) (n int, first unit.Length) {
	y := area.Y
	for i, b := range blocks {
		if i > 0 {
			y = p.OnDot(y + gap + b.Above)
		}
		y += b.H
		tied := b.Tied && i+1 < len(blocks)
		if first == 0 && !tied {
			first = y - area.Y
		}
		if y > area.Bottom() {
			if first != 0 {
				break
			}
			continue
		}
		if !tied {
			n = i + 1
		}
	}
	return n, first
}

// OnDot is y moved down to a whole dot.
func (p *Pen) OnDot(y unit.Length) unit.Length {
	s := p.Dots.Snap(y)
	if s < y {
		s = p.Dots.Snap(s + p.Dots.At(1))
	}
	return s
}

// Pages deals blocks out to as many pages as they need; area gives the room
// on page 0, 1, 2 and so on. The error is an *[Overflow] with the place of a
// block that no page is high enough for.
func (p *Pen) Pages(area func(page int) page.Rect, gap unit.Length, blocks []Block) ([][]page.Item, error) {
	var out [][]page.Item
	for len(blocks) > 0 {
		room, pen := area(len(out)), p.Fresh()
		n, _ := pen.Stack(room, gap, blocks)
		if n == 0 {
			_, need := p.fit(room, gap, blocks)
			return nil, &Overflow{need, room.H, blocks[0].Src}
		}
		out, blocks = append(out, pen.Items), blocks[n:]
	}
	return out, nil
}

// Largest finds the largest size from least to most, in steps of step
// hundredths of a point, that try accepts. It assumes that whatever fits also
// fits at any smaller size and so asks try only a few times, in no order; set
// the words once more with the size returned. It returns false when not even
// least fits.
func Largest(least, most unit.Length, step int64, try func(size unit.Length) bool) (unit.Length, bool) {
	if !try(least) {
		return 0, false
	}
	from := text.InHundredths(least)
	size := func(i int) unit.Length { return text.Hundredths(from + int64(i+1)*step) }
	n := int(max(0, (text.InHundredths(most)-from)/step))
	k := sort.Search(n, func(i int) bool { return !try(size(i)) })
	if k == 0 {
		return least, true
	}
	return size(k - 1), true
}
