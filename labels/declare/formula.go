package declare

import (
	"slices"

	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Known is allergens that are known beside those of the shop's files, such as
// those of what took another's place today.
type Known struct{ Contains, May []string }

// InFormula gives what a formula contains and what it may contain by the shop's
// files and by what else is known, allergen ids in the order of the law. It is
// for the kitchen, where nobody knows yet what the food will go into: nothing is
// too little to count, no exception of a law is used, and no assessment takes
// anything away. What may take an ingredient's place counts as what may be in it.
func InFormula(sh *shop.Shop, f *shop.Formula, known Known) (contains, may []string) {
	has, might := map[string]bool{}, map[string]bool{}
	for _, c := range scale.ExpandFormula(sh, f, unit.Kilogram) {
		note(has, c.Ingredient.Contains)
		inner(has, c.Ingredient.MadeOf)
		note(might, c.Ingredient.MayContain)
		if or := sh.Ingredients[c.Line.Or.V]; or != nil {
			note(might, or.Contains)
			inner(might, or.MadeOf)
			note(might, or.MayContain)
		}
	}
	note(might, sh.Profile.CrossContact)
	for _, id := range known.Contains {
		has[id] = true
	}
	for _, id := range known.May {
		might[id] = true
	}
	for id := range has {
		delete(might, id)
	}
	return inOrder(has), inOrder(might)
}

// UnsureIn are the ingredients of a formula of which nobody knows all that is in
// them, by id: while there are any, that an allergen is not known of says
// nothing.
func UnsureIn(sh *shop.Shop, f *shop.Formula) []*shop.Ingredient {
	var out []*shop.Ingredient
	for _, id := range sh.IngredientIDs {
		i := sh.Ingredients[id]
		in := func(c scale.Contribution) bool { return c.Ingredient == i || c.Line.Or.V == id }
		if sh.Unsure(i) && slices.ContainsFunc(scale.ExpandFormula(sh, f, unit.Kilogram), in) {
			out = append(out, i)
		}
	}
	return out
}

func note(ids map[string]bool, texts []shop.Text) {
	for _, t := range texts {
		ids[t.V] = true
	}
}

func inner(ids map[string]bool, all []shop.Inner) {
	for _, i := range all {
		note(ids, i.Contains)
		inner(ids, i.MadeOf)
	}
}

// inOrder lists ids in the order of the law; what the law does not know comes
// last, by its letters.
func inOrder(ids map[string]bool) []string {
	var out, other []string
	for _, id := range market.AllergenIDs() {
		if ids[id] {
			out = append(out, id)
		}
	}
	for id, in := range ids {
		if in && !slices.Contains(out, id) {
			other = append(other, id)
		}
	}
	slices.Sort(other)
	return append(out, other...)
}

// Raw reports whether the formula is known to be raw: raw egg goes into it, and
// no step that needs that one has a critical limit of heat. A limit is what the
// kitchen itself has set and measures; neither boiling nor a hot syrup is
// taken for one. False does not mean that the food is ready to eat.
func Raw(sh *shop.Shop, f *shop.Formula) bool {
	work, err := scale.OrderFormula(sh, f)
	if err != nil {
		return true // steps in a circle: nothing can be said of their order
	}
	heated := make([]bool, len(work.Tasks))
	for i := len(work.Tasks) - 1; i >= 0; i-- {
		t := work.Tasks[i]
		heated[i] = heated[i] || heats(t.Step)
		for _, j := range t.Needs {
			heated[j] = heated[j] || heated[i]
		}
	}
	for i, t := range work.Tasks {
		if !heated[i] && slices.ContainsFunc(t.Step.Cautions, func(c shop.Text) bool { return c.V == "raw-egg" }) {
			return true
		}
	}
	return false
}

// heats reports whether a step must not be left before it is as hot as pooled
// eggs must be: 68 °C (155 °F), FDA Food Code 3-401.11(A)(2), for 17 s (the
// seconds from memory).
func heats(s *shop.Step) bool {
	return s.Limit != nil && s.Limit.Reach.Set() && s.Limit.Reach.V.Kind == unit.AtLeast && s.Limit.Reach.V.Lo >= unit.Celsius(68)
}
