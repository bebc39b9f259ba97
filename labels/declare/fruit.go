package declare

import (
	"cmp"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/reserved"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// fruitKinds are the kinds of fruit that the law on jam tells apart, and citrus
// for marmalade.
func fruitKinds() []string {
	return []string{"fruit", "currants", "ginger", "cashew-apple", "passion-fruit", "citrus"}
}

// fruit is how much fruit of the kind of a bound is in a food, where that kind
// is in it at all; of a mixture each kind counts by its own least amount, so
// that a kind is held against its share of the whole. A bound of a kind that is
// not there has no whole to be held against.
func (b bearer) fruit(c market.Composition) (of, whole unit.Mass, unknown []string) {
	all := map[string]unit.Mass{}
	var sum unit.Mass
	for _, p := range b.parts {
		for kind, s := range fruitOf(p.Ingredient) {
			all[kind] += p.Mass.Of(s)
			sum += p.Mass.Of(s)
		}
	}
	if c.Of == "citrus" {
		return all["citrus"], b.finished, nil
	}
	all["fruit"] += all["citrus"]
	switch {
	case sum == 0 && c.Food == "sorbet": // it need not be of fruit
		return 0, 0, nil
	case c.Of == "fruit" && all["fruit"] == sum:
		return sum, b.finished, nil
	case all[c.Of] == 0:
		return 0, 0, nil
	}
	return all[c.Of], b.finished.Mul(all[c.Of], sum), nil
}

// fruitOf is how much fruit of each kind is in an ingredient: what its strength
// tells, or the shares of what is inside it, or all of it where its name is that
// of a fruit.
func fruitOf(i *shop.Ingredient) map[string]unit.Share {
	kind := fruitCalled(i.Name)
	if s, ok := i.Trait("fruit"); ok {
		return map[string]unit.Share{cmp.Or(kind, "fruit"): s}
	}
	out := map[string]unit.Share{}
	for _, in := range i.MadeOf {
		if k := fruitCalled(in.Name); k != "" {
			out[k] += in.Share.V
		}
	}
	if len(i.MadeOf) == 0 && kind != "" && !i.Class.Set() {
		out[kind] = unit.Whole
	}
	return out
}

// fruitCalled is the kind of fruit that a name speaks of, or "".
func fruitCalled(names shop.Words) string {
	for _, n := range names {
		for _, h := range reserved.Find(n.Key.V, n.V.V) {
			if slices.Contains(fruitKinds(), h.Key) {
				return h.Key
			}
		}
	}
	return ""
}

// coat are the places of the lines that are added when a food is coated or
// moulded; nil where its parts have no such stage.
func (b bearer) coat() (out []diag.Pos) {
	p := b.shop.Products[b.id]
	if p == nil {
		return nil
	}
	for _, s := range p.Parts {
		if s.Stage.V == "coat" {
			for _, l := range s.Add {
				out = append(out, l.Pos)
			}
		}
	}
	return out
}
