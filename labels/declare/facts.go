// Package declare answers: what must be said, in which order?
//
// [Of] computes from formulas and supplier specifications everything that a
// label, a ticket or a carton must say of one product: the ingredient list in
// legal order, quantities, allergens, nutrition, dates. The result, [Facts],
// has no language and no clock: labels/words says it, layout sets it.
//
// Four totals are kept apart, because the law measures against different ones:
//
//	order of the list    mass at use (Reg. (EU) 1169/2011 Art. 18(1))
//	percentages          mass at use over finished mass where moisture is lost (Annex VIII 4)
//	added water          by subtraction from the finished mass (Annex VII A 1)
//	sulphites            sulphur dioxide over the finished mass (Annex II 12)
//
// All masses are for the pieces of scale.Basis, so that small parts keep their digits.
package declare

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Facts is what must be said about one product in one pack in one market.
type Facts struct {
	Product *shop.Product
	Pack    *shop.Pack
	Market  *market.Market
	Made    unit.Date

	Operator *shop.Operator // who stands behind it in this market; nil for the shop itself

	AtUse      unit.Mass  // all that goes in
	Finished   unit.Mass  // what is left of it when sold
	Lists      []List     // one, or one for each component of an assortment; none where the food needs none
	Contains   []string   // allergen ids in the order of the market's table
	May        []string   // allergen ids that cannot be kept out and are not contained
	Ruled      []Ruled    // allergens that the assessment found to be kept out, in alphabetical order
	Absent     []Absent   // what names speak of and is not in them, by ingredient
	SO2        unit.Mass  // sulphur dioxide in Finished
	Alcohol    unit.Share // ethanol in the finished food before any loss in the oven
	Date       Date
	Nutrition  *Nutrition  // nil when it is not declared
	Statements []Statement // in the order in which they are found
	Loose      []Statement // what is said beside them where the food bears no list

	Decisions []Decision
}

// List is one ingredient list. Title is empty for the only list of a product.
// The parts from Late on are each no more than LateShare of the food, and a
// closing phrase may say so; without such a phrase Late is len(Parts).
type List struct {
	Title     shop.Words
	Parts     []Part
	Late      int
	LateShare unit.Share
}

// Part is one entry of an ingredient list, in the order of the law.
type Part struct {
	Ref          string     // id of the ingredient or formula; "" for an inner ingredient
	Name         shop.Words // name per language; of a group empty
	Alt          shop.Words // name of what may stand in its place: "and/or"
	Class        string     // function class of an additive, or ""
	Number       string     // E number, where it stands for the name
	Group        string     // "vegetable-oils" or "vegetable-fats": the market's words, with the plants in Inner
	Hydrogenated string     // "fully", "partly" or ""
	Varying      bool       // a mixture in varying proportions
	Mass         unit.Mass  // by which it is ordered: at use; of added water and volatile food what is left of it
	Quid         *Quantity  // declared quantity, or nil
	// Allergens are those of the part itself: wherever its name names one, the
	// name is emphasised. Show are those among them that no inner part shows:
	// when the name does not name them, they follow it in brackets.
	Allergens, Show []string
	Excepted        []string // allergens it is made from that the market's law excepts
	Inner           []Part   // inner ingredients to print
	Src             diag.Pos
}

// Quantity is a declared quantity: a percentage, or, above 100 %, grams used
// for 100 g of the finished food (Annex VIII 4).
type Quantity struct {
	Used, Of   unit.Mass
	PerHundred bool
}

// Share is the quantity as a share; nothing of a food of which nothing is left.
func (q *Quantity) Share() unit.Share {
	if q.Of <= 0 {
		return 0
	}
	return q.Used.In(q.Of)
}

// Date is the date of minimum durability or the use-by date.
type Date struct {
	Kind  string // "use-by", "best-before" or "none"
	End   unit.Date
	Limit string         // id of the component that limits it, or ""
	Shown market.Printed // what is printed of it
	Lives []unit.Life    // of the product and of the components of an assortment; the shortest counts
}

// Statement is something that must be said beside the list. Key names it:
// "atmosphere", "cocoa", "defrosted". The other fields fill its words.
type Statement struct {
	Key   string
	Share unit.Share // of cocoa solids, or of caffeine
	Of    shop.Words // the ingredient, of a statement on its origin
	Place shop.Words
	Law   bool // asked for by law; otherwise good practice
	Src   diag.Pos
}

// Of computes the facts of p, sold in pack, made on the given day. What is
// wrong or missing is added to found; Facts are then not fit for printing.
func Of(sh *shop.Shop, p *shop.Product, pack *shop.Pack, m *market.Market, made unit.Date, found *diag.List) *Facts {
	f := &Facts{Product: p, Pack: pack, Market: m, Made: made}
	w := &work{shop: sh, product: p, market: m, facts: f, found: found}
	whole := w.food(p)
	f.Finished, f.AtUse, f.SO2 = whole.finished, whole.atUse, whole.so2
	if f.Finished <= 0 || f.AtUse <= 0 {
		found.Errorf(p.Pos, "mass", "look at the parts and the losses", "nothing is left of %s", p.ID)
		return f
	}
	w.components = w.assorted(p, nil)
	w.lists(whole)
	w.freeFrom(whole.parts, w.mayContain(whole.parts))
	w.absent(whole.parts)
	w.specified(whole.parts)
	w.alcohol(whole.parts)
	w.date()
	w.operator()
	w.statements(whole.parts)
	w.reserved(p, whole.parts, whole.finished)
	w.listed(whole.parts)
	w.smallPack()
	for _, c := range w.components {
		w.reserved(c, scale.Expand(sh, c), scale.FinishedMass(sh, c))
	}
	if pack.Nutrition.V == "declared" {
		f.Nutrition = w.nutrition(whole.parts)
	} else {
		w.decide(NutritionLeftOut, p.ID, Key(pack.Nutrition.V), nil, pack.Nutrition.Pos)
	}
	return f
}

// work is one computation under way.
type work struct {
	shop       *shop.Shop
	product    *shop.Product
	components []*shop.Product // of an assortment
	market     *market.Market
	facts      *Facts
	found      *diag.List
}

// lists makes the ingredient list, or one for each component of an assortment,
// and gathers what they contain.
func (w *work) lists(whole *food) {
	foods := []*food{whole}
	if len(w.components) > 0 {
		foods = nil
		for _, c := range w.components {
			foods = append(foods, w.food(c))
		}
	}
	var contains []string
	for _, f := range foods {
		if f.finished <= 0 || f.atUse <= 0 {
			w.found.Errorf(f.product.Pos, "mass", "look at the parts and the losses", "nothing is left of %s", f.product.ID)
			continue
		}
		f.sulphites()
		f.unnamedSulphites()
		f.openings()
		contains = union(contains, f.contains())
		if w.unlisted(f) {
			continue
		}
		l := f.list()
		if len(w.components) > 0 {
			l.Title = f.product.Name
		}
		w.facts.Lists = append(w.facts.Lists, l)
	}
	for _, a := range w.market.Allergens.Table {
		if slices.Contains(contains, a.ID) {
			w.facts.Contains = append(w.facts.Contains, a.ID)
		}
	}
}

// unlisted reports whether a food needs no list (Reg. (EU) 1169/2011 Art. 19),
// and that the kitchen says why. In an assortment every food has its list.
func (w *work) unlisted(f *food) bool {
	p := f.product
	if p.List.V != "none" || len(w.components) > 0 {
		return false
	}
	switch {
	case !p.NoList.Set():
		w.found.Errorf(p.List.Pos, "no-list", "write no-list: and the reason", "%s is said to need no ingredient list, but not why", p.ID)
	case p.NoList.V == "single-ingredient" && (len(merged(f.gather())) != 1 || len(f.parts[0].Ingredient.MadeOf) > 1):
		w.found.Errorf(p.NoList.Pos, "no-list", "let it have its list", "%s is made of more than one ingredient", p.ID)
	default:
		w.decide(NoList, p.ID, Key(p.NoList.V), nil, p.NoList.Pos)
	}
	return true
}

// assorted are the products that an assortment is made of, each once, or nil.
func (w *work) assorted(p *shop.Product, above []*shop.Product) []*shop.Product {
	var out []*shop.Product
	loose := diag.Pos{}
	for _, l := range p.Lines() {
		c := w.shop.Products[l.Use.V]
		switch {
		case c == nil:
			loose = l.Pos
		case slices.Contains(above, c) || c == p:
		default:
			inside := w.assorted(c, append(above[:len(above):len(above)], p))
			if inside == nil {
				inside = []*shop.Product{c}
			}
			for _, x := range inside {
				if !slices.Contains(out, x) {
					out = append(out, x)
				}
			}
		}
	}
	if len(out) > 0 && loose.Known() {
		w.found.Errorf(loose, "assortment", "make a product of it, or of what it is added to", "%s holds finished products, so all of it must be finished products, each with its own list", p.ID)
	}
	return out
}
