package market

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// ch is Switzerland. Nothing of it has been read yet; it is built like the
// Union's rules where they are remembered to agree, and every number says so.
func ch() *Market {
	m := ficMarket(func(article string) Cite { return memory(liv, "as 1169/2011 "+article) },
		func(article string) Cite { return memory(liv, "as 2011/91/EU "+article) })
	at := func(article string) Cite { return memory(liv, article) }
	m.Code, m.Places = "ch", []string{"CH"}
	m.Operator = Operator{Cite: at("Art. 3(1): who makes, imports, packs or sells it, wherever")}
	m.Languages = Languages{[]string{"de", "fr", "it"}, OneOf, at("one official language")}
	m.Heights = []Height{{Measure: XHeight, Cite: at("easily legible; no size in millimetres")}}
	m.Net = metricNet(at("height of the figures"), at("tolerable negative error"), at("e-mark"))
	m.Net.Cite = at("rounding of the error")
	m.Allergens.Exceptions = slices.DeleteFunc(m.Allergens.Exceptions, func(e Exception) bool {
		return e.Key == "mustard-behenic-acid"
	})
	m.Triggers = append(m.Triggers,
		Trigger{"allergen-traces", "allergen-by-mixing", Part{1000 * unit.MgPerKg, Over, Finished, at("allergens by mixing")}},
		Trigger{"gluten-traces", "gluten-by-mixing", Part{200 * unit.MgPerKg, Over, Finished, at("gluten by mixing")}},
		Trigger{"origin-of-raw-material", "plant-ingredient", Part{50 * unit.Percent, From, AtUse, at("origin of raw materials")}},
		Trigger{"origin-of-raw-material", "animal-ingredient", Part{20 * unit.Percent, From, AtUse, at("origin of raw materials")}})
	m.Colours = Colours{memory(additivesAct, "Art. 24, Annex V, as taken over")}
	m.Names = chNames()
	m.Forbidden = []Forbidden{{"E 171", at("as Regulation (EU) 2022/63")}}
	for _, k := range m.Kinds {
		for i, n := range k.Needs {
			if n.Role == role.Origin {
				k.Needs[i] = Need{role.Origin, Must, role.Operator, at("country of production")}
			}
		}
	}
	for i := range m.Nutrition.Nutrients {
		m.Nutrition.Nutrients[i].Cite = at("rounding as in the guidance of December 2012")
	}
	return m
}
