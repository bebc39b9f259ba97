package explain

import (
	"cmp"
	"slices"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// mostSources is how many ingredients are named as sources of a nutrient.
const mostSources = 8

// nutrients tells of the rows of the nutrition declaration that the word
// names, in any language.
func (f *finder) nutrients() {
	if f.Facts.Nutrition == nil {
		return
	}
	for _, r := range f.Facts.Nutrition.Rows {
		if f.fits(rowNames(r)...) == wholly {
			f.nutrient(r)
		}
	}
}

// energy reports whether a row is one of the energy, computed and not summed.
func energy(r declare.Row) bool { return r.Shown.Unit == "kJ" || r.Shown.Unit == "kcal" }

func rowNames(r declare.Row) []string {
	key := r.Key
	if energy(r) {
		key = "energy"
	}
	out := []string{key, r.Key, r.Shown.Unit}
	for _, c := range words.Codes() {
		if l, ok := words.Get(c); ok {
			if name, err := l.Word("nutrition." + key); err == nil && r.Shown.Unit != "" {
				out = append(out, name)
			}
		}
	}
	return out
}

// nutrient tells of one row: what is declared, and what it comes from.
func (f *finder) nutrient(row declare.Row) {
	shown, of := row.Shown, 100*unit.Gram
	if row.Portion != nil && !slices.Contains(f.Facts.Market.Nutrition.Per, "100g") {
		shown, of = *row.Portion, f.Facts.Nutrition.Portion
	}
	worth := market.Worth(shown.Unit)
	in := func(m int64) Figure {
		return Figure{market.Figure{N: unit.MulDiv(m, 1000, int64(worth)), Decimals: 3}, shown.Unit, false}
	}
	exact := unit.MulDiv(int64(row.Exact), int64(of), int64(100*unit.Gram))
	r := f.topic("nutrient", Values{"nutrient": declare.ID(row.Key), "shown": Figure{shown.Figure, shown.Unit, shown.Less}, "of": declare.Mass(of), "exact": in(exact)})
	f.rounding(r, row)
	f.finished(r)
	if energy(row) {
		f.factors(r, row.Shown.Unit)
		return
	}
	all := f.suppliers(row.Key)
	for n, s := range all {
		if n == mostSources {
			r.add("nutrient-from-others", Values{"count": Count(len(all) - n)})
			break
		}
		var amount declare.Value = declare.Mass(of.Mul(s.m, f.Facts.Finished))
		if worth != market.One {
			amount = in(int64(of.Mul(s.m, f.Facts.Finished)))
		}
		from := r.add("nutrient-from", Values{"amount": amount, "ingredient": declare.ID(s.ing.ID),
			"source": declare.Text(sourceOf(s.ing.Per100, row.Key))}, s.pos)
		from.add("nutrient-share", Values{"mass": declare.Mass(of.Mul(s.used, f.Facts.Finished)), "of": declare.Mass(of), "holds": in(int64(s.per100))})
		f.specified(from, s.ing)
	}
}

// supplied is how much of a nutrient an ingredient brings.
type supplied struct {
	ing     *shop.Ingredient
	m, used unit.Mass // of the nutrient, and of the ingredient
	per100  unit.Mass // as its specification says
	pos     diag.Pos
}

// suppliers are the ingredients that bring a nutrient, the most first.
func (f *finder) suppliers(key string) []supplied {
	var all []supplied
	for _, i := range f.used() {
		one := supplied{ing: i}
		for _, c := range f.parts {
			if v, ok := f.nutrientOf(i.Per100, key); ok && c.Ingredient == i {
				one.m, one.pos = one.m+c.Mass.Mul(v.V, 100*unit.Gram), v.Pos
				one.used, one.per100 = one.used+c.Mass, v.V
			}
		}
		if one.m > 0 {
			all = append(all, one)
		}
	}
	slices.SortStableFunc(all, func(a, b supplied) int { return cmp.Compare(b.m, a.m) })
	return all
}

// factors tells what the energy is computed with.
func (f *finder) factors(r *Reason, in string) {
	var all Factors
	for _, x := range f.Facts.Market.Nutrition.Factors {
		n := x.Kj
		if in == "kcal" {
			n = x.Kcal
		}
		all = append(all, Factor{x.Key, Figure{market.Figure{N: n, Decimals: 1}, in, false}})
	}
	r.add("energy-factors", Values{"unit": declare.Text(in), "factors": all})
}

// nutrientOf is one figure of a composition, as the market counts it: sodium
// is two fifths of the salt, carbohydrate by difference holds fibre and acids.
func (f *finder) nutrientOf(c *shop.Composition, key string) (v diag.At[unit.Mass], ok bool) {
	if c == nil {
		return v, false
	}
	v, ok = map[string]diag.At[unit.Mass]{
		"fat": c.Fat, "saturates": c.Saturates, "carbohydrate": c.Carbohydrate, "sugars": c.Sugars, "polyols": c.Polyols,
		"fibre": c.Fibre, "protein": c.Protein, "salt": c.Salt, "sodium": c.Salt, "alcohol": c.Alcohol,
		"trans": c.Trans, "cholesterol": c.Cholesterol, "added-sugars": c.AddedSugars, "vitamin-d": c.VitaminD,
		"calcium": c.Calcium, "iron": c.Iron, "potassium": c.Potassium,
	}[key]
	switch {
	case key == "sodium":
		v.V = v.V.Mul(2, 5)
	case key == "carbohydrate" && f.Facts.Market.Nutrition.ByDifference:
		v.V += c.Fibre.V + c.Acids.V
	}
	return v, ok && v.Set()
}

// sourceOf names where a figure is from.
func sourceOf(c *shop.Composition, key string) string {
	more := []string{"trans", "cholesterol", "added-sugars", "vitamin-d", "calcium", "iron", "potassium"}
	if c.MoreFrom.Set() && slices.Contains(more, key) {
		return c.MoreFrom.V
	}
	return c.Source.V
}
