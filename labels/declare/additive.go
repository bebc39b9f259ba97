package declare

import (
	"cmp"
	"slices"
	"strings"

	"chablon/labels/additive"
	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// added is one additive of the food, bought as such or inside something, with
// how much of it goes in.
type added struct {
	additive.Additive
	known   bool // it is one that calls for something
	name    shop.Words
	number  string
	class   string
	mass    unit.Mass
	carried bool // without a function in this food
	src     diag.Pos
}

// added finds the additives of a food, however deep, those without a function
// among them.
func addedTo(parts []scale.Contribution) []added {
	var out []added
	for _, c := range parts {
		i := c.Ingredient
		out = append(out, oneAdded(i.Name, i.Number.V, i.Class.V, c.Mass, false, i.Pos))
		out = append(out, innerAdded(i.MadeOf, c.Mass)...)
	}
	return slices.DeleteFunc(out, func(a added) bool { return !a.known && a.class == "" && a.number == "" })
}

func innerAdded(in []shop.Inner, of unit.Mass) []added {
	var out []added
	for _, i := range in {
		mass := of.Of(i.Share.V)
		out = append(out, oneAdded(i.Name, i.Number.V, i.Class.V, mass, i.CarryOver.V, i.Pos))
		out = append(out, innerAdded(i.MadeOf, mass)...)
	}
	return out
}

func oneAdded(name shop.Words, number, class string, mass unit.Mass, carried bool, src diag.Pos) added {
	var names []string
	for _, e := range name {
		names = append(names, e.V.V)
	}
	a, ok := additive.Find(number, names)
	return added{a, ok, name, number, class, mass, carried, src}
}

// additives refuses what the market forbids, and finds the colours whose
// sentence its law asks for.
func (w *work) additives(parts []scale.Contribution) {
	all := addedTo(parts)
	w.forbidden(all)
	for _, i := range bought(parts) {
		w.flags(i)
		w.comesFrom(i)
	}
	if !w.market.Colours.Asked() {
		return
	}
	var names []shop.Words
	src := diag.Pos{}
	for _, a := range all {
		said := a.name
		if w.product.Additives.V == "numbers" && a.number != "" && w.market.List.ENumbers() {
			said = numbered(a.name, additive.Normal(a.number))
		}
		if a.Azo && !slices.ContainsFunc(names, func(n shop.Words) bool { return nameKey(n) == nameKey(said) }) {
			names, src = append(names, said), a.src
		}
		if a.class == "colour" && a.number == "" && !a.known {
			w.found.Warnf(a.src, "e-number", "write e-number: such as E 160a", "nobody can tell whether this colour calls for a sentence on its effects in children")
		}
	}
	if names != nil {
		w.facts.Statements = append(w.facts.Statements, Statement{Key: "azo", Of: together(names), Law: true, Src: src})
		w.decide(StatementCalled, "azo", nil, Text(w.market.Colours.String()), src)
	}
}

// forbidden refuses what the law that was read forbids; what is remembered to
// be forbidden is a caution.
func (w *work) forbidden(all []added) {
	for _, a := range all {
		for _, b := range w.market.Forbidden {
			if additive.Normal(a.number) != b.Number {
				continue
			}
			say := w.found.Errorf
			if b.Memory {
				say = w.found.Warnf
			}
			say(a.src, "additive", "use another one, or sell it elsewhere", "%s may not be in food here (%s)", b.Number, b.Cite)
		}
	}
}

// numbered is a number in place of a name, in each of its languages.
func numbered(name shop.Words, number string) shop.Words {
	var out shop.Words
	for _, e := range name {
		e.V.V = strings.Replace(number, " ", "\u00a0", 1)
		out = append(out, e)
	}
	return out
}

// together strings names together in each language that all of them have.
func together(names []shop.Words) shop.Words {
	var out shop.Words
	for _, e := range names[0] {
		var all []string
		for _, n := range names {
			if v, ok := shop.In(n, e.Key.V); ok {
				all = append(all, v.V)
			}
		}
		if len(all) == len(names) {
			slices.Sort(all)
			out = append(out, read.Entry[shop.Text]{Key: e.Key, V: shop.Text{V: strings.Join(all, ", "), Pos: e.V.Pos}})
		}
	}
	return out
}

// sumOf adds up the additives that something holds for.
func sumOf(all []added, is func(added) bool) unit.Mass {
	var m unit.Mass
	for _, a := range all {
		if is(a) {
			m += a.mass
		}
	}
	return m
}

// flags refuses a flag that the number or name of an additive contradicts.
func (w *work) flags(i *shop.Ingredient) {
	a := oneAdded(i.Name, i.Number.V, i.Class.V, 0, false, i.Pos)
	if !a.known && a.number == "" {
		return
	}
	is := map[string]bool{"polyol": a.Polyol, "aspartame": a.Aspartame}
	for _, f := range i.Flags {
		if right, ok := is[f.V]; !right && (ok || f.V == "sugar") {
			w.found.Errorf(f.Pos, "flag", "take the flag out, or look at the number", "%s is flagged as %s, and %s is none", i.ID, f.V, cmp.Or(a.number, i.ID))
		}
	}
}

// comesFrom refuses a specification that is silent on the allergen that one of
// its additives always is or comes from: a preservative of sulphites of which
// none is left, lysozyme without egg.
func (w *work) comesFrom(i *shop.Ingredient) {
	check := func(name shop.Words, number, class string, pos diag.Pos) {
		a := oneAdded(name, number, class, 0, false, pos)
		switch {
		case a.Allergen == "":
		case a.Allergen == "sulphites" && i.SO2.V == 0:
			w.found.Errorf(pos, "additive", "ask the supplier how much is left, and write sulphites: such as 150 mg/kg", "%s is a sulphite, but sulphites of %s says 0 mg/kg", cmp.Or(number, a.Number), i.ID)
		case a.Allergen != "sulphites" && !shop.Names(i.Holds(), a.Allergen):
			w.found.Errorf(pos, "additive", "write contains: ["+a.Allergen+"], there and at the ingredient", "%s always comes from %s, but %s does not contain it", cmp.Or(number, a.Number), a.Allergen, i.ID)
		}
	}
	check(i.Name, i.Number.V, i.Class.V, i.Pos)
	deep(i.MadeOf, func(in shop.Inner) { check(in.Name, in.Number.V, in.Class.V, in.Pos) })
}
