package print

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
)

// exampleWord marks what a shop that was just begun has from the example.
const exampleWord = "EXAMPLE"

// example is a doubt: what the label says of the maker, or an ingredient that is
// in the food, is still the example's.
func (j *Job) example() (out []doubt) {
	for _, t := range j.fromExample() {
		out = append(out, doubt{exampleWord, diag.Diag{Pos: t.Pos, Rule: "example",
			Hint: "write your own, from the supplier's specification or your papers",
			Msg:  j.what() + " is a draft: " + t.V + " is of the example that the shop began with"}})
	}
	return out
}

// fromExample lists texts of the example that a paper rests on.
func (j *Job) fromExample() (out []shop.Text) {
	look := func(all ...shop.Text) {
		for _, t := range all {
			if strings.Contains(t.V, exampleWord) {
				out = append(out, t)
			}
		}
	}
	look(j.Shop.Profile.Name, j.Shop.Profile.Address)
	for _, o := range j.Shop.Profile.Operators {
		look(o.V.Name, o.V.Address)
	}
	for _, i := range j.Shop.Into(j.ID) {
		look(i.Supplier)
	}
	return out
}
