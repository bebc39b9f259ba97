package print

import (
	"slices"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/layout/allergens"
)

func allergensKind() *Kind {
	return &Kind{
		Name: "allergens", File: "allergens", One: "list of allergens", Many: "lists of allergens",
		Short:   "Print the allergens of everything on sale, for the wall behind the counter",
		Long:    "Prints every product with what it contains and what may be in it, over all its packs\nand markets. A product whose label nobody has signed, or whose files have errors,\nstands there without an answer.",
		Example: "  chablon allergens samples/quoin-and-crumb --today 2026-03-17",
		Next:    "Hang it where buyers are answered, and take the old one down.",
		Inside:  true,
		Of:      Shop, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Compose: composeAllergens,
	}
}

func composeAllergens(j *Job) (Set, error) {
	s := allergens.Sheet{Shop: j.Shop, Lang: j.Langs[0], Day: j.Today, Stock: j.Stock, Dots: j.Printer.Resolution.V, Foods: j.whole.Allergens()}
	return Set{Pages: allergens.Compose(s, j.faces, j.Found), Heights: allergens.Heights()}, nil
}

// Allergens are the allergens of everything on sale, by product. What a product
// contains in one pack or market it contains in all: the list has it wherever a
// label of it says so. Nothing is known of what nobody signed, nor of what faults
// touch.
func (p *Press) Allergens() (out []allergens.Food) {
	for _, id := range p.Shop.ProductIDs {
		out = append(out, p.About(id).allergensOf(p.Shop.Products[id]))
	}
	return out
}

func (p *Press) allergensOf(q *shop.Product) allergens.Food {
	food := allergens.Food{Product: q, Known: p.Found.Errors() == 0 && len(q.Packs) > 0}
	if !food.Known {
		return food
	}
	found := &diag.List{}
	contains, may := map[string]bool{}, map[string]bool{}
	for i := range q.Packs {
		for _, c := range p.marketCodes() {
			m, err := p.market(c)
			if err != nil {
				food.Known = false
				continue
			}
			f := declare.Of(p.Shop, q, &q.Packs[i], m, p.Today, found)
			food.Known = food.Known && p.approval(f).Valid
			for _, a := range f.Contains {
				contains[a] = true
			}
			for _, a := range f.May {
				may[a] = true
			}
		}
	}
	food.Known = food.Known && found.Errors() == 0
	food.Contains = ordered(func(a string) bool { return contains[a] })
	food.May = ordered(func(a string) bool { return may[a] && !contains[a] })
	return food
}

// ordered lists allergens in the order of Annex II of Regulation (EU) No 1169/2011.
func ordered(have func(string) bool) []string {
	return slices.DeleteFunc(slices.Clone(market.AllergenIDs()), func(id string) bool { return !have(id) })
}
