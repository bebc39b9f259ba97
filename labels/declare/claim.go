package declare

import (
	"slices"

	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
)

// Kinds are the allergens that a word of a claim stands for: gluten, nuts and
// lactose for several, an allergen for itself.
func Kinds(word string) []string {
	switch word {
	case "gluten":
		return []string{"wheat", "rye", "barley", "oats"}
	case "nuts":
		return market.Nuts()
	case "lactose":
		return []string{"milk"}
	}
	return []string{word}
}

// freeFrom refuses a claim that something contradicts: a specification, at
// whatever amount and whatever the law excepts, or cross-contact that the
// assessment has not ruled out for one of its sources. A claim wants an assessment in any case.
func (w *work) freeFrom(parts []scale.Contribution, may []source) {
	for _, claim := range w.product.FreeFrom {
		for _, id := range Kinds(claim.V) {
			if !slices.Contains(market.AllergenIDs(), id) {
				w.found.Errorf(claim.Pos, "free-from", "name an allergen, or gluten, nuts, lactose", "%q is not something that this tool can vouch for", claim.V)
				continue
			}
			if i := holder(parts, id); i != nil {
				w.found.Errorf(claim.Pos, "free-from", "take the claim away", "%s is said to be free from %s, but %s contains %s", w.product.ID, claim.V, i.ID, id)
			} else if slices.ContainsFunc(may, func(s source) bool { return s.allergen == id }) {
				w.found.Errorf(claim.Pos, "free-from", "take the claim away, or have the risk assessed and ruled out",
					"%s is said to be free from %s, but may contain %s", w.product.ID, claim.V, id)
			}
		}
		if !w.product.Assessment.Set() {
			w.found.Errorf(claim.Pos, "free-from", "give its reference under cross-contact-assessment", "no assessment stands behind the claim %q", claim.V)
		}
	}
}

// holder is the first ingredient that contains an allergen.
func holder(parts []scale.Contribution, id string) *shop.Ingredient {
	for _, c := range parts {
		if slices.ContainsFunc(c.Ingredient.Contains, func(t shop.Text) bool { return t.V == id }) || innerHolds(c.Ingredient.MadeOf, id) {
			return c.Ingredient
		}
	}
	return nil
}

func innerHolds(in []shop.Inner, id string) bool {
	return slices.ContainsFunc(in, func(i shop.Inner) bool {
		return slices.ContainsFunc(i.Contains, func(t shop.Text) bool { return t.V == id }) || innerHolds(i.MadeOf, id)
	})
}
