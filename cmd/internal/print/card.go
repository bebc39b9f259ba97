package print

import (
	"fmt"
	"io"
	"slices"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/card"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/tub"
)

// CardRequest asks for the bench card of a formula or a product. At most one of
// Pieces, Mass and Have says how much; with none of them it is the formula as
// written, or one tray of the product.
type CardRequest struct {
	ID           string
	Pieces       unit.Count
	Mass         unit.Mass
	Ingredient   string // with Have: "I have this much of that"
	Have         unit.Mass
	Paper        string // id of the card stock; "" for card-a4
	Languages    []string
	Copy, Copies int // 0 means 1 of 1
	Place        string
	Sizes        []unit.Count // other batch sizes of a product to show
	Ready        unit.Span    // time of day at which all is to be ready; 0 for none
	Baker        bool         // shows amounts as shares of the base too
}

// Card makes the bench card of a formula or a product.
func (p *Press) Card(r CardRequest) ([]Paper, error) {
	c, err := p.lookUpCard(r)
	if err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	pages := p.composeCard(c)
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	return []Paper{p.cardPaper(c, r, pages)}, nil
}

// lookUpCard finds everything that the request names and scales the batch.
func (p *Press) lookUpCard(r CardRequest) (c card.Card, err error) {
	c = card.Card{Shop: p.Shop, Product: p.Shop.Products[r.ID], Formula: p.Shop.Formulas[r.ID],
		Copy: max(1, r.Copy), Copies: max(1, r.Copies), Place: r.Place, Ready: r.Ready, Baker: r.Baker}
	if c.Product == nil && c.Formula == nil {
		return c, usage.Unknown("formula or product", r.ID, p.CardIDs())
	}
	if c.Langs, err = languages(r.Languages, p.Shop.Profile.CardLanguages); err != nil {
		return c, err
	}
	if len(c.Langs) > 2 {
		return c, usage.Errorf("print a second card for the others", "a card has room for two languages, not for %d", len(c.Langs))
	}
	var printer shop.Printer
	if c.Stock, printer, err = p.stock(r.Paper, "card-a4"); err != nil {
		return c, err
	}
	if c.Stock.Kind.V != "card" {
		return c, usage.Errorf("a card is printed on paper whose id begins with card-", "%s is no paper for a card", c.Stock.ID)
	}
	c.Dots = printer.Resolution.V
	c.Code = coded(c.Stock, c.Dots)
	if p.Found.Errors() > 0 {
		return c, nil // the shop's files are not sound enough to scale
	}
	if c.Batch, err = p.batch(r, c); err != nil {
		return c, usage.Errorf("", "no batch of %s: %v", r.ID, err)
	}
	if c.Sizes, err = p.sizes(r, c); err != nil {
		return c, err
	}
	if c.Product != nil && len(c.Product.Packs) > 0 {
		c.Pack = &c.Product.Packs[0]
	}
	c.Contains = p.containsOf(c)
	return c, nil
}

// coded tells whether a card bears a code: where the printer's dots are known
// and the paper is A5 or larger.
func coded(s *stock.Stock, dots unit.Dots) bool {
	w, h := s.Size()
	return dots.N > 0 && min(w, h) >= 148*unit.MM
}

// sizes scales the other batch sizes that are shown on the card of a product.
func (p *Press) sizes(r CardRequest, c card.Card) ([]*scale.Batch, error) {
	var out []*scale.Batch
	if c.Product == nil && len(r.Sizes) > 0 {
		return nil, usage.Errorf("batch sizes are for the card of a product", "%s is a formula, and a formula is not made by pieces", r.ID)
	}
	if len(r.Sizes) > 3 {
		return nil, usage.Errorf("name at most three", "the card of %s has no room for %d batch sizes", r.ID, len(r.Sizes))
	}
	for _, n := range r.Sizes {
		b, err := scale.Pieces(p.Shop, c.Product, n)
		if err != nil {
			return nil, usage.Errorf("", "no batch of %s: %v", r.ID, err)
		}
		out = append(out, b)
	}
	return out, nil
}

// batch scales what the card is about.
func (p *Press) batch(r CardRequest, c card.Card) (*scale.Batch, error) {
	switch {
	case r.Ingredient != "":
		return scale.Have(p.Shop, r.ID, r.Ingredient, r.Have)
	case c.Formula != nil && r.Mass > 0:
		return scale.Mass(p.Shop, c.Formula, r.Mass)
	case c.Formula != nil && r.Pieces == 0:
		return scale.Mass(p.Shop, c.Formula, c.Formula.Out())
	case c.Product == nil:
		return nil, fmt.Errorf("a formula is made by mass: give --mass")
	case r.Mass > 0:
		return nil, fmt.Errorf("a product is made by pieces: give --pieces")
	case r.Pieces > 0:
		return scale.Pieces(p.Shop, c.Product, r.Pieces)
	case c.Product.Tray != nil:
		return scale.Pieces(p.Shop, c.Product, c.Product.Tray.Holds.V)
	}
	return scale.Pieces(p.Shop, c.Product, 24)
}

// containsOf lists the allergens that are in the room with this card.
func (p *Press) containsOf(c card.Card) []string {
	if c.Product != nil {
		m, err := p.market("")
		if err != nil {
			return nil
		}
		return declare.Of(p.Shop, c.Product, &c.Product.Packs[0], m, p.Today, p.Found).Contains
	}
	contains, _ := tub.Allergens(p.Shop, c.Formula)
	return contains
}

// composeCard sets the card and checks every page of it.
func (p *Press) composeCard(c card.Card) []*page.Page {
	pages := card.Compose(c, p.faces, p.Found)
	for _, pg := range pages {
		preflight.Label(preflight.Sheet{What: "the card of " + cardID(c), Src: cardAt(c), Use: gs1.Retail,
			Safe: pg.Area().Inset(c.Stock.Safe.V), Heights: card.Heights(c.Stock)}, pg.All(), p.Found)
	}
	return pages
}

func cardID(c card.Card) string {
	if c.Product != nil {
		return c.Product.ID
	}
	return c.Formula.ID
}

func (p *Press) cardPaper(c card.Card, r CardRequest, pages []*page.Page) Paper {
	about := fmt.Sprintf("card of %s, %s", counted(len(pages), "page", "pages"), c.Stock.ID)
	name := "card-" + cardID(c)
	if r.Pieces > 0 {
		name += fmt.Sprintf("-%d", r.Pieces) // two batches of one day have a card each
	}
	return Paper{Name: name + ".pdf", About: about, Pages: len(pages),
		write: func(w io.Writer, tick func()) error {
			return pdf.Write(w, pdf.Doc{Title: "Card " + r.ID, Lang: c.Langs[0].Code(), Made: p.Made,
				Pages: ticking(slices.Values(pages), tick)})
		}}
}

func cardAt(c card.Card) diag.Pos {
	if c.Product != nil {
		return c.Product.Pos
	}
	return c.Formula.Pos
}
