package market

import "chablon/labels/unit"

// ficNutrition is the nutrition declaration of Regulation (EU) No 1169/2011,
// per 100 g, rounded as the Commission's guidance of December 2012 proposes
// (section 6; the table was found on two independent pages).
func ficNutrition(at func(string) Cite) Nutrition {
	rounding := readIn(guidance, "section 6").via("two independent pages")
	line := func(key, of string, must bool, bands []Band, g Amount) Nutrient {
		return Nutrient{key, "g", of, must, bands, g * One, at("Annex XIII B"), Zero{}, rounding}
	}
	energy := func(key, in string, reference Amount) Nutrient {
		return Nutrient{key, in, "", true, []Band{{Step: One}}, reference * One, at("Annex XIII B"), Zero{}, rounding}
	}
	lines := []Nutrient{
		energy("energy-kj", "kJ", 8400),
		energy("energy-kcal", "kcal", 2000),
		line("fat", "", true, coarse(), 70),
		line("saturates", "fat", true, fine(), 20),
		line("mono-unsaturates", "fat", false, fine(), 0),
		line("polyunsaturates", "fat", false, fine(), 0),
		line("carbohydrate", "", true, coarse(), 260),
		line("sugars", "carbohydrate", true, coarse(), 90),
		line("polyols", "carbohydrate", false, coarse(), 0),
		line("starch", "carbohydrate", false, coarse(), 0),
		line("fibre", "", false, coarse(), 0),
		line("protein", "", true, coarse(), 50),
		line("salt", "", true, saltBands(), 6),
	}
	return Nutrition{
		Per:       []string{"100g"},
		Nutrients: append(lines, micronutrients(at, rounding)...),
		Factors:   ficFactors(at("Annex XIV")),
		Exempt: []string{"single-ingredient-unprocessed", "herbs-and-spices", "salt", "table-top-sweetener", "coffee",
			"tea", "vinegar", "flavouring", "additive", "processing-aid", "enzyme", "gelatine", "jam-setting", "yeast",
			"chewing-gum"},
		Percent: []Band{{Step: One}},
		Cite:    at("Art. 30 to 32, Annex V and XV"),
	}
}

// coarse: whole grams from 10 g, tenths below, "< 0.5 g" up to 0.5 g.
func coarse() []Band {
	half := One / 2
	return []Band{
		{To: half, With: true, Less: half, OrZero: true, Digits: 1},
		{To: 10 * One, Step: One / 10, Digits: 1},
		{Step: One},
	}
}

// fine: as coarse, but "< 0.1 g" up to 0.1 g.
func fine() []Band {
	tenth := One / 10
	return []Band{
		{To: tenth, With: true, Less: tenth, OrZero: true, Digits: 1},
		{To: 10 * One, Step: tenth, Digits: 1},
		{Step: One},
	}
}

// saltBands: tenths from 1 g, hundredths below, "< 0.01 g" up to 0.0125 g.
func saltBands() []Band {
	return []Band{
		{To: 12_500 * Micro, With: true, Less: One / 100, OrZero: true, Digits: 2},
		{To: One, Step: One / 100, Digits: 2},
		{Step: One / 10, Digits: 1},
	}
}

// ficFactors gives kJ and kcal of one gram, in tenths.
func ficFactors(c Cite) []Factor {
	return []Factor{
		{"carbohydrate", 170, 40, c},
		{"polyols", 100, 24, c},
		{"protein", 170, 40, c},
		{"fat", 370, 90, c},
		{"salatrims", 250, 60, c},
		{"alcohol", 290, 70, c},
		{"organic acids", 130, 30, c},
		{"fibre", 80, 20, c},
		{"erythritol", 0, 0, c},
	}
}

// micronutrients lists the vitamins and minerals with their reference values;
// eight of them are rounded to three significant figures, the others to two.
func micronutrients(at func(string) Cite, rounding Cite) []Nutrient {
	row := func(key, in string, value Amount, sig int) Nutrient {
		return Nutrient{key, in, "", false, []Band{{Sig: sig}}, value, at("Annex XIII A"), Zero{}, rounding}
	}
	const mg, ug = Milli, Micro
	return []Nutrient{
		row("vitamin-a", "µg", 800*ug, 3), row("vitamin-d", "µg", 5*ug, 2), row("vitamin-e", "mg", 12*mg, 2),
		row("vitamin-k", "µg", 75*ug, 2), row("vitamin-c", "mg", 80*mg, 2), row("thiamin", "mg", 1100*ug, 2),
		row("riboflavin", "mg", 1400*ug, 2), row("niacin", "mg", 16*mg, 2), row("vitamin-b6", "mg", 1400*ug, 2),
		row("folic-acid", "µg", 200*ug, 3), row("vitamin-b12", "µg", 2500*ug/1000, 2), row("biotin", "µg", 50*ug, 2),
		row("pantothenic-acid", "mg", 6*mg, 2), row("potassium", "mg", 2000*mg, 3), row("chloride", "mg", 800*mg, 3),
		row("calcium", "mg", 800*mg, 3), row("phosphorus", "mg", 700*mg, 3), row("magnesium", "mg", 375*mg, 3),
		row("iron", "mg", 14*mg, 2), row("zinc", "mg", 10*mg, 2), row("copper", "mg", 1*mg, 2),
		row("manganese", "mg", 2*mg, 2), row("fluoride", "mg", 3500*ug, 2), row("selenium", "µg", 55*ug, 2),
		row("chromium", "µg", 40*ug, 2), row("molybdenum", "µg", 50*ug, 2), row("iodine", "µg", 150*ug, 3),
	}
}

// Significant reports whether an amount of a vitamin or mineral per 100 g may
// be declared: 15 % of the reference value at least (Annex XIII A 2).
func (n Nutrition) Significant(key string, v Amount) bool {
	x, ok := n.Find(key)
	return ok && x.Reference > 0 && unit.CmpProducts(int64(max(v, 0)), 100, int64(x.Reference), 15) >= 0
}
