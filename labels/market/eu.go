package market

import "chablon/labels/unit"

// eu is the European Union: Regulation (EU) No 1169/2011 and the acts around
// it. National rules on food that is not prepacked come on top (Art. 44).
func eu() *Market {
	m := ficMarket(func(article string) Cite { return readIn(fic, article) },
		func(article string) Cite {
			return readIn(lotAct, article).via("summary of the Union, and a transposition")
		})
	m.Code, m.Changes, m.Names, m.Promises = "eu", ficChanges(), euNames(), euPromises()
	m.Places = []string{"AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU",
		"IE", "IT", "LT", "LU", "LV", "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK"}
	m.Operator = Operator{m.Places, readIn(fic, "Art. 8(1)")}
	m.Languages = Languages{
		Codes: []string{"bg", "cs", "da", "de", "el", "en", "es", "et", "fi", "fr", "ga", "hr", "hu", "it",
			"lt", "lv", "mt", "nl", "pl", "pt", "ro", "sk", "sl", "sv"},
		Join: State, Cite: readIn(fic, "Art. 15"),
	}
	m.Net = metricNet(readOnDay("2026-11-28", packs, "Annex I 3.1").via("usda-eu.org, weight and volume indication"), readIn(packs, "Annex I 2.4"),
		readIn(packs, "Annex I 3.3").via("gum.gov.pl"))
	m.Net.Cite = readOn(packs, "Annex I 2.4").via("gov.uk, packaged goods")
	m.Triggers = append(m.Triggers,
		Trigger{"honey-origin", "honey", Part{Cite: readIn(honeyAct, "Art. 2(4)").via("fsai.ie")}},
		Trigger{"vegetable-fat-in-chocolate", "vegetable-fat", Part{Cite: readIn(chocolate, "Art. 2(2)").via("fsai.ie")}})
	m.Kitchen, m.Leeways = euKitchen(), euLeeways()
	m.Colours = Colours{readOnDay("2026-11-28", additivesAct, "Art. 24, Annex V").via("official translation memory of the act as published")}
	m.Forbidden = []Forbidden{{"E 171", readOnDay("2026-11-28", titaniumAct, "Art. 1, 2")}}
	m.Animal = readOnDay("2026-11-28", animalAct, "Art. 2, 3").via("lovguiden.dk, pig333.com")
	return m
}

// ie is Ireland: the Union's rules with its own on language and on food that
// is not prepacked.
func ie() *Market {
	m := eu()
	m.Code, m.Places = "ie", []string{"IE"}
	m.Languages = Languages{[]string{"en"}, Each, memory(siIE, "language of the particulars")}
	irish(m)
	return m
}

// euKitchen lists limits of Union law and, with their country in the key, of
// member states. Regulation (EC) No 852/2004 itself names no temperature.
func euKitchen() []Limit {
	from := onlyC(63)
	return []Limit{
		keepAt("frozen", Frozen, onlyC(-18), UpTo, memory(frozenAct, "Art. 1(2)")),
		keepAt("fr-hot", Hot, onlyC(63), From, memory(french, "hot holding")),
		keepAt("fr-cold", Cold, onlyC(4), UpTo, memory(french, "chilled food")),
		keepAt("fr-cold-most-perishable", Cold, onlyC(3), UpTo, memory(french, "chilled food, most perishable")),
		cooling("fr-cooling", &from, onlyC(10), 2*unit.Hour, memory(french, "fast cooling")),
	}
}

// metricNet is the rule of Directive 76/211/EEC for constant nominal
// quantities of 5 g to 10 kg or 5 ml to 10 l.
func metricNet(digits, errors, sign Cite) Net {
	const g = unit.Gram
	step := func(upTo unit.Mass, mm int64) DigitStep {
		return DigitStep{Mass: upTo, Least: unit.Length(mm) * unit.MM, Measure: Digit, Cite: digits}
	}
	row := func(from, upTo unit.Mass, share unit.Share, fixed unit.Mass) Tolerance {
		return Tolerance{from, upTo, share, fixed, errors}
	}
	tenth := unit.Percent / 10
	return Net{
		Systems: []string{"metric"},
		Digits:  []DigitStep{step(50*g, 2), step(200*g, 3), step(1000*g, 4), step(0, 6)},
		Errors: []Tolerance{
			row(5*g, 50*g, 90*tenth, 0),
			row(50*g, 100*g, 0, 4500*unit.Milligram),
			row(100*g, 200*g, 45*tenth, 0),
			row(200*g, 300*g, 0, 9*g),
			row(300*g, 500*g, 30*tenth, 0),
			row(500*g, 1000*g, 0, 15*g),
			row(1000*g, 10_000*g, 15*tenth, 0),
		},
		Step: 100 * unit.Milligram,
		Sign: Min{3 * unit.MM, Digit, 0, sign},
	}
}
