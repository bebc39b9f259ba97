package words

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
)

// Named refuses ingredients with a name, at any depth and in any language, that
// names an allergen by the word of the law while the specification does not:
// one of the two is wrong. It looks at the whole shop, also at what no label is
// made of.
func Named(sh *shop.Shop, found *diag.List) {
	g := &guard{found: found, asked: askedFor(sh)}
	for _, id := range sh.IngredientIDs {
		i := sh.Ingredients[id]
		g.look(i.Name, i.Contains, i.MadeOf, nil)
	}
}

// guard looks for allergens that some market of the shop wants declared.
type guard struct {
	found *diag.List
	asked []string
}

func askedFor(sh *shop.Shop) []string {
	var ids []string
	for _, code := range sh.Profile.Markets {
		if m, ok := market.Get(code.V); ok {
			for _, a := range m.Allergens.Table {
				ids = append(ids, a.ID)
			}
		}
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

// look holds names against what is contained here, above and inside. Sulphites
// are declared by how much there is, and not by a name.
func (g *guard) look(names shop.Words, contains []shop.Text, madeOf []shop.Inner, above []shop.Text) {
	here := slices.Concat(above, contains)
	inside := slices.Clone(here)
	deep(madeOf, func(i shop.Inner) { inside = append(inside, i.Contains...) })
	for _, name := range names {
		l, ok := Get(name.Key.V)
		if !ok {
			continue
		}
		for _, id := range g.asked {
			if id == "sulphites" || shop.Names(inside, id) {
				continue
			}
			if strong, _ := l.Emphasis(name.V.V, []string{id}); len(strong) > 0 {
				g.found.Errorf(name.V.Pos, "allergen-named", "add it to contains, or, if it is truly not in it, give it another name",
					"the %s name %q names %s, but contains does not", l.Name(), name.V.V, id)
			}
		}
	}
	for _, i := range madeOf {
		g.look(i.Name, i.Contains, i.MadeOf, here)
	}
}

func deep(in []shop.Inner, visit func(shop.Inner)) {
	for _, i := range in {
		visit(i)
		deep(i.MadeOf, visit)
	}
}
