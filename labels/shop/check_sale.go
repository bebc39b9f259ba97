package shop

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
)

// packs: ids are ids and come once; counts and masses are possible.
func (c *checker) packs() {
	c.products(func(p *Product) {
		for i, k := range p.Packs {
			if msg := badID(k.ID.V); k.ID.Set() && msg != "" {
				c.wrong(k.ID.Pos, "id", "use small letters a to z, digits and single hyphens", "%q: %s", k.ID.V, msg)
			}
			if slices.ContainsFunc(p.Packs[:i], func(q Pack) bool { return q.ID.V == k.ID.V }) && k.ID.Set() {
				c.wrong(k.ID.Pos, "pack", "give each pack a name of its own", "there are two packs %q", k.ID.V)
			}
			c.pieces(k.Pieces, "a number of pieces")
			c.amount(k.Net, "a net quantity", false)
			positive(c, k.Face, "the largest face", "write it like 96 cm²")
			c.surface(k)
		}
		if len(p.Packs) == 0 && c.whole(p.Pos) {
			c.wrong(p.Pos, "pack", "write at least one", "%s is sold in no pack", p.ID)
		}
		if p.Tray != nil {
			c.pieces(p.Tray.Holds, "what a tray holds")
		}
	})
}

// surface: all faces together are no less than the largest of them.
func (c *checker) surface(k Pack) {
	positive(c, k.Surface, "the surface", "write it like 260 cm²")
	if k.Surface.Set() && k.Surface.V < k.Face.V {
		c.wrong(k.Surface.Pos, "surface", "add up all faces that can bear print", "%s of surface are less than the largest face, %s", k.Surface.V, k.Face.V)
	}
}

// gtins: numbers are right to the last digit, and each is one thing's only.
func (c *checker) gtins() {
	first := map[string]diag.Pos{}
	c.products(func(p *Product) {
		for _, k := range p.Packs {
			if k.GTIN.Set() {
				c.gtin(k.GTIN, len(k.GTIN.V) == 14 && !k.ByWeight(), first)
			}
		}
		if p.Carton != nil && p.Carton.GTIN.Set() {
			k, _ := p.Pack(p.Carton.Pack.V)
			c.cartonGTIN(p.Carton.GTIN, k != nil && k.ByWeight())
			c.gtin(p.Carton.GTIN, false, first)
		}
	})
}

func (c *checker) gtin(g Text, carton bool, first map[string]diag.Pos) {
	full, err := gs1.Pad(g.V)
	switch {
	case err != nil:
		c.wrong(g.Pos, "gtin", "copy it again, in quotes and without spaces", "%q %s", g.V, gtinFault(g.V))
		return
	case carton:
		c.wrong(g.Pos, "gtin", "write the unit's own number", "%q is a carton's number, not that of a pack for the shop", g.V)
	case gs1.Restricted(g.V):
		c.caution(g.Pos, "gtin", "use a number from your GS1 office for goods sold elsewhere", "%q lies in a range that shops use inside their own walls", g.V)
	}
	if at, twice := first[full]; twice {
		c.wrong(g.Pos, "gtin", "give each pack and carton a number of its own", "%q is used already, at %s", g.V, at)
		return
	}
	first[full] = g.Pos
}

// ownNumbers: numbers begin with the shop's company prefix. Where none does,
// the prefix is the likelier mistake.
func (c *checker) ownNumbers() {
	prefix := c.Profile.GS1Prefix
	if !prefix.Set() || gs1.ValidPrefix(prefix.V) != nil {
		return
	}
	var own, foreign []Text
	for _, g := range c.numbers() {
		switch full, err := gs1.Pad(g.V); {
		case err != nil || len(g.V) == 8:
		case strings.HasPrefix(full[1:], prefix.V):
			own = append(own, g)
		default:
			foreign = append(foreign, g)
		}
	}
	if len(own) == 0 && len(foreign) > 1 {
		c.caution(prefix.Pos, "gtin", "copy the prefix again", "none of the numbers of the products begins with the company prefix %s; %q does not", prefix.V, foreign[0].V)
		return
	}
	for _, g := range foreign {
		c.caution(g.Pos, "gtin", "see whether the number is your own", "%q does not begin with the shop's company prefix %s", g.V, prefix.V)
	}
}

// numbers gives all GTINs of the shop.
func (c *checker) numbers() []Text {
	var all []Text
	c.products(func(p *Product) {
		for _, k := range p.Packs {
			all = append(all, k.GTIN)
		}
		if p.Carton != nil {
			all = append(all, p.Carton.GTIN)
		}
	})
	return slices.DeleteFunc(all, func(g Text) bool { return !g.Set() })
}

// gtinFault says what is wrong with a number that is not a GTIN.
func gtinFault(g string) string {
	switch {
	case strings.Trim(g, "0123456789") != "":
		return "must be digits only"
	case !slices.Contains([]int{8, 12, 13, 14}, len(g)):
		return fmt.Sprintf("has %d digits; a GTIN has 8, 12, 13 or 14", len(g))
	}
	want, _ := gs1.CheckDigit(g[:len(g)-1])
	return fmt.Sprintf("does not fit its check digit: after %s it should be %c", g[:len(g)-1], want)
}

// cartonGTIN: a carton has a number of 12, 13 or 14 digits (GGS 2.1.7: a
// grouping of packs has a GTIN-12, GTIN-13 or GTIN-14; from memory); the first
// of 14 is 1 to 8, or 0 before one of 13, and 9 is for goods of variable mass.
func (c *checker) cartonGTIN(g Text, weighed bool) {
	switch {
	case weighed && !variable(g.V):
		c.wrong(g.Pos, "gtin", "write the 14 digits of the number for variable weight, which begins with 9", "%q is not the number of a carton that is weighed", g.V)
	case weighed:
	case len(g.V) == 8:
		c.wrong(g.Pos, "gtin", "give the carton a number of 12, 13 or 14 digits, or leave it out", "%q is a GTIN-8, and a carton has none", g.V)
	case len(g.V) == 14 && g.V[0] == '9':
		c.wrong(g.Pos, "gtin", "begin it with a digit from 1 to 8", "%q is not the number of a carton of packs that are all alike", g.V)
	}
}

// cartons: a carton holds a pack that there is.
func (c *checker) cartons() {
	c.products(func(p *Product) {
		k := p.Carton
		if k == nil {
			return
		}
		if _, ok := p.Pack(k.Pack.V); !ok && k.Pack.Set() && c.whole(p.Pos) {
			c.wrong(k.Pack.Pos, "pack", meant(k.Pack.V, p.PackIDs(), "packs here are "+list(p.PackIDs())), "%s has no pack %q", p.ID, k.Pack.V)
		}
		c.pieces(k.Holds, "what a carton holds")
		c.pieces(k.Tie, "what a layer holds")
		c.pieces(k.High, "a number of layers")
		if k.Tie.Set() != k.High.Set() {
			c.wrong(k.Pos, "carton", "write both tie: and high:, or neither", "a pallet of %s is either counted in layers or not", p.ID)
		}
		if k.Sides.Set() && (k.Sides.V < 1 || k.Sides.V > MaxSides) {
			c.wrong(k.Sides.Pos, "carton", "count the sides that bear its label", "a carton has 1 to %d sides for its label, not %d", MaxSides, k.Sides.V)
		}
		if k.Ends.Set() && (k.Ends.V < 1 || k.Ends.V > MaxSides) {
			c.wrong(k.Ends.Pos, "carton", "count the sides that bear a box-end label", "a carton has 1 to %d sides for a box-end label, not %d", MaxSides, k.Ends.V)
		}
		c.amount(k.Tare, "the tare", true)
	})
}

// quids: a decision is about something that is in the product, and is one.
func (c *checker) quids() {
	c.products(func(p *Product) {
		var inside []string
		whole := c.linked(p)
		c.reach(p.ID, func(f *Formula, i *Ingredient) {
			if f != nil {
				whole = whole && !slices.ContainsFunc(f.Lines, c.loose)
				inside = append(inside, f.ID)
			} else {
				inside = append(inside, i.ID)
				inners(i.MadeOf, func(in Inner) {
					for _, name := range in.Name {
						inside = append(inside, name.V.V)
					}
				})
			}
		})
		for n, q := range p.Percent {
			switch {
			case q.Of.Set() && !slices.ContainsFunc(inside, func(id string) bool { return strings.EqualFold(id, q.Of.V) }) && whole:
				c.wrong(q.Of.Pos, "percent", meant(q.Of.V, inside, "name an ingredient or formula of it"), "there is no %q in %s", q.Of.V, p.ID)
			case slices.ContainsFunc(p.Percent[:n], func(r Percent) bool { return r.Of.V == q.Of.V }):
				c.wrong(q.Pos, "percent", "leave one of the two", "two decisions about %q", q.Of.V)
			}
			if q.Because.Set() == q.Exempt.Set() && c.whole(q.Pos) {
				c.wrong(q.Pos, "percent", "write because: where the quantity is declared, exempt: where it is not", "this decision must say either because or exempt")
			}
		}
	})
}
