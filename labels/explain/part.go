package explain

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// ingredients tells of the ingredients that the word names, or that hold an
// inner ingredient of that name.
func (f *finder) ingredients() {
	best, all := not, f.used()
	fit := map[*shop.Ingredient]int{}
	for _, i := range all {
		fit[i] = f.fits(append(texts(i.Name), i.ID, i.BoughtAs.V)...)
		inners(i.MadeOf, func(in shop.Inner) { fit[i] = max(fit[i], f.fits(texts(in.Name)...), f.fits(in.Class.V, in.Number.V)) })
		best = max(best, fit[i])
	}
	if best == not || best == within && len(f.out.Under) > 0 {
		return
	}
	var alike declare.IDs
	for _, i := range all {
		switch {
		case fit[i] == best:
			f.ingredient(i)
		case fit[i] != not:
			alike = append(alike, declare.ID(i.ID))
		}
	}
	if alike != nil {
		f.topic("also-part-of", Values{"ingredients": alike})
	}
}

// ingredient tells of one ingredient: where it stands on the label, how much
// of it there is, and how it got in.
func (f *finder) ingredient(i *shop.Ingredient) {
	r := f.topic("ingredient", Values{"ingredient": declare.ID(i.ID), "bought-as": declare.Text(i.BoughtAs.V)})
	spots := f.listed(i)
	for _, s := range spots {
		s.tell(r)
	}
	if spots == nil {
		r.add("not-in-list", nil)
	}
	var sum unit.Mass
	for _, c := range f.parts {
		if c.Ingredient == i {
			sum += c.Mass
		}
	}
	r.add("amount", Values{"amount": f.amount(sum)})
	f.decided(r, append(f.together(r, i), i.ID)...)
	f.innerOf(r, i)
	f.ways(r, i)
}

// together tells with what an ingredient is declared as one, and gives the ids.
func (f *finder) together(r *Reason, i *shop.Ingredient) []string {
	var mates []string
	var ids declare.IDs
	spots := f.listed(i)
	for _, o := range f.used() {
		if o != i && slices.ContainsFunc(f.listed(o), func(s spot) bool {
			return slices.ContainsFunc(spots, func(t spot) bool { return s.part.Src == t.part.Src && s.place == t.place })
		}) {
			mates, ids = append(mates, o.ID), append(ids, declare.ID(o.ID))
		}
	}
	if mates != nil {
		r.add("declared-with", Values{"ingredients": ids})
	}
	return mates
}

// innerOf tells of the inner ingredients that the word names.
func (f *finder) innerOf(r *Reason, i *shop.Ingredient) {
	inners(i.MadeOf, func(in shop.Inner) {
		if len(in.Name) == 0 || f.fits(append(texts(in.Name), in.Class.V, in.Number.V)...) == not {
			return
		}
		first := in.Name[0].V.V
		r.add("inner", Values{"name": declare.Text(first), "share": declare.Percent(in.Share.V)}, in.Pos)
		seen := slices.ContainsFunc(f.spots(), func(s spot) bool { return s.part.Src == in.Pos || sameName(s.part.Name, in.Name) })
		if !seen && len(f.decisions(first)) == 0 {
			r.add("inner-unnamed", Values{"name": declare.Text(first), "ingredient": declare.ID(i.ID)})
		}
		f.decided(r, first)
	})
}

// ways tells each way on which an ingredient gets into the product, and where
// its specification is.
func (f *finder) ways(r *Reason, i *shop.Ingredient) {
	for _, c := range f.parts {
		if c.Ingredient != i {
			continue
		}
		in := r.add("comes-in", nil)
		lines := max(0, len(c.Path)-len(c.Via)-1) // those of the product, and in an assortment of its component
		for n := range lines {
			in.add("by-component", Values{"product": declare.ID(c.Product.ID)}, c.Path[n])
		}
		for n, v := range c.Via {
			f.losses(in.add("through", Values{"formula": declare.ID(v.ID), "amount": f.amount(c.Through[n])}, c.Path[lines+n]), v.ID)
		}
		how := "as"
		if c.InMedium {
			how = "as-soaked-up"
		}
		in.add(how, Values{"ingredient": declare.ID(i.ID), "amount": f.amount(c.Mass)}, c.Line.Pos)
	}
	f.specified(r, i)
}

// spot is a place in an ingredient list.
type spot struct {
	part      declare.Part
	list      declare.List
	place, of int            // among its neighbours
	above     []declare.Part // the compounds that it is in
	name      string         // in the language of the question
	printed   string         // its quantity as printed
	inside    string         // the compound that it is in
}

// tell says where it is.
func (s spot) tell(r *Reason) {
	name := declare.Text(strings.TrimSpace(s.name + " " + s.printed))
	if len(s.above) > 0 {
		r.add("in-list-inside", Values{"name": name, "inside": declare.Text(s.inside)})
		return
	}
	r.add("in-list", Values{"name": name, "place": Count(s.place), "of": Count(s.of)})
}

// spots are all places in all lists.
func (f *finder) spots() []spot {
	var out []spot
	for _, l := range f.Facts.Lists {
		var walk func([]declare.Part, []declare.Part)
		walk = func(parts, above []declare.Part) {
			for i, p := range parts {
				one := spot{part: p, list: l, place: i + 1, of: len(parts), above: above, name: f.nameOf(p), printed: f.printed(p)}
				if len(above) > 0 {
					one.inside = f.nameOf(above[len(above)-1])
				}
				out = append(out, one)
				walk(p.Inner, append(above[:len(above):len(above)], p))
			}
		}
		walk(l.Parts, nil)
	}
	return out
}

// listed are the places where an ingredient stands: by its id, or joined with
// others of the same name.
func (f *finder) listed(i *shop.Ingredient) []spot {
	var out []spot
	for _, s := range f.spots() {
		if s.part.Ref == i.ID || s.part.Src == i.Pos || len(s.above) == 0 && sameName(s.part.Name, i.Name) {
			out = append(out, s)
		}
	}
	return out
}

func (f *finder) nameOf(p declare.Part) string {
	if v, ok := shop.In(p.Name, f.Lang.Code()); ok {
		return v.V
	}
	return p.Group + p.Ref
}

// printed is the declared quantity as it is printed, or "".
func (f *finder) printed(p declare.Part) string {
	switch {
	case p.Quid == nil:
		return ""
	case p.Quid.PerHundred:
		return fmt.Sprintf("(%s in 100 g)", per100(p.Quid.Used, p.Quid.Of).Round(unit.Gram))
	}
	q, _ := market.RoundQuid(p.Quid.Used, p.Quid.Of)
	return f.Lang.Percent(q.N, q.Decimals)
}

func sameName(a, b shop.Words) bool {
	if len(a) == 0 || len(a) != len(b) {
		return false
	}
	for _, e := range a {
		if v, ok := shop.In(b, e.Key.V); !ok || v.V != e.V.V {
			return false
		}
	}
	return true
}

// formulas tells of the formulas that the word names.
func (f *finder) formulas() {
	for _, v := range f.through() {
		if f.fits(append(texts(v.Name), v.ID)...) == wholly {
			f.formula(v)
		}
	}
}

func (f *finder) formula(v *shop.Formula) {
	r := f.topic("formula", Values{"formula": declare.ID(v.ID), "version": Count(v.Version.V)})
	r.add("version-of", Values{"issued": declare.Day(v.Issued.V)}, v.Pos)
	var sum unit.Mass
	var holds declare.IDs
	seen := map[string]bool{}
	for _, c := range f.parts {
		n := slices.Index(c.Via, v)
		if n < 0 {
			continue
		}
		if key := fmt.Sprint(c.Path[:len(c.Path)-len(c.Via)+n]); !seen[key] {
			seen[key] = true
			sum += c.Through[n]
			r.add("formula-comes-in", Values{"amount": f.amount(c.Through[n])}, c.Path[len(c.Path)-len(c.Via)-1+n])
		}
		if id := declare.ID(c.Ingredient.ID); !slices.Contains(holds, id) {
			holds = append(holds, id)
		}
	}
	if len(seen) > 1 {
		r.add("together", Values{"amount": f.amount(sum)})
	}
	r.add("made-of", Values{"ingredients": holds})
	f.decided(r, v.ID)
}
