package market

import "chablon/labels/role"

import "chablon/labels/unit"

// ca is Canada: the Food and Drug Regulations and the Safe Food for Canadians
// Regulations; everything in English and French.
func ca() *Market {
	return &Market{
		Code:      "ca",
		Places:    []string{"CA"},
		Languages: Languages{[]string{"en", "fr"}, Each, readOn(sfcr, "s. 206(1)").via("inspection.canada.ca")},
		Operator:  Operator{Cite: memory(sfcr, "s. 218, 222: by or for whom it is made, wherever; imported by, of who is in Canada")},
		Kinds:     caKinds(),
		Changes:   caChanges(),
		Heights: []Height{
			{Role: role.List, Least: 1100 * unit.UM, Lead: 2500 * unit.UM, Measure: XHeight, Cite: readIn(fdr, "B.01.008.1(1)(e)")},
			{Role: role.Nutrition, Measure: XHeight, Cite: readOnDay("2026-11-28", fdr, "B.01.450: sizes of its own, see the panel").via("the Department of Justice's XML, consolidated 2026-06-15")},
			{Face: 10 * unit.CM2, Edge: UpTo, Least: 800 * unit.UM, Measure: CapsOrO, Cite: readOn(sfcr, "s. 210(3)")},
			{Least: 1600 * unit.UM, Measure: CapsOrO, Cite: readOn(sfcr, "s. 210(2)")},
		},
		Lot: Lot{"", false, memory(sfcr, "s. 92, lot code")},
		Net: caNet(),
		List: List{Cite: memory(fdr, "B.01.008.2"), Order: Order{Base: AtUse, Cite: memory(fdr, "B.01.008.2(3)")},
			SetOff: readOnDay("2026-11-28", fdr, "B.01.008.2(2)(a)").via("the Department of Justice's XML, consolidated 2026-06-15"),
			Sugars: readOnDay("2026-11-28", fdr, "B.01.008.3, B.01.001 sugars-based ingredient").via("the Department of Justice's XML, consolidated 2026-06-15"),
			Titled: readOnDay("2026-11-28", fdr, "B.01.008.2, B.01.010.3").via("the Department of Justice's XML, consolidated 2026-06-15")},
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
			{role.Name, Must, "", who},
			{role.Net, Must, "", readOn(sfcr, "s. 221").via("inspection.canada.ca")},
			{role.List, Must, "", memory(fdr, "B.01.008.2")},
			{role.Allergens, Must, role.List, readOn(fdr, "B.01.010.1(2)").via("canada.ca, allergens and gluten sources")},
			{role.Date, When, "", readOn(fdr, "B.01.007(1.1)").via("inspection.canada.ca")},
			{role.Keep, When, "", readOn(fdr, "B.01.007(1.1)").via("inspection.canada.ca")},
			{role.Operator, Must, "", who},
			{role.Nutrition, Must, "", readOn(fdr, "B.01.401").via("inspection.canada.ca")},
			{role.Batch, Must, "", memory(sfcr, "s. 92, lot code")},
		}},
		{Case, []Need{
			{role.Name, Must, "", who},
			{role.Operator, Must, "", who},
			{role.Batch, Must, "", memory(sfcr, "s. 92, lot code")},
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

// caNutrition: the rounding was read in the table; daily values, and what makes
// a food free of something, are from memory. The percentage of saturated fat is
// that of saturated and trans fat together; that of a mineral nutrient, sodium
// among them, comes from the rounded amount (B.01.401(1.2)). "Free" is asked of
// the reference amount and of the portion; only the portion is known here.
func caNutrition() Nutrition {
	c := readOnDay("2026-11-28", fdr, "table to B.01.401").via("the Department of Justice's XML, consolidated 2026-06-15")
	values := memory(fdr, "B.01.401, Table of Daily Values")
	line := func(key, in, of string, reference Amount, bands []Band, free ...Bound) Nutrient {
		n := Nutrient{Key: key, Unit: in, Of: of, Must: true, Bands: bands, Reference: reference, Ref: values, Cite: c}
		if len(free) > 0 {
			n.Zero = Zero{free, memory(fdr, "table of permitted claims: free, for the portion")}
		}
		return n
	}
	lowSaturates := Bound{"saturates", 2 * One}
	return Nutrition{
		Per: []string{"portion"},
		Nutrients: []Nutrient{
			line("energy-kcal", "kcal", "", 0, caEnergy(), Bound{"energy-kcal", 5 * One}),
			line("fat", "g", "", 75*One, caFat(), Bound{"fat", One / 2}),
			line("saturates", "g", "fat", 20*One, caFat(), Bound{"saturates", One / 5}, Bound{"trans", One / 5}),
			line("trans", "g", "fat", 0, caFat(), Bound{"trans", One / 5}, lowSaturates),
			line("carbohydrate", "g", "", 0, caWhole()),
			line("fibre", "g", "carbohydrate", 28*One, caWhole()),
			line("sugars", "g", "carbohydrate", 100*One, caWhole()),
			line("protein", "g", "", 0, caProtein()),
			line("cholesterol", "mg", "", 0, []Band{{Step: 5 * Milli}}, Bound{"cholesterol", 2 * Milli}, lowSaturates),
			line("sodium", "mg", "", 2300*Milli, caSodium(), Bound{"sodium", 5 * Milli}),
			line("potassium", "mg", "", 3400*Milli, caMineral()),
			line("calcium", "mg", "", 1300*Milli, caMineral()),
			line("iron", "mg", "", 18*Milli, caIron()),
		},
		Factors: []Factor{{"carbohydrate", 0, 40, factors()}, {"protein", 0, 40, factors()}, {"fat", 0, 90, factors()},
			{"alcohol", 0, 70, memory(fdr, "7 kcal a gram of alcohol: practice of the agency, not in the regulations")}},
		Percent:      []Band{{Step: One}},
		ByDifference: true,
		NoneOfZero:   true,
		FromRounded:  []string{"sodium", "potassium", "calcium", "iron"},
		Together:     [2]string{"saturates", "trans"},
		Panel:        caPanel(),
		Symbol:       caSymbol(values),
		Cite:         c,
	}
}

// factors are the general ones.
func factors() Cite { return memory(fdr, "energy factors of 4, 4 and 9 kcal") }

// caEnergy: below 5 kcal whole ones, then steps of 5, above 50 of 10.
func caEnergy() []Band {
	return []Band{{To: 5 * One, Step: One}, {To: 50 * One, With: true, Step: 5 * One}, {Step: 10 * One}}
}

// caFat: tenths of a gram below half a gram, then halves, above 5 g whole ones.
func caFat() []Band {
	return []Band{{To: One / 20}, {To: One / 2, Step: One / 10, Digits: 1}, {To: 5 * One, With: true, Step: One / 2, Digits: 1}, {Step: One}}
}

// caProtein: tenths of a gram below half a gram, then whole ones.
func caProtein() []Band {
	return []Band{{To: One / 20}, {To: One / 2, Step: One / 10, Digits: 1}, {Step: One}}
}

// caSodium: below 5 mg whole ones, then steps of 5 mg, above 140 mg of 10 mg.
func caSodium() []Band {
	return []Band{{To: 5 * Milli, Step: Milli}, {To: 140 * Milli, With: true, Step: 5 * Milli}, {Step: 10 * Milli}}
}

// caMineral: zero below 5 mg, then steps of 10 mg, from 50 mg of 25 mg, from
// 250 mg of 50 mg.
func caMineral() []Band {
	return []Band{{To: 5 * Milli}, {To: 50 * Milli, Step: 10 * Milli}, {To: 250 * Milli, Step: 25 * Milli}, {Step: 50 * Milli}}
}

// caIron: zero below 0.05 mg, then steps of 0.1 mg, from 0.5 mg of 0.25 mg,
// from 2.5 mg of 0.5 mg.
func caIron() []Band {
	return []Band{{To: Milli / 20}, {To: Milli / 2, Step: Milli / 10, Digits: 1}, {To: Milli * 5 / 2, Step: Milli / 4, Digits: 2},
		{Step: Milli / 2, Digits: 1}}
}

// caWhole: zero below half a gram, then whole grams.
func caWhole() []Band { return []Band{{To: One / 2}, {Step: One}} }
