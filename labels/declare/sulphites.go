package declare

import (
	"slices"

	"chablon/labels/unit"
)

// unnamedSulphites refuses a food that holds so much sulphur dioxide that it
// must be declared, while no ingredient says that it contains sulphites: no
// name in the list could show them. Small amounts in several ingredients add
// up; the one that brings most is named.
func (f *food) unnamedSulphites() {
	if !f.market.Allergens.SulphitesAsked(f.so2, f.finished) || slices.Contains(f.contains(), "sulphites") {
		return
	}
	var most unit.Mass
	at := f.product.Pos
	id := f.product.ID
	for _, c := range f.parts {
		if m := c.Mass.Of(c.Ingredient.SO2.V); m > most {
			most, at, id = m, c.Ingredient.SO2.Pos, c.Ingredient.ID
		}
	}
	f.found.Errorf(at, "sulphites", "write contains: [sulphites] in ingredients/"+id+".yaml, and name the preservative under made-of if there is one",
		"%s holds %.1f mg/kg of sulphur dioxide, which must be declared, but no ingredient says that it contains sulphites; %s brings most of it",
		f.product.ID, float64(f.so2.In(f.finished))/float64(unit.MgPerKg), id)
}
