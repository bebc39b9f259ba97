package declare

import (
	"slices"
	"strings"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// quantities gives the declared quantity to each part that the product's
// decisions name, at whatever depth. The quantity is the mass at use over the
// finished mass where moisture was lost, over the mass at use otherwise, and of
// what is volatile the mass left over the finished mass; where one of them, or
// all together, pass 100 %, each becomes grams for 100 g of the finished food.
// Reg. (EU) 1169/2011 Art. 22 and Annex VIII points 3 and 4.
func (f *food) quantities(parts []Part, things []thing) {
	if !f.market.Quid.Set() || f.facts.Pack.Sale.V == "direct" && !f.market.Asks(market.Direct, role.Quid) && !f.market.Asks(market.Loose, role.Quid) {
		return // not asked for
	}
	m := &measure{food: f, parts: parts, things: things, base: min(f.atUse, f.finished)}
	for _, q := range f.product.Percent {
		m.decide(q)
	}
	if f.market.Quid.Over.Set() && m.sum > m.base {
		for _, d := range m.declared {
			d.PerHundred = true
		}
	}
	f.nameAnswered(parts, things)
}

// measure is the declaring of the quantities of one list.
type measure struct {
	*food
	parts    []Part
	things   []thing // of the same order
	base     unit.Mass
	sum      unit.Mass
	declared []*Quantity
}

// decide carries out one decision of the kitchen.
func (m *measure) decide(q shop.Percent) {
	if q.Exempt.Set() {
		m.food.decide(QuantityExempt, q.Of.V, Key(q.Exempt.V), nil, q.Pos)
		return
	}
	p, used, of := m.find(q)
	switch {
	case p == nil:
		m.found.Errorf(q.Of.Pos, "percent", "name an ingredient of the list, an inner ingredient by its name, or list: by-part to declare a formula by its name",
			"%s has no entry of its own in the list of %s", q.Of.V, m.product.ID)
	case p.Varying || p.Alt != nil:
		m.food.decide(QuantityExempt, q.Of.V, Key("varying-mixture"), nil, q.Pos)
	case p.Quid == nil:
		p.Quid = &Quantity{Used: used, Of: of}
		m.declared = append(m.declared, p.Quid)
		m.sum += used
		m.food.decide(QuantityDeclared, q.Of.V, Percent(p.Quid.Share()), Key(q.Because.V), q.Pos)
	}
}

// find finds the entry that a decision names, and its quantity: an ingredient
// or a formula by its id, or whatever has a name, at any depth, by that name. A
// compound that was opened has no entry; its parts are named.
func (m *measure) find(q shop.Percent) (p *Part, used, of unit.Mass) {
	i := slices.IndexFunc(m.things, func(t thing) bool { return slices.Contains(t.ids, q.Of.V) && !slices.Contains(t.opened, q.Of.V) })
	if i >= 0 {
		return &m.parts[i], m.things[i].mass, m.over(m.things[i])
	}
	of = m.base
	for _, t := range m.things {
		used += t.of(q.Of.V)
		if calls(t.name, q.Of.V) {
			of = m.over(t)
		}
	}
	return entryOf(m.parts, q.Of.V), used, of
}

// over is what the quantity of a thing is a share of.
func (m *measure) over(t thing) unit.Mass {
	if t.volatile || t.water {
		return m.finished
	}
	return m.base
}

// of is how much of what has a name is in a thing: all of it, or what its inner
// things hold of it.
func (t thing) of(name string) unit.Mass {
	if calls(t.name, name) {
		return t.mass
	}
	var sum unit.Mass
	for _, i := range t.inner {
		sum += i.of(name)
	}
	return sum
}

// entryOf is the entry at which the quantity of what has a name is printed:
// that of the list itself, or else the largest inside.
func entryOf(parts []Part, name string) (best *Part) {
	for i := range parts {
		if calls(parts[i].Name, name) {
			return &parts[i]
		}
	}
	for i := range parts {
		if p := entryOf(parts[i].Inner, name); p != nil && (best == nil || p.Mass > best.Mass) {
			best = p
		}
	}
	return best
}

// calls reports whether a name, in some language, is this text.
func calls(names shop.Words, text string) bool {
	for _, n := range names {
		if strings.EqualFold(n.V.V, text) {
			return true
		}
	}
	return false
}
