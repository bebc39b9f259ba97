package audit

import (
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// sums are the totals that the law measures against, each by its own whole.
func (t *teller) sums() section {
	f := t.Facts
	s := section{title: t.Word("audit.sums"), note: t.quidBase(), cols: []col{{t.Word("audit.what"), 0, flow.Left},
		{t.Word("audit.value"), 34, flow.Right}, {t.Word("audit.limit"), 40, flow.Right}}}
	add := func(what, value, limit string) {
		s.rows = append(s.rows, cells(plain(t.Word(what)), plain(value), plain(limit)))
	}
	if f.Finished <= 0 || f.AtUse <= 0 {
		return s
	}
	add("audit.at-use", t.per100(f.AtUse, f.Finished), "")
	add("audit.loss", t.share(max(0, f.AtUse-f.Finished), f.AtUse), "")
	add("audit.net", t.finishedPack(), t.Audit.Lang.Mass(f.Pack.Net.V))
	if rule := f.Market.Allergens.Sulphites; rule.Set() && f.SO2 > 0 {
		limit := "" // of an assortment each component is held against it by itself
		if len(f.Lists) == 1 {
			limit = t.value(declare.Limit{Edge: rule.Edge, Of: declare.MgPerKg(rule.Share)})
		}
		add("audit.so2", t.perMillion(f.SO2.In(f.Finished)), limit)
	}
	if f.Alcohol > 0 {
		add("audit.alcohol", t.percent(f.Alcohol), "")
	}
	if w, ok := t.waterLeft(); ok {
		add("audit.water", t.share(w, f.Finished), t.waterLimit())
	}
	return s
}

// quidBase says what percentages are of, where any is declared.
func (t *teller) quidBase() string {
	for _, l := range t.Facts.Lists {
		for _, p := range l.Parts {
			if p.Quid != nil {
				return t.sentence(t.Word("audit.quid-base"))
			}
		}
	}
	return ""
}

func (t *teller) sentence(s string) string {
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:]) + "."
}

// finishedPack is the finished mass of the pieces of the pack.
func (t *teller) finishedPack() string {
	n := int64(max(1, t.Facts.Pack.Pieces.V))
	return t.Audit.Lang.MassIn(t.Facts.Finished.Mul(unit.Mass(n), unit.Mass(scale.Basis)), "g", 1)
}

// perMillion is a share in mg/kg, with one decimal.
func (t *teller) perMillion(s unit.Share) string {
	return t.Audit.Lang.Plain(unit.MulDiv(int64(s), 10, int64(unit.MgPerKg)), 1) + compose.NoBreak + "mg/kg"
}

// waterLeft is the added water that is left in a food with one list.
func (t *teller) waterLeft() (unit.Mass, bool) {
	var others, water unit.Mass
	for _, c := range t.parts {
		if c.Ingredient.AddedWater.V {
			water += c.Mass
		} else {
			others += c.Mass
		}
	}
	return max(0, min(water, t.Facts.Finished-others)), water > 0 && len(t.Facts.Lists) == 1
}

func (t *teller) waterLimit() string {
	rule := t.Facts.Market.List.Water
	if !rule.Set() {
		return ""
	}
	return t.value(declare.Limit{Edge: rule.Edge, Of: declare.Percent(rule.Share)})
}

// decisions are the choices that the rules made, in their order.
func (t *teller) decisions() section {
	s := section{title: t.Word("audit.decisions"), cols: []col{{t.Word("audit.decision"), 0, flow.Left}, {t.Word("audit.about"), 34, flow.Left},
		{t.Word("audit.value"), 22, flow.Left}, {t.Word("audit.limit"), 24, flow.Left}, {t.Word("audit.file"), 40, flow.Left}}}
	for _, d := range t.Facts.Decisions {
		s.rows = append(s.rows, t.decision(d))
	}
	if len(s.rows) == 0 {
		s.rows = append(s.rows, cells(plain(t.Word("audit.no-decisions")), plain(""), plain(""), plain(""), plain("")))
	}
	return s
}

// decision says one decision.
func (t *teller) decision(d declare.Decision) row {
	return cells(plain(t.Word("audit.rule."+string(d.Rule))), plain(t.about(d)), plain(t.value(d.Got)), plain(t.value(d.Limit)), place(d.Pos))
}

// about is what a decision was about.
func (t *teller) about(d declare.Decision) string {
	switch {
	case d.Name != nil:
		return t.name(d.Name, d.Pos)
	case d.Rule == declare.Joined:
		return t.Word("audit.why." + d.Part)
	}
	return t.called(d.Part)
}

// nutrition shows each figure as computed and as printed; behind them, where
// one is declared, what a portion holds and what that is of a day's intake.
func (t *teller) nutrition() section {
	s := section{title: t.Word("audit.nutrition"), cols: []col{{t.Word("audit.what"), 0, flow.Left},
		{t.Word("audit.exact"), 34, flow.Right}, {t.Word("audit.printed"), 30, flow.Right}}}
	n, table := t.Facts.Nutrition, t.Told.Table
	if n == nil {
		s.rows = append(s.rows, cells(plain(t.Word("audit.no-nutrition")), plain(""), plain("")))
		return s
	}
	portion := n.Portion > 0 && table != nil
	if portion {
		head := table.Portion
		if head == "" {
			head = table.Per
		}
		s.cols = append(s.cols, col{head, 36, flow.Right}, col{"%", 16, flow.Right})
		s.note = table.ReferenceOf
	}
	for _, r := range n.Rows {
		name := plain(t.nutrient(r))
		if r.Of != "" {
			name.indent = 1
		}
		one := []cell{name, plain(t.exact(r)), plain(t.rounded(r.Shown))}
		if portion {
			one = append(one, plain(t.orNone(r.Portion)), plain(t.orNone(r.Percent)))
		}
		s.rows = append(s.rows, cells(one...))
	}
	return s
}

// composition says where the figures of each ingredient are from; those of the
// table that comes with the program stand in bold, for a table knows the food,
// not what was bought.
func (t *teller) composition() section {
	s := section{title: t.Word("audit.composition"), cols: []col{{t.Word("audit.ingredient"), 60, flow.Left}, {t.Word("audit.from"), 0, flow.Left}}}
	if t.Facts.Nutrition == nil {
		return s
	}
	s.note = t.Word("audit.from-table")
	for _, i := range t.used() {
		p := i.Per100
		switch {
		case p == nil:
		case p.Table.Set():
			s.rows = append(s.rows, cells(bold(t.called(i.ID)), bold(p.Source.V)))
		default:
			s.rows = append(s.rows, cells(plain(t.called(i.ID)), plain(p.Source.V)))
		}
	}
	return s
}

// nutrient names a line of the declaration as its market does.
func (t *teller) nutrient(r declare.Row) string {
	key := "nutrition." + r.Key
	if r.Shown.Unit == "kJ" || r.Shown.Unit == "kcal" {
		key = "nutrition.energy"
	}
	l, err := t.Audit.Lang.For(t.Facts.Market.Code)
	if err != nil || len(l.Slots(key)) > 0 {
		return r.Key
	}
	if s, err := l.Word(key); err == nil {
		return s
	}
	return r.Key
}

// exact is a figure as computed, in the unit in which it is printed.
func (t *teller) exact(r declare.Row) string {
	worth := market.Worth(r.Shown.Unit)
	return t.Audit.Lang.Plain(unit.MulDiv(int64(r.Exact), 1000, int64(worth)), 3) + compose.NoBreak + r.Shown.Unit
}

func (t *teller) orNone(r *market.Rounded) string {
	if r == nil {
		return ""
	}
	return t.rounded(*r)
}

func (t *teller) rounded(r market.Rounded) string {
	s := t.Audit.Lang.Plain(r.N, r.Decimals) + compose.NoBreak + r.Unit
	if r.Less {
		return "<" + compose.NoBreak + s
	}
	return s
}

// dates shows how the date came about.
func (t *teller) dates() section {
	d, k := t.Facts.Date, t.Facts.Product.Keep
	s := section{title: t.Word("audit.dates"), cols: []col{{width: 0}, {width: 66}, {width: 52}}}
	add := func(what, value string, at cell) {
		s.rows = append(s.rows, cells(plain(t.Word(what)), plain(value), at))
	}
	add("audit.made", t.Audit.Lang.Date(t.Facts.Made, words.Day), plain(""))
	add("audit.life", t.Life(k.Life.V), place(k.Life.Pos))
	add("audit.last-day", t.Audit.Lang.Date(d.End, words.Day), plain(""))
	if d.Limit != "" {
		at := plain("")
		if p := t.Shop.Products[d.Limit]; p != nil {
			at = place(p.Keep.Life.Pos)
		}
		add("audit.limited-by", t.called(d.Limit), at)
	}
	add("audit.kind", orDash(t.Told.Date.Text), place(k.Date.Pos))
	return s
}
