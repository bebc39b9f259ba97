package runsheet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// heading is a block that stays with the next one.
func (c *composer) heading(w unit.Length, s string) (flow.Block, error) {
	b, err := c.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		return p.Para(r, c.strong(page.Note, capital(s)), flow.Style{Size: c.large})
	})
	b.Tied = true
	return b, err
}

// cautions sets the cautions of the day, each with its place and what to do.
func (c *composer) cautions(w unit.Length) ([]flow.Block, error) {
	if len(c.Cautions) == 0 {
		return nil, nil
	}
	head, err := c.heading(w, c.word("sheet.warnings"))
	if err != nil {
		return nil, err
	}
	out := []flow.Block{head}
	for _, d := range c.Cautions {
		b, err := c.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.caution(p, r, d) })
		if err != nil {
			return nil, err
		}
		b.Src = d.Pos
		out = append(out, b)
	}
	return out, nil
}

// caution sets one finding behind a box to tick. Its place may be cut
// anywhere, because a path may be longer than a line.
func (c *composer) caution(p *flow.Pen, room page.Rect, d diag.Diag) (unit.Length, error) {
	f := c.faces.Regular
	side, lead := f.CapHeight(c.small)*5/4, f.Leading(c.small)
	p.TickBox(room.X, room.Y+(lead-side)/2, side)
	p.Icon(flow.Warning, page.Rect{X: room.X + side + unit.MM, Y: room.Y + (lead-side)/2, W: side, H: side}, page.Furniture)
	left := 2*side + 2*unit.MM
	q := text.Para{Role: page.Note, Src: d.Pos, Anywhere: true, Spans: []text.Span{{Text: d.Msg, Bold: true}, {Text: " [" + d.Rule + "] " + d.Pos.String()}}}
	if d.Hint != "" {
		q.Spans = append(q.Spans, text.Span{Text: "\n– " + d.Hint})
	}
	return p.Para(page.Rect{X: room.X + left, Y: room.Y, W: room.W - left, H: room.H}, c.drawable(q), flow.Style{Size: c.small})
}

// drawable replaces letters that the faces do not have, which a finding may
// quote from a file, by question marks.
func (c *composer) drawable(q text.Para) text.Para {
	for i, s := range q.Spans {
		face := c.faces.Of(s.Bold)
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

// doubts sets, for every language of the day, the words that were written from
// memory, for a native reader to check and to sign.
func (c *composer) doubts(w unit.Length) ([]flow.Block, error) {
	keys := c.unchecked()
	if len(keys) == 0 {
		return nil, nil
	}
	head, err := c.heading(w, c.word("sheet.words"))
	if err != nil {
		return nil, err
	}
	out := []flow.Block{head}
	for _, code := range slices.Sorted(maps.Keys(keys)) {
		l, ok := words.Get(code)
		if !ok {
			continue
		}
		b, err := c.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.doubt(p, r, l, keys[code]) })
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

// unchecked gathers the keys of words from memory, each once, by language.
func (c *composer) unchecked() map[string][]string {
	out := map[string][]string{}
	add := func(code string, keys []string) {
		for _, k := range keys {
			if !slices.Contains(out[code], k) {
				out[code] = append(out[code], k)
			}
		}
	}
	for _, r := range c.Runs {
		for _, t := range r.Told {
			add(t.Lang, t.Unchecked)
		}
		for _, code := range slices.Sorted(maps.Keys(r.Keys)) {
			add(code, r.Keys[code])
		}
	}
	return out
}

func (c *composer) doubt(p *flow.Pen, room page.Rect, l *words.Lang, keys []string) (unit.Length, error) {
	var said []string
	for _, k := range keys {
		s, err := l.Word(k)
		if err != nil {
			return 0, err
		}
		for _, slot := range l.Slots(k) {
			s = strings.ReplaceAll(s, "{"+slot+"}", "…")
		}
		said = append(said, "“"+s+"”")
	}
	q := text.Para{Role: page.Note, Src: c.Shop.Profile.Pos, Spans: []text.Span{
		{Text: c.fill("sheet.native-reader", map[string]string{"language": capital(l.Name()), "count": fmt.Sprint(len(keys))}), Bold: true},
		{Text: "\n" + strings.Join(said, " ")}}}
	return p.Para(room, q, flow.Style{Size: c.small})
}

// close sets what the sheet cannot know, and who decides.
func (c *composer) close(w unit.Length) ([]flow.Block, error) {
	b, err := c.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		s := c.word("sheet.computed") + " " + c.word("sheet.approver")
		return p.Para(r, flow.Words(page.Note, c.Shop.Profile.Pos, s), flow.Style{Size: c.small})
	})
	return []flow.Block{b}, err
}
