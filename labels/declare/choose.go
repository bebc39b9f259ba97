package declare

import (
	"regexp"
	"slices"
	"strings"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// open puts the parts of a compound ingredient into the list in its place:
// a compound may be declared by its own name, but need not be (Annex VII Part
// E point 1). A part joins the simple ingredient of the same name, which may
// change the order.
func (f *food) open(in []thing) []thing {
	names := map[string]bool{}
	var out []thing
	for _, t := range in {
		if !f.opened(t) {
			out = append(out, t)
			continue
		}
		f.decide(Opened, t.ids[0], f.ofFinished(t.mass), nil, t.src)
		for _, p := range t.inner {
			names[p.key] = true
			p.ids, p.opened = t.ids, t.ids
			out = append(out, p)
		}
	}
	for i, t := range out {
		if key := "name " + t.class + " " + nameKey(t.name); len(t.inner) == 0 && t.alt == nil && names[key] {
			out[i].key = key
		}
	}
	return out
}

// opened reports whether the product wants this compound opened.
func (f *food) opened(t thing) bool {
	return len(t.inner) > 0 && slices.ContainsFunc(f.product.Open, func(o shop.Text) bool { return slices.Contains(t.ids, o.V) })
}

// openings checks that what is to be opened is a compound of the food.
func (f *food) openings() {
	for _, o := range f.product.Open {
		i := f.shop.Ingredients[o.V]
		if i == nil || len(i.MadeOf) == 0 || !f.has(o.V) {
			f.found.Errorf(o.Pos, "open", "name a compound ingredient that the product is made of", "%s is no compound ingredient of %s", o.V, f.product.ID)
		}
	}
}

// join puts ingredients of one category under one name.
func (f *food) join(in []thing) []thing {
	for _, j := range f.product.Join {
		var members, rest []thing
		for _, t := range in {
			if slices.ContainsFunc(j.Of, func(o shop.Text) bool { return slices.Contains(t.ids, o.V) }) {
				members = append(members, t)
			} else {
				rest = append(rest, t)
			}
		}
		if f.joins(j, members) {
			in = append(rest, f.category(j, members))
		}
	}
	return in
}

// joins checks that the law allows the category: spices and herbs up to the
// market's share of the food; sugars where all are of one kind; oils and fats
// with their plants (Annex VII Part A points 8 and 9, Part B).
func (f *food) joins(j shop.Join, members []thing) bool {
	var sum unit.Mass
	ids := []string{}
	for _, t := range members {
		sum += t.mass
		ids = union(ids, t.ids)
		if t.class != "" || len(t.inner) > 0 {
			f.found.Errorf(j.Pos, "join", "leave it out, or open it", "%s is an additive or a compound; it keeps its own entry", t.ids[0])
			return false
		}
	}
	rule := f.market.List.Mixture
	oil := strings.HasPrefix(j.As.V, "vegetable-")
	switch {
	case len(members) == 0:
		f.found.Errorf(j.Pos, "join", "name ingredients that the product is made of", "nothing of this is in %s", f.product.ID)
	case !oil && len(j.Name) == 0:
		f.found.Errorf(j.Pos, "join", "write name: and the name of the category in each language", "this category has no name")
	case (j.As.V == "spices" || j.As.V == "herbs") && (!rule.Set() || !rule.Holds(sum, f.finished)):
		f.found.Errorf(j.Pos, "join", "name them one by one", "%s are %s of %s; together under one name they may be no more than %s here",
			j.As.V, sum.In(f.finished), f.product.ID, rule.Share)
	case oil && !f.plants(ids):
		f.found.Errorf(j.Pos, "join", "write plant: in each specification", "the plants of the oils or fats are not all known")
	default:
		f.decide(Joined, j.As.V, f.ofFinished(sum), named(ids), j.Pos)
		return true
	}
	return false
}

func (f *food) plants(ids []string) bool {
	return !slices.ContainsFunc(ids, func(id string) bool {
		i := f.shop.Ingredients[id]
		return i == nil || len(i.Plant) == 0
	})
}

// category is the thing that stands for its members. Spices, herbs and sugars
// lose their own names, not their allergens; oils keep their plants.
func (f *food) category(j shop.Join, members []thing) thing {
	t := thing{key: "join " + j.As.V, name: j.Name, varying: j.Varying.V, src: j.Pos}
	oil := strings.HasPrefix(j.As.V, "vegetable-")
	if oil {
		t.group = j.As.V
	}
	for _, m := range members {
		t.ids = union(t.ids, m.ids)
		t.mass += m.mass
		t.used += m.used
		t.contains = union(t.contains, m.contains)
		if oil {
			m.name = f.shop.Ingredients[m.ids[0]].Plant
			t.inner = append(t.inner, m)
		}
	}
	slices.Sort(t.ids)
	return t
}

// alternative notes an ingredient that may stand for another, where the law
// allows "and/or": less than the market's share of the food, and neither an
// additive nor a source of an allergen (Annex VII Part A point 7).
func (f *food) alternative(t *thing, c scale.Contribution) {
	rule, pos := f.market.List.AndOr, c.Line.Or.Pos
	alt := f.shop.Ingredients[c.Line.Or.V]
	switch {
	case alt == nil || alt == c.Ingredient:
		f.found.Errorf(pos, "and-or", "name another ingredient", "%q cannot take the place of %s", c.Line.Or.V, c.Ingredient.ID)
	case !rule.Set() || f.market.List.AndOrMost < 2:
		f.found.Errorf(pos, "and-or", "declare what is in it", "%s allows no and/or", f.market.Code)
	case !simple(c.Ingredient) || !simple(alt):
		f.found.Errorf(pos, "and-or", "make a product of its own for each", "an additive, a compound or a source of an allergen is never declared with and/or: %s, %s", c.Ingredient.ID, alt.ID)
	case !rule.Holds(t.mass, f.finished):
		f.found.Errorf(pos, "and-or", "make a product of its own for each", "%s is %s of %s; and/or is for less than %s",
			c.Ingredient.ID, t.mass.In(f.finished), f.product.ID, rule.Share)
	default:
		t.alt, t.key = alt.Name, "or "+c.Ingredient.ID+" "+alt.ID
		f.decide(AndOr, c.Ingredient.ID, f.ofFinished(t.mass), ID(alt.ID), pos)
	}
}

// simple reports that an ingredient is no additive, no compound, and holds no
// allergen.
func simple(i *shop.Ingredient) bool {
	return !i.Class.Set() && len(i.MadeOf) == 0 && len(i.Contains) == 0 && i.SO2.V == 0
}

var numberForm = regexp.MustCompile(`^E ?[0-9]{3,4}[a-z]?( ?\([ivx]+\))?$`)

// number is the E number of an additive where the law lets it stand for the
// name; elsewhere the name stays.
func (f *food) number(t thing) string {
	switch {
	case !f.market.List.ENumbers(), t.number == "" && t.class == "modified-starch":
		return ""
	case !numberForm.MatchString(t.number):
		f.found.Errorf(t.src, "e-number", "write e-number: such as E 322, or declare additives by name", "the E number of %s is missing or cannot be read", t.name[0].V.V)
		return ""
	}
	return "E\u00a0" + strings.TrimSpace(strings.TrimPrefix(t.number, "E"))
}
