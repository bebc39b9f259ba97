package declare

import (
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Form is the number of the form in which [Facts.Canon] is written. It counts
// up whenever that text changes for facts that did not change: a key, an order,
// a unit, or something that is counted from now on. Signatures under an older
// form are then read, but no longer hold.
const Form = 2

// Canon is the text that the digest is made of. Its first lines name the form,
// the product, the pack and the market. Below stands what is said, one value a
// line behind its key; what a key holds is indented by two spaces.
//
//   - The keys and their order stand in this file and nowhere else: how a field
//     is called in Go, and where it stands, changes nothing.
//   - What is zero or empty is left out, so what is new in a later version
//     changes no digest before it is used.
//   - Texts are quoted as in Go. Words of several languages are sorted by code.
//   - Masses are those for 1000 pieces, in whole milligrams; shares are parts
//     per thousand million; temperatures are 1/900 °C.
//   - Places in files, reasons and sums are not said on a label and are left
//     out. What is not printed because somebody answers for it counts all the
//     same: cross-contact that was ruled out, with its sources, and what a name
//     speaks of and is truly absent, with the reason.
func (f *Facts) Canon() string { return f.canon(&canon{}) }

// Outline is the canon with masses and shares as a label prints them, or not at
// all where it prints none: two labels with the same outline say the same. It is
// for comparing many of them; nobody signs it.
func (f *Facts) Outline() string { return f.canon(&canon{printed: true}) }

func (f *Facts) canon(c *canon) string {
	c.number("facts", Form, "")
	c.text("product", f.Product.ID)
	c.text("pack", f.Pack.ID.V)
	c.text("market", f.Market.Code)
	c.block("food", func() { c.product(f.Product) })
	c.block("sold", func() { c.pack(f.Pack) })
	if o := f.Operator; o != nil { // no line without it, so that older signatures hold
		c.block("operator", func() { c.operator(o) })
	}
	items(c, "lists", f.Lists, c.list)
	c.texts("contains", f.Contains)
	c.texts("may-contain", f.May)
	items(c, "ruled-out", f.Ruled, c.ruled)
	items(c, "truly-free", f.Absent, c.absent)
	if !c.printed {
		c.share("alcohol", f.Alcohol)
	}
	c.block("date", func() { c.date(f.Date) })
	c.block("nutrition", func() { c.nutrition(f.Nutrition) })
	items(c, "statements", f.Statements, c.statement)
	if len(f.Loose) > 0 { // no line without it, so that older signatures hold
		items(c, "loose", f.Loose, c.statement)
	}
	return string(c.b)
}

func (c *canon) product(p *shop.Product) {
	c.words("name", p.Name)
	c.words("about", p.About)
	c.block("keep", func() { c.keep(p.Keep) })
	c.texts("free-from", unplaced(p.FreeFrom))
	if len(p.Suits) > 0 { // no line without it, so that older signatures hold
		c.texts("suits", unplaced(p.Suits))
	}
	c.text("sold-as", p.SoldAs.V)
	c.share("cocoa-solids", p.Cocoa.V)
	c.yes("thawed", p.Thawed.V)
	c.words("origin", p.Origin)
	c.text("before-eating", p.Before.V)
	c.words("instructions", p.Instructions)
}

func (c *canon) keep(k shop.Keep) {
	c.text("store", k.Store.V)
	c.target("temperature", k.Temp)
	c.life("life", k.Life.V)
	c.text("date", k.Date.V)
	c.life("opened", k.Opened.V)
	c.text("opened-store", k.OpenedStore.V)
	c.text("show", k.Show.V)
}

func (c *canon) operator(o *shop.Operator) {
	c.text("name", o.Name.V)
	c.text("address", o.Address.V)
	c.text("country", o.Country.V)
	c.text("says", o.Says.V)
}

func (c *canon) pack(p *shop.Pack) {
	c.number("pieces", int64(p.Pieces.V), "")
	c.text("sold-by", p.SoldBy.V)
	if !p.ByWeight() { // what one pack weighs is read off the scale, and nobody signs for it
		c.mass("net", p.Net.V)
	}
	c.text("gtin", p.GTIN.V)
	c.text("nutrition", p.Nutrition.V)
	c.yes("e-mark", p.Average.V)
	c.text("sale", p.Sale.V)
	c.yes("atmosphere", p.Gas.V)
	c.yes("handed-over", p.Served.V)
	c.mass("portion", p.Portion.V)
	c.mass("each", p.Each.V)
}

func (c *canon) list(l List) {
	c.words("title", l.Title)
	items(c, "parts", l.Parts, c.part)
	c.number("late", int64(l.Late), "")
	c.share("late-share", l.LateShare)
}

func (c *canon) part(p Part) {
	c.words("name", p.Name)
	c.words("or", p.Alt)
	c.text("class", p.Class)
	c.text("number", p.Number)
	c.text("group", p.Group)
	c.text("hydrogenated", p.Hydrogenated)
	c.yes("varying", p.Varying)
	if !c.printed { // only its place in the list is
		c.mass("mass", p.Mass)
	}
	c.block("quantity", func() { c.quantity(p.Quid) })
	c.texts("allergens", p.Allergens)
	c.texts("show", p.Show)
	c.texts("excepted", p.Excepted)
	items(c, "inner", p.Inner, c.part)
}

func (c *canon) ruled(r Ruled) {
	c.text("allergen", r.Allergen)
	c.texts("from", r.From)
}

func (c *canon) absent(a Absent) {
	c.text("of", a.Of)
	c.text("allergen", a.Allergen)
	c.text("reason", a.Reason)
}

func (c *canon) quantity(q *Quantity) {
	if q == nil {
		return
	}
	if c.printed {
		c.figure(q)
		return
	}
	c.mass("used", q.Used)
	c.mass("of", q.Of)
	c.yes("for-100-g", q.PerHundred)
}

// figure is a quantity as it is printed.
func (c *canon) figure(q *Quantity) {
	if q.PerHundred {
		c.number("for-100-g", int64((100*unit.Gram).Mul(q.Used, q.Of).Round(unit.Gram)/unit.Gram), "g")
		return
	}
	if n, ok := market.RoundQuid(q.Used, q.Of); ok {
		c.number("figure", n.N, "")
		c.number("decimals", int64(n.Decimals), "")
	}
}

// date is said but for the days themselves, which change from run to run.
func (c *canon) date(d Date) {
	c.text("kind", d.Kind)
	items(c, "lives", d.Lives, func(l unit.Life) { c.life("life", l) })
}

func (c *canon) nutrition(n *Nutrition) {
	if n == nil {
		return
	}
	c.mass("portion", n.Portion)
	c.number("portions", n.Portions, "")
	c.number("pieces", n.Pieces, "")
	items(c, "rows", n.Rows, c.row)
	if s := n.Symbol; s != nil { // no line without it, so that older signatures hold
		c.block("symbol", func() {
			c.number("version", int64(s.Version), "")
			c.text("not-due", s.NotDue)
		})
	}
}

func (c *canon) row(r Row) {
	c.text("key", r.Key)
	c.text("of", r.Of)
	c.rounded("shown", &r.Shown)
	c.rounded("for-portion", r.Portion)
	c.rounded("of-intake", r.Percent)
}

// rounded writes a figure as it is printed; a figure of 0 is not no figure.
func (c *canon) rounded(key string, r *market.Rounded) {
	if r == nil {
		return
	}
	items(c, key, []*market.Rounded{r}, func(r *market.Rounded) {
		c.number("figure", r.N, "")
		c.number("decimals", int64(r.Decimals), "")
		c.text("unit", r.Unit)
		c.yes("less-than", r.Less)
		c.yes("or-nothing", r.OrZero)
	})
}

func (c *canon) statement(s Statement) {
	c.text("key", s.Key)
	if c.printed && s.Key == "caffeine" {
		c.mass("mass", (100 * unit.Gram).Of(s.Share).Round(unit.Milligram))
	} else {
		c.share("share", s.Share)
	}
	c.words("of", s.Of)
	c.words("place", s.Place)
}

func (c *canon) life(key string, l unit.Life) {
	c.block(key, func() {
		c.number("days", int64(l.Days), "")
		c.number("months", int64(l.Months), "")
	})
}

// target writes a temperature with the scale it was written in, which is said
// first. Which of its bounds count depends on its kind.
func (c *canon) target(key string, at diag.At[unit.Target]) {
	if !at.Set() {
		return
	}
	t := at.V
	kind := map[unit.TargetKind]string{unit.Exactly: "exactly", unit.Within: "within", unit.Between: "between", unit.AtMost: "at-most", unit.AtLeast: "at-least"}[t.Kind]
	c.block(key, func() {
		c.text("kind", kind)
		if t.Kind != unit.AtMost {
			c.number("from", int64(t.Lo), "/900 °C")
		}
		if t.Kind != unit.AtLeast {
			c.number("to", int64(t.Hi), "/900 °C")
		}
		c.yes("fahrenheit", t.InF)
	})
}

// unplaced takes the places off texts.
func unplaced(list []shop.Text) []string {
	var out []string
	for _, t := range list {
		out = append(out, t.V)
	}
	return out
}
