package panel

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// linear draws the declaration as running words, for packs so small that no
// table goes on them (21 CFR 101.9(j)(13)(ii)(A)(2)).
func linear(b *board) {
	t := b.first()
	l := &runner{board: b}
	l.say(piece{role.Heading, "", b.words(role.Heading, t.Heading)})
	l.say(piece{role.Servings, "", b.words(role.Servings, t.Portions+",")})
	l.say(piece{role.Serving, "", b.words(role.Serving, t.Serving[0]+":"+noBreak+t.Serving[1]+",")})
	l.say(piece{role.AmountPer, "", b.words(role.AmountPer, b.amountPer()+":")})
	for i, r := range t.Rows {
		l.say(b.pieces(r, i == len(t.Rows)-1)...)
	}
	if note := b.noteOf(); note != "" {
		l.say(piece{role.Footnote, "", b.words(role.Footnote, note)})
	}
	l.end()
	b.inner.H = b.y
}

// piece is some words of one part; those of one call of say stay together on a
// line.
type piece struct {
	part, row string
	said      text.Para
}

// pieces are those of a row: what it is called with its amount, and its
// percentage in brackets.
func (b *board) pieces(r words.Row, last bool) []piece {
	stop := ","
	if last {
		stop = "."
	}
	switch {
	case r.Key == energyKey:
		return []piece{{role.Energy, r.Key, b.words(role.Energy, r.Name)}, {role.EnergyIs, r.Key, b.words(role.EnergyIs, r.Value+stop)}}
	case b.mineral(r.Key):
		return []piece{{role.Mineral, r.Key, b.words(role.Mineral, r.Name+noBreak+r.Value+noBreak+"("+r.Percent+noBreak+b.shortUnit()+")"+stop)}}
	case r.Percent == "":
		q := b.named(role.Nutrient, r)
		q.Spans[len(q.Spans)-1].Text += stop
		return []piece{{role.Nutrient, r.Key, q}}
	}
	return []piece{{role.Nutrient, r.Key, b.named(role.Nutrient, r)}, {role.Share, r.Key, b.words(role.Share, "("+r.Percent+noBreak+b.shortUnit()+")"+stop)}}
}

// shortUnit is what a percentage is of, in short: "DV".
func (b *board) shortUnit() string {
	if short := []rune(b.first().DailyShort); len(short) > 1 {
		return string(short[1:])
	}
	return ""
}

// runner puts pieces on lines, one after the other.
type runner struct {
	*board
	line []piece
	used unit.Length
}

// wide is how wide pieces are that stand together, and white is what is between.
func (l *runner) wide(all []piece) (w unit.Length) {
	for i, p := range all {
		if i > 0 {
			w += l.white()
		}
		w += l.Setter.Width(p.said, l.form.Type(p.part).Least)
	}
	return w
}

func (l *runner) white() unit.Length {
	return l.Faces.Regular.Width(" ", l.form.Type(role.Nutrient).Least)
}

// say puts pieces on the line under way, or begins a new one.
func (l *runner) say(all ...piece) {
	w := l.wide(all)
	if l.used > 0 && l.used+l.white()+w > l.inner.W {
		l.end()
	}
	if l.used > 0 {
		l.used += l.white()
	}
	l.Must(w, l.inner.W, l.first().Src)
	l.line, l.used = append(l.line, all...), l.used+w
}

// end sets the line: as high as its highest part, on one baseline.
func (l *runner) end() {
	high, caps := unit.Length(0), unit.Length(0)
	for _, p := range l.line {
		high, caps = max(high, l.pitch(p.part)), max(caps, l.Faces.Regular.CapHeight(l.form.Type(p.part).Least))
	}
	x, base := l.inner.X, l.inner.Y+l.y+(high+caps)/2
	for _, p := range l.line {
		size := l.form.Type(p.part).Least
		l.mark(p.part, p.row, func() { l.Line(x, base, p.said, flow.Style{Size: size}) })
		x += l.Setter.Width(p.said, size) + l.white()
	}
	l.y, l.line, l.used = l.y+high, nil, 0
}
