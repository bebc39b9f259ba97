package declare

import (
	"slices"

	"chablon/labels/reserved"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// statements finds what must be said beside the list: what the market's
// triggers call for, the cocoa of a chocolate, the origin of a primary
// ingredient, and, as good practice, that there is alcohol in the food.
func (w *work) statements(parts []scale.Contribution) {
	for _, t := range w.market.Triggers {
		key, ok := saying(t.Key)
		if m := w.measure(t.Of, parts); ok && t.Called(m, w.facts.Finished) && !w.honey(key) {
			key = w.byName(key)
			w.facts.Statements = append(w.facts.Statements, Statement{Key: key, Share: m.In(w.facts.Finished), Law: true, Src: w.product.Pos})
			w.decide(StatementCalled, key, Percent(m.In(w.facts.Finished)), Text(t.Article), w.product.Pos)
		}
	}
	w.overlaid()
	w.additives(parts)
	w.loose(parts)
	w.cocoa(parts)
	w.origin(parts)
	if w.facts.Alcohol > 0 {
		w.facts.Statements = append(w.facts.Statements, Statement{Key: "alcohol", Src: w.product.Pos})
	}
}

// saying is the key of the words for a trigger of the market.
func saying(trigger string) (string, bool) {
	key, ok := map[string]string{
		"protective-atmosphere": "atmosphere", "with-sweeteners": "sweetener", "with-sugars-and-sweeteners": "sugar-and-sweetener",
		"aspartame": "phenylalanine", "laxative": "laxative", "liquorice": "liquorice", "liquorice-strong": "liquorice-strong",
		"caffeine-added": "caffeine", "defrosted": "defrosted", "honey-origin": "honey-origin", "vegetable-fat-in-chocolate": "vegetable-fats",
	}[trigger]
	return key, ok
}

// byName takes the words for aspartame that is named in the list, where the law
// has others for its E number (Annex III 2.3).
func (w *work) byName(key string) string {
	if key == "phenylalanine" && w.market.List.ENumbers() && w.product.Additives.V != "numbers" {
		return "phenylalanine-source"
	}
	return key
}

// honey asks honey for its countries; the statement on the origin of the food
// names them.
func (w *work) honey(key string) bool {
	if key == "honey-origin" && len(w.product.Origin) == 0 {
		w.found.Errorf(w.product.SoldAs.Pos, "origin", "write origin: with every country, in falling order, with its share", "%s is sold as honey, but not from where", w.product.ID)
	}
	return key == "honey-origin"
}

// overlaid takes out the weaker of two statements on the same thing.
func (w *work) overlaid() {
	weaker := map[string]string{"sugar-and-sweetener": "sweetener", "liquorice-strong": "liquorice"}
	var gone []string
	for _, s := range w.facts.Statements {
		if key, ok := weaker[s.Key]; ok {
			gone = append(gone, key)
		}
	}
	w.facts.Statements = slices.DeleteFunc(w.facts.Statements, func(s Statement) bool { return slices.Contains(gone, s.Key) })
}

// measure is how much of the thing that a trigger looks at is in the food. Of
// what is either there or not, it is all of the food or nothing.
func (w *work) measure(of string, parts []scale.Contribution) unit.Mass {
	switch of {
	case "packaging-gas":
		return w.all(w.facts.Pack.Gas.V)
	case "sweeteners":
		return w.all(sweetened(parts))
	case "sugars-and-sweeteners":
		return w.all(sweetened(parts) && sugared(parts))
	case "aspartame":
		return w.all(sum(parts, flagged("aspartame"))+sumOf(addedTo(parts), func(a added) bool { return a.Aspartame }) > 0)
	case "added-polyols":
		return polyols(parts)
	case "glycyrrhizinic-acid":
		return sum(parts, func(i *shop.Ingredient) unit.Share { return i.Liquorice.V })
	case "caffeine":
		return sum(parts, func(i *shop.Ingredient) unit.Share { return i.Caffeine.V })
	case "frozen-before-sale":
		return w.all(w.product.Thawed.V)
	case "honey":
		return w.all(w.product.SoldAs.V == "honey")
	case "vegetable-fat":
		return w.all(w.product.SoldAs.Set() && w.product.SoldAs.V != "honey" && sum(parts, flagged("vegetable-fat-in-chocolate")) > 0)
	}
	return 0
}

func (w *work) all(yes bool) unit.Mass {
	if yes {
		return w.facts.Finished
	}
	return 0
}

// sum adds up a share of each ingredient.
func sum(parts []scale.Contribution, of func(*shop.Ingredient) unit.Share) unit.Mass {
	var m unit.Mass
	for _, c := range parts {
		m += c.Mass.Of(of(c.Ingredient))
	}
	return m
}

// flagged counts the whole of an ingredient that has the flag.
func flagged(flag string) func(*shop.Ingredient) unit.Share {
	return func(i *shop.Ingredient) unit.Share {
		if slices.ContainsFunc(i.Flags, func(t shop.Text) bool { return t.V == flag }) {
			return unit.Whole
		}
		return 0
	}
}

// sweetened reports whether an additive is in the food as a sweetener: by its
// class, or, where none is given, by what it is. Of a polyol, which may have
// another function, the number must say it.
func sweetened(parts []scale.Contribution) bool {
	return slices.ContainsFunc(addedTo(parts), func(a added) bool {
		return a.class == "sweetener" || a.Sweetener && a.class == "" && (a.number != "" || !a.Polyol)
	})
}

// sugared reports whether sugars were added: by a flag, by the composition, or
// by the name of an ingredient or of what is inside it.
func sugared(parts []scale.Contribution) bool {
	named := func(h reserved.Hit) bool { return h.Is && (h.Key == "sugar" || h.Key == "honey") }
	return sum(parts, flagged("sugar")) > 0 || slices.ContainsFunc(parts, func(c scale.Contribution) bool { return speaks(c.Ingredient, named) }) || slices.ContainsFunc(parts, func(c scale.Contribution) bool {
		return c.Ingredient.Per100 != nil && c.Ingredient.Per100.AddedSugars.V > 0
	})
}

// polyols is how much of them is in the food: all of an ingredient with the
// flag, and elsewhere what the numbers tell.
func polyols(parts []scale.Contribution) unit.Mass {
	whole := flagged("polyol")
	return sum(parts, whole) + sumOf(addedTo(slices.DeleteFunc(slices.Clone(parts), func(c scale.Contribution) bool { return whole(c.Ingredient) > 0 })),
		func(a added) bool { return a.Polyol })
}

// cocoa asks a food that is sold as chocolate for its dry cocoa solids, holds
// them against the least that the name allows and against what the formula
// holds, and has them declared
// (Directive 2000/36/EC Art. 3(3), Annex I Part A).
func (w *work) cocoa(parts []scale.Contribution) {
	p := w.product
	b := bearer{w, p.ID, parts, w.facts.Finished}
	if !slices.Contains([]string{"chocolate", "milk-chocolate", "family-milk-chocolate"}, p.SoldAs.V) {
		return
	}
	if !p.Cocoa.Set() {
		w.found.Errorf(p.SoldAs.Pos, "cocoa", "write cocoa-solids: such as 64 %", "%s is sold as %s, but its cocoa solids are not given", p.ID, p.SoldAs.V)
		return
	}
	for _, c := range w.market.Reserved(p.SoldAs.V, w.facts.Made) {
		if c.Of == "dry-cocoa-solids" && p.Cocoa.V < c.Share {
			w.found.Errorf(p.Cocoa.Pos, "cocoa", "sell it under another name", "%s has %s of cocoa solids; %s has %s at least", p.ID, p.Cocoa.V, p.SoldAs.V, c.Share)
		}
		if of, whole, unknown := b.component(c); c.Of == "dry-cocoa-solids" && len(unknown) == 0 && of > 0 && of < whole.Of(p.Cocoa.V) {
			w.found.Errorf(p.Cocoa.Pos, "cocoa", "write what its formula holds", "%s is said to have %s of cocoa solids, but its formula holds %s", p.ID, p.Cocoa.V, of.In(whole))
		}
	}
	w.facts.Statements = append(w.facts.Statements, Statement{Key: "cocoa", Share: p.Cocoa.V, Law: true, Src: p.Cocoa.Pos})
}

// origin says where a primary ingredient is from when the label says where the
// food is from and that is not the same (Reg. (EU) 1169/2011 Art. 26(3)).
func (w *work) origin(parts []scale.Contribution) {
	p := w.product
	if len(p.Origin) == 0 {
		return
	}
	w.facts.Statements = append(w.facts.Statements, Statement{Key: "origin", Place: p.Origin, Src: p.Pos})
	masses := map[string]unit.Mass{}
	for _, c := range parts {
		masses[c.Ingredient.ID] += c.Mass
	}
	for _, id := range w.shop.IngredientIDs {
		i := w.shop.Ingredients[id]
		switch {
		case masses[id] == 0 || !w.primary(id, masses[id]):
		case len(i.Origin) == 0:
			w.found.Errorf(i.Pos, "origin", "write origin: in its specification", "the label of %s says where it is from, but not where its primary ingredient %s is from", p.ID, id)
		case nameKey(i.Origin) != nameKey(p.Origin):
			w.facts.Statements = append(w.facts.Statements, Statement{Key: "origin-of", Of: i.Name, Place: i.Origin, Law: true, Src: i.Pos})
		}
	}
}

// primary reports whether an ingredient is one that a buyer thinks of: more than
// half of the food, or one that goes with its name and whose quantity is
// declared for that (Reg. (EU) 1169/2011 Art. 2(2)(q)).
func (w *work) primary(id string, mass unit.Mass) bool {
	return unit.CmpProducts(int64(mass), 2, int64(w.facts.AtUse), 1) > 0 || slices.ContainsFunc(w.product.Percent, func(q shop.Percent) bool {
		return q.Of.V == id && (q.Because.V == "in-name" || q.Because.V == "characterises")
	})
}
