package card

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// lane is one formula, or the product's own work.
type lane struct {
	Letter  string
	Name    told
	Makes   told
	Amount  string // the same without words
	In      string // what goes in, as it is weighed; empty where that is what it makes
	Deposit told
	Total   string
	Keep    told
	Src     diag.Pos

	make   *scale.Make // nil for the product's own
	puts   []put
	placed []unit.Share // of puts: how much of each has gone in
}

// lanes lays out the formulas of the batch in their order, then the product.
func (t *teller) lanes(out *content) {
	for i := range t.Batch.Makes {
		m := &t.Batch.Makes[i]
		f := m.Formula
		made := t.made(t.Batch, m)
		l := lane{make: m, Src: f.Pos, Name: t.own(f.Name, f.Pos, "the name of "+f.ID), Amount: made,
			Makes: t.fill("card.makes", "mass", func(*words.Lang) string { return made })}
		l.puts = t.puts(m.Lines)
		t.doughWater(&l, m)
		t.remedies(&l, m)
		t.reviewed(&l, m)
		t.bowls(&l, m)
		if m.Medium != nil {
			p := t.put(*m.Medium)
			p.Aside = true
			l.puts = append(l.puts, p)
		}
		if len(m.Lines) > 1 {
			l.Total = t.grams(m.Shown, coarsest(m.Lines))
			if m.Shown-m.Out > m.Out/100 {
				l.In = t.readable(m.Shown)
			}
		}
		if f.Keep != nil && t.Formula != f {
			l.Keep = t.keep(*f.Keep)
		}
		out.Lanes = append(out.Lanes, l)
	}
	if p := t.Product; p != nil {
		l := lane{Src: p.Pos, Name: out.Name, Makes: out.Size, Amount: t.Lang().Plain(int64(t.Batch.Pieces), 0) + compose.NoBreak + "×", puts: t.puts(t.Batch.Lines)}
		for _, part := range t.Batch.Parts {
			l.puts = append(l.puts, t.part(part))
		}
		out.Lanes = append(out.Lanes, l)
	}
	t.letters(out)
}

// made is how much a formula makes, said as it is weighed where it is used, so
// that the two agree whatever the rounding; where nothing weighs it, readable.
func (t *teller) made(b *scale.Batch, m *scale.Make) string {
	var sum, step unit.Mass
	add := func(a *scale.Amount) {
		if a != nil && a.Formula == m.Formula {
			sum += a.Shown
			if step == 0 || a.Step < step {
				step = a.Step
			}
		}
	}
	for _, a := range b.Amounts() {
		add(a)
	}
	for i := range b.Makes {
		add(b.Makes[i].Medium)
	}
	if sum == 0 || max(sum-m.Out, m.Out-sum) > m.Out/100 {
		return t.readable(m.Out)
	}
	return t.grams(sum, step)
}

// letters gives each lane its letter, and each amount of a formula the letter
// of the lane that it comes from. One lane alone needs none.
func (t *teller) letters(out *content) {
	if len(out.Lanes) < 2 {
		return
	}
	letter := map[*shop.Formula]string{}
	for i := range out.Lanes {
		l := &out.Lanes[i]
		l.Letter = letterOf(i)
		if l.make != nil {
			letter[l.make.Formula] = l.Letter
		}
		for j := range l.puts {
			if f := l.puts[j].formula; f != nil {
				l.puts[j].Letter = letter[f]
			}
		}
		l.placed = make([]unit.Share, len(l.puts))
	}
	for i := range out.Lanes {
		out.Lanes[i].Deposit = t.deposit(out.Lanes[i].make)
	}
}

// letterOf names a lane: A to Z, then A1, B1. I and O are left out, because
// they look like figures.
func letterOf(i int) string {
	const all = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	if i < len(all) {
		return all[i : i+1]
	}
	return fmt.Sprintf("%c%d", all[i%len(all)], i/len(all))
}

// deposit says how much of a formula goes into one piece.
func (t *teller) deposit(m *scale.Make) told {
	if m == nil || t.Product == nil || t.Product.CutTo.Set() {
		return told{}
	}
	var sum unit.Mass
	for _, l := range t.Product.Lines() {
		if l.Use.V == m.Formula.ID {
			sum += l.Take.V
		}
	}
	if sum == 0 {
		return told{}
	}
	each := numbered(t.Lang().Mass(sum), m.Formula.Pos)
	words := t.word("card.per-piece")
	return told{append([]string{each.In[0] + compose.NoBreak + words.In[0]}, words.In[1:]...), m.Formula.Pos}
}

// keep says how a formula or product is kept, and for how long.
func (t *teller) keep(k shop.Keep) told {
	where := t.word("card.keep")
	switch {
	case k.Temp.Set():
		where = with(compose.NoBreak, where, numbered(t.Lang().Limit(k.Temp.V, true), k.Temp.Pos))
	case k.Store.V == "ambient":
		where = t.word("keep.ambient")
		for i, s := range where.In {
			where.In[i] = strings.TrimSuffix(s, ".")
		}
	}
	life := t.count("card.count-days", int64(k.Life.V.Days))
	if k.Life.V.Months > 0 {
		life = t.count("card.count-months", int64(k.Life.V.Months))
	}
	for i, s := range life.In {
		life.In[i] = strings.ReplaceAll(s, " ", compose.NoBreak)
	}
	where = with(", ", where, with(" ", t.word("card.use-within"), life))
	where.Src = k.Pos
	return where
}

// laneHead is the band that says which formula the steps below belong to, how
// much it makes, and how much of it a piece takes.
func (s *sheet) laneHead(r row) flow.Block {
	l := s.said.Lanes[r.Lane]
	return s.block(l.Src, true, func(h *setter) unit.Length {
		top := s.z.pad
		y := top + s.z.pad/2
		s.tinted(h, top, func(in *setter) unit.Length {
			base := y + in.up(s.z.key)
			in.line(s.z.pad, base, role.Step, l.Src, l.Letter, s.z.big())
			end := s.laneRight(in, base, l)
			name := l.Name
			if r.Again {
				name = with(" – ", name, numbered(s.said.teller.both("card.continued"), l.Src))
			}
			used := s.laneName(in, span{s.cols.do.X, end - s.cols.do.X - s.z.gap}, base, name)
			y += max(used+in.up(s.z.key)-in.up(s.z.body), in.lead(s.z.key)) + s.z.pad/2
			return y - top
		})
		return y
	})
}

// laneRight sets how much a lane makes at the right end, before it how much of
// it a piece takes, and returns where the two begin. Where the name wants the
// room, that is said in the first language alone; the facts have it in both.
func (s *sheet) laneRight(h *setter, base unit.Length, l lane) unit.Length {
	strong, note := s.z.strong(), s.z.faint()
	x := s.area.W - s.z.pad - h.width(l.Makes.first(), strong)
	h.line(x, base, role.Amount, l.Src, l.Makes.first(), strong)
	if l.Deposit.empty() {
		return x
	}
	words := l.Deposit.joined()
	if len(l.Name.In) > 1 {
		name := s.cols.do.X + h.width(l.Name.first(), strong) + s.z.gap + h.width(l.Name.In[1], note)
		if name+2*s.z.gap+h.width(words, note) > x {
			words = l.Deposit.first()
		}
	}
	x -= s.z.gap + h.width(words, note)
	h.line(x, base, role.Note, l.Src, words, note)
	return x
}

// laneName sets the name, the second language behind it where there is room,
// else below.
func (s *sheet) laneName(h *setter, c span, base unit.Length, name told) unit.Length {
	l := s.z.strong()
	first := h.width(name.first(), l) + s.z.gap
	if len(name.In) < 2 || name.In[0] == name.In[1] || first+h.width(name.In[1], s.z.faint()) > c.W {
		return h.told(c.X, base-h.up(l.size), c.W, role.Step, name, l)
	}
	h.line(c.X, base, role.Step, name.Src, name.In[0], l)
	h.line(c.X+first, base, role.Step, name.Src, name.In[1], s.z.faint())
	return h.lead(l.size)
}

// tinted fills a band across the card and sets words upon it.
func (s *sheet) tinted(h *setter, y unit.Length, set func(*setter) unit.Length) {
	in := h.apart()
	high := set(in)
	h.Tint(page.Rect{X: 0, Y: y, W: s.area.W, H: high}, tint)
	h.Take(in.Setter, 0, 0)
}

// tint is a grey of 9 % black; words want at most 15 %.
const tint = 232
