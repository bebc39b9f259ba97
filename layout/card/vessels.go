package card

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// bowls puts beside each amount of a lane how much of it goes into each of
// equal bowls, where there are several.
func (t *teller) bowls(l *lane, m *scale.Make) {
	each, n := scale.EachBowl(t.Shop, m)
	for i, a := range each {
		if n > 1 && i < len(l.puts) {
			l.puts[i].Hints = append(l.puts[i].Hints, numbered(t.times(int64(n))+t.grams(a.Shown, a.Step), a.Line.Pos))
		}
	}
}

// bowlFacts says which formulas are made in several bowls, or fill theirs less
// than they should: then both masses.
func (t *teller) bowlFacts(out *content) {
	var all []told
	for _, l := range out.Lanes {
		if l.make == nil {
			continue
		}
		if fill, ok := l.make.Bowls(); ok && (fill.Vessels > 1 || fill.Short) {
			b := l.make.Formula.Bowl
			name := t.own(b.Name, b.Pos, "the bowl of "+l.make.Formula.ID).joined()
			if fill.Short {
				name += ": " + t.readable(unit.Mass(fill.Least)) + compose.NoBreak + "<" + compose.NoBreak + t.readable(b.Least.V)
			}
			all = append(all, numbered(strings.TrimSpace(l.Letter+" "+t.times(int64(fill.Vessels))+name), b.Pos))
		}
	}
	if len(all) > 0 {
		out.Facts = append(out.Facts, fact{t.word("card.bowls"), with(" · ", all...)})
	}
}

// bakes says how often the oven is filled, and with how many trays, where it
// does not take all at once.
func (t *teller) bakes(out *content) {
	fill, ok := scale.Bakes(t.Product, t.Batch.Pieces)
	if !ok || fill.Vessels < 2 {
		return
	}
	l, tray := t.Lang(), t.Product.Tray
	trays := l.Plain(fill.Most, 0)
	if fill.Least != fill.Most {
		trays = l.Plain(fill.Least, 0) + "–" + trays
	}
	value := fmt.Sprintf("%s(%s%s×%s%s)", t.times(int64(fill.Vessels)), trays, compose.NoBreak, compose.NoBreak, t.own(tray.Name, tray.Pos, "the tray").joined())
	out.Facts = append(out.Facts, fact{t.word("card.oven"), numbered(value, tray.Pos)})
}

func (t *teller) times(n int64) string {
	return t.Lang().Plain(n, 0) + compose.NoBreak + "×" + compose.NoBreak
}

// height says which temperatures of a step are changed for the height of the
// kitchen, by what they are at sea level.
func (t *teller) height(s *shop.Step) []advice {
	reach, changed := scale.Reach(&t.Shop.Profile, s)
	if !changed {
		return nil
	}
	var all []advice
	for i, r := range s.Reach {
		if reach[i] != r.V {
			all = append(all, t.atSea(r))
		}
	}
	return all
}

func (t *teller) atSea(r diag.At[unit.Target]) advice {
	return advice{flow.Probe, t.slots("card.sea-level", r.Pos, func(_ int, l *words.Lang) map[string]string {
		return map[string]string{"temp": l.Temp(r.V, true)}
	})}
}
