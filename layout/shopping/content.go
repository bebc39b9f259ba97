package shopping

import (
	"cmp"
	"slices"

	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/list"
)

// teller says the list.
type teller struct {
	*compose.Teller
	Sheet
}

// list says what is ordered, by supplier. What is added as tap water is not
// bought.
func (t teller) list() list.List {
	l := list.New(t.Teller, t.Shop.Profile.Name.V, "prep.buy-title", "prep.buy-do", t.From)
	if t.Days > 1 {
		l.Lead = t.Fill("shopping.span", map[string]string{"days": t.Count("ticket.days", int64(t.Days))}) + " " + l.Lead
	}
	l.Tick, l.Foot = true, t.Word("caution.allergens")+" "+t.Word("sheet.computed")
	l.Cols = []list.Col{{Head: t.Word("prep.ingredient"), Share: 100}, {Head: t.Word("prep.edible"), Kind: list.Figure}, {Head: t.Word("prep.buy"), Kind: list.Figure},
		{Head: t.Word("prep.packs"), Kind: list.Fit}, {Head: t.Word("prep.stock"), Kind: list.Write}, {Head: t.Word("prep.order"), Kind: list.Write}}
	all := bySupplier(t.Buy)
	for i, b := range all {
		if s := b.Ingredient.Supplier.V; i == 0 || s != all[i-1].Ingredient.Supplier.V {
			l.Rows = append(l.Rows, list.Row{Head: cmp.Or(s, compose.Capital(t.Word("prep.no-supplier")))})
		}
		l.Rows = append(l.Rows, t.buy(b))
	}
	return l
}

// bySupplier is what is ordered in the order of the suppliers' names, what has
// none at the end.
func bySupplier(buy []scale.Buy) []scale.Buy {
	all := slices.DeleteFunc(slices.Clone(buy), func(b scale.Buy) bool { return tap(b.Ingredient) })
	slices.SortStableFunc(all, func(a, b scale.Buy) int {
		x, y := a.Ingredient.Supplier.V, b.Ingredient.Supplier.V
		if (x == "") != (y == "") {
			return -cmp.Compare(x, y)
		}
		return cmp.Compare(x, y)
	})
	return all
}

func tap(i *shop.Ingredient) bool { return i.Supplier.V == "" && i.AddedWater.V }

func up(m unit.Mass) unit.Mass { return (m + unit.Gram - 1) / unit.Gram * unit.Gram }

// buy says one ingredient, rounded up to whole grams.
func (t teller) buy(b scale.Buy) list.Row {
	i, packs := b.Ingredient, ""
	if b.Packs > 0 {
		packs = t.Plain(b.Packs) + compose.NoBreak + "×" + compose.NoBreak + t.Sheet.Lang.Mass(i.OrderPack.V)
	}
	grams := func(m unit.Mass) string { return list.GramsIn(t.Sheet.Lang, up(m), unit.Gram) }
	return list.Row{Src: i.Pos, Cells: []list.Cell{
		{Strong: t.Own(i.Name, "the name of "+i.ID, i.Pos).V, Under: i.BoughtAs.V, Role: role.Name},
		{Under: grams(b.Edible), Role: role.Amount},
		{Strong: grams(b.Bought), Role: role.Amount},
		{Strong: packs, Role: role.Amount},
		{Write: true}, {Write: true},
	}}
}
