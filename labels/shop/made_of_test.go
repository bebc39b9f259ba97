package shop

import (
	"slices"
	"testing"
)

// What a product is made of is followed through formulas, through what a thing
// is cooked in, through products within products, and to what may take the
// place of an ingredient; a circle ends, and a name that nothing bears counts.
func TestMadeOf(t *testing.T) {
	use := func(ids ...string) (out []Line) {
		for _, id := range ids {
			out = append(out, Line{Use: Text{V: id}})
		}
		return out
	}
	other := use("flour")
	other[0].Or = Text{V: "rye"}
	s := &Shop{
		Formulas: map[string]*Formula{
			"dough": {Lines: other},
			"pears": {Lines: use("pear"), CookedIn: &CookedIn{Use: Text{V: "syrup"}}},
			"syrup": {Lines: use("sugar", "syrup")},
		},
		Products: map[string]*Product{
			"tart": {Parts: []Stage{{Add: use("dough")}, {Add: use("pears", "nothing-bears-it")}}},
			"box":  {Parts: []Stage{{Add: use("tart")}}},
		},
	}
	for id, want := range map[string][]string{
		"box":   {"box", "dough", "flour", "nothing-bears-it", "pear", "pears", "rye", "sugar", "syrup", "tart"},
		"syrup": {"sugar", "syrup"},
		"salt":  {"salt"},
	} {
		got := s.MadeOf(id)
		if got[0] != id {
			t.Errorf("%s: %s stands first", id, got[0])
		}
		if slices.Sort(got); !slices.Equal(got, want) {
			t.Errorf("%s is made of %v, not of %v", id, got, want)
		}
	}
}

// Every finding in the file of a thing leads to its id, whatever the file is
// called.
func TestIDOf(t *testing.T) {
	for file, want := range map[string]string{
		"ingredients/salt.yaml": "salt", "formulas/Sweet Pastry.yaml": "sweet-pastry", "products/a_b.yaml": "a-b",
		"shop.yaml": "", "plans/salt.yaml": "", "ingredients/salt.txt": "", "ingredients": "", "ingredients/x/salt.yaml": "",
	} {
		if got, ok := IDOf(file); got != want || ok != (want != "") {
			t.Errorf("%s is of %q (%v), not of %q", file, got, ok, want)
		}
	}
}
