package boxend

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const thin = 300 * unit.UM

// content is all that the label says: what is read from a distance, and what is
// read in the hand.
type content struct {
	name        text.Para
	others      []text.Para // the name in the other languages
	net, batch  text.Para
	dates       []text.Para // one for each language that has it otherwise
	class       text.Para   // "CHILLED ≤ 5 °C"
	gtin, maker text.Para
}

// tell finds all words; it reports false, with a finding, when any is missing.
func (e End) tell(found *diag.List) (content, bool) {
	p := e.Facts.Product
	t := compose.Tell("box-end label", p.Carton.Pos, found, e.Langs...)
	first := e.Told[0]
	c := content{name: flow.Strong(role.Name, first.Name.Src, first.Name.Text), net: flow.Strong(role.Net, e.Facts.Pack.Net.Pos, e.contents(t)),
		batch: flow.Strong(role.Batch, e.Batched, e.lot()), class: e.class(t), gtin: e.number(),
		maker: flow.Words(role.Operator, first.Operator.Src, first.Operator.Text)}
	var said []string
	for i, l := range e.Told {
		if i > 0 && l.Name.Text != first.Name.Text {
			c.others = append(c.others, flow.Words(role.Note, l.Name.Src, l.Name.Text))
		}
		if d := l.Date; d.Text != "" && !slices.Contains(said, d.Text) {
			said = append(said, d.Text)
			c.dates = append(c.dates, flow.Strong(role.Date, d.Src, d.Text))
		}
	}
	return c, t.Done()
}

// contents is what is in the carton: "12 × 170 g", in every language that has
// it otherwise.
func (e End) contents(t *compose.Teller) string {
	var all []string
	for _, l := range e.Langs {
		s := t.In(l).Fill("net.multi", map[string]string{"count": l.Plain(int64(e.Packs), 0), "mass": l.Mass(e.Facts.Pack.Net.V)})
		if s = strings.ReplaceAll(s, " ", compose.NoBreak); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return strings.Join(all, " / ")
}

// lot is the batch code with the letter that the law puts before it.
func (e End) lot() string {
	if letter := e.Facts.Market.Lot.Letter; !strings.HasPrefix(e.Batch, letter) {
		return letter + compose.NoBreak + e.Batch
	}
	return e.Batch
}

// class is the class of temperature with the temperature itself.
func (e End) class(t *compose.Teller) text.Para {
	k, l := e.Facts.Product.Keep, heads(e.Langs)
	s := strings.ToUpper(t.In(l).Word("carton." + k.Store.V))
	if k.Temp.Set() {
		s += compose.NoBreak + l.Limit(k.Temp.V, e.Facts.Market.BothScales())
	}
	return flow.Strong(role.Keep, k.Pos, s)
}

// number is the GTIN of the carton in figures. A carton that is not full is not
// what the number stands for.
func (e End) number() text.Para {
	if k := e.Facts.Product.Carton; k.GTIN.V != "" && e.full() {
		return flow.Words(role.Key, k.GTIN.Pos, gs1.Title("01")+compose.NoBreak+k.GTIN.V)
	}
	return text.Para{}
}

// best sets the label in the largest figures that fit, and never in smaller
// ones than are read from 1.5 m.
func (c content) best(paper *compose.Paper) ([]page.Item, error) {
	f := paper.Faces.Bold
	least := f.SizeForCap(Least())
	items, _, err := compose.Best(least, 2*least, 10, func(size unit.Length) ([]page.Item, error) {
		s := paper.Setter()
		c.set(s, paper.Room(), size, max(f.SizeForCap(leastText), size*2/5))
		return s.Items, s.Err()
	})
	return items, err
}

// set sets the parts below each other with rules between them.
func (c content) set(s *compose.Setter, room page.Rect, size, small unit.Length) {
	large, little := flow.Style{Size: size, Leading: size * 21 / 20}, flow.Style{Size: small}
	col := s.Column(room)
	rule := func() {
		gap := small / 2
		s.Rule(room.X, col.Room.Y+gap/2-thin/2, room.W, thin)
		col.Down(gap)
	}
	col.Put(c.name, large)
	for _, q := range c.others {
		col.Put(q, little)
	}
	rule()
	for _, q := range append([]text.Para{c.net, c.batch}, c.dates...) {
		col.Put(q, large)
	}
	rule()
	col.Put(c.class, large)
	rule()
	col.Put(c.gtin, little)
	col.Put(c.maker, little)
	s.Must(col.Used(), room.H, c.name.Src)
}
