package ticket

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const (
	hair = 200 * unit.UM // rules and frames
	gap  = 2 * unit.MM   // between blocks
)

// layout is where all of one ticket goes at one size.
type layout struct {
	Ticket
	content
	paper *compose.Paper
	z     sizes
	crown
}

// set sets the panels: two on a ticket that is folded, else one.
func (l layout) set(s *compose.Setter) {
	if !l.Stock.Fold.Set() {
		l.shelf(s, l.paper.Room())
		return
	}
	left, right := l.panels()
	l.buyer(s, left)
	l.fold(s)
	l.behind(s, right)
}

// panels are the two halves of a folded ticket, as far from the fold as from
// the edge.
func (l layout) panels() (left, right page.Rect) {
	left, right = l.paper.Room(), l.paper.Room()
	w, _ := l.Stock.Size()
	left.W = w/2 - l.Stock.Safe.V - left.X
	right.X = w - left.X - left.W
	right.W = left.W
	return left, right
}

// fold marks the fold with a short line at either end.
func (l layout) fold(s *compose.Setter) {
	w, _ := l.Stock.Size()
	const long, thick = 2 * unit.MM, 150 * unit.UM
	room := l.paper.Room()
	s.Upright(w/2-thick/2, room.Y, long, thick)
	s.Upright(w/2-thick/2, room.Bottom()-long, long, thick)
}

// strong is all of some words in bold.
func strong(s words.Said) text.Para { return flow.Strong(s.Role, s.Src, s.Text) }

// tight is the style of large words, which need less white.
func tight(size unit.Length) flow.Style { return flow.Style{Size: size, Leading: size * 21 / 20} }

// apart is the style of allergens, in lines a little apart.
func apart(size unit.Length) flow.Style { return flow.Style{Size: size, Leading: size * 23 / 20} }

// buyer sets the panel of the buyer: from the top the name and what the food is
// like, from the bottom the price, and above that the allergens in a frame.
func (l layout) buyer(s *compose.Setter, room page.Rect) {
	price := s.Low(room, l.price)
	room.H -= price.H + gap
	box := s.Low(room, func(s *compose.Setter, r page.Rect) unit.Length {
		return s.Boxed(r, 3*gap/4, hair, func(s *compose.Setter, r page.Rect) unit.Length {
			c := s.Column(r)
			l.warnings(c)
			return c.Used()
		})
	})
	under := room.Bottom()
	room.H -= box.H + gap
	c := s.Column(room)
	l.crowned(c)
	l.title(c)
	l.abouts(c)
	s.Add(box.Items, room.X, s.Dots.Snap(under-box.H)) // in the order of reading
	s.Add(price.Items, room.X, s.Dots.Snap(under+gap))
}

// title sets the names, that of the first language large.
func (l layout) title(c *compose.Column) {
	for i, x := range l.speeches {
		if i == 0 {
			c.PutIn(l.named(l.z.name), strong(x.name), tight(l.z.name))
		} else {
			c.Put(compose.Phrase(x.name), tight(l.z.second))
		}
	}
}

// abouts sets the kitchen's own lines.
func (l layout) abouts(c *compose.Column) {
	for i, x := range l.speeches {
		if i == 0 && x.about.Text != "" {
			c.Skip(gap / 2)
		}
		c.PutIn(l.abouted(l.z.about), compose.Phrase(x.about), flow.Style{Size: l.z.about})
	}
}

// warnings sets what the food contains, and below it what it may contain.
func (l layout) warnings(c *compose.Column) {
	for i, x := range l.speeches {
		if i > 0 {
			c.Skip(gap / 2)
		}
		for _, line := range x.contains {
			c.Put(compose.Phrase(line), apart(l.z.allergens))
		}
		c.Put(compose.Phrase(x.may), apart(l.z.may))
		for _, s := range x.more {
			c.Put(compose.Phrase(s), flow.Style{Size: l.z.small})
		}
	}
}

// price sets the price at the right, and beside it how much it buys and what a
// kilogram costs, under a rule. It returns its height.
func (l layout) price(s *compose.Setter, r page.Rect) unit.Length {
	price, size := strong(l.content.price), l.z.price
	c := s.Column(page.Rect{X: r.X, Y: r.Y + gap, W: r.W - s.Width(price, size) - gap, H: r.H - gap})
	c.Put(compose.Phrase(l.amount), flow.Style{Size: l.z.small})
	c.Put(compose.Phrase(l.per), flow.Style{Size: l.z.small})
	_, down := s.Faces.Bold.Ink(l.content.price.Text, size) // of a comma
	down = max(down, gap/4)
	h := max(gap+c.Used(), gap+s.Faces.Bold.CapHeight(size)+down)
	if l.content.price.Text != "" {
		s.Line(r.Right(), r.Y+h-down, price, flow.Style{Size: size, Align: flow.Right})
	}
	s.Must(h, r.H, l.Pack.Pos)
	s.Rule(r.X, r.Y, r.W, hair)
	return h
}

// signed sets words at the left over each other and one word large at the
// right, under a rule, and returns their height.
func (l layout) signed(s *compose.Setter, r page.Rect, size unit.Length) unit.Length {
	large := max(points(11), text.Whole(size*5/4))
	word := strong(l.word)
	c := s.Column(page.Rect{X: r.X, Y: r.Y + gap/2, W: r.W - s.Width(word, large) - gap, H: r.H})
	c.Put(strong(l.version), flow.Style{Size: size})
	c.Put(compose.Phrase(l.valid), flow.Style{Size: size})
	h := gap/2 + c.Used()
	if l.word.Text != "" {
		s.Line(r.Right(), r.Y+(gap/2+h+s.Faces.Bold.CapHeight(large))/2, word, flow.Style{Size: large, Align: flow.Right})
	}
	s.Rule(r.X, r.Y, r.W, hair)
	return h
}

// behind sets the panel of the staff at the largest size that fits, never below
// what the market asks of a label.
func (l layout) behind(s *compose.Setter, room page.Rect) {
	least := s.Faces.Regular.SizeForX(l.Facts.Market.XHeightOf(role.List, 0).Least)
	items, _, err := compose.Best(least, grown(l.Stock, mostStaff), 10, func(size unit.Length) ([]page.Item, error) {
		in := s.Fresh()
		l.staffed(in, room, size)
		return in.Items, in.Err()
	})
	s.Fail(err)
	s.Items = append(s.Items, items...)
}

// staffed sets heading, lists and rules from the top, and the version and the
// check word at the foot.
func (l layout) staffed(s *compose.Setter, room page.Rect, size unit.Length) {
	small := flow.Style{Size: size, Leading: size * 6 / 5}
	foot := s.Low(room, func(s *compose.Setter, r page.Rect) unit.Length { return l.signed(s, r, size) })
	c := s.Column(page.Rect{X: room.X, Y: room.Y, W: room.W, H: room.H})
	c.Put(compose.Phrase(l.head), small)
	c.Put(strong(l.speeches[0].name), flow.Style{Size: size * 5 / 4})
	c.Room.H -= foot.H + gap/2
	for i, x := range l.speeches {
		if i > 0 {
			c.Skip(gap / 2)
		}
		for _, list := range x.lists {
			c.Put(compose.Phrase(list), small)
		}
		c.Put(compose.Phrase(x.may), small)
		for _, line := range x.contains[1:] { // "Contains alcohol."
			c.Put(compose.Phrase(line), small)
		}
	}
	c.Skip(gap / 2)
	for _, x := range l.staff {
		c.Put(compose.Phrase(x), small)
	}
	s.Add(foot.Items, room.X, s.Dots.Snap(room.Bottom()-foot.H))
}
