package flow

import (
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Para sets words into r from its top and returns the height they take. The
// error is a *text.NoGlyph, a *text.TooWide or an *[Overflow].
func (p *Pen) Para(r page.Rect, para text.Para, st Style) (used unit.Length, err error) {
	c, err := p.prepare(para)
	if err != nil {
		return 0, err
	}
	return p.Copy(r, c, st)
}

// Copy is [Pen.Para] for words prepared before.
func (p *Pen) Copy(r page.Rect, c *text.Copy, st Style) (used unit.Length, err error) {
	st = st.whole()
	b, err := p.body(c, st, r.W)
	if err != nil || len(b.lines) == 0 {
		return 0, err
	}
	base := st.Base(r.Y + b.up)
	if b.height += base - b.up - r.Y; b.height > r.H {
		return 0, &Overflow{b.height, r.H, c.Para().Src}
	}
	for _, l := range b.lines {
		p.line(st.Align.start(r.X, r.W, l.W), base, l, c.Para(), st)
		base += b.leading
	}
	return b.height, nil
}

// body is a paragraph in lines. Each line takes one leading, the letters in
// its middle; where ink reaches further (two accented capitals under each
// other, a tight leading) the lines move apart until nothing touches.
type body struct {
	lines               []text.Line
	up, leading, height unit.Length
}

func (p *Pen) body(c *text.Copy, st Style, width unit.Length) (body, error) {
	lines, err := c.Lines(st.Size, width)
	if err != nil || len(lines) == 0 {
		return body{}, err
	}
	b := body{lines: lines, leading: p.leading(st)}
	for i, l := range lines[1:] {
		b.leading = max(b.leading, lines[i].Down+l.Up)
	}
	b.leading = st.Base(b.leading)
	b.up = p.First(b.leading, st.Size)
	down := max(b.leading-b.up, lines[len(lines)-1].Down)
	b.up = max(b.up, lines[0].Up)
	b.height = b.up + unit.Length(len(lines)-1)*b.leading + down
	return b, nil
}

// start is the left end of a line of width w in a column from x.
func (a Align) start(x, column, w unit.Length) unit.Length {
	switch a {
	case Right:
		return x + column - w
	case Centre:
		return x + (column-w)/2
	}
	return x
}

// line emits the fragments of l. The box of each is its advance by what its
// letters cover above and below the baseline, so that boxes overlap only
// where letters would touch.
func (p *Pen) line(x, base unit.Length, l text.Line, para text.Para, st Style) {
	for _, f := range l.Frags {
		face := p.Faces.Of(f.Bold)
		up, down := face.Ink(f.Text, st.Size)
		if up+down == 0 {
			up = face.XHeight(st.Size)
		}
		p.Items = append(p.Items, page.Item{
			Box:  page.Rect{X: x + f.X, Y: base - up, W: f.W, H: up + down},
			Role: para.Role, Src: f.Src,
			Run: &page.Run{Text: f.Text, Face: face.Name(), Font: face.Font(), Size: st.Size, XHeight: face.XHeight(st.Size),
				CapHeight: face.CapHeight(st.Size), Baseline: base, Gray: st.Gray},
		})
	}
}

// Line sets words on one line. X is the left end, the right end or the middle,
// as st.Align says. It returns the box that the words cover. The error is a
// *text.NoGlyph, or an *[Overflow] when the words hold a line end.
func (p *Pen) Line(x, baseline unit.Length, para text.Para, st Style) (page.Rect, error) {
	st = st.whole()
	l, err := p.oneLine(para, st.Size)
	if err != nil {
		return page.Rect{}, err
	}
	x = st.Align.start(x, 0, l.W)
	p.line(x, baseline, l, para, st)
	return page.Rect{X: x, Y: baseline - l.Up, W: l.W, H: l.Up + l.Down}, nil
}

// Width is how wide words are on one line.
func (p *Pen) Width(para text.Para, size unit.Length) (unit.Length, error) {
	l, err := p.oneLine(para, size)
	return l.W, err
}

func (p *Pen) oneLine(para text.Para, size unit.Length) (text.Line, error) {
	c, err := p.prepare(para)
	if err != nil {
		return text.Line{}, err
	}
	size = text.Whole(size)
	lines, err := c.Lines(size, max(1, c.Width(size)))
	switch {
	case err != nil || len(lines) == 0:
		return text.Line{}, err
	case len(lines) > 1:
		lead := p.Faces.Regular.Leading(size)
		return text.Line{}, &Overflow{unit.Length(len(lines)) * lead, lead, para.Src}
	}
	return lines[0], nil
}
