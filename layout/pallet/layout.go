package pallet

import (
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Least heights of capitals: 3 mm for all text of a logistic label, 7 mm for
// its figures where there is room (GGS release 18, 6.6.4.2; GS1 Sweden).
const (
	leastText = 3 * unit.MM
	mostText  = 5 * unit.MM
	figures   = 7 * unit.MM
	thin      = 300 * unit.UM
)

// set sets the label in the largest words that fit over its bars; the figures
// become smaller before it is refused.
func set(paper *compose.Paper, c content, p Pallet, els []gs1.Element, matrix *compose.Matrix) (items []page.Item, err error) {
	bars, err := paper.Stack(els, p.Numbered, p.Elements()...)
	if err != nil {
		return nil, err
	}
	room := paper.Room()
	w, h := matrix.Room()
	room.H = bars.Top() - h - room.Y
	f := paper.Faces.Bold
	for _, data := range []unit.Length{figures, figures * 5 / 7, leastText} {
		items, _, err = compose.Best(f.SizeForCap(leastText), f.SizeForCap(max(leastText, min(mostText, data))), 10, func(size unit.Length) ([]page.Item, error) {
			s := paper.Setter()
			c.set(s, room, size, max(size, f.SizeForCap(data)))
			bars.Shared(s)
			bars.Own(s, p.SSCC, p.Numbered)
			matrix.Put(s, room.Right()-w, room.Bottom(), p.SSCC)
			return s.Items, s.Err()
		})
		if err == nil {
			return items, nil
		}
	}
	return nil, err
}

// set sets the parts below each other with rules between them.
func (c content) set(s *compose.Setter, room page.Rect, body, data unit.Length) {
	small, large := flow.Style{Size: body}, flow.Style{Size: data, Leading: data * 21 / 20}
	col := s.Column(room)
	for i, part := range []struct {
		said []text.Para
		st   flow.Style
	}{{[]text.Para{c.sender}, small}, {[]text.Para{c.to}, small}, {[]text.Para{c.title}, large}, {[]text.Para{c.class, c.date}, large}, {c.lines, small}, {c.numbers[1:], small}, {c.numbers[:1], large}} {
		if len(part.said) == 0 || len(part.said) == 1 && len(part.said[0].Spans) == 0 {
			continue
		}
		if i > 0 {
			gap := body / 2
			s.Rule(room.X, col.Room.Y+gap/2-thin/2, room.W, thin)
			col.Down(gap)
		}
		for _, q := range part.said {
			col.Put(q, part.st)
		}
	}
	s.Must(col.Used(), room.H, diag.Pos{})
}
