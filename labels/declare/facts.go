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
// All masses are for [scale.Basis] pieces, so that small parts keep their digits.
package declare

import (
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

	AtUse     unit.Mass  // all that goes in
	Finished  unit.Mass  // what is left of it when sold
	Lists     []List     // one, or one for each component of an assortment
	Contains  []string   // allergen ids in the order of the market's table
	May       []string   // allergen ids that cannot be kept out and are not contained
	SO2       unit.Mass  // sulphur dioxide in Finished
	Alcohol   unit.Share // ethanol in the finished food before any loss in the oven
	Date      Date
	Nutrition *Nutrition // nil when it is not declared

	Decisions []Decision
}

// List is one ingredient list. Title is empty for the only list of a product.
type List struct {
	Title shop.Words
	Parts []Part
}

// Part is one entry of an ingredient list, in the order of the law.
type Part struct {
	Ref     string     // id of the ingredient; "" for an inner ingredient
	Name    shop.Words // name per language
	Class   string     // function class of an additive, or ""
	Varying bool       // a mixture in varying proportions
	Mass    unit.Mass  // at use; of added water what is left in the finished food
	Quid    *Quantity  // declared quantity, or nil
	// Allergens are those of the part itself: wherever its name names one, the
	// name is emphasised. Show are those among them that no inner part shows:
	// when the name does not name them, they follow it in brackets.
	Allergens, Show []string
	Inner           []Part // inner ingredients to print
	Src             diag.Pos
}

// Quantity is a declared quantity: a percentage, or, above 100 %, grams used
// for 100 g of the finished food (Annex VIII 4).
type Quantity struct {
	Used, Of   unit.Mass
	PerHundred bool
}

// Share is the quantity as a share.
func (q *Quantity) Share() unit.Share { return q.Used.In(q.Of) }

// Date is the date of minimum durability or the use-by date.
type Date struct {
	Kind  string // "use-by", "best-before" or "none"
	End   unit.Date
	Limit string // id of the component that limits it, or ""
}

// Decision is one choice that the rules made, kept for whoever asks why.
type Decision struct {
	Rule  string   // stable name, such as "water-left-out"
	Part  string   // what it was about
	Got   string   // the value that decided
	Limit string   // what it was held against
	Pos   diag.Pos // where the value comes from
}

// Of computes the facts of p, sold in pack, made on the given day. What is
// wrong or missing is added to found; Facts are then not fit for printing.
func Of(sh *shop.Shop, p *shop.Product, pack *shop.Pack, m *market.Market, made unit.Date, found *diag.List) *Facts {
	f := &Facts{Product: p, Pack: pack, Market: m, Made: made}
	w := &work{shop: sh, product: p, market: m, facts: f, found: found}
	parts := scale.Expand(sh, p)
	f.Finished = scale.FinishedMass(sh, p)
	f.AtUse = total(parts)
	if f.Finished <= 0 || f.AtUse <= 0 {
		found.Errorf(p.Pos, "mass", "look at the make-up and the losses", "nothing is left of %s", p.ID)
		return f
	}
	w.sulphites(parts)
	w.lists()
	w.allergens(parts)
	w.alcohol(parts)
	w.date()
	if pack.Nutrition.V == "declared" {
		f.Nutrition = w.nutrition(parts)
	} else {
		w.decide("nutrition-left-out", p.ID, pack.Nutrition.V, "", pack.Nutrition.Pos)
	}
	return f
}

// work is one computation under way.
type work struct {
	shop    *shop.Shop
	product *shop.Product
	market  *market.Market
	facts   *Facts
	found   *diag.List
}

func (w *work) decide(rule, part, got, limit string, pos diag.Pos) {
	w.facts.Decisions = append(w.facts.Decisions, Decision{rule, part, got, limit, pos})
}

func total(parts []scale.Contribution) unit.Mass {
	var sum unit.Mass
	for _, c := range parts {
		sum += c.Mass
	}
	return sum
}

// lists makes the ingredient list, or one for each component of an assortment.
func (w *work) lists() {
	comps := components(w.shop, w.product)
	if comps == nil {
		w.facts.Lists = []List{{Parts: w.list(w.product)}}
		return
	}
	for _, c := range comps {
		w.facts.Lists = append(w.facts.Lists, List{Title: c.Name, Parts: w.list(c)})
	}
}

// components are the products that an assortment is made of, or nil.
func components(sh *shop.Shop, p *shop.Product) []*shop.Product {
	var out []*shop.Product
	for _, st := range p.MakeUp {
		for _, l := range st.Add {
			if c := sh.Products[l.Use.V]; c != nil {
				out = append(out, c)
			}
		}
	}
	return out
}
