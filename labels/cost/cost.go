// Package cost answers: what does a batch cost, and what is left of its price?
//
// [Of] adds up what the ingredients of a batch cost as bought, losses and
// trimmings included, by the prices of their order packs, and its hands-on time
// at the rate of an hour. It counts in millionths of the smallest coin, so that
// a pinch of salt is not nothing. What has no price is named, not guessed.
// Packaging, energy, rent and taxes are not in it.
package cost

import (
	"cmp"
	"fmt"
	"slices"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Amount is money in millionths of the smallest unit of the currency.
type Amount int64

// One is the smallest unit of a currency.
const One Amount = 1_000_000

// Minor is the amount in the smallest unit, rounded to the nearest.
func (a Amount) Minor() int64 { return unit.MulDiv(int64(a), 1, int64(One)) }

// Share is n of so many equal parts of the amount.
func (a Amount) Share(n, of unit.Count) Amount {
	return Amount(unit.MulDiv(int64(a), int64(n), int64(of)))
}

// Cost is what a batch costs.
type Cost struct {
	Pieces   unit.Count
	Currency string
	Goods    []Good // by the ids of the ingredients
	Hands    unit.Span
	Labour   Amount // 0 where the shop names no rate of an hour
	Priced   bool   // the shop names one, in the currency of the goods
}

// Good is what a batch takes of one ingredient, and what that costs.
type Good struct {
	Ingredient *shop.Ingredient
	Bought     unit.Mass // before peeling
	Cost       Amount
	Known      bool // it has a price, in the currency of the others
}

// Of is what it costs to make n good pieces of a product at once. Of an
// assortment the pieces in it count as if they were made for it alone.
func Of(sh *shop.Shop, p *shop.Product, n unit.Count) (*Cost, error) {
	c := &Cost{Pieces: n, Currency: currency(sh)}
	sum := map[*shop.Ingredient]unit.Mass{}
	if err := c.gather(sh, p, n, sum); err != nil {
		return nil, err
	}
	for in, m := range sum {
		one := Good{Ingredient: in, Bought: m}
		one.Cost, one.Known = c.price(in, m)
		c.Goods = append(c.Goods, one)
	}
	slices.SortFunc(c.Goods, func(a, b Good) int { return cmp.Compare(a.Ingredient.ID, b.Ingredient.ID) })
	if rate := sh.Profile.Hour; rate.Set() && rate.V.Currency == c.Currency {
		c.Priced = true
		c.Labour = Amount(unit.MulDiv(rate.V.Minor*int64(One), int64(c.Hands), int64(unit.Hour)))
	}
	return c, nil
}

// currency is that of the shop's prices: of the hour, else of the first
// ingredient that has one.
func currency(sh *shop.Shop) string {
	if sh.Profile.Hour.Set() {
		return sh.Profile.Hour.V.Currency
	}
	for _, id := range sh.IngredientIDs {
		if p := sh.Ingredients[id].Price; p.Set() {
			return p.V.Currency
		}
	}
	return ""
}

// gather adds up what is bought and the hands-on time.
func (c *Cost) gather(sh *shop.Shop, p *shop.Product, n unit.Count, sum map[*shop.Ingredient]unit.Mass) error {
	b, err := scale.Pieces(sh, p, n)
	if err != nil {
		return fmt.Errorf("work out %s: %w", p.ID, err)
	}
	w, err := scale.Order(sh, b)
	if err != nil {
		return fmt.Errorf("put %s into order: %w", p.ID, err)
	}
	c.Hands += w.Hands
	for _, a := range b.Amounts() {
		if a.Ingredient != nil {
			sum[a.Ingredient] += max(a.Buy, a.Exact)
		}
	}
	for _, part := range b.Parts {
		if err := c.gather(sh, part.Product, part.Pieces, sum); err != nil {
			return err
		}
	}
	return nil
}

// price is what a mass of an ingredient costs: its part of an order pack, or of a
// kilogram where it is bought loose. Tap water costs nothing.
func (c *Cost) price(in *shop.Ingredient, m unit.Mass) (Amount, bool) {
	if !in.Supplier.Set() && in.AddedWater.V {
		return 0, true
	}
	if !in.Price.Set() || in.Price.V.Currency != c.Currency {
		return 0, false
	}
	a, ok := unit.TryMulDiv(in.Price.V.Minor*int64(One), int64(m), int64(cmp.Or(in.OrderPack.V, unit.Kilogram)))
	return Amount(a), ok
}

// Ingredients is what all goods cost that have a price.
func (c *Cost) Ingredients() (sum Amount) {
	for _, g := range c.Goods {
		sum += g.Cost
	}
	return sum
}

// Together is what the batch costs.
func (c *Cost) Together() Amount { return c.Ingredients() + c.Labour }

// Unpriced lists the ingredients that have no price in the currency of the shop.
func (c *Cost) Unpriced() (out []*shop.Ingredient) {
	for _, g := range c.Goods {
		if !g.Known {
			out = append(out, g.Ingredient)
		}
	}
	return out
}

// Known reports whether any ingredient has a price.
func (c *Cost) Known() bool {
	return slices.ContainsFunc(c.Goods, func(g Good) bool { return g.Known && g.Cost > 0 })
}
