package print

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// nutrients tells of the rows of the nutrition declaration that the word
// names, in any language.
func (w *why) nutrients() bool {
	if w.Facts.Nutrition == nil {
		return false
	}
	found := false
	for _, r := range w.Facts.Nutrition.Rows {
		if w.fits(rowNames(r)...) == wholly {
			found = true
			w.nutrient(r)
		}
	}
	return found
}

func rowNames(r declare.Row) []string {
	key := r.Key
	if r.Shown.Unit == "kJ" || r.Shown.Unit == "kcal" {
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
func (w *why) nutrient(r declare.Row) {
	shown, of := r.Shown, 100*unit.Gram
	if r.Portion != nil && !slices.Contains(w.Market.Nutrition.Per, "100g") {
		shown, of = *r.Portion, w.Facts.Nutrition.Portion
	}
	less := ""
	if shown.Less {
		less = "less than "
	}
	worth := map[string]market.Amount{"mg": market.Milli, "µg": market.Micro}[shown.Unit]
	part := short
	if worth > 0 {
		part = func(m unit.Mass) string { return fmt.Sprintf("%s %s", decimal(int64(m), int64(worth), 3), shown.Unit) }
	}
	exact := unit.MulDiv(int64(r.Exact), int64(of), int64(100*unit.Gram))
	w.head("%s: %s%s %s in %s declared, %s before rounding", r.Key, less, figure(shown.Figure), shown.Unit, of,
		decimal(exact, int64(cmp.Or(worth, market.One)), 3))
	if r.Shown.Unit == "kJ" || r.Shown.Unit == "kcal" {
		w.factors(r.Shown.Unit)
		return
	}
	type share struct {
		ing *shop.Ingredient
		m   unit.Mass
		pos diag.Pos
	}
	var all []share
	for _, i := range w.used() {
		one := share{ing: i}
		for _, c := range w.parts {
			if v, ok := w.nutrientOf(i.Per100, r.Key); ok && c.Ingredient == i {
				one.m, one.pos = one.m+c.Mass.Mul(v.V, 100*unit.Gram), v.Pos
			}
		}
		if one.m > 0 {
			all = append(all, one)
		}
	}
	slices.SortStableFunc(all, func(a, b share) int { return cmp.Compare(b.m, a.m) })
	for n, s := range all {
		if n == 8 {
			w.item("  ", fmt.Sprintf("and %d ingredients with less", len(all)-n))
			break
		}
		w.item("  ", fmt.Sprintf("%s from %s, by %s", part(of.Mul(s.m, w.Facts.Finished)), s.ing.ID, sourceOf(s.ing.Per100, r.Key)), w.at(s.pos))
	}
}

// factors tells what the energy is computed with.
func (w *why) factors(in string) {
	var all []string
	for _, f := range w.Market.Nutrition.Factors {
		n := f.Kj
		if in == "kcal" {
			n = f.Kcal
		}
		all = append(all, fmt.Sprintf("%s %s", f.Key, figure(market.Figure{N: n, Decimals: 1})))
	}
	w.item("  ", fmt.Sprintf("computed from the ingredients with the factors of the law, %s for a gram: %s. kJ and kcal are each computed, never one from the other.", in, strings.Join(all, ", ")))
}

// nutrientOf is one figure of a composition, as the market counts it: sodium
// is two fifths of the salt, carbohydrate by difference holds fibre and acids.
func (w *why) nutrientOf(c *shop.Composition, key string) (v diag.At[unit.Mass], ok bool) {
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
	case key == "carbohydrate" && w.Market.Nutrition.ByDifference:
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
