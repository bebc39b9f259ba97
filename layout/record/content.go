package record

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/list"
)

// teller says the record.
type teller struct {
	*compose.Teller
	Record
}

// list says what is weighed and measured, formula by formula, then the pieces.
func (t teller) list() list.List {
	l := list.New(t.Teller, t.Shop.Profile.Name.V+" · "+t.Word("sheet.batch")+" "+t.Code, "record.title", "record.do", t.Day)
	l.Cols = []list.Col{{Head: t.Word("prep.ingredient"), Share: 50}, {Head: t.Word("record.planned") + ", g", Kind: list.Figure},
		{Head: t.Word("record.actual"), Kind: list.Write}, {Head: t.Word("record.lot"), Share: 50}}
	l.Foot = t.Word("sheet.computed")
	l.Sign = t.Words("record.made-by", "record.checked-by", "sheet.day", "sheet.signature")
	l.Rows = append(l.Rows, t.subject())
	for i := range t.Batch.Makes {
		if m := &t.Batch.Makes[i]; m.Formula == t.Batch.Formula || t.Shared == nil || !t.Shared(m.Formula) {
			l.Rows = append(l.Rows, t.make(m)...)
		}
	}
	if p := t.Batch.Product; p != nil {
		l.Rows = append(l.Rows, t.product(p)...)
	}
	return l
}

// subject is what the record is of, in large words.
func (t teller) subject() list.Row {
	if p := t.Batch.Product; p != nil {
		return list.Row{Head: t.name(p.Name, p.ID, p.Pos) + ", " + t.Count("count.pieces", int64(t.Batch.Pieces)) + " · " + t.Code}
	}
	f := t.Batch.Formula
	return list.Row{Head: t.name(f.Name, f.ID, f.Pos) + ", " + list.Grams(t.Record.Lang, t.Batch.Out) + " · " + t.Code}
}

// make says one formula: its name, its lines, its limits, what comes out.
func (t teller) make(m *scale.Make) []list.Row {
	f := m.Formula
	out := []list.Row{{Head: t.name(f.Name, f.ID, f.Pos), Src: f.Pos}}
	for _, a := range m.Lines {
		out = append(out, t.amount(a, f.ID))
	}
	if m.Medium != nil {
		out = append(out, t.amount(*m.Medium, f.ID))
	}
	out = append(out, t.limits(f.Steps)...)
	return append(out, list.Row{Src: f.Pos, Cells: []list.Cell{{Strong: compose.Capital(t.Word("prep.out")), Role: role.Name},
		{Strong: t.bare(m.Out.Round(list.Step(m.Out)), list.Step(m.Out)), Role: role.Amount}, {Write: true}, {}}})
}

// product says what goes into the pieces, their limits, and what came of them.
func (t teller) product(p *shop.Product) []list.Row {
	out := []list.Row{{Head: t.name(p.Name, p.ID, p.Pos)}}
	for _, a := range t.Batch.Lines {
		out = append(out, t.amount(a, p.ID))
	}
	for _, c := range t.Batch.Parts {
		out = append(out, list.Row{Src: c.Line.Pos, Cells: []list.Cell{{Strong: t.name(c.Product.Name, c.Product.ID, c.Product.Pos), Role: role.Name},
			{Strong: t.Count("count.pieces", int64(c.Pieces)), Role: role.Amount}, {Write: true}, t.lot(p.ID, c.Product.ID)}})
	}
	out = append(out, t.limits(p.Steps)...)
	pieces := t.Count("count.pieces", int64(t.Batch.Pieces))
	return append(out, list.Row{Say: t.Fill("record.result", map[string]string{"pieces": pieces}), Fields: t.Words("record.good", "record.waste", "record.why"), Tied: true})
}

// amount is one line: what is weighed, how much was planned, a box for how much
// it was, and the lot.
func (t teller) amount(a scale.Amount, into string) list.Row {
	name, under, id := "", "", a.Line.Use.V
	switch _, own := shop.In(a.Line.Name, t.Record.Lang.Code()); {
	case own:
		name = t.name(a.Line.Name, a.Line.Ref(), a.Line.Pos)
	case a.Formula != nil:
		name = t.name(a.Formula.Name, id, a.Formula.Pos)
	default:
		name = t.name(a.Ingredient.Name, id, a.Ingredient.Pos)
	}
	if a.Formula != nil && t.Shared != nil && t.Shared(a.Formula) {
		under = t.Word("record.own")
	}
	return list.Row{Src: a.Line.Pos, Cells: []list.Cell{{Strong: name, Under: under, Role: role.Name},
		{Strong: t.bare(a.Shown, min(a.Step, unit.Gram)), Role: role.Amount}, {Write: true}, t.lot(into, id)}}
}

// bare is a mass in grams without the unit, which stands in the head of the
// column: a whole number over one with decimals leaves no hole before it.
func (t teller) bare(m, step unit.Mass) string {
	if step < unit.Gram {
		return t.Record.Lang.Plain(int64(m.Round(unit.Gram/10)/(unit.Gram/10)), 1)
	}
	return t.Plain(int64(m.Round(unit.Gram) / unit.Gram))
}

// lot is a box for the lot, with the one that is proposed. Tap water has none.
func (t teller) lot(into, of string) list.Cell {
	if i := t.Shop.Ingredients[of]; i != nil && !i.Supplier.Set() {
		return list.Cell{}
	}
	c := list.Cell{Write: true}
	if t.Lot != nil {
		if code := t.Lot(into, of); code != "" {
			c.Under = t.Fill("record.proposed", map[string]string{"lot": code})
		}
	}
	return c
}

// limits are the critical limits of steps, each with boxes for what is recorded.
func (t teller) limits(steps []shop.Step) (out []list.Row) {
	for _, s := range steps {
		if l := s.Limit; l != nil {
			out = append(out, list.Row{Src: l.Pos, Say: t.Fill("record.limit", map[string]string{"id": s.ID.V, "what": t.limit(l)}),
				Fields: append(t.Words("record.begun", "record.reached"), "°C", t.Word("order.by"))})
		}
	}
	return out
}

// limit says a limit and how it is measured: "≤ 5 °C (41 °F), within 2 h; probe".
func (t teller) limit(l *shop.Limit) string {
	var out []string
	if l.From.Set() {
		out = append(out, t.Fill("card.limit-from", map[string]string{"temp": strings.ReplaceAll(t.Record.Lang.Temp(l.From.V, true), " ", compose.NoBreak)}))
	}
	if l.Reach.Set() {
		out = append(out, strings.ReplaceAll(t.Record.Lang.Limit(l.Reach.V, true), " ", compose.NoBreak))
	}
	if l.Within.Set() {
		out = append(out, t.Fill("card.within", map[string]string{"time": t.Record.Lang.Span(l.Within.V)}))
	}
	if l.Hold.Set() {
		out = append(out, t.Fill("card.hold", map[string]string{"time": t.Record.Lang.Span(l.Hold.V)}))
	}
	return strings.Join(out, ", ") + "; " + t.name(l.Measure, "a limit", l.Pos)
}

// name is a text of the shop in the language of the record.
func (t teller) name(w shop.Words, id string, at diag.Pos) string {
	return t.Own(w, "the name of "+id, at).V
}
