package shop

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
)

// Operator is who stands behind the food in a market where it is not the shop
// itself: the importer, or the house that it is made for.
type Operator struct {
	Pos     diag.Pos
	Name    Text `key:"name" must:"yes" help:"Name as it stands on the label."`
	Address Text `key:"address" must:"yes" help:"Address as it stands on the label."`
	Country Text `key:"country" must:"yes" help:"Country of the address in two letters, such as GB."`
	Says    Text `key:"says" must:"yes" one:"imported-by|made-for|distributed-by|name-alone" help:"What the label says before the name; the United States want made-for or distributed-by of who did not make it."`
}

// OperatorIn is who stands behind the food in a market; nil is the shop itself.
func (p *Profile) OperatorIn(m *market.Market) *Operator {
	for i, e := range p.Operators {
		if strings.EqualFold(e.Key.V, m.Code) {
			return &p.Operators[i].V
		}
	}
	return nil
}

// operators: each is for a market that there is, and lives in a country.
func (c *checker) operators() {
	for _, e := range c.Profile.Operators {
		if !slices.Contains(market.Codes(), strings.ToLower(e.Key.V)) {
			c.wrong(e.Key.Pos, "market", "markets are "+strings.ToUpper(strings.Join(market.Codes(), ", ")), "there is no market %q", e.Key.V)
		}
		if k := e.V.Country; k.Set() {
			if _, ok := gs1.CountryNumber(k.V); !ok {
				c.wrong(k.Pos, "country", "write its code of two letters, such as GB", "there is no country %q", k.V)
			}
		}
	}
}
