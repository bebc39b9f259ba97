package print

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// ingredients tells of the ingredients that the word names, or that hold an
// inner ingredient of that name.
func (w *why) ingredients() bool {
	best, all := not, w.used()
	fit := map[*shop.Ingredient]int{}
	for _, i := range all {
		fit[i] = w.fits(append(texts(i.Name), i.ID, i.BoughtAs.V)...)
		inners(i.MadeOf, func(in shop.Inner) { fit[i] = max(fit[i], w.fits(texts(in.Name)...), w.fits(in.Class.V, in.Number.V)) })
		best = max(best, fit[i])
	}
	if best == not || best == within && w.found {
		return false
	}
	var alike []string
	for _, i := range all {
		switch {
		case fit[i] == best:
			w.ingredient(i)
		case fit[i] != not:
			alike = append(alike, i.ID)
		}
	}
	if alike != nil {
		w.item("", "the word is also part of what is known of "+strings.Join(alike, ", "))
	}
	return true
}

// ingredient tells of one ingredient: where it stands on the label, how much
// of it there is, and how it got in.
func (w *why) ingredient(i *shop.Ingredient) {
	w.head("%s (%s)", i.ID, i.BoughtAs.V)
	spots := w.listed(i)
	for _, s := range spots {
		w.item("  ", "in the list as "+s.String())
	}
	if spots == nil {
		w.item("  ", "not in the list by a name of its own")
	}
	var sum unit.Mass
	for _, c := range w.parts {
		if c.Ingredient == i {
			sum += c.Mass
		}
	}
	w.item("  ", w.amount(sum))
	w.reasons(append(w.together(i), i.ID)...)
	w.innerOf(i)
	w.ways(i)
}

// together tells with what an ingredient is declared as one, and gives the ids.
func (w *why) together(i *shop.Ingredient) []string {
	var mates []string
	spots := w.listed(i)
	for _, o := range w.used() {
		if o != i && slices.ContainsFunc(w.listed(o), func(s spot) bool {
			return slices.ContainsFunc(spots, func(t spot) bool { return s.part.Src == t.part.Src && s.place == t.place })
		}) {
			mates = append(mates, o.ID)
		}
	}
	if mates != nil {
		w.item("  ", "declared as one with "+strings.Join(mates, ", "))
	}
	return mates
}

// innerOf tells of the inner ingredients that the word names.
func (w *why) innerOf(i *shop.Ingredient) {
	inners(i.MadeOf, func(in shop.Inner) {
		if len(in.Name) == 0 || w.fits(append(texts(in.Name), in.Class.V, in.Number.V)...) == not {
			return
		}
		first := in.Name[0].V.V
		w.item("  ", fmt.Sprintf("%s: %s of what it is in", first, in.Share.V), w.at(in.Pos))
		seen := slices.ContainsFunc(w.spots(), func(s spot) bool { return s.part.Src == in.Pos || sameName(s.part.Name, in.Name) })
		if !seen && !w.decidedOn(first) {
			w.item("  ", first+" is not named on the label: see what is decided about "+i.ID)
		}
		w.reasons(first)
	})
}

func (w *why) decidedOn(about string) bool { return len(w.decided(about)) > 0 }

// ways tells each way on which an ingredient gets into the product, and where
// its specification is.
func (w *why) ways(i *shop.Ingredient) {
	for _, c := range w.parts {
		if c.Ingredient != i {
			continue
		}
		w.line("  it comes in")
		lines := len(c.Path) - len(c.Via) - 1 // those of the product, and in an assortment of its component
		for n := range max(0, lines) {
			w.item("    ", "with the component "+c.Product.ID, w.at(c.Path[n]))
		}
		for n, f := range c.Via {
			w.item("    ", fmt.Sprintf("through %s, %s", f.ID, w.amount(c.Through[n])), w.at(c.Path[max(0, lines)+n]))
		}
		how := "as " + c.Ingredient.ID
		if c.InMedium {
			how += ", taken up from what it is cooked in"
		}
		w.item("    ", fmt.Sprintf("%s, %s", how, w.amount(c.Mass)), w.at(c.Line.Pos))
	}
	w.item("  ", specOf(i), w.at(specPos(i)))
}

// specOf says which paper of the supplier counts.
func specOf(i *shop.Ingredient) string {
	if i.Spec == nil {
		return "no specification"
	}
	return fmt.Sprintf("specification %s of %s by %s, to be asked for again by %s", i.Spec.Version.V, i.Spec.Dated.V, i.Supplier.V, i.Spec.ReviewBy.V)
}

// amount says a mass for the pieces of scale.Basis as one for a piece, and for
// 100 g of the finished food.
func (w *why) amount(m unit.Mass) string {
	return fmt.Sprintf("%s a piece, %s in 100 g", short(m/unit.Mass(scale.Basis)), short((100*unit.Gram).Mul(m, w.Facts.Finished)))
}

// short gives grams with about three figures: 0.726 g, 7.26 g, 41.2 g.
func short(m unit.Mass) string {
	step := 100 * unit.Milligram
	switch {
	case m < unit.Gram:
		step = unit.Milligram
	case m < 10*unit.Gram:
		step = 10 * unit.Milligram
	}
	return m.Round(step).String()
}

// spot is a place in an ingredient list.
type spot struct {
	part      declare.Part
	list      declare.List
	place, of int            // among its neighbours
	above     []declare.Part // the compounds that it is in
	name      string         // in the first language
	printed   string         // its quantity as printed
	inside    string         // the compound that it is in
}

// String says where it is.
func (s spot) String() string {
	name := strings.TrimSpace(s.name + " " + s.printed)
	if len(s.above) > 0 {
		return fmt.Sprintf("\"%s\", inside \"%s\"", name, s.inside)
	}
	return fmt.Sprintf("\"%s\", place %d of %d", name, s.place, s.of)
}

// spots are all places in all lists.
func (w *why) spots() []spot {
	var out []spot
	for _, l := range w.Facts.Lists {
		var walk func([]declare.Part, []declare.Part)
		walk = func(parts, above []declare.Part) {
			for i, p := range parts {
				one := spot{part: p, list: l, place: i + 1, of: len(parts), above: above, name: w.nameOf(p), printed: w.quantity(p)}
				if len(above) > 0 {
					one.inside = w.nameOf(above[len(above)-1])
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
func (w *why) listed(i *shop.Ingredient) []spot {
	var out []spot
	for _, s := range w.spots() {
		if s.part.Ref == i.ID || s.part.Src == i.Pos || len(s.above) == 0 && sameName(s.part.Name, i.Name) {
			out = append(out, s)
		}
	}
	return out
}

func (w *why) nameOf(p declare.Part) string {
	if v, ok := shop.In(p.Name, w.Langs[0].Code()); ok {
		return v.V
	}
	return p.Group + p.Ref
}

// quantity is the declared quantity as it is printed, or "".
func (w *why) quantity(p declare.Part) string {
	switch {
	case p.Quid == nil:
		return ""
	case p.Quid.PerHundred:
		return fmt.Sprintf("(%s in 100 g)", (100*unit.Gram).Mul(p.Quid.Used, p.Quid.Of).Round(unit.Gram))
	}
	f, _ := market.RoundQuid(p.Quid.Used, p.Quid.Of)
	return w.Langs[0].Percent(f.N, f.Decimals)
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
func (w *why) formulas() bool {
	found := false
	for _, f := range w.through() {
		if w.fits(append(texts(f.Name), f.ID)...) != wholly {
			continue
		}
		found = true
		w.head("%s, version %d: a formula; its ingredients stand in the list", f.ID, f.Version.V)
		w.item("  ", "version of "+f.Issued.V.String(), w.at(f.Pos))
		var sum unit.Mass
		var holds []string
		seen := map[string]bool{}
		for _, c := range w.parts {
			n := slices.Index(c.Via, f)
			if n < 0 {
				continue
			}
			if key := fmt.Sprint(c.Path[:len(c.Path)-len(c.Via)+n]); !seen[key] {
				seen[key] = true
				sum += c.Through[n]
				w.item("  ", "it comes in, "+w.amount(c.Through[n]), w.at(c.Path[len(c.Path)-len(c.Via)-1+n]))
			}
			if !slices.Contains(holds, c.Ingredient.ID) {
				holds = append(holds, c.Ingredient.ID)
			}
		}
		if len(seen) > 1 {
			w.item("  ", "together "+w.amount(sum))
		}
		w.item("  ", "it is made of "+strings.Join(holds, ", "))
		w.reasons(f.ID)
	}
	return found
}

// specPos is where the supplier's specification of an ingredient stands.
func specPos(i *shop.Ingredient) diag.Pos {
	if i.Spec != nil {
		return i.Spec.Pos
	}
	return i.Pos
}
