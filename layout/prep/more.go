package prep

import (
	"cmp"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// thaws says what comes out of the freezer.
func (t *teller) thaws() []row {
	if len(t.Thaw) == 0 {
		return nil
	}
	out := []row{{head: capital(t.word("prep.thaw")) + " · " + t.word("prep.thaw-do")}}
	for _, th := range t.Thaw {
		name, at := "", diag.Pos{}
		switch {
		case th.Formula != nil:
			name, at = t.name(th.Formula.Name, th.Formula.ID, th.Formula.Pos), th.Formula.Pos
		case th.Ingredient != nil:
			name, at = t.name(th.Ingredient.Name, th.Ingredient.ID, th.Ingredient.Pos), th.Ingredient.Pos
		}
		out = append(out, row{src: at, cells: []cell{{strong: name, role: page.Name}, {}, {strong: t.grams(th.Mass), role: page.Amount},
			{}, {under: t.word("prep.out-at"), write: true}}})
	}
	return out
}

// picks says what assortments take of other products, and what is short.
func (t *teller) picks() []row {
	if len(t.Day.Picks) == 0 {
		return nil
	}
	out := []row{{head: capital(t.word("prep.pieces"))}}
	for _, p := range t.Day.Picks {
		about := t.word("prep.made") + noBreak + t.Lang.Plain(int64(p.Makes), 0)
		if p.Short() {
			about += "; " + t.fill("prep.short", map[string]string{"n": t.Lang.Plain(int64(p.Taken-p.Makes), 0)})
		}
		out = append(out, row{src: p.Product.Pos, cells: []cell{
			{strong: t.name(p.Product.Name, p.Product.ID, p.Product.Pos), role: page.Name}, {}, {}, {},
			{strong: t.count("count.pieces", int64(p.Taken)), under: about, role: page.Amount}}})
	}
	return out
}

// shopping says the shopping list, by supplier. What is added as tap water is
// not bought.
func (t *teller) shopping() list {
	l := list{title: t.word("prep.buy-title"), lead: t.word("prep.buy-do"), shape: buyShape(),
		heads: t.heads("prep.ingredient", "prep.edible", "prep.buy", "prep.packs", "prep.stock", "prep.order"),
		foot:  t.word("caution.allergens") + " " + t.word("sheet.computed")}
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
			l.rows = append(l.rows, row{head: cmp.Or(s, capital(t.word("prep.no-supplier")))})
		}
		l.rows = append(l.rows, t.buy(b))
	}
	return l
}

func up(m unit.Mass) unit.Mass { return (m + unit.Gram - 1) / unit.Gram * unit.Gram }

func tap(i *shop.Ingredient) bool { return i.Supplier.V == "" && i.AddedWater.V }

// buy says one ingredient, rounded up to whole grams.
func (t *teller) buy(b scale.Buy) row {
	i := b.Ingredient
	packs := ""
	if b.Packs > 0 {
		packs = t.Lang.Plain(b.Packs, 0) + noBreak + "×" + noBreak + t.Lang.Mass(i.OrderPack.V)
	}
	return row{src: i.Pos, cells: []cell{
		{strong: t.name(i.Name, i.ID, i.Pos), under: i.BoughtAs.V, role: page.Name},
		{under: t.gramsIn(up(b.Edible), unit.Gram), role: page.Amount},
		{strong: t.gramsIn(up(b.Bought), unit.Gram), role: page.Amount},
		{strong: packs, role: page.Amount},
		{write: true}, {write: true},
	}}
}
