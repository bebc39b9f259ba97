package flow

import (
	"errors"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Col is a column of a table. W 0 shares what is left evenly.
type Col struct {
	W     unit.Length
	Align Align
}

// Row is one row; a Rule is drawn above it, and its first cell is moved in by
// Indent. Cells may be fewer than columns.
type Row struct {
	Cells  []text.Para
	Rule   bool
	Indent unit.Length
}

// Table is rows of words in columns. Gap lies between columns, Pad above and
// below the words of each row. Thick is that of the rules. Mark is the decimal
// mark for columns aligned by it; their cells do not wrap.
type Table struct {
	Cols            []Col
	Rows            []Row
	Style           Style
	Gap, Pad, Thick unit.Length
	Mark            string
	Src             diag.Pos
}

// Table sets t into r from its top and returns the height used. The error is
// a *text.NoGlyph, a *text.TooWide or an *[Overflow].
func (p *Pen) Table(r page.Rect, t Table) (unit.Length, error) {
	in := p.Fresh()
	xs, ws := t.columns(r)
	figs := in.columnFigures(t)
	y := r.Y
	for _, row := range t.Rows {
		if row.Rule {
			in.Rule(r.X, y, r.W, t.Thick)
			y += in.thick(t.Thick)
		}
		h, err := in.row(t, row, xs, ws, figs, y+t.Pad)
		if err != nil {
			return 0, err
		}
		y = in.below(y + h + 2*t.Pad)
	}
	if y-r.Y > r.H {
		return 0, &Overflow{y - r.Y, r.H, t.Src}
	}
	p.Items = append(p.Items, in.Items...)
	return y - r.Y, nil
}

// columns gives the left edge and the width of each column.
func (t Table) columns(r page.Rect) (xs, ws []unit.Length) {
	rest, open := r.W-t.Gap*unit.Length(len(t.Cols)-1), unit.Length(0)
	for _, c := range t.Cols {
		rest -= c.W
		if c.W == 0 {
			open++
		}
	}
	x := r.X
	for _, c := range t.Cols {
		w := c.W
		if w == 0 {
			w = rest / open
		}
		xs, ws = append(xs, x), append(ws, w)
		x += w + t.Gap
	}
	return xs, ws
}

// columnFigures measures the columns that are aligned by their decimals.
func (p *Pen) columnFigures(t Table) []Figures {
	figs := make([]Figures, len(t.Cols))
	for i, c := range t.Cols {
		if c.Align != Decimal {
			continue
		}
		figs[i].mark = t.Mark
		for _, row := range t.Rows {
			if i >= len(row.Cells) {
				continue
			}
			for _, s := range row.Cells[i].Spans {
				figs[i] = figs[i].with(p.Figures(t.Mark, t.Style.Size, s.Bold, s.Text))
			}
		}
	}
	return figs
}

// row sets one row from y and returns its height.
func (p *Pen) row(t Table, row Row, xs, ws []unit.Length, figs []Figures, y unit.Length) (unit.Length, error) {
	st, high := t.Style, unit.Length(0)
	if len(row.Cells) > len(t.Cols) {
		return 0, errors.New("a row has more cells than the table has columns")
	}
	for i, cell := range row.Cells {
		var h unit.Length
		var err error
		place := page.Rect{X: xs[i], Y: y, W: ws[i], H: endless}
		if i == 0 {
			place.X, place.W = place.X+row.Indent, place.W-row.Indent
		}
		if st.Align = t.Cols[i].Align; st.Align == Decimal {
			h, err = p.decimalCell(place, cell, st, figs[i])
		} else {
			h, err = p.Para(place, cell, st)
		}
		if err != nil {
			return 0, err
		}
		high = max(high, h)
	}
	return high, nil
}

// decimalCell sets an amount on the first line of a cell.
func (p *Pen) decimalCell(r page.Rect, cell text.Para, st Style, f Figures) (unit.Length, error) {
	if f.W() > r.W {
		return 0, &Overflow{f.W(), r.W, cell.Src}
	}
	lead := p.leading(st)
	base := r.Y + p.First(lead, text.Whole(st.Size))
	return lead, p.Figure(r.Right(), base, cell, st, f)
}
