package scale

import (
	"cmp"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Buy is what one day, or several, take of one ingredient.
type Buy struct {
	Ingredient *shop.Ingredient
	Edible     unit.Mass // as it goes in
	Bought     unit.Mass // before peeling
	Packs      int64     // whole packs that hold it; 0 where no pack is known
}

// Together is what some days take of each ingredient, by the ids of the
// ingredients. Packs are counted for the days together: what is left in a pack
// on one day is used on the next.
func Together(days ...*Day) []Buy {
	sum := map[*shop.Ingredient]*Buy{}
	for _, d := range days {
		for _, p := range d.Prep {
			take(sum, p.Lines)
		}
		for _, b := range d.Runs {
			take(sum, b.Lines)
		}
	}
	var all []Buy
	for _, b := range sum {
		if pack := b.Ingredient.OrderPack.V; pack > 0 {
			b.Packs = int64((b.Bought + pack - 1) / pack)
		}
		all = append(all, *b)
	}
	slices.SortFunc(all, func(a, b Buy) int { return cmp.Compare(a.Ingredient.ID, b.Ingredient.ID) })
	return all
}

// take adds lines to what is bought.
func take(sum map[*shop.Ingredient]*Buy, lines []Amount) {
	for _, a := range lines {
		if a.Ingredient == nil {
			continue
		}
		b := sum[a.Ingredient]
		if b == nil {
			b = &Buy{Ingredient: a.Ingredient}
			sum[a.Ingredient] = b
		}
		b.Edible += a.Exact
		b.Bought += max(a.Buy, a.Exact)
	}
}
