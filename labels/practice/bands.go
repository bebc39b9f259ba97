package practice

import "chablon/labels/unit"

// Sources of the bands. Those called textbooks were seen on trade pages that
// quote them; they are good for quality, never for a limit.
const (
	common    = "common practice" // no source
	foodCode  = "Food Code 3-401.11(B), whose lowest is 54 °C, from memory; upper end common practice"
	mcGee     = "H. McGee, On Food and Cooking (sugar and chocolate tables)"
	figoni    = "P. Figoni, How Baking Works"
	migoya    = "F. Migoya, Frozen Desserts; The Elements of Dessert"
	greweling = "P. Greweling, Chocolates and Confections"
	textbooks = "pastry textbooks, which differ; the range takes them all in"
	frictions = "published test-kitchen articles on dough temperature"
	moisture  = "published study of the moisture of soft caramel, quoted: 12 % at 113 °C, 8 % at 121 °C"
	eggStudy  = "Jones and others, 1983, on the pasteurisation of whole egg"
)

// Bands lists the usual ranges, one line each. Where sources differ the range
// is wide. They catch slips of the pen; they are no promise that food is safe.
func Bands() []Band {
	var all []Band
	all = append(all, anyBands()...)
	all = append(all, creamBands()...)
	all = append(all, sugarBands()...)
	all = append(all, chocolateBands()...)
	return append(all, doughBands()...)
}

func band(of string, kinds []string, p Part, lo, hi int64, what, source string) Band {
	return Band{Of: of, Kinds: kinds, Part: p, Lo: unit.Celsius(lo), Hi: unit.Celsius(hi), What: what, Source: source}
}

// must makes a band one that is kept or given a reason.
func (b Band) must() Band {
	b.Must = true
	return b
}

// held asks for a time.
func (b Band) held(s unit.Span) Band {
	b.Hold = s
	return b
}

// works gives a list of kinds.
func works(kinds ...string) []string { return kinds }

// anyBands are what no such work ever leaves, whatever is worked on.
func anyBands() []Band {
	hob := works("boil", "cook", "melt")
	return []Band{
		band("", works("bake"), AtSet, 80, 300, "an oven that bakes", common).must(),
		band("", works("toast"), AtSet, 100, 220, "an oven that toasts", common).must(),
		band("", works("poach"), AtSet, 60, 100, "poaching", common).must(),
		band("", works("poach"), AtReach, 60, 100, "poaching", common).must(),
		band("", hob, AtSet, 30, 210, "work on the hob", common).must(),
		band("", hob, AtReach, 0, 205, "work on the hob; above it sugar burns", mcGee).must(),
		band("", works("temper"), AtReach, 20, 58, "tempering", common).must(),
		band("", works("cook", "boil", "bake", "poach"), AtLimit, 54, 130, "a limit that makes food safe by heat", foodCode).must(),
		band("", works("cool", "chill"), AtLimit, -5, 25, "a limit of cooling", common).must(),
		band("", works("freeze"), AtLimit, -45, 0, "a limit of freezing", common).must(),
		band("", works("chill"), AtReach, -5, 15, "chilling", common),
		band("", works("freeze"), AtReach, -45, 0, "freezing", common),
		band("", works("bake", "cook", "boil", "poach"), AtCore, 30, 105, "the core of food, which holds water and hardly passes its boiling point", common).must(),
	}
}

func creamBands() []Band {
	hob := works("cook", "boil")
	return []Band{
		band("custard", hob, AtReach, 77, 85, "custard on the hob; it curdles above", migoya+"; "+figoni),
		band("custard", hob, AtLimit, 77, 85, "custard on the hob; it curdles above", migoya+"; "+figoni),
		band("pastry-cream", hob, AtReach, 93, 105, "pastry cream at the boil", figoni),
		band("pastry-cream", hob, AtReach, 20, 60, "pastry cream when gelatine and butter go in", common),
		band("pastry-cream", hob, AtLimit, 93, 105, "pastry cream at the boil: short of it the yolk thins it overnight", figoni).held(2 * unit.Minute),
		band("egg", hob, AtLimit, 70, 100, "heating egg", "advice of food authorities: 70 °C for 2 min").must().held(2 * unit.Minute),
		fine(band("egg", hob, AtLimit, 64, 100, "heating whole egg", eggStudy).must().held(2*unit.Minute+30), 644),
		band("swiss-meringue", works("cook", "melt", "mix"), AtReach, 54, 62, "Swiss meringue over the bath", textbooks),
		band("italian-meringue", works("boil", "cook"), AtReach, 115, 121, "the syrup of Italian meringue, which makes no raw egg safe", textbooks),
		band("bombe", works("boil", "cook"), AtReach, 115, 121, "the syrup of pâte à bombe, which makes no raw egg safe", migoya),
		band("bombe", works("cook", "mix", "melt"), AtReach, 60, 70, "pâte à bombe over the bath", migoya),
		band("butter", works("mix"), AtReach, 18, 20, "butter for creaming", common),
		band("butter", works("shape", "rest", "chill"), AtReach, 12, 14, "butter for lamination", textbooks),
	}
}

// fine sets the lower end to tenths of a degree.
func fine(b Band, tenths int64) Band {
	b.Lo = unit.Temp(tenths) * unit.Temp(unit.DegC) / 10
	return b
}

// sugarBands hold numbers only: the names of the stages differ from one
// country to the next.
func sugarBands() []Band {
	hob := works("boil", "cook")
	return []Band{
		band("syrup", hob, AtReach, 102, 154, "sugar syrup, from thread to hard crack", mcGee),
		band("caramel", works("boil", "cook", "melt"), AtReach, 160, 205, "caramel, from light to dark; black above", mcGee),
		band("caramel", hob, AtReach, 60, 100, "liquid before it goes into caramel", common),
		band("soft-caramel", hob, AtReach, 160, 205, "the sugar of a caramel, from light to dark", mcGee),
		band("soft-caramel", hob, AtReach, 60, 100, "liquid before it goes into caramel", common),
		band("soft-caramel", hob, AtReach, 113, 121, "soft caramel at its end", moisture),
		band("marshmallow", hob, AtReach, 112, 122, "the syrup of marshmallow", textbooks),
		band("marshmallow", works("cool"), AtReach, 60, 100, "syrup when gelatine goes in; hotter, it loses its strength", greweling).must(),
		band("marshmallow", works("mix"), AtReach, 30, 45, "whipped marshmallow", common),
		band("gelatine", works("rest"), AtReach, 4, 25, "gelatine swelling in cold water", textbooks),
		band("gelatine", works("melt", "cook"), AtReach, 50, 60, "gelatine dissolving", textbooks),
		band("pectin", hob, AtReach, 80, 85, "pectin coming to work", textbooks),
		band("pectin", hob, AtReach, 106, 108, "fruit paste at its end", textbooks),
		band("jam", hob, AtReach, 104, 106, "jam at its end", textbooks),
		band("fruit", works("poach"), AtSet, 85, 95, "poaching fruit", common),
		band("fruit", works("poach"), AtCore, 80, 95, "poached fruit", common),
		band("nuts", works("toast", "bake"), AtSet, 150, 160, "roasting nuts", common),
	}
}

func chocolateBands() []Band {
	temper := greweling + "; " + mcGee
	kinds := works("melt", "temper")
	var all []Band
	for _, c := range []struct {
		of                       string
		melt, cool, cooled, w, x int64
	}{{"dark-chocolate", 55, 28, 29, 31, 32}, {"milk-chocolate", 50, 27, 28, 29, 31}, {"white-chocolate", 50, 24, 27, 27, 30}} {
		from := int64(40)
		if c.of == "dark-chocolate" {
			from = 45
		}
		all = append(all,
			band(c.of, kinds, AtReach, from, c.melt, "melting this chocolate", temper),
			band(c.of, works("temper"), AtReach, c.cool, c.cooled, "this chocolate when seeds form", temper),
			band(c.of, works("temper"), AtReach, c.w, c.x, "this chocolate as it is worked", temper),
			band(c.of, works("set", "cool", "rest"), AtReach, 10, 20, "chocolate setting or stored", common))
	}
	return append(all,
		band("ganache", works("mix", "melt"), AtReach, 30, 45, "ganache as it comes together", common),
		band("ganache", works("fill", "pack"), AtReach, 28, 34, "ganache as it is deposited; seeds melt above", greweling),
		band("ganache", works("set", "rest", "cool"), AtReach, 15, 22, "ganache setting", greweling),
		band("glaze", works("finish", "fill"), AtReach, 28, 35, "mirror glaze as it is poured; makers differ", textbooks))
}

func doughBands() []Band {
	return []Band{
		band("choux", works("cook", "boil"), AtReach, 75, 85, "the panade of choux", textbooks),
		band("choux", works("mix"), AtReach, 25, 60, "the panade when egg goes in", common),
		band("choux", works("bake"), AtSet, 165, 220, "baking choux, from first to last heat", textbooks),
		band("sweet-pastry", works("bake"), AtSet, 155, 180, "baking sweet pastry", textbooks),
		band("sweet-pastry", works("bake"), AtCore, 92, 100, "the core of a filled tart", common),
		band("shortbread", works("bake"), AtSet, 150, 170, "baking shortbread", common),
		band("lean-dough", works("bake"), AtCore, 93, 98, "the core of lean bread", textbooks),
		band("rich-dough", works("bake"), AtCore, 85, 96, "the core of rich bread", textbooks),
		band("lean-dough", works("mix"), AtReach, 24, 28, "dough out of the mixer", frictions),
		band("rich-dough", works("mix"), AtReach, 24, 28, "dough out of the mixer", frictions),
		band("laminated-dough", works("shape", "chill"), AtReach, 3, 8, "dough for lamination", common),
		band("laminated-dough", works("rest"), AtReach, 24, 28, "proving laminated dough; the butter runs above", textbooks),
	}
}
