package declare

import (
	"slices"

	"chablon/labels/market"
	"chablon/labels/reserved"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// bearer is what bears a name: a food, or a bought ingredient by itself.
type bearer struct {
	*work
	id       string
	parts    []scale.Contribution
	finished unit.Mass
}

// component is how much of a component there is, of which whole, and which
// ingredients do not say how much they bring. The bounds of chocolate are of
// what is left when other edible matter is taken off (Directive 2000/36/EC,
// Annex I Part B).
func (b bearer) component(c market.Composition) (of, whole unit.Mass, unknown []string) {
	whole = b.finished
	switch {
	case c.Of == "other":
		return b.other(), whole, nil
	case c.Of == "outer-chocolate" || c.Of == "any-chocolate":
		return b.chocolate(c.Of == "outer-chocolate"), whole, nil
	case slices.Contains(fruitKinds(), c.Of):
		return b.fruit(c)
	case slices.Contains(chocolateKeys(), c.Food) && c.Of != "ground-hazelnut":
		whole -= b.other()
	case c.Food == "cocoa-powder": // of its dry matter
		for _, p := range b.parts {
			whole -= p.Mass.Of(p.Ingredient.Water.V)
		}
	}
	for _, p := range b.parts {
		s, known := brings(p.Ingredient, c.Of)
		if !known && !slices.Contains(unknown, p.Ingredient.ID) {
			unknown = append(unknown, p.Ingredient.ID)
		}
		of += p.Mass.Of(s)
	}
	return of, whole, unknown
}

// chocolateKeys are the names of chocolate that are judged without their other
// edible matter.
func chocolateKeys() []string {
	return []string{"chocolate", "milk-chocolate", "family-milk-chocolate", "white-chocolate", "couverture", "milk-couverture", "gianduja"}
}

// wanted are the strengths that tell of a component.
func wanted(of string) []string {
	switch of {
	case "dry-cocoa-solids":
		return []string{"cocoa"}
	case "non-fat-cocoa":
		return []string{"cocoa", "cocoa-butter"}
	case "total-fat":
		return []string{"cocoa-butter", "milk-fat"}
	}
	return []string{of}
}

// brings is the share of a component in an ingredient, false where nobody says.
func brings(i *shop.Ingredient, of string) (unit.Share, bool) {
	switch of {
	case "dry-cocoa-solids":
		if s, ok := i.Trait("cocoa"); ok {
			return s, true
		}
		s, ok := i.Trait("cocoa-butter")
		return s, ok || !cocoaIn(i)
	case "non-fat-cocoa":
		return less(i, "dry-cocoa-solids", "cocoa-butter")
	case "non-fat-milk-solids":
		return less(i, "milk-solids", "milk-fat")
	case "total-fat":
		a, ok := brings(i, "cocoa-butter")
		b, too := brings(i, "milk-fat")
		return a + b, ok && too
	case "vegetable-fat":
		return whole(flagged("vegetable-fat-in-chocolate")(i) > 0 && !cocoaIn(i)), true
	case "water":
		return i.Water.V, i.Water.Set()
	case "ground-hazelnut":
		return whole(shop.Names(i.Holds(), "hazelnuts")), true
	case "cocoa-powder", "honey":
		return whole(isCalled(i.Name, of)), true
	}
	s, ok := i.Trait(of)
	switch of {
	case "cocoa-butter", "chocolate-liquor":
		return s, ok || !cocoaIn(i)
	case "milk-solids", "milk-fat":
		return s, ok || !shop.Names(i.Holds(), "milk")
	}
	return s, ok
}

// less is one component less what is part of it.
func less(i *shop.Ingredient, of, part string) (unit.Share, bool) {
	a, ok := brings(i, of)
	b, too := brings(i, part)
	return max(0, a-b), ok && too
}

func whole(yes bool) unit.Share {
	if yes {
		return unit.Whole
	}
	return 0
}

// cocoaIn reports whether cocoa is in an ingredient, as its strength tells or a
// name at some depth.
func cocoaIn(i *shop.Ingredient) bool {
	if _, ok := i.Trait("cocoa"); ok {
		return true
	}
	keys := append(chocolateKeys(), "semisweet-chocolate", "sweet-chocolate", "cocoa-powder", "low-cocoa", "chocolate-powder", "drinking-chocolate", "cocoa-mass")
	return speaks(i, func(h reserved.Hit) bool { return slices.Contains(keys, h.Key) })
}

// speaks reports whether a name of an ingredient, or of what is inside it,
// holds a name of the law.
func speaks(i *shop.Ingredient, of func(reserved.Hit) bool) bool {
	found := calledSo(i.Name, of)
	deep(i.MadeOf, func(in shop.Inner) { found = found || calledSo(in.Name, of) })
	return found
}

func calledSo(names shop.Words, of func(reserved.Hit) bool) bool {
	for _, n := range names {
		if slices.ContainsFunc(reserved.Find(n.Key.V, n.V.V), of) {
			return true
		}
	}
	return false
}

// isCalled reports whether something is by its name what a key says.
func isCalled(names shop.Words, key string) bool {
	return calledSo(names, func(h reserved.Hit) bool { return h.Is && h.Key == key })
}

// other is the mass of edible matter beside what chocolate is made of: cocoa,
// milk, sugars, additives.
func (b bearer) other() (m unit.Mass) {
	for _, p := range b.parts {
		i := p.Ingredient
		sugars := i.Per100 != nil && i.Per100.Sugars.V >= 90*unit.Gram || flagged("sugar")(i) > 0
		if s, _ := brings(i, "cocoa-butter"); s == 0 && !cocoaIn(i) && !sugars && !i.Class.Set() && !shop.Names(i.Holds(), "milk") {
			m += p.Mass
		}
	}
	return m
}

// chocolate is the mass of chocolate in a food: with outer only of what it is
// coated or moulded in, where its parts tell that.
func (b bearer) chocolate(outer bool) (m unit.Mass) {
	coat := b.coat()
	for _, p := range b.parts {
		if b.isChocolate(p.Ingredient) && (!outer || coat == nil || len(p.Path) > 0 && slices.Contains(coat, p.Path[0])) {
			m += p.Mass
		}
	}
	return m
}

// isChocolate reports whether an ingredient is one of the chocolates that may
// be the outer part of another: by what its strength tells, or, where that is
// not told, by its name.
func (b bearer) isChocolate(i *shop.Ingredient) bool {
	one := bearer{b.work, i.ID, []scale.Contribution{{Ingredient: i, Mass: 100 * unit.Gram}}, 100 * unit.Gram}
	return slices.ContainsFunc(chocolateKeys(), func(key string) bool { return one.meets(key, isCalled(i.Name, key)) })
}

// meets reports whether all that is known of a food lies on the right side of
// the bounds of a name; what is not known is taken on trust of its name.
func (b bearer) meets(key string, trust bool) bool {
	rows := b.market.Reserved(key, b.facts.Made)
	for _, c := range rows {
		of, whole, unknown := b.component(c)
		if len(unknown) > 0 && trust {
			continue
		}
		d := unit.CmpProducts(int64(of), int64(unit.Whole), int64(whole), int64(c.Share))
		if whole <= 0 || c.Most && d > 0 || !c.Most && d < 0 {
			return false
		}
	}
	return len(rows) > 0
}

// keeps reports whether a promise of a name is kept.
func (b bearer) keeps(key string) bool {
	if slices.ContainsFunc(bought(b.parts), func(i *shop.Ingredient) bool { return b.keptBy(i, key) }) {
		return true
	}
	return slices.Contains(chocolateKeys(), key) && b.meets(key, false) // made of its parts here
}

func (b bearer) keptBy(i *shop.Ingredient, key string) bool {
	named := func(keys ...string) bool {
		return speaks(i, func(h reserved.Hit) bool { return slices.Contains(keys, h.Key) })
	}
	switch key {
	case "milk", "cream", "cheese", "yoghurt":
		return shop.Names(i.Holds(), "milk")
	case "butter":
		return shop.Names(i.Holds(), "milk") && named("butter", "three-quarter-butter", "half-fat-butter")
	case "egg":
		return shop.Names(i.Holds(), "eggs")
	case "chocolate":
		s, _ := brings(i, "non-fat-cocoa")
		return s > 0 || cocoaIn(i) && !isCalled(i.Name, "white-chocolate")
	case "honey", "vanilla":
		return named(key)
	}
	return b.isOf(i, key) || deepIs(i.MadeOf, key)
}

// isOf reports whether an ingredient is a kind of chocolate by what its strength
// tells, or by its name where it does not.
func (b bearer) isOf(i *shop.Ingredient, key string) bool {
	one := bearer{b.work, i.ID, []scale.Contribution{{Ingredient: i, Mass: 100 * unit.Gram}}, 100 * unit.Gram}
	return one.meets(key, isCalled(i.Name, key))
}

func deepIs(in []shop.Inner, key string) (found bool) {
	deep(in, func(i shop.Inner) { found = found || isCalled(i.Name, key) })
	return found
}

// otherFat is an ingredient that takes the place of butter: margarine, or an oil
// or fat whose plant is named.
func (b bearer) otherFat() *shop.Ingredient {
	for _, i := range bought(b.parts) {
		if len(i.Plant) > 0 || isCalled(i.Name, "margarine") {
			return i
		}
	}
	return nil
}
