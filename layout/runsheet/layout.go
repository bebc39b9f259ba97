package runsheet

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const (
	gap     = 1500 * unit.UM // white between blocks
	pad     = 1500 * unit.UM // inside the frame of a run
	between = 2 * unit.MM    // between two columns
	frame   = 250 * unit.UM
)

// setting is the sheet in one size of words.
type setting struct {
	sheet
	small, large unit.Length // sizes of the face
}

// layout sets the sheet with small words of the given size.
func layout(paper *compose.Paper, c sheet, size unit.Length) ([]*page.Page, error) {
	s, w := paper.Setter(), paper.Room().W
	z := setting{c, size, size.Mul(4, 3)}
	var blocks []flow.Block
	notes := func(all []note) {
		for _, n := range all {
			b := s.Block(w, func(s *compose.Setter, room page.Rect) unit.Length { return z.note(s, room, n) })
			b.Src, b.Tied = n.Src, n.kind == isHeading
			blocks = append(blocks, b)
		}
	}
	notes(c.left)
	for _, r := range c.runs {
		b := s.Block(w, func(s *compose.Setter, room page.Rect) unit.Length { return z.run(s, room, r) })
		b.Src = r.at
		blocks = append(blocks, b)
	}
	notes(c.notes)
	if s.Err() != nil {
		return nil, s.Err()
	}
	return compose.Pages{Paper: paper, Gap: gap, Head: z.head}.Deal(blocks)
}

// head sets the band at the top of a page. What does not fit beside the title
// stands under it: languages differ in how much they need to say it.
func (z setting) head(s *compose.Setter, room page.Rect, n, of int) unit.Length {
	strong := func(words string) text.Para { return flow.Strong(role.Note, z.at, words) }
	title := z.large * 2
	base := room.Y + s.Faces.Bold.CapHeight(title) + unit.MM
	s.Line(room.X, base, strong(z.title), flow.Style{Size: title})
	beside := []text.Para{strong(z.shop), strong(z.count + "  ·  " + z.page(n, of))}
	if s.Width(strong(z.title), title)+max(s.Width(beside[0], z.small), s.Width(beside[1], z.small))+pad > room.W {
		base += unit.Length(len(beside)) * s.Faces.Regular.Leading(z.small)
	}
	s.Ends(room.Right(), base, beside, z.small)
	s.Rule(room.X, base+2*unit.MM, room.W, 500*unit.UM)
	return base + 2500*unit.UM - room.Y
}

// run sets the block of one product: a band with name, batch and date; facts
// and two columns of boxes to tick; and a line to be filled in.
func (z setting) run(s *compose.Setter, room page.Rect, r run) unit.Length {
	y := room.Y + z.band(s, room, r) + unit.MM
	col := (room.W - 2*pad) / 3
	facts := page.Rect{X: room.X + pad, Y: y, W: col - 2*unit.MM - pad, H: room.H}
	high := z.facts(s, facts, r)
	x := facts.Right() + between
	w := (room.Right() - pad - x - between) / 2
	half := (len(r.checks) + 1) / 2
	for i, part := range [][]string{r.checks[:half], r.checks[half:]} {
		high = max(high, z.checks(s, page.Rect{X: x + unit.Length(i)*(w+between), Y: y, W: w, H: room.H}, r, part))
	}
	y += high + unit.MM
	y += z.reconcile(s, page.Rect{X: room.X + pad, Y: y, W: room.W - 2*pad, H: room.H}, r)
	s.Frame(page.Rect{X: room.X, Y: room.Y, W: room.W, H: y - room.Y}, frame)
	return y - room.Y
}

// band sets name, batch and date of a run on a grey band.
func (z setting) band(s *compose.Setter, room page.Rect, r run) unit.Length {
	st := flow.Style{Size: z.large}
	right := st
	right.Align = flow.Right
	cells := compose.Table{Gap: pad, Cols: []compose.Col{{Share: 50}, {Share: 16}, {Share: 34}}}
	in := s.Fresh()
	place := page.Rect{X: room.X + pad, Y: room.Y + 500*unit.UM, W: room.W - 2*pad, H: room.H}
	high := cells.Row(in, place, compose.Words(r.name, st), compose.Words(r.batch, st), compose.Words(r.date, right)) + unit.MM
	s.Tint(page.Rect{X: room.X, Y: room.Y, W: room.W, H: high}, 225)
	s.Take(in, 0, 0)
	return high
}

// facts sets what was made and printed, line by line.
func (z setting) facts(s *compose.Setter, room page.Rect, r run) unit.Length {
	c := s.Column(room)
	for _, q := range r.facts {
		c.Put(q, flow.Style{Size: z.small})
	}
	return c.Used()
}

// checks sets boxes to tick with their words.
func (z setting) checks(s *compose.Setter, room page.Rect, r run, all []string) unit.Length {
	c := s.Column(room)
	for _, words := range all {
		c.Down(s.Ticked(c.Room, flow.Words(role.Step, r.at, words), flow.Style{Size: z.small}) + 500*unit.UM)
	}
	return c.Used()
}

// reconcile sets the line to be filled in: where the labels went, when, and
// who says so.
func (z setting) reconcile(s *compose.Setter, room page.Rect, r run) unit.Length {
	const box = 13 * unit.MM
	high := max(6*unit.MM, 2*z.small)
	base := room.Y + (high+s.Faces.Regular.CapHeight(z.small))/2
	x := room.X
	say := func(words string, bold bool) {
		q := flow.Words(role.Step, r.at, words)
		q.Spans[0].Bold = bold
		x = s.Line(x, base, q, flow.Style{Size: z.small}).Right() + unit.MM
	}
	blank := func(w unit.Length) {
		s.Frame(page.Rect{X: x, Y: room.Y + 500*unit.UM, W: w, H: high - unit.MM}, frame)
		x += w + unit.MM
	}
	say(r.printed, true)
	for i, words := range r.counts {
		say([]string{"= ", "+ ", "+ "}[i]+words, false)
		blank(box)
	}
	x += 2 * unit.MM
	say(r.time, false)
	blank(box + 3*unit.MM)
	x += 2 * unit.MM
	say(r.signature, false)
	s.Must(box, room.Right()-x, r.at)
	blank(room.Right() - x)
	return high + 500*unit.UM
}

// note sets what stands below the runs, a caution behind a box to tick.
func (z setting) note(s *compose.Setter, room page.Rect, n note) unit.Length {
	switch n.kind {
	case isHeading:
		return s.Para(room, n.Para, flow.Style{Size: z.large})
	case isCaution:
		f := s.Faces.Regular
		side, lead := s.TickSide(z.small), f.Leading(z.small)
		end := s.Tick(room.X, room.Y+(lead+f.CapHeight(z.small))/2, z.small) + unit.MM
		s.Icon(flow.Warning, page.Rect{X: end, Y: room.Y + (lead-side)/2, W: side, H: side}, role.Furniture)
		left := 2*side + 2*unit.MM
		return s.Para(page.Rect{X: room.X + left, Y: room.Y, W: room.W - left, H: room.H}, drawable(s.Faces, n.Para), flow.Style{Size: z.small})
	}
	return s.Para(room, n.Para, flow.Style{Size: z.small})
}

// drawable replaces letters that the faces do not have, which a finding may
// quote from a file, by question marks.
func drawable(faces *text.Faces, q text.Para) text.Para {
	q.Spans = slices.Clone(q.Spans)
	for i, s := range q.Spans {
		face := faces.Of(s.Bold)
		for {
			r, bad := face.Missing(strings.ReplaceAll(q.Spans[i].Text, "\n", ""))
			if !bad {
				break
			}
			q.Spans[i].Text = strings.ReplaceAll(q.Spans[i].Text, string(r), "?")
		}
	}
	return q
}
