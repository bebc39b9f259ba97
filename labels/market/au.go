package market

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// au is Australia and New Zealand, which share the Food Standards Code.
func au() *Market {
	at := func(article string) Cite { return memory(fsc, article) }
	return &Market{
		Code:      "au",
		Places:    []string{"AU", "NZ"},
		Languages: Languages{[]string{"en"}, Each, at("Standard 1.2.1")},
		Operator:  Operator{[]string{"AU", "NZ"}, at("Standard 1.2.2: name and address in Australia or New Zealand of the supplier")},
		Kinds:     auKinds(),
		Heights:   []Height{{Measure: XHeight, Cite: at("Standard 1.2.1: legible; no general size")}},
		Lot:       Lot{"", true, at("Standard 1.2.2")},
		Net:       Net{Systems: []string{"metric"}, Cite: at("National Trade Measurement Regulations 2009")},
		List: List{
			Cite:  at("Standard 1.2.4"),
			Order: Order{AtUse, Finished, at("Standard 1.2.4")},
			// the inner list of a compound below 5 % may be dropped
			Compound: Part{5 * unit.Percent, Below, Finished, at("Standard 1.2.4")},
			Water:    Part{5 * unit.Percent, Below, Finished, at("Standard 1.2.4")},
		},
		Quid: Quid{Cases: []string{"in-name", "emphasised", "characterising"}, Exempt: []string{"flavouring-amount"},
			Base: AtUse, Lost: UseFinished, Volatile: Finished, Cite: at("Standard 1.2.10")},
		Allergens: auAllergens(),
		Dates: Dates{
			Forms: []FormStep{{3, DayMonth, at("Standard 1.2.5")}, {0, MonthYear, at("Standard 1.2.5")}},
			UseBy: DayMonth,
			Order: []string{"day", "month", "year"},
			Years: 2,
			Cite:  at("Standard 1.2.5"),
		},
		Nutrition: auNutrition(at),
		Names:     auNames(),
		Kitchen:   auKitchen(at("Standard 3.2.2")),
	}
}

func auKinds() []Kind {
	at := func(article string) Cite { return memory(fsc, article) }
	return []Kind{{Prepacked, []Need{
		{role.Name, Must, "", at("Standard 1.2.2")},
		{role.Batch, Must, "", at("Standard 1.2.2")},
		{role.Operator, Must, "", at("Standard 1.2.2")},
		{role.List, Must, "", at("Standard 1.2.4")},
		{role.Allergens, Must, "", readIn(fsc, "Standard 1.2.3").via("foodallergyaware.org.au")},
		{role.Date, Must, "", at("Standard 1.2.5")},
		{role.Keep, When, "", at("Standard 1.2.6")},
		{role.Use, When, "", at("Standard 1.2.6")},
		{role.Nutrition, Must, "", at("Standard 1.2.8")},
		{role.Quid, When, role.List, at("Standard 1.2.10")},
		{role.Net, Must, "", at("National Trade Measurement Regulations 2009")},
		{role.Origin, When, "", at("country of origin labelling")},
	}}}
}

// auAllergens: bold in the list each time, and a bold line right beside it.
// In that line "gluten" stands for rye, barley and oats.
func auAllergens() Allergens {
	c := readIn(fsc, "Standard 1.2.3, Schedule 9").via("foodallergyaware.org.au")
	table := allergensWithout(c, "celery", "mustard")
	for i, a := range table {
		if slices.Contains([]string{"rye", "barley", "oats"}, a.ID) {
			table[i].Label = "gluten"
		}
	}
	return Allergens{
		Show:            ListAndLine,
		LineComplete:    true,
		LineWithoutList: true,
		Table:           table,
		Sulphites:       Part{10 * unit.MgPerKg, From, Finished, c},
		Exceptions:      auExceptions(),
		Cite:            c,
	}
}

// auExceptions: glucose syrup of at most 20 mg/kg of gluten, soya oil that was
// degummed, neutralised, bleached and deodorised, and what follows.
func auExceptions() []Exception {
	c := readOnDay("2026-11-28", fsc, "Standard 1.2.3-4(1)(b)").via("legislation.gov.au F2016L00783; foodstandards.gov.au, 2022")
	return []Exception{
		{[]string{"wheat"}, "wheat-glucose-syrup", false, c}, {[]string{"wheat"}, "distillate", false, c}, {[]string{"milk"}, "distillate", false, c},
		{[]string{"soybeans"}, "refined-soya-oil", false, c}, {[]string{"soybeans"}, "soya-tocopherols", false, c}, {[]string{"soybeans"}, "soya-phytosterols", false, c},
	}
}

// auNutrition: no more than three significant figures; within that, as house
// rule, tenths of a gram, whole milligrams and kilojoules. Polyols have factors
// of their own there, each another; here they count as carbohydrate.
func auNutrition(at func(string) Cite) Nutrition {
	c := at("Standard 1.2.8, Schedule 12")
	line := func(key, in, of string) Nutrient {
		fine := map[string]Band{"kJ": {To: 1000 * One, Step: One}, "g": {To: 100 * One, Step: One / 10, Digits: 1},
			"mg": {To: One, Step: Milli}}[in]
		return Nutrient{Key: key, Unit: in, Of: of, Must: true, Bands: []Band{fine, {Sig: 3}}, Cite: c}
	}
	f := at("Schedule 11")
	return Nutrition{
		Per: []string{"portion", "100g"},
		Nutrients: []Nutrient{
			line("energy-kj", "kJ", ""), line("protein", "g", ""), line("fat", "g", ""), line("saturates", "g", "fat"),
			line("carbohydrate", "g", ""), line("sugars", "g", "carbohydrate"), line("sodium", "mg", ""),
		},
		Factors: []Factor{{"carbohydrate", 170, 0, f}, {"protein", 170, 0, f}, {"fat", 370, 0, f},
			{"alcohol", 290, 0, f}, {"organic acids", 130, 0, f}, {"fibre", 80, 0, f}},
		Panel: auPanel(),
		Cite:  c,
	}
}

func auKitchen(c Cite) []Limit {
	hot := onlyC(60)
	return []Limit{
		cooling("cooling-first", &hot, onlyC(21), 2*unit.Hour, c),
		cooling("cooling-whole", &hot, onlyC(5), 6*unit.Hour, c),
		keepAt("cold", Cold, onlyC(5), UpTo, c),
		keepAt("hot", Hot, onlyC(60), From, c),
	}
}
