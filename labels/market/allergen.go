package market

import (
	"slices"
	"sync"

	"chablon/labels/unit"
)

// Show says how a market wants allergens declared.
type Show string

// The ways.
const (
	Emphasis    Show = "emphasis"      // set off from the rest of the list
	ListOrLine  Show = "list-or-line"  // in the list, or in a line behind it
	ListAndLine Show = "list-and-line" // bold in the list, and a bold line beside it
	InList      Show = "list"          // named in the list
)

// Allergens is a market's rule on allergens.
type Allergens struct {
	Show Show
	// LineComplete: once there is a line, it names every allergen.
	LineComplete bool
	// LineWithoutList: with no ingredient list, a line stands in its place.
	LineWithoutList bool
	Table           []Allergen
	Sulphites       Part // total SO2 in the food ready to eat
	Exceptions      []Exception
	Cite
}

// Allergen is one substance. Its ID is the key of its name in every language.
// Group is the number in Annex II of Regulation (EU) No 1169/2011 (1 to 14),
// used for grouping in every market.
type Allergen struct {
	ID    string
	Group int
	// Label is what a line says where it differs from ID: "gluten" in the
	// Australian summary. Empty: the ID's own name.
	Label string
	Cite
}

// Exception is a food made from an allergen that need not be declared. Key
// names it; Footnote marks those that also cover products of the same food as
// far as processing does not raise the allergenicity.
type Exception struct {
	Allergens []string
	Key       string
	Footnote  bool
	Cite
}

// Find gives the row of an allergen; false when the market does not list it.
func (a Allergens) Find(id string) (Allergen, bool) {
	i := slices.IndexFunc(a.Table, func(x Allergen) bool { return x.ID == id })
	if i < 0 {
		return Allergen{}, false
	}
	return a.Table[i], true
}

// Excepted reports whether the named exception frees the allergen here.
func (a Allergens) Excepted(id, key string) bool {
	return slices.ContainsFunc(a.Exceptions, func(e Exception) bool {
		return e.Key == key && slices.Contains(e.Allergens, id)
	})
}

// ExceptionKeys lists the keys of the exceptions that some market has, in
// alphabetical order.
func ExceptionKeys() []string {
	var keys []string
	for _, code := range Codes() {
		m, _ := Get(code)
		for _, e := range m.Allergens.Exceptions {
			keys = append(keys, e.Key)
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// SulphitesAsked reports whether a mass of SO2 in a mass of finished food must
// be declared.
func (a Allergens) SulphitesAsked(so2, food unit.Mass) bool { return a.Sulphites.Holds(so2, food) }

// group is one row of Annex II; IDs lists what must be named.
type group struct {
	n   int
	ids []string
}

// groups lists every allergen known here, in the order of Annex II. Pine nuts
// are not in that annex; they stand with the nuts for the markets that list
// them.
func groups() []group {
	return []group{
		{1, []string{"wheat", "rye", "barley", "oats"}},
		{2, []string{"crustaceans"}},
		{3, []string{"eggs"}},
		{4, []string{"fish"}},
		{5, []string{"peanuts"}},
		{6, []string{"soybeans"}},
		{7, []string{"milk"}},
		{8, []string{"almonds", "hazelnuts", "walnuts", "cashews", "pecan nuts", "brazil nuts",
			"pistachio nuts", "macadamia nuts", "pine nuts"}},
		{9, []string{"celery"}},
		{10, []string{"mustard"}},
		{11, []string{"sesame"}},
		{12, []string{"sulphites"}},
		{13, []string{"lupin"}},
		{14, []string{"molluscs"}},
	}
}

// AllergenIDs gives every allergen that some market lists, in the order of
// Annex II.
func AllergenIDs() []string { return slices.Clone(allergenIDs()) }

var allergenIDs = sync.OnceValue(func() (ids []string) {
	for _, g := range groups() {
		ids = append(ids, g.ids...)
	}
	return ids
})

// AllergenGroups gives the same by the points of Annex II of Regulation (EU) No
// 1169/2011: cereals, crustaceans, eggs and so on.
func AllergenGroups() (out [][]string) {
	for _, g := range groups() {
		out = append(out, g.ids)
	}
	return out
}

// Nuts lists the nuts, those that only some market lists among them.
func Nuts() []string {
	all := groups()
	return all[slices.IndexFunc(all, func(g group) bool { return g.n == 8 })].ids
}

// allergensWithout builds a table of all allergens but those named.
func allergensWithout(c Cite, without ...string) []Allergen {
	var table []Allergen
	for _, g := range groups() {
		for _, id := range g.ids {
			if !slices.Contains(without, id) {
				table = append(table, Allergen{ID: id, Group: g.n, Cite: c})
			}
		}
	}
	return table
}
