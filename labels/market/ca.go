package market

import "chablon/labels/unit"

// ca is Canada: the Food and Drug Regulations and the Safe Food for Canadians
// Regulations; everything in English and French.
func ca() *Market {
	return &Market{
		Code:      "ca",
		Places:    []string{"CA"},
		Languages: Languages{[]string{"en", "fr"}, Each, readOn(sfcr, "s. 206(1)").via("inspection.canada.ca")},
		Kinds:     caKinds(),
		Heights: []Height{
			{Role: "list", Least: 1100 * unit.UM, Lead: 2500 * unit.UM, Measure: XHeight, Cite: readIn(fdr, "B.01.008.1(1)(e)")},
			{Face: 10 * unit.CM2, Edge: UpTo, Least: 800 * unit.UM, Measure: CapsOrO, Cite: readOn(sfcr, "s. 210(3)")},
			{Least: 1600 * unit.UM, Measure: CapsOrO, Cite: readOn(sfcr, "s. 210(2)")},
		},
		Lot:  Lot{"", false, memory(sfcr, "s. 92, lot code")},
		Net:  caNet(),
		List: List{Cite: memory(fdr, "B.01.008.2"), Order: Order{Base: AtUse, Cite: memory(fdr, "B.01.008.2(3)")}},
		Allergens: Allergens{
			Show:            ListOrLine,
			LineComplete:    true,
			LineWithoutList: true,
			Table:           allergensWithout(readOn(fdr, "B.01.010.1(1)").via("canada.ca, allergens and gluten sources"), "celery", "lupin"),
			Sulphites:       Part{10 * unit.MgPerKg, From, Finished, readOn(fdr, "B.01.010.3(1)(b)(iii)")},
			Cite:            readOn(fdr, "B.01.010.3"),
		},
		Dates: Dates{
			Forms:  []FormStep{{0, DayMonth, readOn(fdr, "B.01.007(4)").via("inspection.canada.ca")}},
			Order:  []string{"year", "month", "day"},
			Months: []string{"JA", "FE", "MR", "AL", "MA", "JN", "JL", "AU", "SE", "OC", "NO", "DE"},
			Within: 90,
			Cite:   readOn(fdr, "B.01.007(1.1), (4), (5)").via("inspection.canada.ca"),
		},
		Nutrition: caNutrition(),
	}
}

// caKinds: a date is due where the food keeps at most 90 days, which Dates
// decides.
func caKinds() []Kind {
	who := readOn(sfcr, "s. 218").via("inspection.canada.ca")
	return []Kind{
		{Prepacked, []Need{
			{"name", Must, "", who},
			{"net", Must, "", readOn(sfcr, "s. 221").via("inspection.canada.ca")},
			{"list", Must, "", memory(fdr, "B.01.008.2")},
			{"allergens", Must, "list", readOn(fdr, "B.01.010.1(2)").via("canada.ca, allergens and gluten sources")},
			{"date", When, "", readOn(fdr, "B.01.007(1.1)").via("inspection.canada.ca")},
			{"keep", When, "", readOn(fdr, "B.01.007(1.1)").via("inspection.canada.ca")},
			{"operator", Must, "", who},
			{"nutrition", Must, "", readOn(fdr, "B.01.401").via("inspection.canada.ca")},
			{"batch", Must, "", memory(sfcr, "s. 92, lot code")},
		}},
		{Case, []Need{
			{"name", Must, "", who},
			{"operator", Must, "", who},
			{"batch", Must, "", memory(sfcr, "s. 92, lot code")},
		}},
	}
}

// caNet goes by the older regulations on packaging, which were read; those on
// food are remembered to have the same steps.
func caNet() Net {
	c := readOn(cplr, "s. 14(2)")
	step := func(cm2, um int64) DigitStep {
		return DigitStep{Panel: unit.Area(cm2) * unit.CM2, ByPanel: true, Least: unit.Length(um) * unit.UM,
			Bold: true, Measure: CapsOrO, Cite: c}
	}
	return Net{
		Systems: []string{"metric"},
		Digits:  []DigitStep{step(32, 1600), step(258, 3200), step(645, 6400), step(2580, 9500), step(0, 12_700)},
		Cite:    memory(sfcr, "Schedule 6"),
	}
}

// caNutrition: rounding from memory; the percentages of the daily value and
// the amounts of vitamins and minerals are left out.
func caNutrition() Nutrition {
	c := memory(fdr, "table to B.01.401")
	line := func(key, in, of string, bands []Band) Nutrient {
		return Nutrient{Key: key, Unit: in, Of: of, Must: true, Bands: bands, Cite: c}
	}
	metal := func(key string) Nutrient { return line(key, "mg", "", nil) }
	return Nutrition{
		Per: []string{"portion"},
		Nutrients: []Nutrient{
			line("energy-kcal", "kcal", "", usEnergy()),
			line("fat", "g", "", usFat()),
			line("saturates", "g", "fat", usFat()),
			line("trans", "g", "fat", caTrans()),
			line("carbohydrate", "g", "", caWhole()),
			line("fibre", "g", "carbohydrate", caWhole()),
			line("sugars", "g", "carbohydrate", caWhole()),
			line("protein", "g", "", caWhole()),
			line("cholesterol", "mg", "", []Band{{To: 2 * Milli}, {Step: 5 * Milli}}),
			line("sodium", "mg", "", usSodium()),
			metal("potassium"), metal("calcium"), metal("iron"),
		},
		Factors: []Factor{{"carbohydrate", 0, 40, c}, {"protein", 0, 40, c}, {"fat", 0, 90, c}},
		Cite:    c,
	}
}

// caTrans: zero below 0.2 g.
func caTrans() []Band {
	return []Band{{To: One / 5}, {To: One / 2, Step: One / 10, Digits: 1}, {To: 5 * One, Step: One / 2, Digits: 1}, {Step: One}}
}

// caWhole: zero below half a gram, then whole grams.
func caWhole() []Band { return []Band{{To: One / 2}, {Step: One}} }
