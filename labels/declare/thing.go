package declare

import (
	"cmp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// thing is what may become one entry of a list, before the rules of the list
// are applied: an ingredient, an inner ingredient, a formula, a category.
type thing struct {
	ids          []string // ingredients, or the formula, that it stands for
	opened       []string // compounds among ids that it came out of when they were opened
	key          string   // things with the same key are declared as one
	name, alt    shop.Words
	class        string
	number       string
	group        string
	hydrogenated string
	contains     []string // allergens, without those that the law excepts
	excepted     []string // those
	varying      bool
	carried      bool // additive without a function here
	limited      bool // its inner list may be relieved
	water        bool
	volatile     bool
	mass         unit.Mass // by which it is ordered
	used         unit.Mass // at use
	inner        []thing
	src          diag.Pos
}

// ingredient makes a thing of a bought ingredient. What went in weighs used,
// what counts for the order weighs mass.
func (w *work) ingredient(ing *shop.Ingredient, mass, used unit.Mass) thing {
	t := thing{
		ids: []string{ing.ID}, key: "id " + ing.ID, name: ing.Name, class: ing.Class.V, number: ing.Number.V,
		hydrogenated: ing.Hydrogenated.V, contains: w.contained(ing), water: ing.AddedWater.V, volatile: ing.Evaporates.V,
		limited: ing.Defined.V || ing.Mixture.Set() || !w.market.List.DefinedOnly,
		mass:    mass, used: used, src: ing.Pos,
	}
	t.excepted = without(ids(ing.Contains), t.contains)
	t.inner = w.innerThings(ing.MadeOf, mass)
	return t
}

// innerThings makes things of inner ingredients by their shares of the whole.
func (w *work) innerThings(in []shop.Inner, of unit.Mass) []thing {
	var out []thing
	for _, i := range in {
		mass := of.Of(i.Share.V)
		contains := w.unexcepted(i.Contains, i.Exception.V)
		out = append(out, thing{
			key: "name " + i.Class.V + " " + nameKey(i.Name), name: i.Name, class: i.Class.V, number: i.Number.V,
			contains: contains, excepted: without(ids(i.Contains), contains), varying: i.Varying.V, carried: i.CarryOver.V, water: i.AddedWater.V,
			mass: mass, used: mass, inner: w.innerThings(i.MadeOf, mass), src: i.Pos,
		})
	}
	return out
}

// nameKey is the same for ingredients that have the same name in every language.
func nameKey(n shop.Words) string {
	var all []string
	for _, e := range n {
		all = append(all, e.Key.V+"="+e.V.V)
	}
	slices.Sort(all)
	return strings.Join(all, "\n")
}

// merged joins the things that have the same key. The first id of the joined
// one is the first in the alphabet, so that the order of lines does not matter.
func merged(in []thing) []thing {
	var out []thing
	at := map[string]int{}
	for _, t := range in {
		i, ok := at[t.key]
		if !ok {
			at[t.key] = len(out)
			out = append(out, t)
			continue
		}
		out[i] = out[i].and(t)
	}
	return out
}

// and joins two things of the same key.
func (t thing) and(o thing) thing {
	if len(o.ids) > 0 && (len(t.ids) == 0 || o.ids[0] < t.ids[0]) {
		t, o = o, t
	}
	t.mass += o.mass
	t.used += o.used
	t.contains = union(t.contains, o.contains)
	t.excepted = union(t.excepted, o.excepted)
	t.ids = union(t.ids, o.ids)
	t.opened = union(t.opened, o.opened)
	slices.Sort(t.ids)
	t.carried = t.carried && o.carried
	t.inner = merged(slices.Concat(t.inner, o.inner))
	return t
}

// byMass puts things in falling order; equal ones by name, so that the order
// of lines in a formula does not matter.
func byMass(in []thing) {
	slices.SortStableFunc(in, func(a, b thing) int {
		return cmp.Or(cmp.Compare(b.mass, a.mass), strings.Compare(first(a.ids), first(b.ids)))
	})
}

func ids(ts []shop.Text) []string {
	var out []string
	for _, t := range ts {
		out = append(out, t.V)
	}
	return out
}

func first(ids []string) string {
	if len(ids) == 0 {
		return ""
	}
	return ids[0]
}

func union(a, b []string) []string {
	for _, x := range b {
		if !slices.Contains(a, x) {
			a = append(a[:len(a):len(a)], x)
		}
	}
	return a
}

func without(a, b []string) []string {
	var out []string
	for _, x := range a {
		if !slices.Contains(b, x) {
			out = append(out, x)
		}
	}
	return out
}
