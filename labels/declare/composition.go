package declare

import (
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// value is one figure of a supplier's composition.
type value struct {
	key string
	of  func(*shop.Composition) diag.At[unit.Mass]
	// needed: a missing figure is an error. The others are nothing in most
	// food, and are left out of a specification that has none of them.
	needed bool
	asked  bool // only in markets that declare it
}

// values lists what a composition may state. Carbohydrate includes polyols.
func values() []value {
	type c = shop.Composition
	type at = diag.At[unit.Mass]
	return []value{
		{"fat", func(c *c) at { return c.Fat }, true, false},
		{"saturates", func(c *c) at { return c.Saturates }, true, false},
		{"carbohydrate", func(c *c) at { return c.Carbohydrate }, true, false},
		{"sugars", func(c *c) at { return c.Sugars }, true, false},
		{"polyols", func(c *c) at { return c.Polyols }, false, false},
		{"fibre", func(c *c) at { return c.Fibre }, true, false},
		{"protein", func(c *c) at { return c.Protein }, true, false},
		{"salt", func(c *c) at { return c.Salt }, true, false},
		{"alcohol", func(c *c) at { return c.Alcohol }, false, false},
		{"organic-acids", func(c *c) at { return c.Acids }, false, false},
		{"trans", func(c *c) at { return c.Trans }, true, true},
		{"cholesterol", func(c *c) at { return c.Cholesterol }, true, true},
		{"added-sugars", func(c *c) at { return c.AddedSugars }, true, true},
		{"vitamin-d", func(c *c) at { return c.VitaminD }, true, true},
		{"calcium", func(c *c) at { return c.Calcium }, true, true},
		{"iron", func(c *c) at { return c.Iron }, true, true},
		{"potassium", func(c *c) at { return c.Potassium }, true, true},
	}
}
