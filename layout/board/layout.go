package board

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// setting is a board in its sizes: far is read from the wall's distance, near
// from an arm's length.
type setting struct {
	*content
	far, near unit.Length
	width     unit.Length // between the margins
	names     unit.Length // of the column of names
}

const (
	hair    = 200 * unit.UM
	thick   = 800 * unit.UM
	barHigh = 6 * unit.MM
	pad     = 1000 * unit.UM
	band    = 1500 * unit.UM
	across  = 4 // lists beside each other
)

// layout deals the panels out to pages.
func layout(paper *compose.Paper, c *content) ([]*page.Page, error) {
	f := paper.Faces.Regular
	far, _ := compose.Legible(fromWall)
	near, _ := compose.Legible(fromArm)
	z := &setting{content: c, far: f.SizeForCap(far), near: f.SizeForCap(near), width: paper.Room().W}
	z.names = z.width * 31 / 100
	of := 0
	for range 2 { // how many pages there are is known after the first round
		var all []*page.Page
		for i, p := range c.panels {
			more, err := z.sheet(paper, p, i == len(c.panels)-1, len(all), of)
			if err != nil {
				return nil, err
			}
			all = append(all, more...)
		}
		if of == len(all) || of > 0 {
			return all, nil
		}
		of = len(all)
	}
	return nil, nil
}

// sheet is the pages of one day; what does not go as it was asked for stands
// on those of the last.
func (z *setting) sheet(paper *compose.Paper, p panel, last bool, behind, of int) ([]*page.Page, error) {
	s := paper.Setter()
	var blocks []flow.Block
	if last {
		for _, words := range z.cautions {
			blocks = append(blocks, z.caution(s, words))
		}
	}
	head := z.head(s, p)
	blocks = append(blocks, head)
	from := len(blocks)
	for _, r := range p.rows {
		blocks = append(blocks, z.row(s, p, r))
	}
	to := len(blocks)
	blocks = append(blocks, z.lists(s, p.lists)...)
	if s.Err() != nil {
		return nil, s.Err()
	}
	again := func(_ *compose.Setter, at int) []flow.Block {
		if from < at && at < to {
			return []flow.Block{head}
		}
		return nil
	}
	return compose.Pages{Paper: paper, Head: z.top, Again: again, Behind: behind, Of: max(of, 1)}.Deal(blocks)
}

// top is the title of each page.
func (z *setting) top(s *compose.Setter, r page.Rect, n, of int) unit.Length {
	size := z.far.Mul(5, 4)
	base := r.Y + s.Faces.Bold.Ascent(size)
	end := s.Line(r.X, base, flow.Strong(role.Date, z.at, z.title), flow.Style{Size: size}).Right()
	wide := r.W * 18 / 100
	side := compose.Long(role.Note, z.at, z.side+"\n"+z.page(n, of), false)
	low := s.Para(page.Rect{X: r.Right() - wide, Y: r.Y, W: wide, H: r.H}, side, flow.Style{Size: z.near, Align: flow.Right})
	low = max(low, s.Para(page.Rect{X: end + 6*unit.MM, Y: r.Y, W: r.Right() - wide - end - 8*unit.MM, H: r.H}, compose.Long(role.Note, z.at, z.lead, false), flow.Style{Size: z.near}))
	high := max(low, base+s.Faces.Bold.Descent(size)-r.Y) + pad
	s.Rule(r.X, r.Y+high, r.W, thick)
	return high + thick + pad
}

// caution is what does not go as it was asked for.
func (z *setting) caution(s *compose.Setter, words string) flow.Block {
	return s.Block(z.width, func(s *compose.Setter, r page.Rect) unit.Length {
		side := s.Faces.Regular.CapHeight(z.far)
		s.Icon(flow.Warning, page.Rect{X: r.X, Y: r.Y + unit.MM, W: side, H: side}, role.Note)
		return s.Para(page.Rect{X: r.X + 2*side, Y: r.Y, W: r.W - 2*side, H: r.H}, compose.Long(role.Name, z.at, words, true), flow.Style{Size: z.far}) + unit.MM
	})
}

// axis is where a time stands on the paper.
type axis struct {
	x, w     unit.Length
	from, to unit.Span
}

func (z *setting) axis(r page.Rect, p panel) axis {
	return axis{r.X + z.names, z.width - z.names - unit.MM, p.from, p.to}
}

func (a axis) at(t unit.Span) unit.Length {
	t = min(max(t, a.from), a.to)
	return a.x + a.w.Mul(int64(t-a.from), int64(a.to-a.from))
}

// every is how many hours there are between two figures on the axis, so that
// they have room.
func (a axis) every(least unit.Length) unit.Span {
	for _, h := range []unit.Span{1, 2, 3, 4, 6} {
		if a.w.Mul(int64(h*unit.Hour), int64(a.to-a.from)) >= least {
			return h * unit.Hour
		}
	}
	return 12 * unit.Hour
}

// head is the day of a panel, and its hours.
func (z *setting) head(s *compose.Setter, p panel) flow.Block {
	b := s.Block(z.width, func(s *compose.Setter, r page.Rect) unit.Length {
		base := r.Y + s.Faces.Bold.Ascent(z.far) + pad
		title := s.Para(page.Rect{X: r.X, Y: r.Y + pad, W: z.names - 2*unit.MM, H: r.H}, flow.Strong(role.Date, z.at, p.title), flow.Style{Size: z.far})
		a := z.axis(r, p)
		z.hours(s, a, base)
		return pad + title + unit.MM
	})
	b.Tied = true
	return b
}

// hours sets the hours over the axis, the first at its left end and the last at
// its right one; those between where they have room.
func (z *setting) hours(s *compose.Setter, a axis, base unit.Length) {
	figure := func(t unit.Span) text.Para { return flow.Strong(role.Date, z.at, clock(t)) }
	wide := s.Width(figure(0), z.far)
	end := a.x + a.w + unit.MM
	s.Line(a.x, base, figure(a.from), flow.Style{Size: z.far})
	s.Line(end, base, figure(a.to), flow.Style{Size: z.far, Align: flow.Right})
	for t := a.from + a.every(wide+3*unit.MM); t < a.to; t += a.every(wide + 3*unit.MM) {
		if x := a.at(t); x-wide/2 > a.x+wide+unit.MM && x+wide/2 < end-wide-unit.MM {
			s.Line(x, base, figure(t), flow.Style{Size: z.far, Align: flow.Centre})
		}
	}
}

// grid draws the hours through a row.
func (z *setting) grid(s *compose.Setter, a axis, y, high unit.Length) {
	for t := a.from; t <= a.to; t += unit.Hour {
		s.Tint(page.Rect{X: a.at(t), Y: y, W: hair, H: high}, 170)
	}
}

// row sets a name and its bars.
func (z *setting) row(s *compose.Setter, p panel, r row) flow.Block {
	b := s.Block(z.width, func(s *compose.Setter, room page.Rect) unit.Length {
		rule := hair
		if r.begins {
			rule = thick
		}
		a, y := z.axis(room, p), room.Y+rule+unit.MM/2
		in := s.Fresh()
		name := compose.Long(role.Name, r.src, r.name, true)
		if r.under != "" {
			name.Spans = append(name.Spans, text.Span{Text: " · " + r.under})
		}
		used := in.Para(page.Rect{X: room.X, Y: y, W: z.names - 3*unit.MM, H: room.H}, name, flow.Style{Size: z.far})
		bars := s.Fresh()
		var low unit.Length
		if len(r.crowds) > 0 {
			low = z.crowds(bars, a, y, r.crowds)
		}
		low += z.bars(bars, a, y+low, r)
		high := rule + unit.MM/2 + max(used, low) + unit.MM/2
		z.grid(s, a, room.Y, high)
		s.Rule(room.X, room.Y, room.W, rule)
		s.Take(bars, 0, 0)
		s.Take(in, 0, 0)
		return high
	})
	b.Src = r.src
	return b
}

// crowds marks when more would be wanted at once than there are, and returns
// the height of the marks.
func (z *setting) crowds(s *compose.Setter, a axis, y unit.Length, all []bar) unit.Length {
	for _, b := range all {
		s.Tint(page.Rect{X: a.at(b.from), Y: y - unit.MM/2, W: max(a.at(b.to)-a.at(b.from), thick), H: band}, 0)
	}
	return band
}

// bars sets the bars of a row and what is written on them, and returns their
// height.
func (z *setting) bars(s *compose.Setter, a axis, y unit.Length, r row) unit.Length {
	high, free := barHigh, a.x
	for _, b := range r.bars {
		box := page.Rect{X: a.at(b.from), Y: y, W: max(a.at(b.to)-a.at(b.from), hair*2), H: barHigh}
		z.bar(s, box, b)
		if b.label == "" {
			continue
		}
		label := flow.Strong(role.Step, r.src, b.label)
		w := s.Width(label, z.near)
		if w+hair*4 <= box.W {
			s.Line(box.X+box.W/2, y+(barHigh+s.Faces.Bold.CapHeight(z.near))/2, label, flow.Style{Size: z.near, Align: flow.Centre})
			continue
		}
		// Below its bar, or as near behind it as the one before leaves room.
		x := min(max(free, box.X), a.x+a.w-w)
		if x < free {
			continue // the list has it
		}
		s.Line(x, y+barHigh+s.Faces.Bold.Ascent(z.near), label, flow.Style{Size: z.near})
		free, high = x+w+unit.MM, barHigh+s.Faces.Bold.Leading(z.near)
	}
	if r.ready > 0 {
		z.ready(s, a, y, r)
	}
	return high
}

// bar draws one bar.
func (z *setting) bar(s *compose.Setter, box page.Rect, b bar) {
	switch {
	case b.look == isWait:
		box.Y, box.H = box.Y+box.H*2/5, box.H/5
		s.Frame(box, hair)
	case b.look == isOven && b.label == "":
		s.Hatch(box, hair)
		s.Frame(box, hair)
	case b.label == "":
		s.Tint(box, 0)
	default:
		s.Tint(box, 225)
		s.Frame(box, hair*2)
	}
}

// ready marks when a product is ready.
func (z *setting) ready(s *compose.Setter, a axis, y unit.Length, r row) {
	x := a.at(r.ready)
	s.Upright(min(x, a.x+a.w-thick), y, barHigh, thick)
	words := flow.Strong(role.Date, r.src, clock(r.ready))
	w := s.Width(words, z.far)
	at := x + unit.MM + thick
	if at+w > a.x+a.w { // before everything, at the left end of the axis
		at = a.at(r.bars[0].from)
		for _, b := range r.bars {
			at = min(at, a.at(b.from))
		}
		at = max(a.x, at-w-unit.MM)
	}
	s.Line(at, y+(barHigh+s.Faces.Bold.CapHeight(z.far))/2, words, flow.Style{Size: z.far})
}

// lists sets what each person does, three beside each other.
func (z *setting) lists(s *compose.Setter, all []list) (out []flow.Block) {
	for len(all) > 0 {
		some := all[:min(across, len(all))]
		all = all[len(some):]
		out = append(out, z.listRow(s, some, -1))
		out[len(out)-1].Tied = true
		most := 0
		for _, l := range some {
			most = max(most, len(l.lines))
		}
		for i := range most {
			out = append(out, z.listRow(s, some, i))
		}
	}
	return out
}

// listRow is line i of lists beside each other; -1 for their names.
func (z *setting) listRow(s *compose.Setter, some []list, i int) flow.Block {
	return s.Block(z.width, func(s *compose.Setter, r page.Rect) unit.Length {
		table := compose.Table{Gap: 5 * unit.MM}
		for range max(len(some), 2) {
			table.Cols = append(table.Cols, compose.Col{Share: 1})
		}
		cols := table.Columns(r)
		var high unit.Length
		for k, l := range some {
			switch col := cols[k]; {
			case i < 0:
				high = max(high, 2*pad+s.Para(col.Below(2*pad), flow.Strong(role.Name, diag.Pos{}, l.name), flow.Style{Size: z.far})+unit.MM)
			case i < len(l.lines):
				high = max(high, z.line(s, col, l.lines[i]))
			}
		}
		return high
	})
}

// line is when, which step, and what.
func (z *setting) line(s *compose.Setter, r page.Rect, l line) unit.Length {
	base := r.Y + s.Faces.Bold.Ascent(z.near)
	st := flow.Style{Size: z.near}
	s.Line(r.X, base, flow.Strong(role.Step, diag.Pos{}, l.clock), st)
	at := s.Width(flow.Strong(role.Step, diag.Pos{}, "00:00"), z.near) + 2*unit.MM
	s.Line(r.X+at, base, flow.Strong(role.Step, diag.Pos{}, l.label), st)
	in := at + s.Width(flow.Strong(role.Step, diag.Pos{}, "M"+compose.NoBreak+"88"), z.near) + 2*unit.MM
	return s.Para(page.Rect{X: r.X + in, Y: r.Y, W: r.W - in, H: r.H}, compose.Long(role.Note, diag.Pos{}, l.do, false), st)
}
