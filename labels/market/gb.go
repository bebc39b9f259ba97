package market

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// gb is Great Britain: the assimilated Regulation (EU) No 1169/2011, with the
// rule of its own for food packed on the premises where it is sold. Northern
// Ireland follows the Union's rules for goods.
func gb() *Market {
	m := ficMarket(func(article string) Cite { return readIn(ficGB, article).via("EU text") },
		func(article string) Cite { return memory(lotGB, "as 2011/91/EU "+article) })
	m.Code, m.Places = "gb", []string{"GB"}
	m.Operator = Operator{[]string{"GB", "GG", "IM", "JE"}, readOnDay("2026-11-28", ficGB, "Art. 8(1): the British Islands").via("fsai.ie, brodies.com")}
	m.Languages = Languages{[]string{"en"}, Each, memory(ficGB, "Art. 15")}
	tne := readOn(packsGB, "tolerable negative error").via("gov.uk, packaged goods")
	m.Net = metricNet(readIn(packsGB, "height of the figures").via("a trade page"), tne,
		memory(packsGB, "e-mark"))
	m.Net.Cite = readOn(packsGB, "rounding of the error").via("gov.uk, packaged goods")
	m.Net.Errors = append(m.Net.Errors,
		Tolerance{10 * unit.Kilogram, 15 * unit.Kilogram, 0, 150 * unit.Gram, tne},
		Tolerance{15 * unit.Kilogram, 25 * unit.Kilogram, unit.Percent, 0, tne})
	m.Allergens.Exceptions = slices.DeleteFunc(m.Allergens.Exceptions, func(e Exception) bool {
		return e.Key == "mustard-behenic-acid" // in the Union's text only
	})
	for i, k := range m.Kinds {
		if k.Sale == Direct {
			m.Kinds[i].Needs = premises()
		}
	}
	m.Kitchen, m.Changes, m.Names, m.Promises = gbKitchen(), gbChanges(), gbNames(), gbPromises()
	m.Fortified = readIn("SI 1998/141 as amended by SI 2024/1162", "reg. 4, Sch. 1").via("gov.uk")
	m.Colours = Colours{readOnDay("2026-11-28", additivesAct, "Art. 24, Annex V, as assimilated").via("EU text")}
	return m
}

// premises lists what food packed for direct sale bears since 1 October 2021.
func premises() []Need {
	c := readIn(ppds, "label of food packed for direct sale").via("food.gov.uk")
	return []Need{
		{role.Name, Must, "", c},
		{role.List, Must, "", c},
		{role.Allergens, Must, role.List, c},
	}
}

func gbKitchen() []Limit {
	law := func(article string) Cite { return readIn(hygieneGB, article).via("FSA guidance, 2016") }
	limits := []Limit{
		keepAt("cold", Cold, onlyC(8), UpTo, law("Schedule 4")),
		keepAt("hot", Hot, onlyC(63), From, law("Schedule 4")),
		{Key: "cold-display", Kind: Clock, Within: 4 * unit.Hour, Law: true, Cite: readIn(guideFSA, "chill holding")},
		{Key: "hot-display", Kind: Clock, Within: 2 * unit.Hour, Law: true, Cite: readIn(guideFSA, "hot holding")},
		keepAt("frozen", Frozen, onlyC(-18), UpTo, memory(frozenAct, "as implemented in Great Britain")),
	}
	advice := func(key string, c int64, hold unit.Span, cite Cite) Limit {
		l := cook(key, onlyC(c), hold, cite)
		l.Law = false
		return l
	}
	page := memory("FSA cooking advice", "equivalents of 70 °C for 2 minutes")
	return append(limits,
		advice("core-60", 60, 45*unit.Minute, page),
		advice("core-65", 65, 10*unit.Minute, page),
		advice("core-70", 70, 2*unit.Minute, readIn("FSA cooking advice", "core of 70 °C for 2 minutes")),
		advice("core-75", 75, 30, page),
		advice("core-80", 80, 6, page))
}
