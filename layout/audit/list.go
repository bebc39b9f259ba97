package audit

import (
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/flow"
)

// list is the ingredient list as a tree, in the order of the law, with masses
// and shares; of an assortment one tree for each component.
func (t *teller) list() section {
	s := section{title: t.Word("audit.list"), note: t.Word("audit.list-note"), cols: []col{{t.Word("audit.ingredient"), 0, flow.Left},
		{t.Word("audit.per-100g"), 23, flow.Right}, {t.Word("audit.share"), 15, flow.Right}, {t.Word("audit.declared"), 16, flow.Right},
		{t.Word("audit.allergen"), 30, flow.Left}, {t.Word("audit.file"), 38, flow.Left}}}
	for _, l := range t.Facts.Lists {
		f := t.foodOf(l)
		if l.Title != nil {
			s.rows = append(s.rows, cells(bold(t.name(l.Title, f.product.Pos)), place(f.product.Pos)))
		}
		for _, p := range l.Parts {
			s.rows = append(s.rows, t.branch(p, f, 0)...)
		}
	}
	return s
}

// food is what a list is of.
type food struct {
	product         *shop.Product
	atUse, finished unit.Mass
}

// foodOf finds the product that a list is of by its title.
func (t *teller) foodOf(l declare.List) food {
	if len(l.Title) > 0 {
		for _, c := range t.parts {
			if n := c.Product.Name; len(n) > 0 && n[0].Key.Pos == l.Title[0].Key.Pos {
				f := food{product: c.Product, finished: scale.FinishedMass(t.Shop, c.Product)}
				for _, p := range scale.Expand(t.Shop, c.Product) {
					f.atUse += p.Mass
				}
				return f
			}
		}
	}
	return food{t.Facts.Product, t.Facts.AtUse, t.Facts.Finished}
}

// branch is one part with its inner parts, each set in further.
func (t *teller) branch(p declare.Part, f food, depth int) []row {
	name := plain(t.partName(p))
	name.indent = depth
	var allergens []string
	for _, id := range p.Allergens {
		allergens = append(allergens, t.called(id))
	}
	rows := []row{cells(name, plain(t.per100(p.Mass, f.finished)), plain(t.share(p.Mass, f.atUse)), plain(t.declared(p.Quid)),
		plain(t.Audit.Lang.Join(allergens)), place(p.Src))}
	for _, i := range p.Inner {
		rows = append(rows, t.branch(i, f, depth+1)...)
	}
	return rows
}

// partName is the name of a part behind its class, as in the list.
func (t *teller) partName(p declare.Part) string {
	name := p.Group
	if len(p.Name) > 0 {
		name = t.name(p.Name, p.Src)
	} else if w := t.orElse("list."+p.Group, ""); w != "" {
		name = strings.TrimSpace(strings.ReplaceAll(w, "({list})", ""))
	}
	if len(p.Alt) > 0 {
		name = t.Fill("list.and-or", map[string]string{"a": name, "b": t.name(p.Alt, p.Src)})
	}
	if p.Number != "" {
		name += " (" + p.Number + ")"
	}
	if p.Class != "" {
		class := t.orElse("class."+strings.ReplaceAll(p.Class, " ", "-"), p.Class)
		name = t.Fill("list.class", map[string]string{"class": class, "list": name})
	}
	return name
}

// declared is the quantity as the label prints it.
func (t *teller) declared(q *declare.Quantity) string {
	if q == nil {
		return "–"
	}
	if q.PerHundred {
		return t.Audit.Lang.MassIn((100*unit.Gram).Mul(q.Used, q.Of), "g", 0)
	}
	f, ok := market.RoundQuid(q.Used, q.Of)
	if !ok {
		return t.percent(q.Share())
	}
	return t.Audit.Lang.Percent(f.N, f.Decimals)
}

// origin shows by which formulas each ingredient comes in.
func (t *teller) origin() section {
	s := section{title: t.Word("audit.origin"), cols: []col{{t.Word("audit.ingredient"), 46, flow.Left}, {t.Word("audit.through"), 0, flow.Left},
		{t.Word("audit.per-100g"), 24, flow.Right}, {t.Word("audit.file"), 52, flow.Left}}}
	for _, c := range t.parts {
		var via []string
		if c.Product != t.Facts.Product {
			via = append(via, t.name(c.Product.Name, c.Product.Pos))
		}
		for _, f := range c.Via {
			via = append(via, t.name(f.Name, f.Pos))
		}
		through := strings.Join(via, " › ")
		if through == "" {
			through = t.Word("audit.itself")
		}
		if c.InMedium {
			through += ", " + t.Word("audit.medium")
		}
		s.rows = append(s.rows, cells(plain(t.called(c.Ingredient.ID)), plain(through), plain(t.per100(c.Mass, t.Facts.Finished)), place(c.Line.Pos)))
	}
	return s
}
