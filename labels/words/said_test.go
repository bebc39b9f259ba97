package words_test

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// spoken gives an ingredient with names per language: "en=salt de=Salz".
func spoken(id, names string, contains ...string) *shop.Ingredient {
	i := bought(id, contains...)
	i.Name = nil
	for _, n := range strings.Split(names, " ") {
		lang, name, _ := strings.Cut(n, "=")
		i.Name = append(i.Name, shop.Words{{Key: at(lang), V: at(strings.ReplaceAll(name, "_", " "))}}...)
	}
	return i
}

// larder is a scene with a few ingredients in three languages.
func larder() scene {
	s := newScene()
	flour := spoken("flour", "en=wheat_flour de=Weizenmehl fr=farine_de_blé", "wheat")
	lecithin := spoken("lecithin", "en=soya_lecithins de=Sojalecithine fr=lécithines_de_soja", "soybeans")
	lecithin.Class, lecithin.Number = at("emulsifier"), at("E 322")
	palm, rape := spoken("palm", "en=palm_oil de=Palmöl fr=huile_de_palme"), spoken("rape", "en=rapeseed_oil de=Rapsöl fr=huile_de_colza")
	palm.Plant, rape.Plant = spoken("", "en=palm de=Palm fr=palme").Name, spoken("", "en=rapeseed de=Raps fr=colza").Name
	rape.Hydrogenated = at("fully")
	rum := spoken("rum", "en=rum de=Rum fr=rhum")
	rum.Evaporates = at(true)
	s.buys(flour, lecithin, palm, rape, rum, spoken("butter", "en=butter de=Butter fr=beurre", "milk"), spoken("salt", "en=salt de=Salz fr=sel"),
		spoken("sugar", "en=sugar de=Zucker fr=sucre"), spoken("water", "en=water de=Wasser fr=eau"))
	s.Ingredients["water"].AddedWater = at(true)
	return s
}

// What the rules decide, in words.
func TestListsInWords(t *testing.T) {
	for _, c := range []struct {
		name, in, lang string
		lines          []shop.Line
		tune           func(*shop.Product)
		want, source   string
	}{
		{"butter", "eu", "de", []shop.Line{line("flour", 60), line("butter", 40)}, nil, "Zutaten: *Weizen*mehl, Butter (*Milch*).", "Reg. (EU) 1169/2011 Art. 18, 21"},
		{"grams", "eu", "en", []shop.Line{line("butter", 112), line("salt", 3)}, func(p *shop.Product) {
			p.Parts[0].WaterLost = at(shop.Portion{Mass: 15 * unit.Gram})
			p.Percent = []shop.Percent{{Of: at("butter"), Because: at("in-name")}}
		}, "Ingredients: butter (*milk*, 112~g per 100~g of the finished product), salt.", "Annex VIII 4(a)"},
		{"percent", "eu", "fr", []shop.Line{line("flour", 100), line("sugar", 45), line("butter", 50)}, func(p *shop.Product) {
			p.Parts[0].WaterLost = at(shop.Portion{Mass: 26 * unit.Gram})
			p.Percent = []shop.Percent{{Of: at("butter"), Because: at("in-name")}}
		}, "Ingrédients~: farine de *blé*, beurre~30~% (*lait*), sucre.", "Annex VIII 4: 29.6 %"},
		{"E number with its allergen", "eu", "en", []shop.Line{line("flour", 99), line("lecithin", 1)}, func(p *shop.Product) { p.Additives = at("numbers") },
			"Ingredients: *wheat* flour, emulsifier: E~322 (*soybeans*).", "Annex VII C, Art. 21"},
		{"vegetable fats", "eu", "en", []shop.Line{line("flour", 70), line("palm", 20), line("rape", 10)}, func(p *shop.Product) {
			p.Join = []shop.Join{{Pos: p.Pos, As: at("vegetable-fats"), Of: []shop.Text{at("palm"), at("rape")}, Varying: at(true)}}
		}, "Ingredients: *wheat* flour, vegetable fats (palm, rapeseed (fully hydrogenated)) in varying proportions.", "Annex VII A 9"},
		{"vegetable oils", "eu", "de", []shop.Line{line("flour", 70), line("palm", 20), line("rape", 10)}, func(p *shop.Product) {
			p.Join = []shop.Join{{Pos: p.Pos, As: at("vegetable-oils"), Of: []shop.Text{at("palm"), at("rape")}}}
		}, "Zutaten: *Weizen*mehl, pflanzliche Öle (Palm, Raps (ganz gehärtet)).", "Annex VII A 8"},
		{"and/or", "eu", "en", []shop.Line{line("flour", 99), or(line("palm", 1), "rape")}, nil,
			"Ingredients: *wheat* flour, contains palm oil and/or rapeseed oil.", "Annex VII A 7"},
		{"closing phrase", "us", "en", []shop.Line{line("flour", 97), line("sugar", 2), line("salt", 1)}, nil,
			"Ingredients: *wheat* flour. Contains 2 percent or less of sugar, salt.\nContains *wheat*.", "21 CFR 101.4(a)(2), 21 U.S.C. 343(w)"},
		{"closing phrase of 0.5", "us", "en", []shop.Line{line("flour", 990), line("sugar", 5), line("salt", 5)}, nil,
			"Ingredients: *wheat* flour. Contains 0.5 percent or less of salt, sugar.\nContains *wheat*.", "21 CFR 101.4(a)(2)"},
		{"soy", "us", "en", []shop.Line{line("flour", 99), line("lecithin", 1)}, nil,
			"Ingredients: *wheat* flour, emulsifier: *soya* lecithins.\nContains *wheat*, *soy*.", "21 U.S.C. 321(qq)"},
		{"Canada", "ca", "fr", []shop.Line{line("flour", 60), line("butter", 40)}, nil,
			"*Ingrédients~:* Farine de *blé*, Beurre (*lait*).\n*Contient~:* *Blé*, *Lait*.", "C.R.C., c. 870, B.01.008.2, B.01.010.3"},
		{"Australia", "au", "en", []shop.Line{line("flour", 60), line("butter", 40)}, nil,
			"Ingredients: *wheat* flour, butter (*milk*).\n*Contains wheat, gluten, milk.*", "Food Standards Code 1.2.3"},
		{"Codex", "codex", "en", []shop.Line{line("flour", 60), line("butter", 40)}, nil,
			"Ingredients: *wheat* flour, butter (*milk*).", "CXS 1-1985 4.2.1.4"},
	} {
		s := larder()
		p := s.sells("food", c.lines...)
		if c.tune != nil {
			c.tune(p)
		}
		label, found := s.tell(t, p, c.in, c.lang)
		if got := strings.ReplaceAll(text(label.Lists), "\u00a0", "~"); got != c.want || found.Errors() > 0 {
			t.Errorf("%s (%s %s, %s):\n got %s\nwant %s\n%v", c.name, c.in, c.lang, c.source, got, c.want, found.All())
		}
	}
}

func or(l shop.Line, other string) shop.Line {
	l.Or = at(other)
	return l
}

// Net quantity, date, storage, name and statements.
func TestParticularsInWords(t *testing.T) {
	life := func(days, months int) func(*shop.Product) {
		return func(p *shop.Product) { p.Keep.Life.V = unit.Life{Days: days, Months: months} }
	}
	useBy := func(p *shop.Product) {
		life(3, 0)(p)
		p.Keep.Date, p.Keep.Temp = at("use-by"), at(unit.Target{Kind: unit.AtMost, Hi: unit.Celsius(5)})
	}
	for _, c := range []struct {
		name, in, lang string
		tune           func(*shop.Product)
		of             func(*words.Label) string
		want, source   string
	}{
		{"date", "eu", "en", life(21, 0), date, "Best before 07.04.2026", "Reg. (EU) 1169/2011 Annex X 1"},
		{"end of a month", "eu", "fi", func(p *shop.Product) { life(0, 6)(p); p.Keep.Show = at("month") }, date, "Parasta ennen 08.2026 loppua", "Annex X 1(a); 17 September would cut the month short"},
		{"end of a year", "eu", "en", func(p *shop.Product) { life(0, 24)(p); p.Keep.Show = at("year") }, date, "Best before end 2027", "Annex X 1(c)"},
		{"use by", "eu", "sv", useBy, date, "Sista förbrukningsdag 20.03.2026", "Annex X 2"},
		{"none", "eu", "en", func(p *shop.Product) { life(1, 0)(p); p.Keep.Date = at("none") }, date, "", "Annex X 1(d)"},
		{"Canada", "ca", "en", life(21, 0), date, "Best before 2026~AL~07", "C.R.C., c. 870, B.01.007(4)"},
		{"Canada in French", "ca", "fr", life(21, 0), date, "Meilleur avant 2026~AL~07", "C.R.C., c. 870, B.01.007"},
		{"Canada knows no use-by date", "ca", "fr", useBy, date, "Meilleur avant 2026~MR~20", "C.R.C., c. 870, B.01.007"},
		{"United States", "us", "en", life(21, 0), date, "Best before 7 April 2026", "no order is set, so the month is a word"},

		{"net", "eu", "en", nil, net, "100~g", "Annex IX"},
		{"e-mark", "eu", "en", func(p *shop.Product) { p.Packs[0].Average = at(true) }, net, "100~g~℮", "Directive 76/211/EEC Annex I 3.3"},
		{"pieces", "eu", "pl", func(p *shop.Product) { p.Packs[0].Pieces = at(unit.Count(12)) }, net, "100~g~(12 sztuk)", "Annex IX 4"},
		{"packs in a pack", "eu", "en", func(p *shop.Product) {
			p.Packs[0].Pieces, p.Packs[0].Net, p.Packs[0].Each = at(unit.Count(6)), at(240*unit.Gram), at(40*unit.Gram)
		}, net, "6 × 40~g", "Annex IX 3"},
		{"both systems", "us", "en", func(p *shop.Product) { p.Packs[0].Net = at(340_194 * unit.Milligram) }, net, "Net Wt 11.99~oz (340.194~g)", "21 CFR 101.7; 12 oz are 340.19428 g"},
		{"pounds", "us", "en", func(p *shop.Product) { p.Packs[0].Net = at(680_400 * unit.Milligram) }, net, "Net Wt 1~lb 8~oz (680.4~g)", "1.5 lb are 680.388555 g"},
		{"a pound", "us", "en", func(p *shop.Product) { p.Packs[0].Net = at(453_592_370 * unit.Microgram) }, net, "Net Wt 1~lb (453.59237~g)", "NIST Handbook 44, Appendix C"},

		{"opened, from the shelf", "eu", "de", func(p *shop.Product) { p.Keep.Opened = at(unit.Life{Days: 7}) }, keep,
			"Trocken lagern. Nach dem Öffnen innerhalb von 7~Tagen verbrauchen.", "Reg. (EU) 1169/2011 Art. 25(2)"},
		{"opened, from the cold", "eu", "en", func(p *shop.Product) {
			p.Keep.Store, p.Keep.Temp, p.Keep.Opened = at("chilled"), at(unit.Target{Kind: unit.AtMost, Hi: unit.Celsius(5)}), at(unit.Life{Days: 1})
		}, keep, "Keep refrigerated at ≤~5~°C. Once opened, keep refrigerated and eat within 1 day.", "Art. 25(2)"},
		{"opened, a month", "eu", "en", func(p *shop.Product) { p.Keep.Opened = at(unit.Life{Months: 1}) }, keep, "Keep in a dry place. Once opened, eat within 28 days.", "never longer than it keeps"},
		{"frozen", "eu", "en", func(p *shop.Product) {
			p.Keep.Store, p.Keep.Temp = at("frozen"), at(unit.Target{Kind: unit.AtMost, Hi: unit.Celsius(-18)})
		}, keep, "Keep frozen at ≤~−18~°C. Do not refreeze.", "Directive 89/108/EEC Art. 8 (from memory)"},
		{"refrigerated, in both scales", "us", "en", func(p *shop.Product) {
			p.Keep.Store, p.Keep.Temp = at("chilled"), at(unit.Target{Kind: unit.AtMost, Hi: unit.Celsius(5)})
		}, keep, "Keep refrigerated at ≤~5~°C~(41~°F).", "FDA Food Code 2022, 3-501.16(A)(2): 5 °C (41 °F)"},
		{"frozen, in both scales", "us", "en", func(p *shop.Product) {
			p.Keep.Store, p.Keep.Temp = at("frozen"), at(unit.Target{Kind: unit.AtMost, Hi: unit.Celsius(-18)})
		}, keep, "Keep frozen at ≤~−18~°C~(0~°F). Do not refreeze.", "−18 °C go with 0 °F (common practice)"},
		{"written in °F", "us", "en", func(p *shop.Product) {
			p.Keep.Store, p.Keep.Temp = at("chilled"), at(unit.Target{Kind: unit.AtMost, Hi: unit.Fahrenheit(41), InF: true})
		}, keep, "Keep refrigerated at ≤~41~°F~(5~°C).", "FDA Food Code 2022, 3-501.16(A)(2)"},
		{"thawed", "eu", "fr", func(p *shop.Product) { p.Thawed = at(true) }, keep, "À conserver au sec. Ne pas recongeler.", "Annex VI A 2"},

		{"name of thawed food", "eu", "de", func(p *shop.Product) { p.Thawed = at(true) }, name, "Qfood (aufgetaut)", "Annex VI A 2"},
		{"atmosphere", "eu", "fr", func(p *shop.Product) { p.Packs[0].Gas = at(true) }, said, "statement: Conditionné sous atmosphère protectrice.", "Annex III 1.1"},
		{"Turkish capital", "eu", "tr", func(p *shop.Product) { p.Packs[0].Gas = at(true) }, said, "statement: Koruyucu atmosferde ambalajlanmıştır.", "language"},
		{"cocoa", "eu", "en", func(p *shop.Product) { p.SoldAs, p.Cocoa = at("chocolate"), at(64*unit.Percent) }, said, "statement: Cocoa solids: 64~% minimum.", "Directive 2000/36/EC"},
		{"origin", "eu", "en", func(p *shop.Product) { p.Origin = neutral("ossel") }, said, "origin: Origin: Qossel. | origin-of: Qflour: origin Qelsewhere.", "Art. 26(3)"},
	} {
		s := newScene()
		flour := bought("flour", "wheat")
		flour.Origin = neutral("elsewhere")
		s.buys(flour)
		p := s.sells("food", line("flour", 100))
		if c.tune != nil {
			c.tune(p)
		}
		label, found := s.tell(t, p, c.in, c.lang)
		if got := strings.ReplaceAll(c.of(label), "\u00a0", "~"); got != c.want || found.Errors() > 0 {
			t.Errorf("%s (%s):\n got %s\nwant %s\n%v", c.name, c.source, got, c.want, found.All())
		}
	}
}

func date(l *words.Label) string { return l.Date.Text }
func net(l *words.Label) string  { return l.Net.Text }
func keep(l *words.Label) string { return l.Keep.Text }
func name(l *words.Label) string { return l.Name.Text }
func said(l *words.Label) string {
	var out []string
	for _, s := range l.Statements {
		out = append(out, string(s.Role)+": "+s.Text)
	}
	return strings.Join(out, " | ")
}

// Every statement can be said in every language.
func TestStatementsInEveryLanguage(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		s := newScene()
		i := bought("i", "milk")
		i.Class, i.Caffeine, i.Liquorice = at("sweetener"), at(unit.Percent/10), at(unit.Percent)
		i.Flags = []shop.Text{at("aspartame"), at("polyol"), at("sugar"), at("vegetable-fat-in-chocolate")}
		i.Per100 = &shop.Composition{Alcohol: at(unit.Gram)}
		i.Origin = neutral("there")
		s.buys(i)
		p := s.sells("food", line("i", 100))
		p.SoldAs, p.Cocoa, p.Thawed, p.Origin = at("milk-chocolate"), at(30*unit.Percent), at(true), neutral("here")
		p.Packs[0].Gas, p.Keep.Opened = at(true), at(unit.Life{Days: 3})
		label, found := s.tell(t, p, "eu", l.Code())
		lacks := 0
		if _, err := l.Word("statement.phenylalanine-source"); err != nil {
			lacks = 1 // and is refused where it is due
		}
		if found.Errors() != lacks {
			t.Errorf("%v", found.All())
		}
		if got := len(label.Statements); got != 10 {
			t.Errorf("%d statements, want 10: %s", got, said(label))
		}
		if with, err := l.Word("statement.sugar-and-sweetener"); err != nil || !strings.Contains(label.Name.Text, with) {
			t.Errorf("the name %q is not accompanied by %q", label.Name.Text, with)
		}
		if l.Code() != "en" && len(label.Unchecked) == 0 {
			t.Errorf("some of these words are from memory, but none is named")
		}
	})
}

// A portion of 40 g of a food of 475 kcal with 30 g of sugars: 190 kcal, 12 g;
// 794.4 of 8400 kJ are 9 %, 12 of 90 g 13 % (Reg. (EU) 1169/2011 Art. 32, 33,
// Annex XIII). Australia wants the column in any case.
func TestPortion(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"eu", "per portion (40~g), 2 portions, * Reference intake of an average adult (8~400~kJ/2~000~kcal).\n" +
			"energy 1986~kJ / 475~kcal, 794~kJ / 190~kcal, 9~%\nfat 25~g, 10~g, 14~%\nof which saturates 0~g, 0~g, 0~%\n" +
			"carbohydrate 55~g, 22~g, 8~%\nof which sugars 30~g, 12~g, 13~%\nprotein 6.0~g, 2.4~g, 5~%\nsalt 1.0~g, 0.40~g, 7~%"},
		{"au", "Quantity per serving, Servings per package: 2, \n" +
			"Energy 1990~kJ, 794~kJ, \nProtein 6.0~g, 2.4~g, \nFat, total 25.0~g, 10.0~g, \n– saturated 0~g, 0~g, \n" +
			"Carbohydrate 55.0~g, 22.0~g, \n– sugars 30.0~g, 12.0~g, \nSodium 400~mg, 160~mg, "},
	} {
		s := newScene()
		i := bought("i")
		g := func(n unit.Mass) diag.At[unit.Mass] { return at(n * unit.Gram) }
		i.Per100 = &shop.Composition{Carbohydrate: g(55), Protein: g(6), Fat: g(25), Fibre: g(3), Saturates: g(0), Sugars: g(30), Salt: g(1)}
		s.buys(i)
		p := s.sells("food", line("i", 100))
		p.Packs[0].Nutrition = at("declared")
		if _, found := s.tell(t, p, "au", "en"); found.Errors() != 1 || found.All()[0].Rule != "nutrition-portion" {
			t.Errorf("Australia without a portion: %v", found.All())
		}
		p.Packs[0].Portion = at(40 * unit.Gram)
		label, found := s.tell(t, p, c.in, "en")
		if label.Table == nil {
			t.Fatalf("%s: %v", c.in, found.All())
		}
		got := label.Table.Portion + ", " + label.Table.Portions + ", " + label.Table.ReferenceOf
		for _, r := range label.Table.Rows {
			got += "\n" + r.Name + " " + r.Value + ", " + r.Portion + ", " + r.Percent
		}
		if got = strings.ReplaceAll(got, "\u00a0", "~"); got != c.want || found.Errors() > 0 {
			t.Errorf("%s:\n got %s\nwant %s\n%v", c.in, got, c.want, found.All())
		}
	}
}

// A market's own words are missing in a language that it does not speak: that
// is an error, and nothing falls back.
func TestMarketWithoutWords(t *testing.T) {
	s := larder()
	p := s.sells("food", line("flour", 97), line("sugar", 2), line("salt", 1))
	_, found := s.tell(t, p, "us", "de")
	if found.Errors() == 0 || found.All()[0].Rule != "words" || !strings.Contains(found.All()[0].Hint, "in en only") {
		t.Errorf("the closing phrase in German: %v", found.All())
	}
}

// The words of the markets fit the languages that they belong to.
func TestMarketWords(t *testing.T) {
	if got := strings.Join(words.Markets(), ", "); got != "au en, ca en, ca fr, ch de, ch it, us en" {
		t.Errorf("markets with words of their own: %s", got)
	}
	own := strings.Fields("list.late net.both unit.oz unit.lb unit.ug allergen.gluten nutrition.sodium allergen.pine-nuts stems.pine-nuts " +
		"nutrition.energy-kcal nutrition.trans nutrition.cholesterol nutrition.added-sugars nutrition.vitamin-d nutrition.calcium " +
		"nutrition.iron nutrition.potassium nutrition.amount nutrition.daily nutrition.daily-short nutrition.daily-is nutrition.less " +
		"nutrition.serving nutrition.per-serving")
	for _, pair := range words.Markets() {
		in, code, _ := strings.Cut(pair, " ")
		base := get(t, code)
		l, err := base.For(in)
		if err != nil {
			t.Errorf("%s: %v", pair, err)
			continue
		}
		for _, k := range l.Keys("market") {
			if _, err := base.Word(k); err != nil && !contains(own, k) {
				t.Errorf("%s: the key %s is in no language", pair, k)
			}
			if _, err := base.Word(k); err == nil && sorted(l.Slots(k)) != sorted(base.Slots(k)) {
				t.Errorf("%s: %s has the slots %v, the language %v", pair, k, l.Slots(k), base.Slots(k))
			}
		}
		m, _ := market.Get(in)
		for _, a := range m.Allergens.Table {
			name, _, err := l.Allergen(a.ID)
			if err != nil {
				t.Errorf("%s: %v", pair, err)
			}
			if _, missing := l.Emphasis(name, []string{a.ID}); len(missing) > 0 {
				t.Errorf("%s: %q does not name %s", pair, name, a.ID)
			}
		}
	}
	if l, err := get(t, "de").For("us"); err != nil || l != get(t, "de") {
		t.Errorf("a language without words for a market is the language itself: %v", err)
	}
}

func contains(all []string, s string) bool {
	for _, x := range all {
		if x == s {
			return true
		}
	}
	return false
}

// Food packed where it is sold in Great Britain: name and list with emphasised
// allergens (food.gov.uk); a use-by date stays.
func TestPackedOnThePremises(t *testing.T) {
	s := larder()
	p := s.sells("food", line("flour", 60), line("butter", 40))
	p.Packs[0].Sale = at("direct")
	label, found := s.tell(t, p, "gb", "en")
	if found.Errors() > 0 || text(label.Lists) != "Ingredients: *wheat* flour, butter (*milk*)." || label.Name.Text == "" {
		t.Errorf("%s %v", text(label.Lists), found.All())
	}
	if label.Net.Text+label.Date.Text+label.Keep.Text+label.Operator.Text != "" || label.Table != nil {
		t.Errorf("more than it need bear: %+v", label)
	}
	p.Keep.Date, p.Keep.Life.V = at("use-by"), unit.Life{Days: 2}
	if label, _ = s.tell(t, p, "gb", "en"); label.Date.Text != "Use by 19.03.2026" || label.Keep.Text == "" {
		t.Errorf("a use-by date is never left out: %q, %q", label.Date.Text, label.Keep.Text)
	}
	if _, found = s.tell(t, p, "us", "en"); found.Errors() == 0 {
		t.Errorf("what the United States ask of such food is not known, but nothing was found")
	}
}

// Six packs of 40 g are 240 g: Regulation (EU) No 1169/2011 Annex IX 3.
func TestPacksInAPackAddUp(t *testing.T) {
	s := larder()
	p := s.sells("food", line("sugar", 60))
	p.Packs[0].Pieces, p.Packs[0].Each = at(unit.Count(6)), at(40*unit.Gram)
	if _, found := s.tell(t, p, "eu", "en"); found.Errors() != 1 || found.All()[0].Rule != "net" {
		t.Errorf("6 × 40 g in 100 g: %v", found.All())
	}
}

// A name that is missing in the language is an error, never another language.
func TestNameMissing(t *testing.T) {
	s := larder()
	_, found := s.tell(t, s.sells("food", line("flour", 60)), "eu", "sv")
	if found.Errors() != 1 || found.All()[0].Rule != "translation" {
		t.Errorf("wheat flour in Swedish: %v", found.All())
	}
}

func ExampleTell() {
	s := larder()
	p := s.sells("food", line("flour", 60), line("butter", 40))
	label, _ := s.tell(panics{}, p, "eu", "de")
	fmt.Println(label.Lists[0].Text)
	for _, r := range label.Lists[0].Strong {
		fmt.Println("bold:", label.Lists[0].Text[r[0]:r[1]])
	}
	// Output:
	// Zutaten: Weizenmehl, Butter (Milch).
	// bold: Weizen
	// bold: Milch
}

type panics struct{}

func (panics) Fatalf(format string, args ...any) { panic(fmt.Sprintf(format, args...)) }
