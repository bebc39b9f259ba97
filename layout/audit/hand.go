package audit

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// The widths of columns are those of a sheet this wide between its margins.
const drawn = 182

const (
	side   = 14 * unit.MM // margin left and right
	edge   = 12 * unit.MM // margin above and below
	hair   = 80 * unit.UM
	line   = 250 * unit.UM
	gutter = 3500 * unit.UM // between columns
	pad    = 600 * unit.UM  // above and below the words of a row
	apart  = 5 * unit.MM    // between sections
	step   = 3 * unit.MM    // of a part that is set in
	lift   = 1200 * unit.UM // between a title and its table
	write  = 9 * unit.MM    // room for writing by hand
	hands  = 1500 * unit.UM // around what is written
	footer = 9 * unit.MM    // height of the foot
)

// sheet is an audit sheet being set.
type sheet struct {
	*teller
	pen   *flow.Pen
	faces *text.Faces
	paper *stock.Stock
	w     unit.Length // between the margins
}

// Sizes in points: read at a desk, at 0.4 m, where 1/200 of the distance is a
// capital of 2 mm (8 pt); places in files are smaller.
func (s *sheet) size() unit.Length  { return text.Hundredths(850) }
func (s *sheet) small() unit.Length { return text.Hundredths(700) }

// measure finds the paper: A4 when none is named.
func (s *sheet) measure() {
	s.paper = s.Stock
	if s.paper == nil {
		s.paper, _ = stock.Get("card-a4")
	}
	s.w = s.paper.Width.V - 2*side
}

// width is the width of a column.
func (s *sheet) width(mm int64) unit.Length { return s.w.Mul(mm, drawn) }

// columns gives the left edge and the width of each column; those of width 0
// share what is left.
func (s *sheet) columns(cols []col) (xs, ws []unit.Length) {
	rest, open := s.w-gutter*unit.Length(len(cols)-1), unit.Length(0)
	for _, c := range cols {
		rest -= s.width(c.width)
		if c.width == 0 {
			open++
		}
	}
	x := unit.Length(0)
	for _, c := range cols {
		w := s.width(c.width)
		if c.width == 0 {
			w = rest / open
		}
		xs, ws = append(xs, x), append(ws, w)
		x += w + gutter
	}
	return xs, ws
}

// row sets one row of a section under a hairline.
func (s *sheet) row(cols []col, r row) (flow.Block, error) {
	if r.blank != nil {
		return s.frame(r)
	}
	xs, ws := s.columns(cols)
	if n := len(cols) - 1; len(r.cells) == 2 && n > 1 {
		xs, ws, cols = []unit.Length{0, xs[n]}, []unit.Length{xs[n] - gutter, ws[n]}, []col{{}, cols[n]}
	}
	return s.pen.Block(s.w, func(p *flow.Pen, _ page.Rect) (unit.Length, error) {
		var high unit.Length
		for i, c := range r.cells {
			in := step * unit.Length(c.indent)
			h, err := s.put(p, page.Rect{X: xs[i] + in, Y: pad, W: ws[i] - in}, c, cols[i].align)
			if err != nil {
				return 0, err
			}
			high = max(high, h)
		}
		p.Rule(0, 0, s.w, hair)
		return high + 2*pad, nil
	})
}

// put sets a cell and returns its height; an empty one takes none.
func (s *sheet) put(p *flow.Pen, r page.Rect, c cell, align flow.Align) (unit.Length, error) {
	if len(c.Spans) == 0 || len(c.Spans) == 1 && c.Spans[0].Text == "" {
		return 0, nil
	}
	size, lead := s.size(), s.size()*6/5
	if c.small {
		size = s.small()
		r.Y += s.first(lead, s.size()) - s.first(lead, size) // on the same line as the others
	}
	r.H = s.paper.Height.V
	return p.Para(r, c.Para, flow.Style{Size: size, Align: align, Leading: lead})
}

// first is where the first baseline lies below the top of a cell.
func (s *sheet) first(lead, size unit.Length) unit.Length {
	f := s.faces.Regular
	return (lead + f.Ascent(size) - f.Descent(size)) / 2
}

// heads sets the heads of the columns, or nothing where there are none.
func (s *sheet) heads(cols []col) (flow.Block, error) {
	xs, ws := s.columns(cols)
	return s.pen.Block(s.w, func(p *flow.Pen, _ page.Rect) (unit.Length, error) {
		var high unit.Length
		for i, c := range cols {
			if c.head == "" {
				continue
			}
			h, err := p.Para(page.Rect{X: xs[i], W: ws[i], H: s.paper.Height.V}, plain(c.head).Para, flow.Style{Size: s.small(), Align: c.align})
			if err != nil {
				return 0, err
			}
			high = max(high, h)
		}
		return high, nil
	})
}

// title sets the title of a section over a line, and its note.
func (s *sheet) title(name, note string) (flow.Block, error) {
	return s.pen.Block(s.w, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		h, err := p.Para(r, bold(name).Para, flow.Style{Size: text.Hundredths(1150)})
		if err != nil || note == "" {
			return h + lift/2, err
		}
		n, err := p.Para(page.Rect{Y: h, W: s.w, H: s.paper.Height.V}, plain(note).Para, flow.Style{Size: s.size(), Leading: s.size() * 6 / 5})
		return h + n + lift, err
	})
}

// frame sets what is signed by hand: bold words, what they mean, and lines to
// write on.
func (s *sheet) frame(r row) (flow.Block, error) {
	return s.pen.Block(s.w, func(p *flow.Pen, _ page.Rect) (unit.Length, error) {
		h, err := p.Boxed(page.Rect{Y: lift, W: s.w, H: s.paper.Height.V}, hands, line, func(p *flow.Pen, in page.Rect) (unit.Length, error) {
			var y unit.Length
			for i, c := range r.cells {
				size := s.size()
				if i == 0 {
					size = text.Hundredths(1400)
				}
				h, err := p.Para(page.Rect{X: in.X, Y: in.Y + y, W: in.W, H: in.H}, c.Para, flow.Style{Size: size})
				if err != nil {
					return 0, err
				}
				y += h
			}
			return s.lines(p, in, y+write, r.blank)
		})
		return h + lift, err
	})
}

// lines sets lines to write on side by side, their meaning below.
func (s *sheet) lines(p *flow.Pen, in page.Rect, y unit.Length, blank []string) (unit.Length, error) {
	w := (in.W - gutter*unit.Length(2*(len(blank)-1))) / unit.Length(len(blank))
	var high unit.Length
	for i, b := range blank {
		x := in.X + unit.Length(i)*(w+2*gutter)
		p.Rule(x, in.Y+y, w, hair)
		h, err := p.Para(page.Rect{X: x, Y: in.Y + y + pad/2, W: w, H: in.H}, plain(b).Para, flow.Style{Size: s.small()})
		if err != nil {
			return 0, err
		}
		high = max(high, h)
	}
	return y + pad/2 + high, nil
}
