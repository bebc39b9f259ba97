package declare

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Nutrition is the nutrition declaration for 100 g of the food as sold: rows
// in the order of the market, energy first, each computed from the
// ingredients and divided by the mass after losses.
type Nutrition struct {
	Rows     []Row
	Portion  unit.Mass // 0 when only 100 g are declared
	Portions int64     // whole portions in the pack
}

// Row is one line of the declaration. Of names the line that it is part of.
// Portion is the value for a portion and Percent what that is of the daily
// reference intake; they are nil where no portion, or no reference, is set.
type Row struct {
	Key     string
	Of      string
	Exact   market.Amount
	Shown   market.Rounded
	Portion *market.Rounded
	Percent *market.Rounded
}

// value is one figure of a supplier's composition.
type value struct {
	key string
	of  func(*shop.Composition) diag.At[unit.Mass]
	// needed: a missing figure is an error. The others are nothing in most
	// food, and are left out of a specification that has none of them.
	needed bool
}

// values lists what a composition may state. Carbohydrate includes polyols.
func values() []value {
	return []value{
		{"fat", func(c *shop.Composition) diag.At[unit.Mass] { return c.Fat }, true},
		{"saturates", func(c *shop.Composition) diag.At[unit.Mass] { return c.Saturates }, true},
		{"carbohydrate", func(c *shop.Composition) diag.At[unit.Mass] { return c.Carbohydrate }, true},
		{"sugars", func(c *shop.Composition) diag.At[unit.Mass] { return c.Sugars }, true},
		{"polyols", func(c *shop.Composition) diag.At[unit.Mass] { return c.Polyols }, false},
		{"fibre", func(c *shop.Composition) diag.At[unit.Mass] { return c.Fibre }, true},
		{"protein", func(c *shop.Composition) diag.At[unit.Mass] { return c.Protein }, true},
		{"salt", func(c *shop.Composition) diag.At[unit.Mass] { return c.Salt }, true},
		{"alcohol", func(c *shop.Composition) diag.At[unit.Mass] { return c.Alcohol }, false},
		{"organic-acids", func(c *shop.Composition) diag.At[unit.Mass] { return c.Acids }, false},
	}
}

// nutrition computes the declaration; a missing figure is an error, never zero.
func (w *work) nutrition(parts []scale.Contribution) *Nutrition {
	portion := w.facts.Pack.Portion
	switch per := w.market.Nutrition.Per; {
	case !slices.Contains(per, "100g"):
		w.found.Errorf(w.facts.Pack.Nutrition.Pos, "nutrition-portion", "have the panel made elsewhere; where the maker is exempt, write nutrition: exempt-small-maker",
			"%s wants the nutrition declared for a portion alone, which is not done here", w.market.Code)
		return nil
	case slices.Contains(per, "portion") && !portion.Set():
		w.found.Errorf(w.facts.Pack.Nutrition.Pos, "nutrition-portion", "write portion: such as 40 g", "%s wants the nutrition declared for a portion too", w.market.Code)
		return nil
	}
	sums := map[string]unit.Mass{}
	for _, v := range values() {
		for _, c := range parts {
			sums[v.key] += w.share(v, c)
		}
	}
	sums["sodium"] = sums["salt"].Mul(2, 5)
	per100 := func(key string) unit.Mass { return (100 * unit.Gram).Mul(sums[key], w.facts.Finished) }
	kj, kcal, err := w.market.Nutrition.Energy(w.eaten(per100))
	if err != nil {
		w.found.Errorf(w.product.Pos, "nutrition", "have it declared by someone who knows the rule of this market", "%v", err)
		return nil
	}
	out := &Nutrition{Portion: portion.V}
	if portion.V > 0 {
		out.Portions = int64(w.facts.Pack.Net.V / portion.V)
	}
	for _, n := range w.market.Nutrition.Nutrients {
		if !n.Must {
			continue
		}
		_, known := sums[n.Key]
		exact := market.Amount(per100(n.Key))
		switch n.Unit {
		case "kJ":
			exact, known = kj, true
		case "kcal":
			exact, known = kcal, true
		}
		shown, ok := w.market.Nutrition.Round(n.Key, exact)
		if !ok || !known {
			w.found.Errorf(w.product.Pos, "nutrition", "have it declared by someone who knows the rule", "%s of %s cannot be computed or rounded for %s", n.Key, w.product.ID, w.market.Code)
			continue
		}
		row := Row{Key: n.Key, Of: n.Of, Exact: exact, Shown: shown}
		if portion.V > 0 {
			w.portion(&row, exact, portion.V)
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// portion adds the value for a portion and its share of the reference intake,
// both from the exact value for 100 g (Reg. (EU) 1169/2011 Art. 32 and 33).
func (w *work) portion(r *Row, exact market.Amount, portion unit.Mass) {
	v := market.Amount(unit.MulDiv(int64(exact), int64(portion), int64(100*unit.Gram)))
	if shown, ok := w.market.Nutrition.Round(r.Key, v); ok {
		r.Portion = &shown
	}
	if share, ok := w.market.Nutrition.OfReference(r.Key, v); ok {
		if percent, ok := w.market.Nutrition.RoundPercent(share); ok {
			r.Percent = &percent
		}
	}
}

// eaten lists what carries energy in 100 g, as far as there is any of it.
func (w *work) eaten(per100 func(string) unit.Mass) []market.Eaten {
	all := []market.Eaten{
		{Key: "carbohydrate", Mass: per100("carbohydrate") - per100("polyols")}, {Key: "polyols", Mass: per100("polyols")},
		{Key: "protein", Mass: per100("protein")}, {Key: "fat", Mass: per100("fat")}, {Key: "alcohol", Mass: per100("alcohol")},
		{Key: "organic acids", Mass: per100("organic-acids")}, {Key: "fibre", Mass: per100("fibre")},
	}
	return slices.DeleteFunc(all, func(e market.Eaten) bool { return e.Mass == 0 })
}

// share is how much of a nutrient one contribution brings.
func (w *work) share(v value, c scale.Contribution) unit.Mass {
	comp := c.Ingredient.Per100
	switch {
	case comp == nil && c.Ingredient.AddedWater.V:
		return 0
	case comp == nil:
		w.found.Errorf(c.Ingredient.Pos, "composition", "ask the supplier, or take a published table and name it", "the composition of %s is not known, so the nutrition of %s cannot be declared", c.Ingredient.ID, w.product.ID)
		return 0
	}
	got := v.of(comp)
	if !got.Set() && v.needed {
		w.found.Errorf(comp.Pos, "composition", "an unknown value is not zero: ask the supplier", "%s of %s is not known", v.key, c.Ingredient.ID)
	}
	return c.Mass.Mul(got.V, 100*unit.Gram)
}
