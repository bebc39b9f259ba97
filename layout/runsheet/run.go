package runsheet

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// word is the words for a key; what is missing is a finding.
func (c *composer) word(key string) string { return c.fill(key, nil) }

func (c *composer) fill(key string, slots map[string]string) string {
	s, err := c.Lang.Fill(key, slots)
	if err != nil {
		c.fail(err)
	}
	return s
}

// capital is s with a capital first letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// head sets the band at the top of a page and returns its height.
func (c *composer) head(p *flow.Pen, room page.Rect, n, of int) (unit.Length, error) {
	title := c.large * 2
	f := c.faces.Bold
	base := room.Y + f.CapHeight(title) + unit.MM
	if _, err := p.Line(room.X, base, c.strong(page.Note, capital(c.word("sheet.run"))+" · "+c.Lang.Date(c.Day, words.Long)), flow.Style{Size: title}); err != nil {
		return 0, err
	}
	count := c.word("sheet.no-warnings")
	if len(c.Cautions) > 0 {
		count = c.word("sheet.warnings") + ": " + fmt.Sprint(len(c.Cautions))
	}
	leaf := c.fill("card.page", map[string]string{"n": fmt.Sprint(n), "m": fmt.Sprint(of)})
	for i, s := range []string{c.Shop.Profile.Name.V, capital(count) + "  ·  " + leaf} {
		up := unit.Length(1-i) * c.faces.Regular.Leading(c.small)
		if _, err := p.Line(room.Right(), base-up, c.strong(page.Note, s), flow.Style{Size: c.small, Align: flow.Right}); err != nil {
			return 0, err
		}
	}
	p.Rule(room.X, base+2*unit.MM, room.W, 500*unit.UM)
	return base + 2500*unit.UM - room.Y, nil
}

func (c *composer) strong(role page.Role, s string) text.Para {
	return flow.Strong(role, c.Shop.Profile.Pos, s)
}

// run sets the block of one product: a band with name, batch and date; facts
// and two columns of boxes to tick; and a line to be filled in.
func (c *composer) run(p *flow.Pen, room page.Rect, r Run) (unit.Length, error) {
	y := room.Y
	h, err := c.band(p, page.Rect{X: room.X, Y: y, W: room.W}, r)
	if err != nil {
		return 0, err
	}
	y += h + unit.MM
	col := (room.W - 2*pad) / 3
	facts := page.Rect{X: room.X + pad, Y: y, W: col - 2*unit.MM - pad, H: room.H}
	high, err := c.facts(p, facts, r)
	if err != nil {
		return 0, err
	}
	x := facts.Right() + between
	w := (room.Right() - pad - x - between) / 2
	ticks := c.checks(r)
	half := (len(ticks) + 1) / 2
	for i, part := range [][]string{ticks[:half], ticks[half:]} {
		h, err := c.ticks(p, page.Rect{X: x + unit.Length(i)*(w+between), Y: y, W: w, H: room.H}, r, part)
		if err != nil {
			return 0, err
		}
		high = max(high, h)
	}
	y += high + unit.MM
	if h, err = c.reconcile(p, page.Rect{X: room.X + pad, Y: y, W: room.W - 2*pad, H: room.H}, r); err != nil {
		return 0, err
	}
	y += h
	p.Frame(page.Rect{X: room.X, Y: room.Y, W: room.W, H: y - room.Y}, 250*unit.UM)
	return y - room.Y, nil
}

// pad is the white inside the frame, between that of two columns.
const (
	pad     = 1500 * unit.UM
	between = 2 * unit.MM
)

// band sets name, batch and date of a run on a grey band.
func (c *composer) band(p *flow.Pen, room page.Rect, r Run) (unit.Length, error) {
	at := r.Facts.Product.Pos
	in, st := p.Fresh(), flow.Style{Size: c.large}
	w := room.W - 4*pad
	x, high := room.X+pad, unit.Length(0)
	for _, cell := range []struct {
		q     text.Para
		share unit.Length
		align flow.Align
	}{
		{flow.Strong(page.Name, at, r.Told[0].Name.Text), 50, flow.Left},
		{flow.Strong(page.Batch, at, r.Batch), 16, flow.Left},
		{flow.Strong(page.Date, r.Told[0].Date.Src, r.Told[0].Date.Text), 34, flow.Right},
	} {
		st.Align = cell.align
		box := page.Rect{X: x, Y: room.Y + 500*unit.UM, W: w * cell.share / 100, H: 100 * unit.MM}
		used, err := in.Para(box, cell.q, st)
		if err != nil {
			return 0, err
		}
		x, high = x+box.W+pad, max(high, used)
	}
	high += unit.MM
	p.Tint(page.Rect{X: room.X, Y: room.Y, W: room.W, H: high}, 225)
	p.Items = append(p.Items, in.Items...)
	return high, nil
}

// facts sets what was made and printed, line by line.
func (c *composer) facts(p *flow.Pen, room page.Rect, r Run) (unit.Length, error) {
	y := room.Y
	for _, q := range []text.Para{c.made(r), c.labels(r), c.cartons(r), c.contains(r), c.may(r)} {
		used, err := p.Para(page.Rect{X: room.X, Y: y, W: room.W, H: room.H}, q, flow.Style{Size: c.small})
		if err != nil {
			return 0, err
		}
		y += used
	}
	return y - room.Y, nil
}

// made says how many pieces in how many packs of which net quantity.
func (c *composer) made(r Run) text.Para {
	k := r.Facts.Pack
	pieces, err := c.Lang.Count("count.pieces", int64(r.Pieces))
	if err != nil {
		c.fail(err)
	}
	packs := r.Pieces / max(1, k.Pieces.V)
	return flow.Words(page.Amount, k.Pos, pieces+" · "+c.counted("sheet.packs", int(packs))+" · "+c.Lang.Mass(k.Net.V)+" · "+k.ID.V)
}

// counted is "packs: 24".
func (c *composer) counted(key string, n int) string {
	return c.word(key) + ":\u00a0" + c.Lang.Plain(int64(n), 0)
}

// labels says how many labels, their numbers, their stock and languages.
func (c *composer) labels(r Run) text.Para {
	var codes []string
	for _, t := range r.Told {
		codes = append(codes, strings.ToUpper(t.Lang))
	}
	s := c.counted("sheet.labels", int(r.Labels))
	if r.First > 0 && r.Labels > 0 {
		last := int(r.First + r.Labels - 1)
		digits := max(4, len(fmt.Sprint(last)))
		s += fmt.Sprintf(" · %0*d–%0*d", digits, int(r.First), digits, last)
	}
	s += " · " + r.Stock + " · " + strings.Join(codes, " ")
	return flow.Words(page.Serial, r.Facts.Pack.Stock.Pos, s)
}

// cartons says how many cartons and their numbers; it is empty for none.
func (c *composer) cartons(r Run) text.Para {
	if r.Cartons == 0 {
		return text.Para{}
	}
	s := c.counted("sheet.cartons", r.Cartons) + " × " + c.Lang.Plain(int64(r.Packs), 0)
	if n := len(r.SSCCs); n > 0 {
		s += " · SSCC\u00a0" + r.SSCCs[0]
		if n > 1 {
			s += "–\u200b" + r.SSCCs[n-1]
		}
	}
	return flow.Words(page.Serial, r.Facts.Product.Pos, s)
}

// contains and may say which allergens the label must show, in the language
// of the sheet.
func (c *composer) contains(r Run) text.Para {
	return c.allergens(page.Allergens, "contains", r.Facts.Contains, r)
}

func (c *composer) may(r Run) text.Para {
	return c.allergens(page.May, "may-contain", r.Facts.May, r)
}

func (c *composer) allergens(role page.Role, key string, ids []string, r Run) text.Para {
	var names []string
	for _, id := range ids {
		name, _, err := c.Lang.Allergen(id)
		if err != nil {
			c.fail(err)
		}
		names = append(names, name)
	}
	q := text.Para{Role: role, Src: r.Facts.Product.Pos}
	if len(names) > 0 {
		list := c.Lang.Join(names)
		before, after, _ := strings.Cut(c.fill(key, map[string]string{"list": list}), list)
		q.Spans = []text.Span{{Text: before}, {Text: list, Bold: true}, {Text: after}}
	}
	return q
}

// checks lists what is to be ticked for a run.
func (c *composer) checks(r Run) []string {
	out := []string{c.word("check.product"), c.word("check.first-label"), c.word("check.date-batch"), c.word("check.allergens"), c.word("check.old-labels")}
	if r.Facts.Pack.GTIN.Set() {
		out = append(out, c.word("check.scan"))
	}
	if f, ok := r.Facts.Market.Net.Shortfall(market.Quantity{Mass: r.Facts.Pack.Net.V}); ok {
		out = append(out, c.fill("check.net", map[string]string{"t1": c.Lang.Mass(f.T1), "t2": c.Lang.Mass(f.T2)}))
	}
	if r.Cartons > 0 {
		out = append(out, c.word("check.cartons"))
	}
	return out
}

// ticks sets boxes to tick with their words.
func (c *composer) ticks(p *flow.Pen, room page.Rect, r Run, all []string) (unit.Length, error) {
	y := room.Y
	f := c.faces.Regular
	side := f.CapHeight(c.small) * 5 / 4
	lead := f.Leading(c.small)
	for _, s := range all {
		p.TickBox(room.X, y+(lead-side)/2, side)
		left := side + unit.MM
		used, err := p.Para(page.Rect{X: room.X + left, Y: y, W: room.W - left, H: room.H}, flow.Words(page.Step, r.Facts.Product.Pos, s), flow.Style{Size: c.small})
		if err != nil {
			return 0, err
		}
		y += used + 500*unit.UM
	}
	return y - room.Y, nil
}

// reconcile sets the line to be filled in: where the labels went, when, and
// who says so.
func (c *composer) reconcile(p *flow.Pen, room page.Rect, r Run) (unit.Length, error) {
	const box = 13 * unit.MM
	high := max(6*unit.MM, 2*c.small)
	base := room.Y + (high+c.faces.Regular.CapHeight(c.small))/2
	x := room.X
	say := func(s string, bold bool) error {
		q := flow.Words(page.Step, r.Facts.Product.Pos, s)
		q.Spans[0].Bold = bold
		line, err := p.Line(x, base, q, flow.Style{Size: c.small})
		x = line.Right() + unit.MM
		return err
	}
	blank := func(w unit.Length) {
		p.Frame(page.Rect{X: x, Y: room.Y + 500*unit.UM, W: w, H: high - unit.MM}, 250*unit.UM)
		x += w + unit.MM
	}
	if err := say(c.word("sheet.printed")+" "+c.Lang.Plain(int64(r.Labels), 0), true); err != nil {
		return 0, err
	}
	for i, key := range []string{"sheet.applied", "sheet.spoilt", "sheet.left"} {
		if err := say([]string{"= ", "+ ", "+ "}[i]+c.word(key), false); err != nil {
			return 0, err
		}
		blank(box)
	}
	for _, key := range []string{"sheet.time", "sheet.signature"} {
		x += 2 * unit.MM
		if err := say(c.word(key), false); err != nil {
			return 0, err
		}
		w := box + 3*unit.MM
		if key == "sheet.signature" {
			w = room.Right() - x
		}
		if w < box {
			return 0, &flow.Overflow{Need: box, Have: w, Src: r.Facts.Product.Pos}
		}
		blank(w)
	}
	return high + 500*unit.UM, nil
}
