package shop

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
)

// Customer is a house that cartons and pallets are shipped to, and what it
// wants to read on them.
type Customer struct {
	Pos       diag.Pos
	ID        string
	Name      Text   `key:"name" must:"yes" help:"Name of the customer as it stands on carton labels and in traces."`
	Address   Text   `key:"address" must:"yes" help:"Where the goods go."`
	GLN       Text   `key:"gln" help:"Number of the place that the goods go to (GLN), 13 digits, as text; the bars then say it as (410)."`
	PostCode  Text   `key:"post-code" help:"Post code of that place, for the bars where there is no gln: (420), or with country (421)."`
	Country   Text   `key:"country" help:"Country of the post code in two letters, such as FR; left out for goods that stay in the country."`
	Languages []Text `key:"languages" help:"Codes of the languages of the customer's carton labels; those of the pack when left out." list:"language"`
	Wants     []Text `key:"wants" one:"day-made|day-packed|order-number" help:"What the customer wants beside the usual: the day made (11) or packed (13) on each carton; an order number, without which nothing is packed."`
}

// Want reports whether the customer wants something.
func (c *Customer) Want(what string) bool {
	return c != nil && slices.ContainsFunc(c.Wants, func(t Text) bool { return t.V == what })
}

// Consignment is for whom cartons are packed, on which order, and when.
type Consignment struct {
	To     *Customer // nil for nobody in particular
	Order  string    // number of the customer's order, or ""
	Made   unit.Date // of the food; zero where there are several
	Packed unit.Date
}

// Elements is what the bars say of it (GS1 General Specifications, 3.2: AIs
// 11, 13, 400, 410, 420, 421): the order, the place, and the days that the
// customer wants. The place is its number, or else its post code.
func (c Consignment) Elements() (els []gs1.Element) {
	if c.To.Want("day-made") && !c.Made.IsZero() {
		els = append(els, gs1.Element{AI: "11", Value: gs1.Date(c.Made)})
	}
	if c.To.Want("day-packed") && !c.Packed.IsZero() {
		els = append(els, gs1.Element{AI: "13", Value: gs1.Date(c.Packed)})
	}
	if c.To != nil {
		els = append(els, c.To.place()...)
	}
	if c.Order != "" {
		els = append(els, gs1.Element{AI: "400", Value: c.Order})
	}
	return els
}

// place is where the goods go, as bars say it.
func (c *Customer) place() []gs1.Element {
	code := strings.ToUpper(strings.ReplaceAll(c.PostCode.V, " ", ""))
	switch n, known := gs1.CountryNumber(c.Country.V); {
	case c.GLN.Set():
		return []gs1.Element{{AI: "410", Value: c.GLN.V}}
	case c.PostCode.Set() && known:
		return []gs1.Element{{AI: "421", Value: n + code}}
	case c.PostCode.Set() && !c.Country.Set():
		return []gs1.Element{{AI: "420", Value: code}}
	}
	return nil
}

// CustomerNamed finds a customer by its id, or by its name, whatever its
// capitals.
func (s *Shop) CustomerNamed(name string) (*Customer, bool) {
	if c := s.Customers[name]; c != nil {
		return c, true
	}
	for _, id := range s.CustomerIDs {
		if c := s.Customers[id]; strings.EqualFold(c.Name.V, strings.TrimSpace(name)) {
			return c, true
		}
	}
	return nil, false
}
