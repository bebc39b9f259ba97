package card

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
)

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
		p.Share = t.percent(s)
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

// percent is a share to a tenth of a percent, whole from 100 % on.
func (t *teller) percent(s unit.Share) string {
	if s >= unit.Whole {
		return t.Lang().Percent(unit.MulDiv(int64(s), 1, int64(unit.Percent)), 0)
	}
	return t.Lang().Percent(unit.MulDiv(int64(s), 10, int64(unit.Percent)), 1)
}
