package audit

import (
	"chablon/labels/cost"
	"chablon/labels/unit"
	"chablon/layout/flow"
)

// cost shows what the pack costs to make, ingredient by ingredient, and what is
// left of its price; a shop that names no prices has no such section.
func (t *teller) cost() section {
	c := t.Cost
	if c == nil || !c.Known() {
		return section{}
	}
	s := section{title: t.Word("audit.cost") + " · " + t.Count("count.pieces", int64(c.Pieces)), note: t.Word("audit.cost-note"),
		cols: []col{{t.Word("audit.what"), 0, flow.Left}, {t.Word("audit.amount"), 28, flow.Right}, {t.Word("audit.cost-batch"), 28, flow.Right}, {t.Word("audit.cost-piece"), 28, flow.Right}, {t.Word("audit.cost-pack"), 28, flow.Right}}}
	add := func(what, amount string, a cost.Amount) {
		s.rows = append(s.rows, cells(plain(what), plain(amount), plain(t.coins(a)), plain(t.coins(a.Share(1, c.Pieces))), bold(t.coins(t.ofPack(a)))))
	}
	for _, g := range c.Goods {
		if g.Known && g.Cost > 0 {
			add(t.name(g.Ingredient.Name, g.Ingredient.Pos), t.Audit.Lang.MassIn(g.Bought, "g", 1), g.Cost)
		}
	}
	add(t.Word("audit.goods"), "", c.Ingredients())
	if c.Priced {
		add(t.Word("audit.labour"), t.Audit.Lang.Span(c.Hands), c.Labour)
	} else {
		s.rows = append(s.rows, cells(plain(t.Word("audit.labour")), plain(t.Audit.Lang.Span(c.Hands)), plain(t.Word("audit.no-rate")), plain(""), plain("")))
	}
	add(t.Word("audit.together"), "", c.Together())
	if lack := t.unpriced(c); lack != "" {
		s.rows = append(s.rows, cells(plain(lack), plain(""), plain(""), plain(""), plain("")))
	}
	s.rows = append(s.rows, t.margin(c)...)
	return s
}

// ofPack is the part of one pack.
func (t *teller) ofPack(a cost.Amount) cost.Amount {
	return a.Share(max(1, t.Facts.Pack.Pieces.V), t.Cost.Pieces)
}

// coins is an amount in the smallest coin.
func (t *teller) coins(a cost.Amount) string {
	return t.Audit.Lang.MoneyIn(t.Cost.Currency, a.Minor(), t.decimals())
}

// decimals are those of the currency of the shop.
func (t *teller) decimals() int {
	if h := t.Shop.Profile.Hour; h.Set() {
		return h.V.Decimals()
	}
	for _, g := range t.Cost.Goods {
		if g.Known && g.Ingredient.Price.Set() {
			return g.Ingredient.Price.V.Decimals()
		}
	}
	return 0
}

// unpriced names what has no price.
func (t *teller) unpriced(c *cost.Cost) string {
	var names []string
	for _, in := range c.Unpriced() {
		names = append(names, t.name(in.Name, in.Pos))
	}
	if len(names) == 0 {
		return ""
	}
	return t.Fill("audit.no-price", map[string]string{"list": t.Audit.Lang.Join(names)})
}

// margin is the price of the pack and what is left of it, where all is known.
func (t *teller) margin(c *cost.Cost) []row {
	price := t.Facts.Pack.Price
	if !price.Set() || price.V.Currency != c.Currency || len(c.Unpriced()) > 0 || !c.Priced {
		return nil
	}
	of := cost.Amount(price.V.Minor) * cost.One
	left := of - t.ofPack(c.Together())
	percent := t.percent(unit.Share(unit.MulDiv(int64(left), int64(unit.Whole), int64(of))))
	return []row{
		cells(plain(t.Word("audit.price")), plain(""), plain(""), plain(""), bold(t.Audit.Lang.Money(price.V))),
		cells(bold(t.Word("audit.left")), plain(percent), plain(""), plain(""), bold(t.coins(left))),
	}
}
