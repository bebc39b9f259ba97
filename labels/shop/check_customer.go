package shop

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
)

// customers: numbers and post codes can stand in bars, and no two customers
// have one name or one place.
func (c *checker) customers() {
	names, places := map[string]diag.Pos{}, map[string]diag.Pos{}
	for _, id := range c.CustomerIDs {
		k := c.Customers[id]
		c.codes(k.Languages)
		c.once(k.Name, strings.ToLower(k.Name.V), names, "give each a name that tells it from the other", "there is another customer %q, at %s")
		c.once(k.GLN, k.GLN.V, places, "copy the number again; each place has one of its own", "the number %q is another customer's, at %s")
		c.customerPlace(k)
	}
}

// once reports a text that another one has said already.
func (c *checker) once(t Text, like string, first map[string]diag.Pos, hint, format string) {
	if !t.Set() {
		return
	}
	if at, twice := first[like]; twice {
		c.wrong(t.Pos, "customer", hint, format, t.V, at)
		return
	}
	first[like] = t.Pos
}

func (c *checker) customerPlace(k *Customer) {
	if k.GLN.Set() {
		if err := gs1.ValidAs(gs1.GLN, k.GLN.V); err != nil {
			c.wrong(k.GLN.Pos, "gln", "copy it again, in quotes and without spaces", "%v", err)
			return
		}
	}
	if _, known := gs1.CountryNumber(k.Country.V); k.Country.Set() && !known {
		c.wrong(k.Country.Pos, "country", "write two capital letters, such as FR", "%q is not a country code of ISO 3166", k.Country.V)
		return
	}
	if k.Country.Set() && !k.PostCode.Set() {
		c.wrong(k.Country.Pos, "post-code", "write post-code: beside it", "a country alone is no place")
	}
	for _, e := range (&Customer{PostCode: k.PostCode, Country: k.Country}).place() {
		if err := gs1.Check(e); err != nil {
			c.wrong(k.PostCode.Pos, "post-code", "write it as the post does, or take it out and write gln:", "bars cannot carry this post code: %v", err)
		}
	}
}

// consignments: a run or a pallet goes to a customer of the shop, under an
// order number that bars can carry, and with one where the customer wants it.
func (c *checker) consignments() {
	c.eachRun(func(_ *Plan, r Run) { c.consigned(r.For, r.Order, r.Cartons.V > 0, r.Pos) })
}

func (c *checker) consigned(to, order Text, packed bool, at diag.Pos) {
	if order.Set() {
		if err := gs1.Check(gs1.Element{AI: "400", Value: order.V}); err != nil {
			c.wrong(order.Pos, "order", "write it without spaces, at most 30 characters", "bars cannot carry this order number: %v", err)
		}
		if !to.Set() {
			c.wrong(order.Pos, "order", "write for: with the id of the customer", "whose order is %q?", order.V)
		}
	}
	if !to.Set() {
		return
	}
	k := c.Customers[to.V]
	switch {
	case k == nil && !c.refused[to.V]:
		c.wrong(to.Pos, "customer", meant(to.V, c.CustomerIDs, c.whichCustomers()), "there is no customer %q", to.V)
	case k != nil && k.Want("order-number") && packed && !order.Set():
		c.wrong(to.Pos, "order", "write order: with the number of the customer's order", "%s takes no cartons without the number of its order", k.Name.V)
	}
}

func (c *checker) whichCustomers() string {
	if len(c.CustomerIDs) == 0 {
		return "write customers/ID.yaml with the name and the address"
	}
	return "customers are " + list(c.CustomerIDs)
}
