package carton

import (
	"slices"

	"chablon/labels/declare"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Inside is packs of another batch, or of another product, that are in the same
// carton.
type Inside struct {
	Facts *declare.Facts
	Told  []*words.Label // in the languages of the label, in their order
	Batch string
	Packs unit.Count
}

// lots is all that is in the carton, what it is of first.
func (c *run) lots() []Inside {
	return append([]Inside{{c.Facts, c.Told, c.Batch, c.Packs}}, c.With...)
}

// mixed reports whether packs of several batches are in the carton.
func (c Carton) mixed() bool { return len(c.With) > 0 }

// First is the facts whose date is over first: a carton is good as long as all
// that is in it.
func (c Carton) First() *declare.Facts {
	first := c.Facts
	for _, w := range c.With {
		if d := w.Facts.Date; d.Kind != "none" && (first.Date.Kind == "none" || d.Shown.Last.Before(first.Date.Shown.Last)) {
			first = w.Facts
		}
	}
	return first
}

// firstTold is what is said of what is over first.
func (c *run) firstTold() []*words.Label {
	first := c.First()
	for _, l := range c.lots() {
		if l.Facts == first {
			return l.Told
		}
	}
	return c.Told
}

// checkMixed reports what cannot be in one carton, or not be said of it.
func (c *run) checkMixed() {
	whole := c.Packs
	for _, w := range c.With {
		a, b := c.Facts.Product, w.Facts.Product
		switch {
		case w.Packs < 1:
			c.found.Errorf(b.Pos, "carton", "say how many", "no pack of %s is in the carton", b.ID)
		case len(w.Told) != len(c.Told):
			c.found.Errorf(b.Pos, "carton", "name the languages of the label", "the carton label of %s has no language", b.ID)
		case a.Keep.Store.V != b.Keep.Store.V || a.Keep.Temp.V != b.Keep.Temp.V:
			c.found.Errorf(b.Keep.Pos, "carton", "pack them apart", "%s and %s are kept otherwise, and cannot be in one carton", a.ID, b.ID)
		}
		if a == b {
			whole += w.Packs
		}
	}
	if whole > c.carton.Holds.V {
		c.found.Errorf(c.carton.Holds.Pos, "carton", "count again, or change holds", "%d packs do not go into a carton that holds %d", whole, c.carton.Holds.V)
	}
	if len(c.SSCCs) == 0 {
		c.found.Errorf(c.carton.Pos, "carton", "give the cartons their SSCCs", "a mixed carton is known by its SSCC alone")
	}
}

// group is the lots of one product, and what is said of it.
type group struct {
	names, allergens []text.Para
	lots             []lot
}

// lot is the packs of one batch.
type lot struct {
	net, batch text.Para
	dates      []text.Para
}

// contentsOf are the contents of a mixed carton, product by product.
func (c *run) contentsOf(t *compose.Teller) (out []group) {
	var of []string
	for _, in := range c.lots() {
		id := in.Facts.Product.ID
		at := slices.Index(of, id)
		if at < 0 {
			at, of, out = len(out), append(of, id), append(out, group{})
			g := &out[at]
			for i, l := range in.Told {
				g.names = append(g.names, flow.Strong(role.Name, l.Name.Src, l.Name.Text))
				g.allergens = append(g.allergens, c.contains(t.In(c.Langs[i]), in.Facts), compose.Phrase(l.May))
			}
		}
		one := lot{net: flow.Strong(role.Net, in.Facts.Pack.Net.Pos, c.contents(t, in)), batch: flow.Strong(role.Batch, c.Batched, c.lot(in))}
		for _, l := range in.Told {
			one.dates = append(one.dates, strong(role.Date, l.Date))
		}
		out[at].lots = append(out[at].lots, one)
	}
	return out
}

// inside sets what is in a mixed carton: each product by name, below it the packs
// of each batch with its date, and its allergens.
func inside(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	c := s.Column(r)
	for i, g := range l.groups {
		if i > 0 {
			c.Skip(l.body / 2)
		}
		for _, q := range g.names {
			c.Put(q, large(max(l.body*6/5, l.data*3/5)))
		}
		for _, b := range g.lots {
			c.Down(l.batches(s, c.Room, b))
		}
		for _, q := range g.allergens {
			c.Put(q, flow.Style{Size: l.body})
		}
	}
	return c.Used()
}

// batches sets the packs of one batch on a line.
func (l *layout) batches(s *compose.Setter, r page.Rect, b lot) unit.Length {
	size := max(l.body, l.netSize(), l.data*3/5)
	dates := func(s *compose.Setter, r page.Rect) unit.Length { return each(s, r, large(l.body), b.dates...) }
	w := func(q text.Para) unit.Length { return s.Width(q, size) + 20*unit.UM }
	t := compose.Table{Gap: l.body, Cols: []compose.Col{{W: w(b.net)}, {W: w(b.batch)}, {Share: 1}}}
	s.Must(w(b.net)+w(b.batch)+2*l.body+10*l.body, r.W, b.net.Src)
	if s.Err() != nil {
		return 0
	}
	return t.Row(s, r, compose.Words(b.net, large(size)), compose.Words(b.batch, large(size)), dates)
}
