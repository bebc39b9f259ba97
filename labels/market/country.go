package market

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// National is what a country asks of food that is sold loose, or packed where
// it is sold, which the law of the market leaves to it (Reg. (EU) No 1169/2011
// Art. 44). What is due stands among the market's Kinds and Reliefs.
type National struct {
	Country   string    // ISO 3166
	Languages Languages // of what is sold so
	Additives []Wording // words for additives of food that bears no list
}

// Wording is a key of the words that stand for additives of some classes. Over
// is the sulphur dioxide from which on they are said; zero for any amount.
type Wording struct {
	Key     string // "loose-colour"
	Classes []string
	Numbers []string // E numbers, whatever the class
	Over    Part
	Cite
}

// country is a module: what it changes in the market that it belongs to.
type country struct {
	code   string
	market string
	build  func(*Market)
}

// countries lists the modules. A country that is not here has no national
// rules that anybody here knows.
func countries() []country {
	return []country{{"DE", "eu", german}, {"ES", "eu", spanish}, {"FR", "eu", frenchLoose}, {"IE", "eu", irish}, {"IT", "eu", italian}, {"PL", "eu", polish}}
}

// Countries gives the codes of the countries whose rules for food sold loose
// are known here, beside the markets that are one country.
func Countries() []string {
	var out []string
	for _, c := range countries() {
		out = append(out, c.code)
	}
	return out
}

// In is the market as it is in a country: with its rules on food that is sold
// loose or packed where it is sold. A country without a module, or of another
// market, changes nothing, and [Market.KnowsCountry] reports false.
func (m *Market) In(code string) *Market {
	for _, c := range countries() {
		if c.code == strings.ToUpper(code) && c.market == m.Code {
			c.build(m)
		}
	}
	return m
}

// OfCountry gives the market in a country that has a module: "DE".
func OfCountry(code string) (*Market, bool) {
	for _, c := range countries() {
		if c.code == strings.ToUpper(code) {
			m, ok := Get(c.market)
			return m.In(code), ok
		}
	}
	return nil, false
}

// KnowsCountry reports whether the rules on food that is sold loose are those of
// a country: a market of one country has its own.
func (m *Market) KnowsCountry() bool { return m.National != nil || len(m.Places) == 1 }

// Asks reports whether a form of sale may call for a particular here.
func (m *Market) Asks(s Sale, what role.Role) bool {
	return slices.ContainsFunc(m.Kinds, func(k Kind) bool {
		return k.Sale == s && slices.ContainsFunc(k.Needs, func(n Need) bool { return n.Role == what && n.Duty != Free })
	})
}

// sells puts what a form of sale calls for in the place of what the market has.
func (m *Market) sells(s Sale, needs ...Need) {
	m.Kinds = slices.DeleteFunc(m.Kinds, func(k Kind) bool { return k.Sale == s })
	m.Kinds = append(m.Kinds, Kind{s, slices.Clone(needs)})
}

// speaks is the language that is easily understood where food is sold.
func speaks(code string) Languages { return Languages{[]string{code}, Each, readIn(fic, "Art. 15(1)")} }

// bearsName is our own rule where a country sets none: a buyer must know which food
// the allergens are of.
func bearsName() Need {
	return Need{role.Name, Must, "", house("food sold loose", "a buyer must know which food it is")}
}

// german: what is packed for direct sale and offered for self-service bears all
// but net quantity and nutrition; what staff hand over, and what is loose, its
// allergens and the words for its additives.
func german(m *Market) {
	at := func(article string) Cite { return readOnDay("2026-11-28", "LMIDV", article).via("buzer.de") }
	add := func(article string) Cite { return readIn("LMZDV", article) }
	self := at("§ 4(1): Art. 9(1)(a) to (d) and (f) to (k)")
	m.National = &National{Country: "DE", Languages: speaks("de"),
		Additives: []Wording{
			{Key: "loose-colour", Classes: []string{"colour"}, Cite: add("§ 5(1) no. 1")},
			{Key: "loose-preservative", Classes: []string{"preservative"}, Cite: add("§ 5(1) no. 2")},
			{Key: "loose-antioxidant", Classes: []string{"antioxidant"}, Cite: add("§ 5(1) no. 3")},
			{Key: "loose-enhancer", Classes: []string{"flavour-enhancer"}, Cite: add("§ 5(1) no. 4")},
			{Key: "loose-sulphured", Numbers: sulphites(), Over: Part{10 * unit.MgPerKg, Over, Finished, add("§ 5(1) no. 5")}, Cite: add("§ 5(1) no. 5")},
			{Key: "loose-waxed", Numbers: waxes(), Cite: add("§ 5(1) no. 7")},
		}}
	m.sells(Loose, bearsName(), Need{role.Allergens, Must, "", at("§ 4(2), (3)")}, Need{role.Statement, When, role.List, add("§ 5(1), (2)")})
	m.sells(Direct,
		Need{role.Name, Must, "", self}, Need{role.List, Must, "", self}, Need{role.Allergens, Must, role.List, self},
		Need{role.Quid, When, role.List, self}, Need{role.Date, Must, "", self}, Need{role.Keep, When, "", self}, Need{role.Use, When, "", self},
		Need{role.Operator, Must, "", self}, Need{role.Origin, When, "", self}, Need{role.Strength, When, "", self}, Need{role.Statement, When, role.List, add("§ 5(1), (3)")})
	m.Reliefs = append(m.Reliefs,
		Relief{Why: HandedOver, Sale: Direct, Duty: Free, Cite: at("§ 4(2) no. 3: not for self-service"),
			Roles: []role.Role{role.List, role.Quid, role.Date, role.Keep, role.Use, role.Operator, role.Origin, role.Strength}},
		Relief{Why: UseByDate, Sale: Direct, Roles: []role.Role{role.Date, role.Keep}, Duty: Must, Cite: readIn(fic, "Annex X 2(b)")},
		Relief{Why: DayFresh, Sale: Direct, Roles: []role.Role{role.Date}, Duty: Free, Cite: readIn(fic, "Annex X 1(d)")})
}

func sulphites() []string {
	return []string{"E 220", "E 221", "E 222", "E 223", "E 224", "E 226", "E 227", "E 228"}
}

func waxes() []string { return []string{"E 901", "E 902", "E 903", "E 904", "E 905", "E 912", "E 914"} }

// italian: a sign at the food, with its list.
func italian(m *Market) {
	at := func(article string) Cite {
		return readOnDay("2026-11-28", "D.Lgs 15 dicembre 2017, n. 231", article).via("gazzettaufficiale.it")
	}
	m.National = &National{Country: "IT", Languages: speaks("it")}
	needs := []Need{
		{role.Name, Must, "", at("Art. 19(2)(a)")},
		{role.List, Must, "", at("Art. 19(2)(b)")},
		{role.Allergens, Must, role.List, at("Art. 19(2)(b)")},
		{role.Keep, When, "", at("Art. 19(2)(c)")},
		{role.Strength, When, "", at("Art. 19(2)(e)")},
	}
	m.sells(Loose, needs...)
	m.sells(Direct, needs...)
}

// polish: name, producer and list at the place of sale.
func polish(m *Market) {
	at := func(article string) Cite { return readIn("Dz.U. 2015 poz. 29", article) }
	m.National = &National{Country: "PL", Languages: speaks("pl")}
	needs := []Need{
		{role.Name, Must, "", at("§ 19: food without packaging")},
		{role.Operator, Must, "", memory("Dz.U. 2015 poz. 29", "§ 19: who makes it")},
		{role.List, Must, "", at("§ 19: list of ingredients")},
		{role.Allergens, Must, role.List, at("§ 19: list of ingredients")},
	}
	m.sells(Loose, needs...)
	m.sells(Direct, needs...)
}

// frenchLoose: the name, and the allergens in writing at the food itself.
func frenchLoose(m *Market) {
	at := func(what string) Cite {
		return readOnDay("2026-11-28", "Décret n° 2015-447", what).via("legifrance.gouv.fr, restolegis.fr")
	}
	m.National = &National{Country: "FR", Languages: speaks("fr")}
	needs := []Need{
		{role.Name, Must, "", at("name of the food")},
		{role.Allergens, Must, "", at("in writing, at the food")},
	}
	m.sells(Loose, needs...)
	needs[1].In = role.List
	m.sells(Direct, needs...)
}

// spanish: name, allergens, and how much there is of what the name speaks of.
func spanish(m *Market) {
	at := func(article string) Cite {
		return readOnDay("2026-11-28", "Real Decreto 126/2015", article).via("elcentral.mercadocentralzaragoza.com, testa.tv")
	}
	packed := func(article string) Cite { return memory("Real Decreto 126/2015", article) }
	m.National = &National{Country: "ES", Languages: speaks("es")}
	m.sells(Loose,
		Need{role.Name, Must, "", at("Art. 4: name of the food")}, Need{role.Allergens, Must, role.List, at("Art. 4: allergens")},
		Need{role.Quid, When, role.List, at("Art. 4: quantity of an ingredient")}, Need{role.Strength, When, "", at("Art. 4: alcoholic strength")})
	direct := packed("Art. 6: packed by the shop for sale there")
	m.sells(Direct,
		Need{role.Name, Must, "", direct}, Need{role.List, Must, "", direct}, Need{role.Allergens, Must, role.List, direct}, Need{role.Quid, When, role.List, direct},
		Need{role.Net, Must, "", direct}, Need{role.Date, Must, "", direct}, Need{role.Keep, When, "", direct}, Need{role.Use, When, "", direct},
		Need{role.Operator, Must, "", direct}, Need{role.Origin, When, "", direct}, Need{role.Batch, Must, "", direct})
	m.Reliefs = append(m.Reliefs,
		Relief{Why: DayFresh, Sale: Direct, Roles: []role.Role{role.Date}, Duty: Free, Cite: readIn(fic, "Annex X 1(d)")},
		Relief{Why: UseByDate, Sale: Direct, Roles: []role.Role{role.Date, role.Keep}, Duty: Must, Cite: readIn(fic, "Annex X 2(b)")},
		Relief{Why: DateLot, Sale: Direct, Roles: []role.Role{role.Batch}, Duty: Free, Cite: readIn(lotAct, "Art. 5").via("summary of the Union, and a transposition")})
}

// irish: the allergens in writing, before the sale.
func irish(m *Market) {
	written := readIn(siIE, "in writing, before the sale")
	m.National = &National{Country: "IE", Languages: speaks("en")}
	m.sells(Loose, bearsName(), Need{role.Allergens, Must, "", written})
	m.sells(Direct, bearsName(), Need{role.Allergens, Must, role.List, written}) // a list that shows them will do
}
