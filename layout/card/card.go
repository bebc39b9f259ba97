// Package card answers: what goes on the bench card?
//
// [Compose] sets the process card of one batch: who makes what, in which
// order, how much of it, until when, and what must never be missed. Letters
// are as large as the distance asks from which the paper is read; what does
// not fit goes on to the next page and is never made smaller. A step is never
// split, and a limit never leaves its step.
//
// What it says is found first, words and figures without paper: content.go, and
// the first half of the files that bear the name of a part of the card. Where
// that stands follows in their second half, and in layout.go, pages.go and
// setter.go.
package card

import (
	"sync"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	shoplook "chablon/layout/look"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Card is what a card is made from. Exactly one of Product and Formula is set.
type Card struct {
	Shop    *shop.Shop
	Product *shop.Product
	Formula *shop.Formula
	Batch   *scale.Batch
	Sizes   []*scale.Batch // other batch sizes, to be shown beside the one of the day
	Langs   []*words.Lang  // one or two; figures are written as in the first
	Stock   *stock.Stock
	Dots    unit.Dots // of the printer; zero when not known

	Contains     []string // allergen ids on this card, in the order of the law
	Pack         *shop.Pack
	Copy, Copies int         // 0 of 0 leaves the count out
	Place        string      // where it hangs; empty for a line to write on
	Code         bool        // adds a QR code of the check word, which wants the printer's dots
	Starts       []unit.Span // with Ready, when each step begins; the latest that its needs leave when left out
	Ready        unit.Span   // time of day at which all is to be ready; 0 leaves clock times out
	Baker        bool        // shows amounts as shares of the base of their formula too
	Form         Form
	Look         *shoplook.Look // of the shop; nil for none
}

// Form is how a card is set out.
type Form int

// The forms. The wall's is one sheet to hang up, at most two; the full one
// tells every step with its tools and looks, on as many pages as it takes.
const (
	Wall Form = iota
	Full
)

// Compose sets the card. What is missing, and what cannot be set, is added to
// found, and then there are no pages.
func Compose(c Card, faces *text.Faces, found *diag.List) []*page.Page {
	said := tell(c, found)
	if !said.teller.Done() {
		return nil
	}
	s := &sheet{Card: c, said: said, paper: compose.On(c.Stock, c.Dots, faces), found: found}
	var pages []*page.Page
	if c.Form == Full {
		pages = s.full().pages(s.bodies)
	} else {
		pages = append(s.hung(), s.sizesBeside()...)
	}
	if !said.teller.Done() {
		return nil
	}
	return s.crowned(pages)
}

// full makes ready for the full form.
func (s *sheet) full() *sheet {
	s.Form, s.z = Full, sizesAt(s.Stock, s.paper.Faces)
	s.measure()
	return s
}

// id is the id of the product or formula, and where it is written.
func (c Card) id() (string, diag.Pos) {
	switch {
	case c.Product != nil:
		return c.Product.ID, c.Product.Pos
	case c.Formula != nil:
		return c.Formula.ID, c.Formula.Pos
	}
	return "nothing", diag.Pos{}
}

// sizes are the sizes of letters and the thickness of lines on one paper. They
// follow from the distance from which it is read, by the height of a capital.
type sizes struct {
	small unit.Length // notes, tools, the second language: 1/200 of the distance
	read  unit.Length // what is done: a little larger, so that the languages differ
	body  unit.Length // amounts, allergens, limits: 20 minutes of arc
	key   unit.Length // temperatures, limits, step numbers: seen from the mixer
	clock unit.Length // minutes, and temperatures on the way
	batch unit.Length // how much is made
	title unit.Length // name and batch: at least twice the distance away
	most  unit.Length // the largest title: seen across the table

	hair, rule, thick, gap, pad unit.Length
}

// From where what is read, against the reading distance of the paper: a card
// above the bench at 0.7 m is read from the mixer at 1 m and across the table
// at 2 m (common practice, no source; the same distances as in labels/market).
const (
	near     = 7
	atMixer  = 10
	atTable  = 20
	titleMin = 14
)

// caps are the least heights of capitals.
func caps(s *stock.Stock) sizes {
	d := s.ReadAt.V
	small, _ := market.FindReading("aviation")
	body, _ := market.FindReading("preferred")
	return sizes{
		small: small.CapHeight(d),
		body:  body.CapHeight(d),
		key:   small.CapHeight(d.Mul(atMixer, near)),
		title: small.CapHeight(d.Mul(titleMin, near)),
		most:  small.CapHeight(d.Mul(atTable, near)),
	}
}

// sizesAt are the sizes for a paper in the faces.
func sizesAt(s *stock.Stock, faces *text.Faces) sizes {
	c, f := caps(s), faces.Regular
	z := sizes{small: f.SizeForCap(c.small), body: f.SizeForCap(c.body), key: f.SizeForCap(c.key),
		title: f.SizeForCap(c.title), most: f.SizeForCap(c.most)}
	z.read = text.Whole(z.small * 15 / 14)
	z.lines()
	return z
}

// lines sets the thickness of lines, and the white, by the smallest letters.
func (z *sizes) lines() {
	u := z.small
	z.hair, z.rule, z.thick, z.gap, z.pad = u/28, u/14, u/7, u*4/5, u*2/5
}

// shipped are the shipped faces, read once.
var shipped = sync.OnceValues(text.Load)

// Heights gives the least x-height of every role on a card of this paper: that
// of letters whose capitals are as high as the reading distance asks.
func Heights(s *stock.Stock, f Form) map[role.Role]unit.Length {
	faces, err := shipped()
	if err != nil {
		return nil // the same damage stops every card from being set
	}
	if f == Wall {
		return hungHeights(s, faces)
	}
	z := sizesAt(s, faces)
	x := func(size unit.Length) unit.Length { return min(faces.Regular.XHeight(size), faces.Bold.XHeight(size)) }
	return map[role.Role]unit.Length{
		role.Name: x(z.title), role.Batch: x(z.title),
		role.Heat: x(z.body), role.Limit: x(z.body), role.Amount: x(z.body), role.Allergens: x(z.body),
		role.Step: x(z.small), role.Keep: x(z.small), role.Note: x(z.small), role.Date: x(z.small), role.Furniture: x(z.small),
		role.List: x(z.body),
	}
}
