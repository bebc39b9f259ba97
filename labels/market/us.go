package market

import "chablon/labels/role"

import "chablon/labels/unit"

// us is the United States: 21 CFR part 101 and the allergen acts; the kitchen
// follows the model Food Code, which states and counties adopt in their own
// editions.
func us() *Market {
	return &Market{
		Code:      "us",
		Places:    []string{"US"},
		Languages: Languages{[]string{"en"}, Each, memory(cfr, "101.15(c)")},
		Operator:  Operator{Cite: memory(cfr, "101.5: place of business of maker, packer or distributor, wherever; (c): who did not make it says so")},
		Kinds:     usKinds(),
		Reliefs: []Relief{{Why: LocalSale, Sale: Prepacked, Roles: []role.Role{role.Nutrition}, Duty: When,
			Cite: memory(cfr, "101.9(j)(1), (18)")}},
		Heights: []Height{
			{Role: role.Nutrition, Measure: XHeight, Cite: memory(cfr, "101.9(d): sizes of its own, see the panel")},
			{Least: unit.Inch / 16, Measure: CapsOrO, Cite: readIn(cfr, "101.2(c), 101.7(h)(2)")},
		},
		Lot: Lot{"", false, memory(cfr, "no general lot mark")},
		Net: usNet(),
		List: List{
			Cite:   readIn(cfr, "101.4(a)"),
			Order:  Order{Base: AtUse, Cite: readIn(cfr, "101.4(a)(1)")},
			Late:   Part{2 * unit.Percent, UpTo, AtUse, readIn(cfr, "101.4(a)(2)")},
			Blanks: []unit.Share{2 * unit.Percent, unit.Percent * 3 / 2, unit.Percent, unit.Percent / 2},
		},
		Allergens: usAllergens(),
		Dates:     Dates{None: true, Cite: memory(cfr, "no general date mark")},
		Nutrition: usNutrition(),
		Names:     usNames(),
		Kitchen:   usKitchen(),

		Fahrenheit: house(cfr, "no rule on the scale; refrigerators there show °F"),
	}
}

func usKinds() []Kind {
	return []Kind{{Prepacked, []Need{
		{role.Name, Must, "", memory(cfr, "101.3")},
		{role.Net, Must, "", readIn(cfr, "101.7(f)")},
		{role.List, Must, "", readIn(cfr, "101.4(a)")},
		{role.Allergens, Must, role.List, memory(usc, "343(w)")},
		{role.Operator, Must, "", memory(cfr, "101.5")},
		{role.Keep, When, "", memory(cfr, "101.17")},
		{role.Nutrition, Must, "", readOn(cfr, "101.9(a)")},
	}}}
}

// usNet: both systems of units; the type goes by the principal display panel.
func usNet() Net {
	c := memory(cfr, "101.7(i)")
	step := func(in2 int64, num, den int64) DigitStep {
		return DigitStep{Panel: unit.Area(in2) * unit.In2, ByPanel: true, Least: unit.Inch.Mul(num, den), Measure: CapsOrO, Cite: c}
	}
	return Net{
		Systems: []string{"customary", "metric"},
		Digits:  []DigitStep{step(5, 1, 16), step(25, 1, 8), step(100, 3, 16), step(400, 1, 4), step(0, 1, 2)},
		Cite:    readIn(cfr, "101.7(f)"),
	}
}

func usAllergens() Allergens {
	c := memory(usc, "343(w), 321(qq)")
	return Allergens{
		Show:            ListOrLine,
		LineComplete:    true,
		LineWithoutList: true,
		Table:           allergensWithout(c, "rye", "barley", "oats", "celery", "mustard", "lupin", "molluscs", "sulphites"),
		Sulphites:       Part{10 * unit.MgPerKg, From, Finished, readOn(cfr, "130.9(a)")},
		Exceptions: []Exception{{[]string{"soybeans"}, "refined-soya-oil", false,
			readOnDay("2026-11-28", usc, "321(qq)(2)(A), highly refined oil").via("fda.gov, petitions under 343(w)(6)")}},
		Cite: c,
	}
}

// usNutrition is declared per serving; the rounding was read in the agency's
// own table. Amounts of vitamins and minerals go by their daily values: tenths
// where that is below 25, tens of milligrams from 250 on; the first of these
// was read in a copy of the agency's guidance.
func usNutrition() Nutrition {
	line := func(key, of string, bands []Band, reference Amount) Nutrient {
		return Nutrient{key, "g", of, true, bands, reference * One, memory(cfr, "101.9(c)(9)"), Zero{}, usRounding("101.9(c)")}
	}
	metal := func(key, in string, reference, step Amount, digits int, c Cite) Nutrient {
		return Nutrient{key, in, "", true, []Band{{Step: step, Digits: digits}}, reference, memory(cfr, "101.9(c)(8)(iv)"), Zero{}, c}
	}
	tenths := readOn(roundUS, "101.9(c)(8)(iii)").via("a copy of the guidance on rounding, beside its explanation")
	tens := memory(cfr, "101.9(c)(8)(iii)")
	mg := func(key string, bands []Band, reference Amount) Nutrient {
		return Nutrient{key, "mg", "", true, bands, reference * Milli, memory(cfr, "101.9(c)(9)"), Zero{}, usRounding("101.9(c)")}
	}
	return Nutrition{
		Per: []string{"portion"},
		Nutrients: []Nutrient{
			{"energy-kcal", "kcal", "", true, usEnergy(), 2000 * One, memory(cfr, "101.9(c)(9)"), Zero{}, usRounding("101.9(c)(1)")},
			line("fat", "", usFat(), 78),
			line("saturates", "fat", usFat(), 20),
			line("trans", "fat", usFat(), 0),
			mg("cholesterol", []Band{{To: 2 * Milli}, {To: 5 * Milli, With: true, Less: 5 * Milli}, {Step: 5 * Milli}}, 300),
			mg("sodium", usSodium(), 2300),
			line("carbohydrate", "", usWhole(), 275),
			line("fibre", "carbohydrate", usWhole(), 28),
			line("sugars", "carbohydrate", usWhole(), 0),
			{"added-sugars", "g", "sugars", true, usWhole(), 50 * One, memory(cfr, "101.9(c)(9)"), Zero{}, memory(cfr, "101.9(c)(6)(iii)")},
			line("protein", "", usWhole(), 50),
			metal("vitamin-d", "µg", 20*Micro, Micro/10, 1, tenths),
			metal("calcium", "mg", 1300*Milli, 10*Milli, 0, tens),
			metal("iron", "mg", 18*Milli, Milli/10, 1, tenths),
			metal("potassium", "mg", 4700*Milli, 10*Milli, 0, tens),
		},
		Factors: []Factor{
			{"carbohydrate", 0, 40, memory(cfr, "101.9(c)(1)(i)(B)")},
			{"protein", 0, 40, memory(cfr, "101.9(c)(1)(i)(B)")},
			{"fat", 0, 90, memory(cfr, "101.9(c)(1)(i)(B)")},
			{"alcohol", 0, 70, memory(cfr, "101.9(c)(1)(i): names no factor for alcohol; 7 kcal a gram is usual")},
		},
		Percent:      []Band{{Step: One}},
		ByDifference: true,
		Micros:       []string{"vitamin-d", "calcium", "iron", "potassium"},
		NoPercent:    []string{"energy-kcal", "protein"},
		Panel:        usPanel(),
		Cite:         readOn(cfr, "101.9"),
	}
}

func usRounding(article string) Cite {
	return readOn(roundUS, article).via("fda.gov, attachment 7 of an inspection guide")
}

func usEnergy() []Band {
	return []Band{{To: 5 * One}, {To: 50 * One, With: true, Step: 5 * One}, {Step: 10 * One}}
}

func usFat() []Band {
	return []Band{{To: One / 2}, {To: 5 * One, Step: One / 2, Digits: 1}, {Step: One}}
}

func usSodium() []Band {
	return []Band{{To: 5 * Milli}, {To: 140 * Milli, With: true, Step: 5 * Milli}, {Step: 10 * Milli}}
}

func usWhole() []Band {
	return []Band{{To: One / 2}, {To: One, Less: One}, {Step: One}}
}

// MicroPercent rounds the percentage of a vitamin or mineral as the United
// States do: in steps of 2 up to 10 %, of 5 up to 50 %, of 10 above; below 2 %
// it is zero.
func MicroPercent(v Amount) (Rounded, bool) {
	return round([]Band{{To: 2 * One}, {To: 10 * One, With: true, Step: 2 * One},
		{To: 50 * One, With: true, Step: 5 * One}, {Step: 10 * One}}, v, "%")
}

// MicroPercentSource cites the rule that MicroPercent follows.
func MicroPercentSource() Cite {
	return readOn(roundUS, "101.9(c)(8)(iii)").via("a copy of the food labeling guide, appendix H")
}
