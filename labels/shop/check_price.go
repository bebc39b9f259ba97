package shop

import (
	"unicode/utf8"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// prices: a shop sells in one currency, or somebody slipped.
func (c *checker) prices() {
	var first diag.At[unit.Money]
	c.products(func(p *Product) {
		for _, k := range p.Packs {
			for _, price := range []diag.At[unit.Money]{k.Price, k.PerKilo} {
				switch {
				case !price.Set():
				case !first.Set():
					first = price
				case price.V.Currency != first.V.Currency:
					c.caution(price.Pos, "price", "see whether the currency is right", "this price is in %s, others of the shop, as at %s, are in %s",
						price.V.Currency, first.Pos, first.V.Currency)
				}
			}
		}
	})
}

// costs: what is bought and the hour of work have prices in one currency, or they
// cannot be added up.
func (c *checker) costs() {
	first := c.Profile.Hour
	c.ingredients(func(i *Ingredient) {
		switch {
		case !i.Price.Set():
		case !first.Set():
			first = i.Price
		case i.Price.V.Currency != first.V.Currency:
			c.caution(i.Price.Pos, "price", "write it in "+first.V.Currency+"; until then it counts as not known", "this price is in %s, that at %s is in %s",
				i.Price.V.Currency, first.Pos, first.V.Currency)
		}
	})
}

// maxAbout is how many characters go on one line of a ticket.
const maxAbout = 60

// abouts: the line for the ticket is there in the languages of the labels and
// is one line.
func (c *checker) abouts() {
	c.products(func(p *Product) {
		if len(p.About) == 0 {
			return
		}
		c.named(p.About, p.Pos, "the line about "+p.ID, c.labelled(p))
		for _, e := range p.About {
			if n := utf8.RuneCountInString(e.V.V); n > maxAbout {
				c.wrong(e.V.Pos, "about", "say less; the ticket says the rest", "this line has %d characters, and a ticket has room for %d", n, maxAbout)
			}
		}
	})
}
