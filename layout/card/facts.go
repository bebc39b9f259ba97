package card

import (
	"fmt"
	"strings"

	"chablon/labels/unit"
	"chablon/layout/compose"
)

// facts says the facts strip: what it yields, what goes into a piece, what it
// is made on, how long it takes.
func (t *teller) facts(out *content) {
	l := t.Lang()
	w := out.work
	if w.Elapsed > 0 {
		out.Times = &times{Total: l.Span(w.Elapsed), Hands: l.Span(w.Hands)}
		for _, task := range w.Tasks {
			if task.Step.Waiting.V > 0 {
				oven := ovenKind(task.Step.Kind.V)
				out.Times.Oven, out.Times.Waits = out.Times.Oven || oven, out.Times.Waits || !oven
			}
		}
	}
	if p := t.Product; p != nil {
		each := unit.MulDiv(int64(t.Batch.Out), 1, int64(t.Batch.Pieces))
		value := fmt.Sprintf("%s × %s", l.Plain(int64(t.Batch.Pieces), 0), l.MassIn(unit.Mass(each), "g", 1))
		out.Facts = append(out.Facts, fact{t.word("card.yield"), numbered(value, p.Pos)})
		t.trays(out)
		t.bakes(out)
		out.Facts = append(out.Facts, fact{t.word("card.per-piece"), t.perPiece(out)})
	}
	t.bowlFacts(out)
	for _, r := range out.Rows {
		if r.Step == nil {
			continue
		}
		for _, p := range r.Step.Puts {
			if p.Small && out.Small.empty() {
				out.Small = t.word("card.small-scale")
			}
		}
	}
}

// trays says how many trays are filled, and how full the last one is.
func (t *teller) trays(out *content) {
	tray, n := t.Product.Tray, t.Batch.Pieces
	if tray == nil || tray.Holds.V < 1 {
		return
	}
	l, full, rest := t.Lang(), int64(n/tray.Holds.V), int64(n%tray.Holds.V)
	count := l.Plain(full, 0) + compose.NoBreak + "×"
	switch {
	case full == 0:
		count = "1" + compose.NoBreak + "×"
	case rest > 0:
		count = l.Plain(full, 0) + compose.NoBreak + "+" + compose.NoBreak + "1" + compose.NoBreak + "×"
	}
	name := t.own(tray.Name, tray.Pos, "the tray")
	value := count + compose.NoBreak + name.joined()
	if rest > 0 {
		value += fmt.Sprintf(" (1%s: %d)", compose.NoBreak+"×", rest)
	}
	out.Facts = append(out.Facts, fact{t.word("card.trays"), numbered(value, tray.Pos)})
}

// perPiece lists what goes into one piece, formulas by their letter.
func (t *teller) perPiece(out *content) told {
	own := &out.Lanes[len(out.Lanes)-1]
	l := t.Lang()
	at := t.Product.Pos
	var parts []string
	for _, line := range t.Product.Lines() {
		for _, p := range own.puts {
			if p.ref != line.Ref() {
				continue
			}
			name := p.Name.first()
			if p.Letter != "" {
				name = p.Letter
			}
			part := name + compose.NoBreak + l.Mass(line.Take.V)
			if line.Take.V == 0 {
				part = l.Plain(int64(line.Pieces.V), 0) + compose.NoBreak + "×" + compose.NoBreak + name
			}
			parts = append(parts, part)
			break
		}
	}
	if cut := t.Product.CutTo; cut.Set() {
		parts = []string{l.Mass(cut.V)}
	}
	return numbered(strings.Join(parts, " · "), at)
}
