package declare

import (
	"chablon/labels/scale"
	"chablon/labels/shop"
)

// specified refuses to declare a food of which one ingredient has no
// specification: nobody but its supplier can say what is in it. Tap water needs
// none.
func (w *work) specified(parts []scale.Contribution) {
	told := map[*shop.Ingredient]bool{}
	for _, c := range parts {
		if i := c.Ingredient; !i.Specified() && !told[i] {
			told[i] = true
			w.found.Errorf(i.Pos, "no-spec", "ask the supplier for the specification and write its version and dates under spec",
				"%s has no specification, so nothing that holds it may be labelled", i.ID)
		}
	}
}
