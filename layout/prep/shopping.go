package prep

import (
	"cmp"
	"slices"

	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
)

// shopping says the shopping list, by supplier. What is added as tap water is
// not bought.
func (t teller) shopping() list {
	l := t.list("prep.buy-title", "prep.buy-do", t.Word("caution.allergens")+" "+t.Word("sheet.computed"))
	l.cols = []col{{t.Word("prep.ingredient"), isWords, 100}, {t.Word("prep.edible"), isFigure, 0}, {t.Word("prep.buy"), isFigure, 0},
		{t.Word("prep.packs"), isFit, 0}, {t.Word("prep.stock"), isWrite, 0}, {t.Word("prep.order"), isWrite, 0}}
	all := slices.DeleteFunc(slices.Clone(t.Day.Buy), func(b scale.Buy) bool { return tap(b.Ingredient) })
	slices.SortStableFunc(all, func(a, b scale.Buy) int {
		x, y := a.Ingredient.Supplier.V, b.Ingredient.Supplier.V
		if (x == "") != (y == "") {
			return -cmp.Compare(x, y) // without a supplier at the end
		}
		return cmp.Compare(x, y)
	})
	for i, b := range all {
		if s := b.Ingredient.Supplier.V; i == 0 || s != all[i-1].Ingredient.Supplier.V {
			l.rows = append(l.rows, row{head: cmp.Or(s, compose.Capital(t.Word("prep.no-supplier")))})
		}
		l.rows = append(l.rows, t.buy(b))
	}
	return l
}

func up(m unit.Mass) unit.Mass { return (m + unit.Gram - 1) / unit.Gram * unit.Gram }

func tap(i *shop.Ingredient) bool { return i.Supplier.V == "" && i.AddedWater.V }

// buy says one ingredient, rounded up to whole grams.
func (t teller) buy(b scale.Buy) row {
	i := b.Ingredient
	packs := ""
	if b.Packs > 0 {
		packs = t.Sheet.Lang.Plain(b.Packs, 0) + compose.NoBreak + "×" + compose.NoBreak + t.Sheet.Lang.Mass(i.OrderPack.V)
	}
	return row{src: i.Pos, cells: []cell{
		{strong: t.name(i.Name, i.ID, i.Pos), under: i.BoughtAs.V, role: role.Name},
		{under: t.gramsIn(up(b.Edible), unit.Gram), role: role.Amount},
		{strong: t.gramsIn(up(b.Bought), unit.Gram), role: role.Amount},
		{strong: packs, role: role.Amount},
		{write: true}, {write: true},
	}}
}
