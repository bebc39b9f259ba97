package market

import "chablon/labels/role"

import "chablon/labels/unit"

// ficMarket builds what Regulation (EU) No 1169/2011 asks, for the Union and
// for the markets whose law has the same articles. at cites one of them, lot
// the act on batch marks.
func ficMarket(at, lot func(article string) Cite) *Market {
	return &Market{
		Kinds:     ficKinds(at, lot),
		Reliefs:   ficReliefs(at, lot),
		Heights:   ficHeights(at),
		Lot:       Lot{"L", true, lot("Art. 4 and 5")},
		List:      ficList(at),
		Quid:      ficQuid(at),
		Allergens: ficAllergens(at),
		Dates:     ficDates(at),
		Nutrition: ficNutrition(at),
		Triggers:  ficTriggers(at),
	}
}

func ficKinds(at, lot func(string) Cite) []Kind {
	need := func(what role.Role, d Duty, in role.Role, article string) Need { return Need{what, d, in, at(article)} }
	loose := []Need{bearsName(), need(role.Allergens, Must, "", "Art. 44(1)(a)")}
	return []Kind{
		{Prepacked, []Need{
			need(role.Name, Must, "", "Art. 9(1)(a)"),
			need(role.List, Must, "", "Art. 9(1)(b)"),
			need(role.Allergens, Must, role.List, "Art. 9(1)(c), 21(1)"),
			need(role.Quid, When, role.List, "Art. 9(1)(d)"),
			need(role.Net, Must, "", "Art. 9(1)(e)"),
			need(role.Date, Must, "", "Art. 9(1)(f)"),
			need(role.Keep, When, "", "Art. 9(1)(g), 25"),
			need(role.Use, When, "", "Art. 9(1)(j), 27"),
			need(role.Operator, Must, "", "Art. 9(1)(h)"),
			need(role.Origin, When, "", "Art. 9(1)(i)"),
			need(role.OriginOf, When, "", "Art. 26(3)"),
			need(role.Strength, When, "", "Art. 9(1)(k)"),
			need(role.Nutrition, Must, "", "Art. 9(1)(l)"),
			{role.Batch, Must, "", lot("Art. 2(1)")},
		}},
		{Direct, []Need{bearsName(), need(role.Allergens, Must, role.List, "Art. 44(1)(a)")}}, // a list that shows them will do
		{Loose, loose},
		{Case, []Need{
			need(role.Name, Must, "", "Art. 8(7)"),
			need(role.Date, Must, "", "Art. 8(7)"),
			need(role.Keep, When, "", "Art. 8(7)"),
			need(role.Operator, Must, "", "Art. 8(7)"),
		}},
		{Remote, atDistance(at)},
	}
}

// atDistance lists what must be told before a purchase at a distance is
// concluded: all that the pack bears, but for the date. Batch marks are of
// another act, which asks nothing of it.
func atDistance(at func(string) Cite) (out []Need) {
	const article = "Art. 14(1)(a)"
	for _, what := range []role.Role{role.Name, role.List, role.Allergens, role.Net, role.Operator, role.Nutrition} {
		out = append(out, Need{what, Must, "", at(article)})
	}
	out[2].In = role.List
	for _, what := range []role.Role{role.Quid, role.Keep, role.Use, role.Origin, role.OriginOf, role.Strength} {
		out = append(out, Need{what, When, "", at(article)})
	}
	return append(out, Need{role.Date, Free, "", at(article)})
}

func ficReliefs(at, lot func(string) Cite) []Relief {
	on := func(r Relief) Relief { r.Sale = Prepacked; return r }
	return []Relief{
		on(Relief{Why: SmallNet, Net: 5 * unit.Gram, Edge: Below, Roles: []role.Role{role.Net}, Duty: Free, Cite: at("Annex IX 1(b)")}),
		on(Relief{Why: DayFresh, Roles: []role.Role{role.Date}, Duty: Free, Cite: at("Annex X 1(d)")}),
		on(Relief{Why: LocalSale, Roles: []role.Role{role.Nutrition}, Duty: Free, Cite: at("Annex V 19")}),
		on(Relief{Why: SmallFace, Face: 25 * unit.CM2, Edge: Below, Roles: []role.Role{role.Nutrition}, Duty: Free, Cite: at("Annex V 18")}),
		on(Relief{Why: SmallFace, Face: 10 * unit.CM2, Edge: Below, Roles: []role.Role{role.List}, Duty: Elsewhere, Cite: at("Art. 16(2)")}),
		on(Relief{Why: SmallFace, Face: 10 * unit.CM2, Edge: Below,
			Roles: []role.Role{role.Quid, role.Keep, role.Use, role.Operator, role.Origin, role.OriginOf, role.Strength, role.Nutrition}, Duty: Free, Cite: at("Art. 16(2)")}),
		on(Relief{Why: SmallFace, Face: 10 * unit.CM2, Edge: Below, Roles: []role.Role{role.Batch}, Duty: Free, Cite: lot("Art. 2(2)")}),
		on(Relief{Why: DateLot, Roles: []role.Role{role.Batch}, Duty: Free, Cite: lot("Art. 5")}),
		on(Relief{Why: UseByDate, Roles: []role.Role{role.Keep}, Duty: Must, Cite: at("Annex X 2(b)")}),
		{Why: UseByDate, Sale: Case, Roles: []role.Role{role.Keep}, Duty: Must, Cite: at("Annex X 2(b)")},
	}
}

func ficHeights(at func(string) Cite) []Height {
	const um = unit.UM
	beside := 75 * unit.Percent
	return []Height{
		{Role: role.NutritionFront, Least: 1200 * um, Measure: XHeight, Cite: at("Art. 34(3)")},
		{Role: role.Substitute, OfName: beside, Measure: XHeight, Cite: at("Annex VI A 4")},
		{Role: role.OriginOf, Of: role.Origin, OfName: beside, Least: 1200 * um, Measure: XHeight, Cite: readOnDay("2026-11-28", "Implementing Regulation (EU) 2018/775", "Art. 3").via("martinimanna.com, foodagriculturerequirements.com")},
		{Face: 80 * unit.CM2, Edge: Below, Least: 900 * um, Measure: XHeight, Cite: at("Art. 13(3)")},
		{Least: 1200 * um, Measure: XHeight, Cite: at("Art. 13(2), Annex IV")},
	}
}

func ficList(at func(string) Cite) List {
	two := func(base Base, article string) Part { return Part{2 * unit.Percent, Below, base, at(article)} }
	return List{
		Cite:        at("Art. 18 to 20, Annex VII"),
		Order:       Order{AtUse, Finished, at("Art. 18(1), Annex VII A 1")},
		Water:       Part{5 * unit.Percent, UpTo, Finished, at("Annex VII A 1")},
		Late:        two(Finished, "Annex VII A 6"),
		Compound:    two(Finished, "Annex VII E 2"),
		DefinedOnly: true,
		AndOr:       two(Finished, "Annex VII A 7"),
		AndOrMost:   2,
		Mixture:     Part{2 * unit.Percent, UpTo, Finished, at("Annex VII B")},
		Numbers:     at("Annex VII C"),
	}
}

func ficQuid(at func(string) Cite) Quid {
	return Quid{
		Cases: []string{"in-name", "emphasised", "characterising"},
		Exempt: []string{"drained-weight", "quantity-already-required", "flavouring-amount",
			"in-name-not-decisive", "composition-fixed", "varying-mixture", "with-sweeteners", "vitamins-in-nutrition"},
		Base: AtUse, Lost: UseFinished, Volatile: Finished,
		Over: Part{unit.Whole, Over, UseFinished, at("Annex VIII 4(a)")},
		Cite: at("Art. 22, Annex VIII"),
	}
}

func ficAllergens(at func(string) Cite) Allergens {
	except := func(key string, footnote bool, ids ...string) Exception {
		return Exception{ids, key, footnote, at("Annex II")}
	}
	grain := []string{"wheat", "rye", "barley", "oats"}
	nuts := []string{"almonds", "hazelnuts", "walnuts", "cashews", "pecan nuts", "brazil nuts", "pistachio nuts", "macadamia nuts"}
	return Allergens{
		Show:            Emphasis,
		LineWithoutList: true,
		Table:           allergensWithout(at("Annex II"), "pine nuts"),
		Sulphites:       Part{10 * unit.MgPerKg, Over, Finished, at("Annex II 12")},
		Exceptions: []Exception{
			except("wheat-glucose-syrup", true, "wheat"),
			except("wheat-maltodextrin", true, "wheat"),
			except("barley-glucose-syrup", false, "barley"),
			except("distillate", false, grain...),
			except("fish-gelatine-carrier", false, "fish"),
			except("isinglass-fining", false, "fish"),
			except("refined-soya-oil", true, "soybeans"),
			except("soya-tocopherols", false, "soybeans"),
			except("soya-phytosterols", false, "soybeans"),
			except("soya-plant-stanol-ester", false, "soybeans"),
			except("distillate", false, "milk"),
			except("lactitol", false, "milk"),
			except("distillate", false, nuts...),
			except("mustard-behenic-acid", false, "mustard"),
		},
		Cite: at("Art. 21(1)(b)"),
	}
}

func ficDates(at func(string) Cite) Dates {
	return Dates{
		Forms: []FormStep{
			{3, DayMonth, at("Annex X 1(c)")},
			{18, MonthYear, at("Annex X 1(c)")},
			{0, YearOnly, at("Annex X 1(c)")},
		},
		UseBy: DayMonth,
		Order: []string{"day", "month", "year"},
		Fresh: 24 * unit.Hour,
		Cite:  at("Art. 24, Annex X"),
	}
}

func ficTriggers(at func(string) Cite) []Trigger {
	present := func(key, of, article string) Trigger { return Trigger{key, of, Part{Cite: at(article)}} }
	share := func(key, of string, s unit.Share, e Edge, c Cite) Trigger {
		return Trigger{key, of, Part{s, e, Finished, c}}
	}
	return []Trigger{
		present("protective-atmosphere", "packaging-gas", "Annex III 1.1"),
		present("with-sweeteners", "sweeteners", "Annex III 2.1"),
		present("with-sugars-and-sweeteners", "sugars-and-sweeteners", "Annex III 2.2"),
		present("aspartame", "aspartame", "Annex III 2.3"),
		share("laxative", "added-polyols", 10*unit.Percent, Over, at("Annex III 2.4")),
		share("liquorice", "glycyrrhizinic-acid", 100*unit.MgPerKg, From, at("Annex III 3.1")),
		share("liquorice-strong", "glycyrrhizinic-acid", 4000*unit.MgPerKg, From, at("Annex III 3.2")),
		present("caffeine-added", "caffeine", "Annex III 4.2"),
		present("defrosted", "frozen-before-sale", "Annex VI A 2"),
	}
}
