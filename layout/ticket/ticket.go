// Package ticket answers: what goes on the counter ticket?
//
// There are two forms. The standing ticket is one strip with two panels side
// by side, folded at the upright line between them: it stands on the counter
// like an open book turned away, so that both panels are read upright, the
// left one by the buyer and the right one by the staff. The shelf ticket is one
// panel for the buyer. A stock says by its fold which of the two it is.
//
// The buyer reads the name, the price, what it is like, the allergens and
// whether it contains alcohol; the staff read the list in full, how long it
// keeps, the batch rule and the version, with the check word of the card that
// it is made from. All of it comes from the same facts as the label.
package ticket

import (
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Ticket is what is to be set, in one or two languages. The first one is also
// that of the staff and of the figures.
type Ticket struct {
	Facts     *declare.Facts
	Told      []*words.Label // one for each language, in order
	Langs     []*words.Lang
	Shop      *shop.Shop
	Pack      *shop.Pack
	CheckWord string // of the card; empty leaves it out
	Stock     *stock.Stock
	Dots      unit.Dots
}

// Compose sets one ticket on a page of its stock; on a sheet it takes the
// first place. What is missing or does not fit is added to found, and then
// there are no pages.
func Compose(t Ticket, faces *text.Faces, found *diag.List) []*page.Page {
	art := Set(t, faces, found)
	if art == nil {
		return nil
	}
	return t.Stock.Deal([]*page.Art{art}, stock.Bed{Dots: t.Dots})
}

// Set sets one ticket by itself, for [Sheets]. It returns nil, with findings,
// when something is missing or does not fit.
func Set(t Ticket, faces *text.Faces, found *diag.List) *page.Art {
	before := found.Errors()
	s := tell(t, found)
	if found.Errors() > before {
		return nil
	}
	w, h := t.Stock.Size()
	c := &composer{Ticket: t, said: s, faces: faces, safe: page.Rect{W: w, H: h}.Inset(t.Stock.Safe.V)}
	if t.Dots.N > 0 {
		c.safe = c.safe.Inset(t.Dots.At(1)) // a rule may move by a dot
	}
	items := c.best()
	if items == nil {
		c.refuse(found)
		return nil
	}
	return &page.Art{W: w, H: h, Items: items}
}

// Heights are the least x-heights of a ticket for layout/preflight, beside
// those of the market: allergens are at least 12 pt high (a judgement of ours;
// no law sets a height for food that is not prepacked).
func Heights(faces *text.Faces) map[role.Role]unit.Length {
	return map[role.Role]unit.Length{role.Allergens: faces.Regular.XHeight(points(leastAllergens))}
}

// composer is one ticket under way.
type composer struct {
	Ticket
	*said
	faces *text.Faces
	safe  page.Rect // where marks may lie
	last  error     // why the last try did not fit
}

// best sets the ticket at the largest size that fits, or returns nil.
func (c *composer) best() []page.Item {
	var best []page.Item
	var top unit.Length
	flow.Largest(points(leastName), c.grown(mostName), 50, func(size unit.Length) bool {
		pen := &flow.Pen{Faces: c.faces, Dots: c.Dots}
		if c.last = c.set(pen, sizesAt(size)); c.last != nil {
			return false
		}
		if best == nil || size > top {
			best, top = pen.Items, size
		}
		return true
	})
	return best
}

// grown is a size for an A7 panel, larger on a larger ticket.
func (c *composer) grown(n int64) unit.Length {
	const a7 = 74 * unit.MM
	_, h := c.Stock.Size()
	return text.Whole(max(points(n), points(n).Mul(int64(h), int64(a7))))
}

// set tries one size.
func (c *composer) set(pen *flow.Pen, z sizes) error {
	if !c.Stock.Fold.Set() {
		return c.shelf(pen, c.safe, z)
	}
	left, right := c.panels()
	if err := c.front(pen, left, z); err != nil {
		return err
	}
	c.fold(pen)
	return c.back(pen, right)
}

// panels are the two halves of a folded ticket, as far from the fold as from
// the edge.
func (c *composer) panels() (left, right page.Rect) {
	left, right = c.safe, c.safe
	w, _ := c.Stock.Size()
	left.W = w/2 - c.Stock.Safe.V - left.X
	right.X = w - left.X - left.W
	right.W = left.W
	return left, right
}

// fold marks the fold with a short line at either end.
func (c *composer) fold(pen *flow.Pen) {
	w, _ := c.Stock.Size()
	const long, thick = 2 * unit.MM, 150 * unit.UM
	pen.Upright(w/2-thick/2, c.safe.Y, long, thick)
	pen.Upright(w/2-thick/2, c.safe.Bottom()-long, long, thick)
}

// refuse says that the ticket does not fit, and what can be done.
func (c *composer) refuse(found *diag.List) {
	w, h := c.Stock.Size()
	found.Errorf(c.Facts.Product.Pos, "does-not-fit",
		"take a larger ticket, such as a4-ticket-2 or shelf-100x60, or fewer languages; the allergens may not become smaller",
		"the ticket of %s does not fit on %s × %s (%s): %v", c.Facts.Product.ID, w, h, c.Stock.ID, c.last)
}
