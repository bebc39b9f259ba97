package card

import (
	"slices"
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
	"chablon/layout/text"
)

// put is one amount that goes in.
type put struct {
	Letter string // of the lane that it comes from
	Name   told
	Amount string
	Small  bool // weighed on the small scale
	Aside  bool // a cooking medium, which is not part of the sum
	Hints  []told
	Share  string // of the base
	Advice told   // how to weigh it well
	Src    diag.Pos

	ref     string
	formula *shop.Formula
	mass    unit.Mass // as shown, all of it
	step    unit.Mass // of the scale
	water   bool      // its advice is how warm it must be
	whole   bool      // the last of it: nothing of the amount is left
}

// puts says the amounts of a column.
func (t *teller) puts(amounts []scale.Amount) []put {
	var out []put
	for _, a := range amounts {
		out = append(out, t.put(a))
	}
	return out
}

func (t *teller) put(a scale.Amount) put {
	p := put{ref: a.Line.Ref(), formula: a.Formula, mass: a.Shown, step: a.Step, whole: true, Src: a.Line.Pos, Small: a.Small,
		Amount: t.grams(a.Shown, a.Step), Name: t.nameOf(a)}
	if a.Formula != nil {
		p.Small = false
		return p
	}
	l := t.Lang()
	if a.Halves > 0 && a.Ingredient.Piece != nil {
		piece := t.own(a.Ingredient.Piece.Name, a.Ingredient.Piece.Pos, "the piece of "+a.Ingredient.ID)
		hint := "≈" + compose.NoBreak + halves(l, a.Halves)
		if !slices.Equal(piece.In, p.Name.In) { // "egg (≈ 2½)", but "vanilla (≈ 1½ pod)"
			hint += compose.NoBreak + piece.joined()
		}
		hint = "(" + hint + ")" // never beside the grams as if it were a factor
		p.Hints = append(p.Hints, numbered(hint, p.Src))
	}
	if a.Buy > 0 {
		buy := t.grams(a.Buy, a.Step)
		p.Hints = append(p.Hints, once(t.fill("card.as-bought", "mass", func(*words.Lang) string { return buy }), buy))
	}
	p.Advice = t.bloom(a, p)
	return p
}

// nameOf is what the card calls an amount.
func (t *teller) nameOf(a scale.Amount) told {
	switch {
	case len(a.Line.Name) > 0:
		return t.own(a.Line.Name, a.Line.Pos, "the line "+a.Line.Ref())
	case a.Formula != nil:
		return t.own(a.Formula.Name, a.Formula.Pos, "the name of "+a.Formula.ID)
	case a.Ingredient != nil:
		return t.own(a.Ingredient.Name, a.Ingredient.Pos, "the name of "+a.Ingredient.ID)
	}
	t.Found().Errorf(a.Line.Pos, "dangling", "see check", "nothing is known of %q", a.Line.Use.V)
	return told{}
}

// part says a product of an assortment.
func (t *teller) part(p scale.Part) put {
	name := t.own(p.Product.Name, p.Product.Pos, "the name of "+p.Product.ID)
	return put{ref: p.Line.Ref(), whole: true, Src: p.Line.Pos, Name: name, Amount: t.Lang().Plain(int64(p.Pieces), 0) + compose.NoBreak + "×"}
}

// halves writes a number of halves: 5 is "2½".
func halves(l *words.Lang, n int64) string {
	s := l.Plain(n/2, 0)
	if n%2 == 0 {
		return s
	}
	if n == 1 {
		s = ""
	}
	return s + "½"
}

// grams is an amount as the scale shows it; a column is never in two units.
func (t *teller) grams(m, step unit.Mass) string {
	decimals := 0
	for at := unit.Gram; step > 0 && step%at != 0 && decimals < 3; at /= 10 {
		decimals++
	}
	return t.Lang().MassIn(m, "g", decimals)
}

// coarsest is the largest step that any of the amounts is weighed in.
func coarsest(amounts []scale.Amount) unit.Mass {
	var most unit.Mass
	for _, a := range amounts {
		most = max(most, a.Step)
	}
	return most
}

// shares says, where it is asked for, what each amount is of the base of its
// formula, such as all the flour (baker's percentage); and on the card of a
// formula what that holds, where the composition of what goes in is known.
func (t *teller) shares(out *content) {
	if t.Formula != nil {
		out.Balance = t.balance(t.Formula)
	}
	if !t.Baker {
		return
	}
	for i := range out.Lanes {
		if out.Lanes[i].make != nil {
			t.onBase(out, &out.Lanes[i])
		}
	}
	if len(out.Bases) == 0 {
		_, src := t.id()
		t.Found().Warnf(src, "base", "name the lines that together are 100 % under base:, such as base: [wheat-flour]",
			"no formula on this card names its base, so no shares are shown")
	}
}

// onBase gives the amounts of a lane their share of its base, and names the
// base in the facts.
func (t *teller) onBase(out *content, l *lane) {
	f := l.make.Formula
	all, ok := scale.OnBase(f)
	if !ok || len(all) > len(l.puts) {
		return
	}
	var base []string
	for i, s := range all {
		p := &l.puts[i]
		p.Share = t.ofBase(s)
		if slices.ContainsFunc(f.Base, func(b diag.At[string]) bool { return b.V == p.ref }) {
			base = append(base, p.Name.joined())
		}
	}
	what := "100" + compose.NoBreak + "% ="
	if l.Letter != "" {
		what = l.Letter + " " + what
	}
	out.Bases = append(out.Bases, fact{numbered(what, f.Pos), numbered(strings.Join(base, " + "), f.Pos)})
}

// balance names what the finished formula holds. Where some ingredient does not
// say, what is known is the least that it can be.
func (t *teller) balance(f *shop.Formula) told {
	var parts []string
	for _, g := range scale.Balance(t.Shop, f) {
		if g.Share < unit.Percent/20 {
			continue
		}
		least := ""
		if !g.Known() {
			least = "≥" + compose.NoBreak
		}
		parts = append(parts, t.word("card."+string(g.Component)).joined()+compose.NoBreak+least+t.percent(g.Share))
	}
	if len(parts) == 0 {
		return told{}
	}
	return numbered(t.word("card.balance").joined()+": "+strings.Join(parts, ", "), f.Pos)
}

// ofBase is a share of the base, with the digits that a small one needs:
// 0.375 %, 1.75 %, 12.5 %, 100 %.
func (t *teller) ofBase(s unit.Share) string {
	decimals, scale := 3, int64(1000)
	switch {
	case s >= unit.Whole:
		decimals, scale = 0, 1
	case s >= 10*unit.Percent:
		decimals, scale = 1, 10
	case s >= unit.Percent:
		decimals, scale = 2, 100
	}
	v := unit.MulDiv(int64(s), scale, int64(unit.Percent))
	for decimals > 0 && v%10 == 0 {
		decimals, v = decimals-1, v/10
	}
	return t.Lang().Percent(v, decimals)
}

// percent is a share to a tenth of a percent, whole from 100 % on.
func (t *teller) percent(s unit.Share) string {
	if s >= unit.Whole {
		return t.Lang().Percent(unit.MulDiv(int64(s), 1, int64(unit.Percent)), 0)
	}
	return t.Lang().Percent(unit.MulDiv(int64(s), 10, int64(unit.Percent)), 1)
}

// putting sets the amounts of a step, and below the last of its lane the sum,
// so that the column adds up; it returns where they end.
func (s *sheet) putting(h *setter, c span, y unit.Length, st *step) unit.Length {
	for _, p := range st.Puts {
		y += s.put(h, c, y, p)
	}
	for _, p := range st.Later {
		y += h.told(c.X, y, c.W, role.Step, p.Name, s.z.faint())
	}
	if st.Total != "" {
		y += s.total(h, c, y, st)
	}
	return y
}

// total sets the sum of a lane under a rule.
func (s *sheet) total(h *setter, c span, y unit.Length, st *step) unit.Length {
	right := c.X + c.W - s.ringW
	h.Rule(right-s.figs.W(), y+s.z.pad*3/4, s.figs.W(), s.z.rule)
	base := y + s.z.pad + h.up(s.z.body)
	s.figure(h, right, base, put{Amount: st.Total, Src: st.Src})
	note := s.z.faint()
	note.align = flow.Right
	h.line(right-s.figs.W()-s.z.gap, base, role.Note, st.Src, with(compose.NoBreak, numbered(s.said.teller.both("card.total"), st.Src), st.TotalOf).joined(), note)
	return s.z.pad + h.lead(s.z.body)
}

// figure sets an amount into the column of amounts.
func (s *sheet) figure(h *setter, right, base unit.Length, p put) {
	l := look{size: s.z.body, bold: !p.Aside}
	h.Figure(right, base, l.para(role.Amount, p.Src, p.shown()), l.style(), s.figs)
	if p.Small {
		d := s.z.body * 45 / 100
		h.Ring(page.Rect{X: right + s.ringW - d, Y: base - h.Faces.Regular.XHeight(s.z.body)/2 - d/2, W: d, H: d}, d/6, role.Note)
	}
}

// put sets one amount: the name, on its first line the figure, beside or below
// the name what helps to weigh it.
func (s *sheet) put(h *setter, c span, y unit.Length, p put) unit.Length {
	right := c.X + c.W - s.ringW
	room := c.W - s.ringW - s.figs.W() - s.z.gap/2
	base := y + h.up(s.z.body)
	try := h.apart()
	used := s.names(try, span{c.X, room}, c.W, base, p, s.z.text())
	if try.Err() != nil { // a long word: the figure goes below it
		try = h.apart()
		used = s.names(try, c, c.W, base, p, s.z.text())
		base += used
		used += h.lead(s.z.body)
	}
	h.Take(try.Setter, 0, 0)
	s.figure(h, right, base, p)
	return max(used, h.lead(s.z.body))
}

// names sets the name in the first language, then the second and the hints
// behind it where the line has room, else below, where the figure leaves them
// the width of the column. It returns the height.
func (s *sheet) names(h *setter, c span, below, base unit.Length, p put, l look) unit.Length {
	para := l.para(role.Step, p.Src, p.Name.first())
	if p.Letter != "" {
		para.Spans = append([]text.Span{{Text: p.Letter + compose.NoBreak, Bold: true}}, para.Spans...)
	}
	used := h.para(c.X, base-h.up(l.size), c.W, para, l)
	after := c.X + h.Width(para, l.size) + s.z.small/2
	var low, at unit.Length // where the line below stands, and how far it reaches
	for i, t := range s.asides(p) {
		as := role.Step
		if i >= len(p.Name.In)-1 || p.Name.In[1] == p.Name.In[0] {
			as = role.Note
		}
		w := h.width(t, s.z.faint())
		if after+w <= c.X+c.W {
			h.line(after, base, as, p.Src, t, s.z.faint())
			after += w + s.z.small/2
			continue
		}
		if low > 0 && at+w <= c.X+below {
			h.line(at, low, as, p.Src, t, s.z.faint())
			at += w + s.z.small/2
			continue
		}
		low, at = base-h.up(l.size)+used+h.up(s.z.small), c.X+w+s.z.small/2
		used += h.words(c.X, base-h.up(l.size)+used, below, as, p.Src, t, s.z.faint())
		after = c.X + c.W
	}
	return used
}

// asides is what is said of an amount besides its first name.
func (s *sheet) asides(p put) []string {
	var out []string
	if len(p.Name.In) > 1 && p.Name.In[1] != p.Name.In[0] {
		out = append(out, p.Name.In[1])
	}
	if p.Share != "" {
		out = append(out, p.Share)
	}
	for _, t := range p.Hints {
		out = append(out, t.joined())
	}
	return out
}

// shown is the amount as it is printed.
func (p put) shown() string {
	if p.Aside {
		return "(" + p.Amount + ")"
	}
	return p.Amount
}
