package declare

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// food is one product of which a list is made: the product itself, or a
// component of an assortment, which is a food of its own.
type food struct {
	*work
	product         *shop.Product
	parts           []scale.Contribution
	atUse, finished unit.Mass
	so2             unit.Mass
	dried           unit.Mass // water that brings dried food back
}

func (w *work) food(p *shop.Product) *food {
	f := &food{work: w, product: p, parts: scale.Expand(w.shop, p), finished: scale.FinishedMass(w.shop, p)}
	f.atUse, f.so2 = total(f.parts), sulphurDioxide(f.parts)
	return f
}

// list makes the ingredient list.
func (f *food) list() List {
	things := f.gather()
	things = f.open(things)
	f.sameName(things)
	things = merged(things)
	things = f.join(things)
	things = f.water(things)
	things = f.sugars(things)
	byMass(things)
	var l List
	for _, t := range things {
		l.Parts = append(l.Parts, f.part(t, f.relieved(t)))
	}
	f.quantities(l.Parts, things)
	f.late(&l, things)
	f.nothingLost(l)
	return l
}

// gather makes things of all lines: of ingredients, and in a list by part of
// the formulas of the make-up.
func (f *food) gather() []thing {
	var out []thing
	byFormula := map[*shop.Formula][]scale.Contribution{}
	for _, c := range f.parts {
		switch {
		case f.product.List.V == "by-part" && len(c.Via) > 0:
			byFormula[c.Via[0]] = append(byFormula[c.Via[0]], c)
		default:
			out = f.add(out, c)
		}
	}
	if len(byFormula) == 0 {
		return out
	}
	for _, l := range f.product.Lines() {
		if sub := f.shop.Formulas[l.Use.V]; sub != nil && byFormula[sub] != nil {
			out = append(out, f.named(sub, byFormula[sub]))
			delete(byFormula, sub)
		}
	}
	return out
}

// add appends what one contribution brings. A processing aid is left out
// unless it holds an allergen (Reg. (EU) 1169/2011 Art. 20(b)(ii), Art. 21).
func (f *food) add(out []thing, c scale.Contribution) []thing {
	left, mass := f.left(c), unit.Mass(0)
	if mass = left; c.Line.Reconstituted.V {
		mass = f.reconstituted(c, left)
	}
	t := f.ingredient(c.Ingredient, mass, left)
	if c.Line.Aid.V {
		if len(f.declarable(t.contains)) == 0 {
			f.decide(ProcessingAid, c.Ingredient.ID, nil, nil, c.Line.Aid.Pos)
			return out
		}
		t.key = "aid " + t.key
	}
	if c.Line.Or.Set() {
		f.alternative(&t, c)
	}
	return append(out, t)
}

// named makes one thing of a formula that is declared by its name, by its own
// weight, with its ingredients behind it (Annex VII Part E point 1).
func (f *food) named(sub *shop.Formula, parts []scale.Contribution) thing {
	t := thing{ids: []string{sub.ID}, key: "id " + sub.ID, name: sub.Name, limited: !f.market.List.DefinedOnly, src: sub.Pos}
	for _, l := range f.product.Lines() {
		if l.Use.V == sub.ID {
			t.mass += f.each(l.Taken())
		}
	}
	t.used = t.mass
	for _, c := range parts {
		t.inner = f.add(t.inner, c)
	}
	t.inner = f.open(t.inner)
	f.sameName(t.inner)
	t.inner = f.waterIn(merged(t.inner), t.mass)
	byMass(t.inner)
	return t
}

// each is what the pieces of the basis hold of what goes into one make-up.
func (f *food) each(m unit.Mass) unit.Mass {
	made := f.shop.Made(f.product)
	if f.product.CutTo.V <= 0 || made <= 0 {
		return m * unit.Mass(scale.Basis)
	}
	return m.Mul(f.finished, made)
}

// sameName gives simple ingredients of the same name the same key, where the
// product wants them declared as one.
func (f *food) sameName(things []thing) {
	for i, t := range things {
		if f.product.SameLine.V == "same-name" && len(t.inner) == 0 && t.alt == nil {
			things[i].key = "name " + t.class + " " + nameKey(t.name)
		}
	}
}

// water replaces the mass of added water by what is left of it in the finished
// food, and drops it where the market allows.
func (f *food) water(in []thing) []thing { return f.waterIn(in, f.finished) }

// waterIn computes added water by subtraction: finished mass less all other
// ingredients at use (Art. 18(1) and Annex VII Part A point 1), less the water
// that only brings dried food back (Art. 20(e)(i)). Where the market orders
// water like all else, its mass at use counts.
func (f *food) waterIn(in []thing, finished unit.Mass) []thing {
	var others, poured unit.Mass
	for _, t := range in {
		if t.water {
			poured += t.used
		} else {
			others += t.used
		}
	}
	left := poured
	if f.market.List.Order.WaterBase == market.Finished {
		left = max(0, min(poured, finished-others))
	}
	left = max(0, left-f.dried)
	var out []thing
	for _, t := range in {
		if t.water {
			t.mass = left.Mul(t.used, max(1, poured))
			t.used = t.mass
			rule := f.market.List.Water
			if holds := len(f.declarable(t.contains)) > 0; !holds && (rule.Holds(left, f.finished) || left == 0 && f.dried > 0) {
				f.decide(WaterLeftOut, t.ids[0], f.ofFinished(left), Percent(rule.Share), t.src)
				continue
			}
		}
		out = append(out, t)
	}
	return out
}

// left is what counts of a contribution: all of it, or of a volatile
// ingredient what was measured to be left (Annex VII Part A point 1).
func (f *food) left(c scale.Contribution) unit.Mass {
	if !c.Line.Left.Set() || c.Line.Taken() == 0 {
		if c.Ingredient.Evaporates.V {
			f.decide(VolatileUnmeasured, c.Ingredient.ID, nil, nil, c.Line.Pos)
		}
		return c.Mass
	}
	if !c.Ingredient.Evaporates.V {
		f.found.Errorf(c.Line.Left.Pos, "evaporates", "write evaporates: yes in its specification, or state the loss with the formula",
			"%s does not evaporate, so what is left of it cannot be given here", c.Ingredient.ID)
		return c.Mass
	}
	f.decide(VolatileLeft, c.Ingredient.ID, Mass(c.Line.Left.V.Of(c.Line.Taken())), Mass(c.Line.Taken()), c.Line.Left.Pos)
	return remains(c)
}

// remains is what is left of a contribution that evaporates, where somebody
// measured it; otherwise all of it.
func remains(c scale.Contribution) unit.Mass {
	if taken := c.Line.Taken(); c.Ingredient.Evaporates.V && c.Line.Left.Set() && taken > 0 {
		return c.Mass.Mul(min(c.Line.Left.V.Of(taken), taken), taken)
	}
	return c.Mass
}

// reconstituted is the mass before drying or concentration of what is brought
// back with water (Annex VII Part A point 2); the water is set aside.
func (f *food) reconstituted(c scale.Contribution, m unit.Mass) unit.Mass {
	fresh := c.Ingredient.Fresh
	if fresh.V <= 100*unit.Gram {
		f.found.Errorf(c.Line.Reconstituted.Pos, "reconstituted", "write fresh: in its specification, such as 800 g: the mass of fresh food that 100 g were made from",
			"nobody says what %s was before it was dried", c.Ingredient.ID)
		return m
	}
	before := m.Mul(fresh.V, 100*unit.Gram)
	f.dried += before - m
	f.decide(Reconstituted, c.Ingredient.ID, Mass(before), Mass(m), c.Line.Reconstituted.Pos)
	return before
}

// late finds the entries at the end of the list that a closing phrase may
// gather: each no more than the market's figure (21 CFR 101.4(a)(2)). Where a
// market has no such phrase the order by mass says it all.
func (f *food) late(l *List, things []thing) {
	l.Late = len(l.Parts)
	if len(f.market.List.Blanks) == 0 {
		return
	}
	var masses []unit.Mass
	for i := len(things) - 1; i >= 0; i-- {
		masses = append(masses, things[i].mass)
		share, ok := f.market.List.Threshold(masses, f.atUse)
		if !ok {
			break
		}
		l.Late, l.LateShare = i, share
	}
	if len(l.Parts)-l.Late < 2 {
		l.Late, l.LateShare = len(l.Parts), 0
	}
}

// total is all that goes in.
func total(parts []scale.Contribution) unit.Mass {
	var sum unit.Mass
	for _, c := range parts {
		sum += c.Mass
	}
	return sum
}

// nothingLost makes sure that whatever the food contains can be read in its
// list.
func (f *food) nothingLost(l List) {
	for _, id := range without(f.contains(), shown(l.Parts)) {
		f.lost(id, f.product.Pos)
	}
}

func (w *work) lost(id string, pos diag.Pos) {
	w.found.Errorf(pos, "allergen-lost", "report this: nothing may be printed", "%s contains %s, but no part of its list shows it", w.product.ID, id)
}

// has reports whether an ingredient went into the food.
func (f *food) has(id string) bool {
	return slices.ContainsFunc(f.parts, func(c scale.Contribution) bool { return c.Ingredient.ID == id })
}
