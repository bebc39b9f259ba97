package audit

import (
	"fmt"
	"strings"

	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// dealer puts blocks under each other and begins a new page where one is full.
type dealer struct {
	*sheet
	pens []*flow.Pen
	y    unit.Length
}

// pages deals the sections out, then puts head and foot on every page.
func (s *sheet) pages(said []section) ([]*page.Page, error) {
	d := &dealer{sheet: s}
	if err := d.turn(); err != nil {
		return nil, err
	}
	for _, x := range said {
		if err := d.section(x); err != nil {
			return nil, err
		}
	}
	var out []*page.Page
	for i, p := range d.pens {
		if err := s.foot(p, i+1, len(d.pens)); err != nil {
			return nil, err
		}
		out = append(out, &page.Page{W: s.paper.Width.V, H: s.paper.Height.V, Items: p.Items})
	}
	return out, nil
}

// bottom is where the foot begins.
func (s *sheet) bottom() unit.Length { return s.paper.Height.V - edge - footer }

// turn begins a page with its head.
func (d *dealer) turn() error {
	p := d.pen.Fresh()
	h, err := d.head(p, len(d.pens) == 0)
	d.pens, d.y = append(d.pens, p), edge+h
	return err
}

// place puts a block at the foot of what is there.
func (d *dealer) place(b flow.Block) {
	p := d.pens[len(d.pens)-1]
	y := p.Dots.Snap(d.y)
	p.Add(b.Items, p.Dots.Snap(side), y)
	d.y = y + b.H
}

// section puts a title with at least the first row, and repeats the title and
// the heads of the columns where the rows go on to another page.
func (d *dealer) section(x section) error {
	title, err := d.title(x.title, x.note)
	if err != nil {
		return err
	}
	heads, err := d.heads(x.cols)
	if err != nil {
		return err
	}
	for i, r := range x.rows {
		b, err := d.row(x.cols, r)
		if err != nil {
			return err
		}
		above := []flow.Block{}
		if i == 0 {
			d.y += apart
			above = []flow.Block{title, heads}
		}
		if err := d.fit(x, above, heads, b); err != nil {
			return err
		}
	}
	return nil
}

// fit puts a row below what belongs above it, on a new page where it must.
func (d *dealer) fit(x section, above []flow.Block, heads, b flow.Block) error {
	if d.y+height(above)+b.H > d.bottom() {
		if err := d.turn(); err != nil {
			return err
		}
		d.y += apart / 2
		if len(above) == 0 {
			more, err := d.title(d.fill("audit.more", map[string]string{"name": x.title}), "")
			if err != nil {
				return err
			}
			above = []flow.Block{more, heads}
		}
	}
	if need := d.y + height(above) + b.H; need > d.bottom() {
		return &flow.Overflow{Need: need, Have: d.bottom(), Src: d.Facts.Product.Pos}
	}
	for _, a := range append(above, b) {
		d.place(a)
	}
	return nil
}

func height(blocks []flow.Block) unit.Length {
	var sum unit.Length
	for _, b := range blocks {
		sum += b.H
	}
	return sum
}

// head sets the head of a page and returns its height: large on the first, one
// line on the others.
func (d *dealer) head(p *flow.Pen, first bool) (unit.Length, error) {
	f := d.Facts
	state := d.word("audit.not-approved")
	if d.Approved() {
		state = d.word("audit.approved")
	}
	wide, err := p.Width(bold(state).Para, d.size())
	if err != nil {
		return 0, err
	}
	base := edge + d.faces.Bold.Ascent(d.size())
	if _, err := p.Line(side+d.w, base, bold(state).Para, flow.Style{Size: d.size(), Align: flow.Right}); err != nil {
		return 0, err
	}
	run := d.word("audit.title") + " – " + d.word("audit.sub")
	if !first {
		run = d.word("audit.title") + " · " + d.Told.Name.Text + " · " + strings.ToUpper(f.Market.Code) + " · " + f.Digest()
	}
	r := page.Rect{X: side, Y: edge, W: d.w - wide - gutter, H: d.paper.Height.V}
	h, err := p.Para(r, plain(run).Para, flow.Style{Size: d.size()})
	if err != nil {
		return 0, err
	}
	if first {
		used, err := d.large(p, edge+h)
		if err != nil {
			return 0, err
		}
		h += used
	}
	p.Rule(side, edge+h+pad, d.w, line)
	return h + 2*pad, nil
}

// large sets the name and what the sheet is about.
func (d *dealer) large(p *flow.Pen, y unit.Length) (unit.Length, error) {
	f := d.Facts
	h, err := p.Para(page.Rect{X: side, Y: y, W: d.w, H: d.paper.Height.V}, bold(d.Told.Name.Text).Para, flow.Style{Size: text.Hundredths(2000)})
	if err != nil {
		return 0, err
	}
	about := []struct{ what, value string }{
		{"audit.market", strings.ToUpper(f.Market.Code)}, {"audit.pack", f.Pack.ID.V + " · " + d.Told.Net.Text}, {"audit.language", d.Lang.Name()},
		{"card.version", fmt.Sprintf("%s · %s", d.Lang.Plain(int64(f.Product.Version.V), 0), d.Lang.Date(f.Product.Issued.V, words.Day))},
		{"audit.made", d.Lang.Date(f.Made, words.Day)}, {"audit.digest", f.Digest()},
	}
	xs, ws := d.columns([]col{{width: 52}, {width: 52}, {width: 0}})
	var high unit.Length
	for i, a := range about {
		if i == 3 {
			h, high = h+high, 0
		}
		q := text.Para{Role: page.Note, Spans: []text.Span{{Text: d.word(a.what) + ": "}, {Text: a.value, Bold: true}}}
		used, err := p.Para(page.Rect{X: side + xs[i%3], Y: y + h, W: ws[i%3], H: d.paper.Height.V}, q, flow.Style{Size: d.size()})
		if err != nil {
			return 0, err
		}
		high = max(high, used)
	}
	return h + high, nil
}

// foot sets the caution and the number of the page.
func (s *sheet) foot(p *flow.Pen, n, of int) error {
	y := s.bottom() + lift
	p.Rule(side, y, s.w, hair)
	number := s.fill("card.page", map[string]string{"n": fmt.Sprint(n), "m": fmt.Sprint(of)})
	wide, err := p.Width(plain(number).Para, s.small())
	if err != nil {
		return err
	}
	base := y + pad + s.faces.Regular.Ascent(s.small())
	if _, err := p.Line(side+s.w, base, plain(number).Para, flow.Style{Size: s.small(), Align: flow.Right}); err != nil {
		return err
	}
	r := page.Rect{X: side, Y: y + pad, W: s.w - wide - 2*gutter, H: footer}
	_, err = p.Para(r, plain(s.word("audit.caution")).Para, flow.Style{Size: s.small()})
	return err
}
