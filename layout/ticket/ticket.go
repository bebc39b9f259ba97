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
	"chablon/layout/compose"
	"chablon/layout/look"
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
	Look      *look.Look // of the shop; nil for the plain ticket
}

// Compose sets one ticket, for [stock.Imposition] to deal out. It returns nil, with
// findings, when something is missing or does not fit.
func Compose(t Ticket, faces *text.Faces, found *diag.List) *page.Art {
	said, ok := tell(t, found)
	if !ok {
		return nil
	}
	paper := compose.On(t.Stock, t.Dots, faces)
	items, err := looked(t, said, paper)
	if err != nil {
		compose.Refusal{At: t.Facts.Product.Pos, What: "the ticket of " + t.Facts.Product.ID, Stock: t.Stock,
			Hint: "take a larger ticket, such as a4-ticket-2 or shelf-100x60, or fewer languages; the allergens may not become smaller"}.Refuse(err, found)
		return nil
	}
	return paper.Art(items)
}

// looked sets the ticket as large as fits: with the whole look of the shop, with
// its fonts alone, or plain. What the buyer must read keeps its size; the look
// gives way.
func looked(t Ticket, said content, paper *compose.Paper) (items []page.Item, err error) {
	for _, c := range t.crowns() {
		items, _, err = compose.Best(points(leastName), grown(t.Stock, mostName), 50, func(size unit.Length) ([]page.Item, error) {
			s := paper.Setter()
			layout{t, said, paper, sizesAt(size), c}.set(s)
			return s.Items, s.Err()
		})
		if err == nil {
			return items, nil
		}
	}
	return nil, err
}

// Heights are the least x-heights of a ticket for layout/preflight, beside
// those of the market: allergens are at least 12 pt high (a judgement of ours;
// no law sets a height for food that is not prepacked).
func Heights(faces *text.Faces) map[role.Role]unit.Length {
	return map[role.Role]unit.Length{role.Allergens: faces.Regular.XHeight(points(leastAllergens))}
}

// Sizes in points. The name at 24 and the allergens at 12 or more are our own
// judgement of what is read across a counter; the staff read the ticket in the
// hand, at 8 pt where there is room: capitals of 2.0 mm, 1/200 of 0.4 m, the
// fraction that the FAA uses for what must be read.
const (
	mostName       = 24
	leastName      = 14
	leastAllergens = 12
	leastMay       = 9
	leastSmall     = 8
	mostStaff      = 9
)

// sizes are those of one try, all following the size of the name.
type sizes struct{ name, second, about, price, small, allergens, may unit.Length }

func points(n int64) unit.Length { return text.Hundredths(100 * n) }

// sizesAt gives the sizes that go with a name of the given size.
func sizesAt(name unit.Length) sizes {
	of := func(n, least int64) unit.Length {
		return text.Whole(max(name*unit.Length(n)/mostName, points(least)))
	}
	return sizes{
		name: name, second: of(14, 10), about: of(11, leastSmall), price: of(28, 20), small: of(10, leastSmall),
		allergens: of(13, leastAllergens), may: of(10, leastMay),
	}
}

// grown is a size for an A7 panel, larger on a larger ticket.
func grown(s *stock.Stock, n int64) unit.Length {
	const a7 = 74 * unit.MM
	_, h := s.Size()
	return text.Whole(max(points(n), points(n).Mul(int64(h), int64(a7))))
}
