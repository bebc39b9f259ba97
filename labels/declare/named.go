package declare

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/naming"
	"chablon/labels/shop"
)

// nameAnswered wants an answer to each ingredient that the name of the food
// names in a language of the label: its percentage, that of a compound that
// contains it, or the reason why it has none (Reg. (EU) 1169/2011 Art. 22(1)(a)
// and Annex VIII point 1; Food Standards Code, Standard 1.2.10). What stands in
// the list itself is asked for first; inner ingredients only where a word names
// nothing else. In an assortment each list answers for its own food, to its
// name and to that of the whole. Of a list of one entry there is nothing to ask.
func (f *food) nameAnswered(parts []Part, things []thing) {
	if !slices.Contains(f.market.Quid.Cases, "in-name") {
		return
	}
	if len(parts) == 1 {
		return // it is all of the food
	}
	n := &namer{food: f}
	for i := range parts {
		n.enter(&parts[i], entry{ids: things[i].ids}, nil)
	}
	n.ask(f.product)
	if f.work.product != f.product {
		n.ask(f.work.product)
	}
}

// namer holds the name of a food against the entries of its list.
type namer struct {
	*food
	entries []entry
	told    []diag.Pos
}

// entry is one entry of a list, at any depth.
type entry struct {
	part     *Part
	ids      []string
	above    []*Part // compounds that it is in
	answered bool
	counted  bool // its quantity is declared by its name, wherever it is
}

// enter adds a part and what is inside it. Additives bear no name of the food.
func (n *namer) enter(p *Part, e entry, above []*Part) {
	shown := e.answered || p.Quid != nil || p.Varying || p.Alt != nil || n.exempted(p, e.ids)
	e.part, e.above, e.counted = p, above, n.counted(p)
	e.answered = shown || e.counted
	if p.Class == "" && p.Group == "" {
		n.entries = append(n.entries, e)
	}
	for i := range p.Inner {
		n.enter(&p.Inner[i], entry{answered: shown}, append(above[:len(above):len(above)], p))
	}
}

// counted reports whether the quantity of what bears this name is declared.
func (n *namer) counted(p *Part) bool {
	return slices.ContainsFunc(n.product.Percent, func(q shop.Percent) bool { return !q.Exempt.Set() && calls(p.Name, q.Of.V) })
}

// exempted reports whether the kitchen gives a reason of Annex VIII.
func (n *namer) exempted(p *Part, ids []string) bool {
	return slices.ContainsFunc(slices.Concat(n.product.Percent, n.work.product.Percent), func(q shop.Percent) bool {
		return q.Exempt.Set() && (slices.Contains(ids, q.Of.V) || calls(p.Name, q.Of.V))
	})
}

// ask holds the name of a product against the entries, in each language of the
// label.
func (n *namer) ask(p *shop.Product) {
	for _, code := range n.shop.LanguagesOf(n.facts.Pack) {
		name, ok := shop.In(p.Name, code.V)
		if !ok {
			continue
		}
		names := make([]string, len(n.entries))
		for i, e := range n.entries {
			if t, ok := shop.In(e.part.Name, code.V); ok {
				names[i] = t.V
			}
		}
		hits := naming.Find(code.V, name.V, names)
		for _, h := range hits {
			n.answer(h, hits, name, names[h.Of])
		}
	}
}

// answer reports a hit that nothing answers, once for each entry.
func (n *namer) answer(h naming.Hit, all []naming.Hit, name shop.Text, called string) {
	e := n.entries[h.Of]
	outer := slices.ContainsFunc(all, func(o naming.Hit) bool { return o.Word == h.Word && len(n.entries[o.Of].above) == 0 })
	inside := slices.ContainsFunc(all, func(o naming.Hit) bool {
		i := n.entries[o.Of]
		return o.Word == h.Word && i.counted && slices.Contains(i.above, e.part)
	})
	inner := len(e.above) > 0
	if e.answered || inside || inner && outer || slices.Contains(n.told, e.part.Src) {
		return
	}
	n.told = append(n.told, e.part.Src)
	of := called
	if !inner && len(e.ids) > 0 {
		of = e.ids[0]
	}
	n.found.Errorf(name.Pos, "percent-missing", "write percent: [{of: "+of+", because: in-name}], or exempt: and why it has none, such as flavouring",
		"the name %q names %s, so its list must say how much there is of it (%s)", name.V, called, n.market.Quid.Cite)
}
