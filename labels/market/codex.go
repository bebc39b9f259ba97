package market

import "chablon/labels/role"

import "chablon/labels/unit"

// codex is the Codex Alimentarius: the base for markets that have no file
// here. Its texts become law only through a country's own acts.
func codex() *Market {
	at := func(section string) Cite { return memory(cxs, section) }
	return &Market{
		Code:      "codex",
		Places:    []string{"Codex Alimentarius"},
		Languages: Languages{nil, State, at("8.2")},
		Kinds:     codexKinds(at),
		Reliefs: []Relief{
			{Why: DayFresh, Sale: Prepacked, Roles: []role.Role{role.Date}, Duty: Free, Cite: at("4.7.1(vii)")},
			{Why: SmallFace, Sale: Prepacked, Face: 10 * unit.CM2, Edge: Below, Roles: []role.Role{role.List, role.Batch, role.Date, role.Keep, role.Use},
				Duty: Free, Cite: at("6")},
			{Why: UseByDate, Sale: Prepacked, Roles: []role.Role{role.Date, role.Keep}, Duty: Must, Cite: house(cxs, "6: a use-by date stays")},
		},
		Heights: []Height{{Measure: XHeight, Cite: at("8.1: legible; no size")}},
		Lot:     Lot{"", false, at("4.6")},
		Net:     Net{Systems: []string{"metric"}, Cite: at("4.3")},
		List: List{
			Cite:     at("4.2"),
			Order:    Order{Base: AtUse, Cite: at("4.2.1.2")},
			Compound: Part{5 * unit.Percent, Below, Finished, readIn(cxs, "4.2.1.3")},
			// a standard must set the composition of the compound
			DefinedOnly: true,
		},
		Quid: Quid{Cases: []string{"emphasised", "in-name", "characterising"}, Exempt: []string{"flavouring-amount"},
			Base: AtUse, Lost: UseFinished, Volatile: Finished, Cite: at("5.1")},
		Allergens: Allergens{
			Show:      InList,
			Table:     allergensWithout(at("4.2.1.4"), "celery", "mustard", "lupin", "molluscs", "pine nuts"),
			Sulphites: Part{10 * unit.MgPerKg, From, Finished, at("4.2.1.4")},
			Cite:      at("4.2.1.4"),
		},
		Dates: Dates{
			Forms: []FormStep{{3, DayMonth, at("4.7.1(ii)")}, {0, MonthYear, at("4.7.1(ii)")}},
			UseBy: DayMonth,
			Fresh: 24 * unit.Hour,
			Cite:  at("4.7"),
		},
		Nutrition: codexNutrition(),
	}
}

func codexKinds(at func(string) Cite) []Kind {
	return []Kind{{Prepacked, []Need{
		{role.Name, Must, "", at("4.1")},
		{role.List, Must, "", at("4.2")},
		{role.Allergens, Must, role.List, at("4.2.1.4")},
		{role.Quid, When, role.List, at("5.1")},
		{role.Net, Must, "", at("4.3")},
		{role.Operator, Must, "", at("4.4")},
		{role.Origin, When, "", at("4.5")},
		{role.Batch, Must, "", at("4.6")},
		{role.Date, Must, "", at("4.7.1")},
		{role.Keep, When, "", at("4.7.2")},
		{role.Use, When, "", at("4.8")},
	}}}
}

// codexNutrition has the energy factors of the guideline; it sets no rounding.
func codexNutrition() Nutrition {
	c := memory(cxg, "3.3.1")
	line := func(key, in, of string) Nutrient {
		return Nutrient{Key: key, Unit: in, Of: of, Must: true, Cite: memory(cxg, "3.2")}
	}
	return Nutrition{
		Per: []string{"100g"},
		Nutrients: []Nutrient{
			line("energy-kj", "kJ", ""), line("energy-kcal", "kcal", ""), line("protein", "g", ""),
			line("carbohydrate", "g", ""), line("sugars", "g", "carbohydrate"), line("fat", "g", ""),
			line("saturates", "g", "fat"), line("sodium", "mg", ""),
		},
		Factors: []Factor{{"carbohydrate", 170, 40, c}, {"protein", 170, 40, c}, {"fat", 370, 90, c},
			{"alcohol", 290, 70, c}, {"organic acids", 130, 30, c}},
		Cite: memory(cxg, "3"),
	}
}
