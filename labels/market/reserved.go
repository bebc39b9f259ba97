package market

import "chablon/labels/unit"

// Composition is the least share of a component that a food must have to bear
// a name. A Composition with Most is an upper bound. It holds for food labelled
// from From on and until the day before Until; a zero day sets no bound.
type Composition struct {
	Food  string // key of the name: "milk-chocolate"
	Of    string // key of the component: "milk-fat"
	Share unit.Share
	Most  bool
	From  unit.Date
	Until unit.Date
	Cite
}

// Reserved gives the bounds behind a name on a day; none where this market's
// table has none.
func (m *Market) Reserved(food string, on unit.Date) (out []Composition) {
	for _, c := range m.Names {
		if c.Food == food && !on.Before(c.From) && (c.Until.IsZero() || on.Before(c.Until)) {
			out = append(out, c)
		}
	}
	return out
}

// Bound is one component of a name, in tenths of a per cent; of an upper bound
// less than nothing.
type bound struct {
	of     string
	tenths int64
}

// named gives the rows of one name.
func named(food string, c Cite, bounds ...bound) (out []Composition) {
	for _, b := range bounds {
		row := Composition{Food: food, Of: b.of, Share: unit.Share(max(b.tenths, -b.tenths)) * unit.Percent / 10, Most: b.tenths < 0, Cite: c}
		out = append(out, row)
	}
	return out
}

// kakao cites the Directive on chocolate by what was read of it: the German
// ordinance that carries it over, article by article.
func kakao(article string) Cite { return readIn(chocolate, article).via("KakaoV 2003 Anl. 1") }

// chocolates are the names of Directive 2000/36/EC, Annex I Part A, each with
// where it stands. Shares are of the food after all other edible matter was
// taken off; that ("other") may be 40 % of the whole at most (Annex I B). Other
// fats than cocoa butter and milk fat may be 5 % (Art. 2).
func chocolates(c func(article string) Cite) (out []Composition) {
	other, fats := bound{"other", -400}, bound{"vegetable-fat", -50}
	add := func(article, food string, bounds ...bound) { out = append(out, named(food, c(article), bounds...)...) }
	add("Annex I A.2(a)", "cocoa-powder", bound{"cocoa-butter", 200})
	add("Annex I A.2(c)", "chocolate-powder", bound{"cocoa-powder", 320})
	add("Annex I A.2(d)", "drinking-chocolate", bound{"cocoa-powder", 250})
	add("Annex I A.3(a), B.1", "chocolate", bound{"dry-cocoa-solids", 350}, bound{"cocoa-butter", 180}, bound{"non-fat-cocoa", 140}, other, fats)
	add("Annex I A.3(b)", "chocolate-vermicelli", bound{"dry-cocoa-solids", 320}, bound{"cocoa-butter", 120}, bound{"non-fat-cocoa", 140}, fats)
	add("Annex I A.3(b)", "couverture", bound{"dry-cocoa-solids", 350}, bound{"cocoa-butter", 310}, bound{"non-fat-cocoa", 25}, fats)
	add("Annex I A.3(b)", "gianduja", bound{"dry-cocoa-solids", 320}, bound{"non-fat-cocoa", 80}, bound{"ground-hazelnut", 200}, bound{"ground-hazelnut", -400})
	add("Annex I A.4(a), B.1", "milk-chocolate", bound{"dry-cocoa-solids", 250}, bound{"milk-solids", 140}, bound{"non-fat-cocoa", 25}, bound{"milk-fat", 35}, bound{"total-fat", 250}, other, fats)
	add("Annex I A.4(b)", "milk-chocolate-vermicelli", bound{"dry-cocoa-solids", 200}, bound{"milk-solids", 120}, bound{"total-fat", 120}, fats)
	add("Annex I A.4(b)", "milk-couverture", bound{"dry-cocoa-solids", 250}, bound{"milk-solids", 140}, bound{"non-fat-cocoa", 25}, bound{"milk-fat", 35}, bound{"total-fat", 310}, fats)
	add("Annex I A.5", "family-milk-chocolate", bound{"dry-cocoa-solids", 200}, bound{"milk-solids", 200}, bound{"non-fat-cocoa", 25}, bound{"milk-fat", 50}, bound{"total-fat", 250}, other, fats)
	add("Annex I A.6, B.1", "white-chocolate", bound{"cocoa-butter", 200}, bound{"milk-solids", 140}, bound{"milk-fat", 35}, other, fats)
	add("Annex I A.7", "filled-chocolate", bound{"outer-chocolate", 250})
	add("Annex I A.10", "praline", bound{"any-chocolate", 250})
	return out
}

// fruits are the kinds that the law on jam tells apart. What is in the group of
// the redcurrants: redcurrants, rowanberries, sea-buckthorns, blackcurrants,
// rosehips, quinces.
func fruits() []string {
	return []string{"fruit", "currants", "ginger", "cashew-apple", "passion-fruit"}
}

// jams are the least fruit of jam and jelly and of their extra kinds, in grams
// for 1 kg, in the order of fruits.
func jams(c Cite, plain, extra [5]int64) (out []Composition) {
	for i, f := range fruits() {
		for _, food := range []string{"jam", "jelly"} {
			out = append(out, named(food, c, bound{f, plain[i]})...)
			out = append(out, named("extra-"+food, c, bound{f, extra[i]})...)
		}
	}
	return out
}

// dated limits rows to some days.
func dated(in []Composition, from, until unit.Date) []Composition {
	for i := range in {
		in[i].From, in[i].Until = from, until
	}
	return in
}

// breakfastDay is the day on which Directive (EU) 2024/1438 is applied.
func breakfastDay() unit.Date { return unit.Date{Year: 2026, Month: 6, Day: 14} }

// jamsBefore are the amounts of Directive 2001/113/EC as it was first made.
func jamsBefore(c Cite) []Composition {
	return jams(c, [5]int64{350, 250, 150, 160, 60}, [5]int64{450, 350, 250, 230, 80})
}

// euNames are the names that the Union's law reserves. Jam that was made and
// labelled before the day may be sold out.
func euNames() []Composition {
	out := chocolates(kakao)
	old := jamsBefore(readIn("Directive 2001/113/EC", "Annex I.I").via("the text of 2001 as kept in the United Kingdom"))
	out = append(out, dated(old, unit.Date{}, breakfastDay())...)
	now := readOnDay("2026-11-28", "Directive 2001/113/EC as amended by (EU) 2024/1438", "Annex I.I").via("fsai.ie, and a report on the Polish act")
	plain := jams(now, [5]int64{450, 350, 180, 230, 80}, [5]int64{500, 450, 280, 290, 100})
	for i, r := range plain { // of the extra kinds only the general figure was read
		if r.Of != "fruit" && (r.Food == "extra-jam" || r.Food == "extra-jelly") {
			plain[i].Cite = memory("Directive 2001/113/EC as amended by (EU) 2024/1438", "Annex I.I")
		}
	}
	out = append(out, dated(plain, breakfastDay(), unit.Date{})...)
	out = append(out, named("marmalade", readIn("Directive 2001/113/EC", "Annex I.I"), bound{"citrus", 200})...)
	out = append(out, named("honey", readIn("Directive 2001/110/EC", "Annex II: nothing is added"), bound{"honey", 1000})...)
	return append(out, dairyFats()...)
}

// dairyFats are butter and its leaner kinds, and, from the code of an industry
// association that is no law, ices.
func dairyFats() []Composition {
	at := memory("Regulation (EU) No 1308/2013", "Annex VII, Part VII, Appendix II")
	out := named("butter", at, bound{"milk-fat", 800}, bound{"water", -160}, bound{"non-fat-milk-solids", -20})
	out = append(out, named("three-quarter-butter", at, bound{"milk-fat", 600}, bound{"milk-fat", -620})...)
	out = append(out, named("half-fat-butter", at, bound{"milk-fat", 390}, bound{"milk-fat", -410})...)
	code := memory("Code for Edible Ices of an industry association, 2013 (no law)", "3.4, 3.6")
	out = append(out, named("dairy-ice-cream", code, bound{"milk-fat", 50})...)
	return append(out, named("sorbet", code, bound{"fruit", 250})...)
}

// gbNames: the Union's old figures live on in national acts.
func gbNames() []Composition {
	out := chocolates(func(article string) Cite { return memory("SI 2003/1659", "as Directive 2000/36/EC "+article) })
	out = append(out, jamsBefore(readOnDay("2026-11-28", "SI 2003/3120 and the acts of Wales and Northern Ireland beside it", "Sch. 1").via("WSI 2018/274, NISR 2018/78"))...)
	out = append(out, named("honey", memory("SI 2015/1348", "reg. 3, Sch. 1"), bound{"honey", 1000})...)
	return append(out, dairyFats()...)
}

func chNames() []Composition {
	c := readIn("SR 817.022.17", "Art. 40").via("a public copy of 2024")
	return append(named("jam", c, bound{"fruit", 350}), named("extra-jam", c, bound{"fruit", 450})...)
}

func usNames() []Composition {
	at := func(article string) Cite { return readIn(cfr, article) }
	out := named("milk-chocolate", at("163.130(a)(2)"), bound{"chocolate-liquor", 100}, bound{"milk-fat", 34}, bound{"milk-solids", 120})
	out[1].Share = 339 * unit.Percent / 100
	out = append(out, named("white-chocolate", at("163.124(a)(2)"), bound{"cocoa-butter", 200}, bound{"milk-fat", 35}, bound{"milk-solids", 140}, bound{"sweetener", -550})...)
	out = append(out, named("semisweet-chocolate", at("163.123(a)(3)"), bound{"chocolate-liquor", 350})...)
	out = append(out, named("sweet-chocolate", at("163.123(a)(2)"), bound{"chocolate-liquor", 150}, bound{"milk-solids", -120})...)
	out = append(out, named("butter", memory("21 U.S.C.", "321a"), bound{"milk-fat", 800})...)
	return append(out, named("ice-cream", memory(cfr, "135.110(a)"), bound{"milk-fat", 100})...)
}

func auNames() []Composition {
	at := func(s string) Cite { return memory(fsc, s) }
	out := named("chocolate", at("Standard 1.1.2, definition"), bound{"dry-cocoa-solids", 200}, bound{"vegetable-fat", -50})
	out = append(out, named("jam", at("Standard 2.3.2"), bound{"fruit", 400})...)
	return append(out, named("ice-cream", at("Standard 2.5.6"), bound{"milk-fat", 100})...)
}

// Promise is a word in the name of a food that is not to stand there unless the
// food holds what it says. With Doubt the word has other uses, and a name that
// does not keep it is only doubted.
type Promise struct {
	Word  string // key of the name: "butter"
	Doubt bool
	Cite
}

// Promised finds the rule on a word; false where this market's table has none.
func (m *Market) Promised(word string) (Promise, bool) {
	for _, p := range m.Promises {
		if p.Word == word {
			return p, true
		}
	}
	return Promise{}, false
}

// euPromises: names of milk products are for milk products alone, and for food
// of which one is an essential part; names of chocolate are not to be confused
// with it; and no name misleads as to what the food is made of.
func euPromises() (out []Promise) {
	add := func(doubt bool, c Cite, words ...string) {
		for _, w := range words {
			out = append(out, Promise{w, doubt, c})
		}
	}
	add(false, readOnDay("2026-11-28", "Regulation (EU) No 1308/2013", "Annex VII, Part III; Decision 2010/791/EU").via("foodlabellingservices.co.uk"),
		"butter", "milk", "cream", "cheese", "yoghurt")
	add(false, kakao("Art. 3(1)"), "chocolate", "milk-chocolate", "white-chocolate", "family-milk-chocolate", "couverture", "milk-couverture", "gianduja")
	fair := readOnDay("2026-11-28", fic, "Art. 7(1)").via("food.ec.europa.eu")
	add(false, fair, "honey")
	add(true, fair, "vanilla", "egg")
	return out
}

// gbPromises: the Union's acts as they live on; that on chocolate from memory.
func gbPromises() []Promise {
	out := euPromises()
	for i, p := range out {
		switch p.Act {
		case chocolate:
			out[i].Cite = memory("SI 2003/1659", "reg. 4, as Directive 2000/36/EC Art. 3(1)")
		case fic:
			out[i].Cite = readOnDay("2026-11-28", ficGB, "Art. 7(1)").via("EU text")
		default:
			out[i].Act += " as assimilated in Great Britain"
		}
	}
	return out
}
