package notice

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// setting is the notice of one language in one size of words.
type setting struct {
	content
	size, large unit.Length
}

// layout sets the notice with small words of the given size.
func (c content) layout(paper *compose.Paper, size unit.Length) ([]*page.Page, error) {
	s, w := paper.Setter(), paper.Room().W
	z := &setting{c, size, size.Mul(4, 3)}
	var blocks []flow.Block
	add := func(set func(*compose.Column)) {
		blocks = append(blocks, s.Block(w, func(s *compose.Setter, room page.Rect) unit.Length {
			c := s.Column(room)
			set(c)
			return c.Used()
		}))
	}
	for _, f := range c.foods {
		add(func(c *compose.Column) { z.food(c, f) })
	}
	if c.why != "" {
		add(func(k *compose.Column) { z.say(k, role.Note, c.why, true, z.size) })
	}
	add(func(k *compose.Column) { z.say(k, role.Limit, c.do, true, z.large) })
	for _, r := range c.rest {
		add(func(k *compose.Column) { z.say(k, role.Note, r, false, z.size) })
	}
	if s.Err() != nil {
		return nil, s.Err()
	}
	return compose.Pages{Paper: paper, Gap: 4 * unit.MM, Head: z.header}.Deal(blocks)
}

func (z *setting) say(c *compose.Column, r role.Role, text string, bold bool, size unit.Length) {
	if text != "" {
		c.Put(compose.Long(r, z.at, text, bold), flow.Style{Size: size})
	}
}

// food sets one batch between rules.
func (z *setting) food(c *compose.Column, f food) {
	c.Rule(c.Room.X, c.Room.Y, c.Room.W, 500*unit.UM)
	c.Skip(2 * unit.MM)
	z.say(c, role.Name, f.name, true, z.large)
	z.say(c, role.Note, f.batch, true, z.size)
	z.say(c, role.Date, f.date, true, z.size)
	z.say(c, role.Net, f.packs, false, z.size)
}

// header sets what stands at the top of each page.
func (z *setting) header(s *compose.Setter, room page.Rect, n, of int) unit.Length {
	c := s.Column(room)
	about := z.title
	if of > 1 {
		about += " · " + z.page(n, of)
	}
	z.say(c, role.Note, about, false, z.size)
	c.Skip(2 * unit.MM)
	z.say(c, role.Limit, z.head, true, z.size.Mul(2, 1))
	c.Skip(2 * unit.MM)
	return c.Used()
}
