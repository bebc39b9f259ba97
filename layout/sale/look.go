package sale

import (
	"slices"
	"strings"
	"unicode"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/look"
	"chablon/layout/page"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// Look is the shop's own look on one label. Arrange is "beside", "above",
// "across", or "" for what suits the paper. Price and About ask for the price
// and the line about the food; Larger for letters that are read by old eyes.
type Look struct {
	*look.Look
	Arrange      string
	Price, About bool
	Larger       bool
}

// shown is what is left of the look at one step of giving way.
type shown struct {
	about, under, frame, written, price, rules bool
	name                                       int64       // hundredths of the size of the name
	mark                                       unit.Length // side of the emblem; 0 for none
}

// step is one step of giving way: what it gives up, and how.
type step struct {
	gives string
	give  func(*shown)
}

// steps are the steps of giving way, in order: words of the law are in none of
// them. A later step keeps what the earlier ones gave up.
func steps() []step {
	return []step{
		{"", func(*shown) {}},
		{"without the line about the food", func(s *shown) { s.about = false }},
		{"without the word under the name of the shop", func(s *shown) { s.under = false }},
		{"without the frame", func(s *shown) { s.frame = false }},
		{"name of the food smaller", func(s *shown) { s.name = 87 }},
		{"name of the food at three quarters of its size", func(s *shown) { s.name = 75 }},
		{"without the written name of the shop", func(s *shown) { s.written = false }},
		{"emblem at 9 mm", func(s *shown) { s.mark = min(s.mark, 9*unit.MM) }},
		{"emblem at 6.25 mm", func(s *shown) { s.mark = min(s.mark, 6250*unit.UM) }},
		{"without the price", func(s *shown) { s.price = false }},
		{"without dividers", func(s *shown) { s.rules = false }},
		{"without the emblem", func(s *shown) { s.mark = 0 }},
	}
}

// looked is the label in the shop's look, with what gave way: the plain one where
// it fits in none of its arrangements. Nothing that stands on the plain label is
// missing on it.
func (c *label) looked(plain *layout) (best *layout, gave string) {
	if len(c.panels) > 0 { // of a market whose law draws it: it leaves the look no room
		return plain, "in the plain look"
	}
	own := *c
	c, own.small, own.plain = &own, true, plain.size
	var err error
	if own.forms, err = own.together(); err != nil {
		return plain, "in the plain look"
	}
	for _, arrange := range c.arrangements() {
		left := c.all()
		for _, st := range steps() {
			was := left
			if st.give(&left); left == was && st.gives != "" {
				continue // there was nothing to give up
			}
			if best = c.in(arrange, left); best != nil && says(best.items, plain.items) && best.sound() {
				best.edged()
				return best, c.told(arrange, st.gives)
			}
		}
	}
	return plain, "in the plain look"
}

// sound reports whether no mark of the label lies on another or off its room, as
// preflight will ask: a look in which one does gives way.
func (l *layout) sound() bool {
	w, h := l.Stock.Size()
	whole := page.Rect{W: w, H: h}
	safe := whole.Inset(l.Stock.Safe.V)
	if l.left.frame {
		whole = l.Look.Framed(l.paper)
		safe = whole
	}
	all := l.items
	if l.Digits > 0 {
		all = append(slices.Clone(all), l.serial)
	}
	if l.numbered() {
		all = append(all, l.mark)
	}
	for i, a := range all {
		ink := a.Box
		if a.Symbol != nil { // its white may lie in the margin
			ink = a.Symbol.Bars
		}
		if !safe.Contains(ink) || !whole.Contains(a.Box) {
			return false
		}
		for _, b := range all[:i] {
			if covers(a, b) || covers(b, a) {
				return false
			}
		}
	}
	return true
}

// covers reports whether one mark lies on another that must be read; the digits
// of bars may stand in their white.
func covers(a, b page.Item) bool {
	solid := func(it page.Item) bool { return it.Shape == nil || it.Role == role.Emblem }
	if !solid(a) || !solid(b) {
		return false
	}
	if a.Role == role.Digits && b.Symbol != nil {
		return a.Box.Overlaps(b.Symbol.Bars)
	}
	if b.Role == role.Digits && a.Symbol != nil {
		return false // asked the other way round
	}
	return a.Box.Overlaps(b.Box)
}

// says reports whether some marks hold every word and figure that others hold,
// as often.
func says(items, others []page.Item) bool {
	have := counted(items)
	for word, n := range counted(others) {
		if have[word] < n {
			return false
		}
	}
	return true
}

// counted is how often each word and figure stands on a label, whatever line and
// punctuation it stands in.
func counted(items []page.Item) map[string]int {
	out := map[string]int{}
	for _, it := range items {
		if it.Run == nil {
			continue
		}
		for _, word := range strings.FieldsFunc(it.Run.Text, func(r rune) bool {
			return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune("%°<≤℮", r)
		}) {
			out[word]++
		}
	}
	return out
}

// told says what gave way: the arrangement, where it is not the first, and the
// step.
func (c *label) told(arrange, gives string) string {
	if first := c.arrangements()[0]; arrange != first {
		if gives != "" {
			gives = ", " + gives
		}
		return arrange + " and not " + first + gives
	}
	return gives
}

// all is the whole look, as far as the shop has it.
func (c *label) all() shown {
	k, s := c.Look, shown{under: c.Look.Brand.Under.Set(), written: len(c.Look.Brand.Written) > 0, rules: c.Look.Brand.Divider.V != "none", name: 100}
	s.price = k.Price && c.Pack.Price.Set() && !c.Pack.ByWeight()
	s.about, s.frame = c.about.Text != "", k.Brand.Frame.V == "thin"
	if k.Has() {
		s.mark = 12 * unit.MM
	}
	return s
}

// arrangements are those to try, the best first. A column beside the food needs
// bars to stand in it.
func (c *label) arrangements() []string {
	first := c.Look.Arrange
	w, h := c.Stock.Size()
	if first == "" {
		switch {
		case c.several() || h*4 > w*3 && c.forms[0] != nil:
			first = "above"
		case c.forms[0] == nil || c.Stock.Kind.V == "sheet":
			first = "across"
		default:
			first = "beside"
		}
	}
	return slices.Compact([]string{first, "across"})
}

// in sets the label in one arrangement at the largest size from reading size on,
// or gives nil.
func (c *label) in(arrange string, left shown) *layout {
	set := map[string]func(*layout, *compose.Setter){"beside": (*layout).setBeside, "across": (*layout).setAcross, "above": (*layout).setAbove}[arrange]
	if set == nil {
		return nil
	}
	var group []way
	if groups := c.ways(); len(groups) > 0 {
		group = groups[0] // a table where the food has one: it gives way after the look
	}
	within := c.within(left)
	for _, f := range c.forms {
		how := way{table: len(group) > 0 && group[0].table, wide: true, grid: quarter, code: f}
		l, _, err := compose.BestOf(c.reading(), func(size unit.Length) (*layout, error) {
			l, s := &layout{label: within, way: how, size: size, left: left}, c.paper.Setter()
			set(l, s)
			l.label = c
			l.items = s.Items
			l.snap()
			return l, s.Err()
		})
		if err == nil {
			return l
		}
	}
	return nil
}

// white is what a frame keeps free within it.
const white = 1500 * unit.UM

// within is the label with its margins inside the frame, where there is one.
func (c *label) within(left shown) *label {
	if !left.frame {
		return c
	}
	own, paper, stock := *c, *c.paper, *c.Stock
	w, _ := stock.Size()
	stock.Safe.V = (w-c.Look.Framed(c.paper).W)/2 + white
	paper.Stock, own.Stock, own.paper = &stock, &stock, &paper
	return &own
}

// edged draws the frame around a finished label, where it has not given way.
func (l *layout) edged() {
	if s := l.paper.Setter(); l.left.frame {
		l.Look.Edge(s, l.paper)
		l.items = append(l.items, s.Items...)
	}
}

// snap puts matrices on whole dots of the label again, where a block that they
// stand in was moved by less than one.
func (l *layout) snap() {
	place := func(it page.Item) page.Item {
		if it.Symbol == nil || it.Symbol.Rows < 2 {
			return it
		}
		at := symbol.Place(it.Symbol, it.Box.X, it.Box.Y)
		at.Src = it.Src
		return at
	}
	for i, it := range l.items {
		l.items[i] = place(it)
	}
	l.mark = place(l.mark)
}

// reading are the sizes of words in the look: from a little above the least of
// the law, an x of 1.25 mm where 1.2 is asked for, and no more than a tenth below
// what the plain label has of it; or where letters are to be
// larger from 1.44 mm on.
func (c *label) reading() []unit.Length {
	f := c.paper.Faces.Regular
	least := max(f.XHeight(c.least())*25/24, min(1250*unit.UM, f.XHeight(c.plain))*9/10)
	if c.Look.Larger {
		least = max(least, 1440*unit.UM)
	}
	from := f.SizeForX(least)
	all := compose.Dotted(f, c.Dots, from, max(from, text.Hundredths(850)), fineness)
	return slices.DeleteFunc(all, func(size unit.Length) bool { return size < from })
}

// mostPrice is the size of the price, and of the name of the food, on a label
// that has the room.
const mostName = 16

// named is how the name of the food stands: its lines, with the price at the end
// of the last.
type named struct {
	lines []string
	size  unit.Length
	price words.Said
}

// fit finds the lines of a name in a width, on at most so many of them. A price
// stands at the end of the last; else the lines are of about one length.
func (l *layout) fit(name words.Said, w, size unit.Length, most int) (named, bool) {
	n := named{size: size, price: l.money()}
	room := w
	f := l.Look.Named(l.paper, size).Bold
	if n.price.Text != "" {
		room -= l.Look.Priced(l.paper, size).Bold.Width(n.price.Text, size) + 3*unit.MM
	}
	if f.Width(name.Text, size) <= room {
		n.lines = []string{name.Text}
		return n, true
	}
	if most < 2 {
		return n, false
	}
	best := unit.Length(-1)
	for i, r := range name.Text {
		if r != ' ' {
			continue
		}
		a, b := name.Text[:i], name.Text[i+1:]
		aw, bw := f.Width(a, size), f.Width(b, size)
		if aw > w || bw > room {
			continue
		}
		off := max(aw-bw, bw-aw)
		if n.price.Text != "" {
			off = w - aw // the price fills the other line
		}
		if best < 0 || off < best {
			best, n.lines = off, []string{a, b}
		}
	}
	return n, best >= 0
}

// money is the price in the look, where it has not given way.
func (l *layout) money() words.Said {
	if !l.left.price {
		return words.Said{}
	}
	return words.Said{Role: role.Price, Text: l.Langs[0].Money(l.Pack.Price.V), Src: l.Pack.Price.Pos}
}

// unitPrice is the price of a kilogram beside it, where the market asks for one.
func (l *layout) unitPrice() words.Said {
	if !l.left.price {
		return words.Said{}
	}
	return compose.UnitPrice(l.Facts, l.Pack, l.Langs[0])
}

// inner is what a label leaves for words within its edges: 1.5 mm more than its
// paper keeps white, and on sheets, whose cutter drifts, 2 mm.
func (l *layout) inner() page.Rect {
	w, h := l.Stock.Size()
	side := l.Stock.Safe.V + 1500*unit.UM
	if l.Stock.Kind.V == "sheet" {
		side += 500 * unit.UM
	}
	side = up(side)
	return page.Rect{X: side, Y: up(l.Stock.Safe.V + 2250*unit.UM), W: w - 2*side, H: h - up(l.Stock.Safe.V+2250*unit.UM) - up(l.Stock.Safe.V+unit.MM)}
}

// up is a length in whole steps of the grid, no less.
func up(l unit.Length) unit.Length { return (l + quarter - 1) / quarter * quarter }
