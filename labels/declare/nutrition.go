package declare

import (
	"slices"

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
	Pieces   int64     // pieces in a portion, where the market wants it in a measure of the household
	Symbol   *Symbol   // at the front of the pack; nil where the market has none for it
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

// nutrition computes the declaration; a missing figure is an error, never zero.
func (w *work) nutrition(parts []scale.Contribution) *Nutrition {
	if !w.market.Nutrition.Rounds() {
		w.found.Errorf(w.facts.Pack.Nutrition.Pos, "nutrition", "declare it for the country of sale, or have it declared by someone who knows its rule",
			"%s does not say how the figures of a nutrition declaration are rounded, so none is made", w.market.Code)
		return nil
	}
	out, ok := w.portions()
	if !ok {
		return nil
	}
	sums := w.amounts(parts)
	per100 := func(key string) unit.Mass { return (100 * unit.Gram).Mul(sums[key], w.facts.Finished) }
	kj, kcal, err := w.market.Nutrition.Energy(w.eaten(per100))
	if err != nil {
		w.found.Errorf(w.product.Pos, "nutrition", "have it declared by someone who knows the rule of this market", "%v", err)
		return nil
	}
	exact := func(key string) market.Amount {
		switch key {
		case "energy-kj":
			return kj
		case "energy-kcal":
			return kcal
		}
		return market.Amount(per100(key))
	}
	for _, n := range w.market.Nutrition.Nutrients {
		_, known := sums[n.Key]
		known = known || n.Unit == "kJ" || n.Unit == "kcal"
		if !n.Must {
			continue
		}
		shown, ok := w.market.Nutrition.RoundFor(n.Key, exact)
		if !ok || !known {
			w.found.Errorf(w.product.Pos, "nutrition", "have it declared by someone who knows the rule", "%s of %s cannot be computed or rounded for %s", n.Key, w.product.ID, w.market.Code)
			continue
		}
		row := Row{Key: n.Key, Of: n.Of, Exact: exact(n.Key), Shown: shown}
		if out.Portion > 0 {
			w.portion(&row, exact, out.Portion)
		}
		out.Rows = append(out.Rows, row)
	}
	out.Symbol = w.symbol(sums)
	return out
}

// portions tells what a portion is. Where the market declares for nothing
// else, portions must be whole pieces, and the pack whole portions (21 CFR
// 101.9(b)(5), (7) and (8), C.R.C., c. 870, B.01.002A; both from memory).
func (w *work) portions() (*Nutrition, bool) {
	pack, per := w.facts.Pack, w.market.Nutrition.Per
	portion := pack.Portion
	out := &Nutrition{Portion: portion.V}
	if portion.V > 0 {
		out.Portions = int64(pack.Net.V / portion.V)
	}
	switch {
	case !slices.Contains(per, "portion"):
		return out, true
	case !portion.Set() || portion.V <= 0:
		hint := "write portion: such as 40 g"
		if w.exempts() {
			hint += "; where the maker is exempt, write nutrition: exempt-small-maker"
		}
		w.found.Errorf(pack.Nutrition.Pos, "nutrition-portion", hint,
			"%s wants the nutrition declared for a portion", w.market.Code)
		return nil, false
	case slices.Contains(per, "100g"):
		return out, true
	}
	out.Pieces = int64(portion.V.Mul(unit.Mass(pack.Pieces.V), max(1, pack.Net.V)))
	whole := unit.CmpProducts(int64(pack.Net.V), out.Pieces, int64(portion.V), int64(pack.Pieces.V)) == 0
	if out.Pieces < 1 || !whole || pack.Net.V%portion.V != 0 {
		w.found.Errorf(portion.Pos, "nutrition-portion", "choose a portion of whole pieces that goes into the pack without a rest",
			"%s wants portions that can be counted, but %s are not whole pieces, or the pack of %s is not whole portions", w.market.Code, portion.V, pack.Net.V)
		return nil, false
	}
	w.decide(Serving, w.product.ID, Mass(portion.V), nil, portion.Pos)
	return out, true
}

// exempts reports whether the market knows makers so small that they need not
// declare the nutrition.
func (w *work) exempts() bool {
	return slices.ContainsFunc(w.market.Reliefs, func(r market.Relief) bool {
		return r.Why == market.LocalSale && slices.Contains(r.Roles, "nutrition")
	})
}

// amounts adds up what the ingredients bring, by key. Sodium is that of the
// salt. Where carbohydrate is counted by difference, fibre and organic acids
// are part of it.
func (w *work) amounts(parts []scale.Contribution) map[string]unit.Mass {
	sums := map[string]unit.Mass{}
	for _, v := range values() {
		if v.asked && !w.asks(v.key) {
			continue
		}
		for _, c := range parts {
			sums[v.key] += w.share(v, c)
		}
	}
	sums["sodium"] = sums["salt"].Mul(2, 5)
	if w.market.Nutrition.ByDifference {
		sums["carbohydrate"] += sums["fibre"] + sums["organic-acids"]
	}
	return sums
}

// asks reports whether the market declares a nutrient in any case.
func (w *work) asks(key string) bool {
	n, ok := w.market.Nutrition.Find(key)
	return ok && n.Must
}

// portion adds the value for a portion and its share of the reference intake,
// both from the exact value for 100 g (Reg. (EU) 1169/2011 Art. 32 and 33).
func (w *work) portion(r *Row, exact func(string) market.Amount, portion unit.Mass) {
	of := func(key string) market.Amount {
		return market.Amount(unit.MulDiv(int64(exact(key)), int64(portion), int64(100*unit.Gram)))
	}
	if shown, ok := w.market.Nutrition.RoundFor(r.Key, of); ok {
		r.Portion = &shown
	}
	if percent, ok := w.market.Nutrition.PercentFor(r.Key, of); ok {
		r.Percent = &percent
	}
}

// eaten lists what carries energy in 100 g, as far as there is any of it. What
// the market has no factor for counts as the carbohydrate that it is, so that
// the energy is never too low.
func (w *work) eaten(per100 func(string) unit.Mass) []market.Eaten {
	n, carbohydrate := w.market.Nutrition, per100("carbohydrate")
	all := []market.Eaten{{Key: "protein", Mass: per100("protein")}, {Key: "fat", Mass: per100("fat")}, {Key: "alcohol", Mass: per100("alcohol")}}
	for _, x := range []struct {
		key    string
		mass   unit.Mass
		inside bool // it is part of what the market calls carbohydrate
	}{
		{"polyols", per100("polyols"), true},
		{"organic acids", per100("organic-acids"), n.ByDifference},
		{"fibre", per100("fibre"), n.ByDifference},
	} {
		own := n.HasFactor(x.key)
		if own {
			all = append(all, market.Eaten{Key: x.key, Mass: x.mass})
		}
		switch {
		case own && x.inside:
			carbohydrate -= x.mass
		case !own && !x.inside:
			carbohydrate += x.mass
		}
	}
	all = append(all, market.Eaten{Key: "carbohydrate", Mass: carbohydrate})
	return slices.DeleteFunc(all, func(e market.Eaten) bool { return e.Mass == 0 })
}

// share is how much of a nutrient one contribution brings. Of its alcohol what
// is left counts, where that was measured; the rest of it does not evaporate.
func (w *work) share(v value, c scale.Contribution) unit.Mass {
	comp := c.Ingredient.Per100
	switch {
	case comp == nil && c.Ingredient.AddedWater.V:
		return 0
	case comp == nil:
		w.found.Errorf(c.Ingredient.Pos, "composition", compositionHint(c.Ingredient), "the composition of %s is not known, so the nutrition of what it is in cannot be declared", c.Ingredient.ID)
		return 0
	}
	got := v.of(comp)
	if !got.Set() && v.needed {
		w.found.Errorf(comp.Pos, "composition", "an unknown value is not zero: ask the supplier", "%s of %s is not known", v.key, c.Ingredient.ID)
	}
	mass := c.Mass
	if v.key == "alcohol" {
		mass = remains(c)
	}
	return mass.Mul(got.V, 100*unit.Gram)
}

// compositionHint says where figures may be had.
func compositionHint(i *shop.Ingredient) string {
	hint := "ask the supplier, or take a published table and name it"
	if t := i.TableHint(); t != "" {
		hint += ", such as per-100-g: with " + t
	}
	return hint
}
