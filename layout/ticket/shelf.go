package ticket

import (
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// highShelf is the height from which a shelf ticket has room for the line that
// says what the food is like.
const highShelf = 50 * unit.MM

// shelf sets a ticket of one panel: the name beside the price, the allergens
// below, and small at the foot the version and the check word.
func (l layout) shelf(s *compose.Setter, room page.Rect) {
	l.z.price = min(l.z.price, points(mostName))
	high, wide := l.money(s, room)
	left := s.Column(page.Rect{X: room.X, Y: room.Y, W: room.W - wide, H: room.H})
	l.title(left)
	if _, h := l.Stock.Size(); h >= highShelf {
		l.abouts(left)
	}
	c := s.Column(room)
	c.Skip(max(left.Used(), high) + gap/2)
	foot := s.Low(room, l.foot)
	c.Room.H -= foot.H
	s.Rule(c.Room.X, c.Room.Y-gap/4, c.Room.W, hair)
	c.Skip(gap / 4)
	l.warnings(c)
	s.Add(foot.Items, room.X, room.Bottom()-foot.H)
}

// money sets the price at the top right with what it buys below it, and returns
// its height and width.
func (l layout) money(s *compose.Setter, room page.Rect) (high, wide unit.Length) {
	for _, line := range []struct {
		words.Said
		size unit.Length
		bold bool
	}{{l.content.price, l.z.price, true}, {l.per, l.z.small, false}, {l.amount, l.z.small, false}} {
		if line.Text == "" {
			continue
		}
		q := flow.Words(line.Role, line.Src, line.Text)
		q.Spans[0].Bold = line.bold
		lead := tight(line.size).Leading
		base := room.Y + high + (lead+s.Faces.Bold.CapHeight(line.size))/2
		box := s.Line(room.Right(), base, q, flow.Style{Size: line.size, Align: flow.Right})
		high, wide = high+lead, max(wide, box.W+gap)
	}
	s.Must(wide, room.W*3/5, l.Pack.Pos)
	return high, wide
}

// foot sets the version and the check word at the right, and returns their
// height.
func (l layout) foot(s *compose.Setter, r page.Rect) unit.Length {
	q := l.version
	if l.word.Text != "" {
		q.Text += " · " + l.word.Text
	}
	size := points(6)
	lead := size * 6 / 5
	_, down := s.Faces.Regular.Ink(q.Text, size)
	s.Line(r.Right(), r.Y+lead-down, compose.Phrase(q), flow.Style{Size: size, Align: flow.Right})
	return lead
}
