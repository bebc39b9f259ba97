// Package prep answers: what is made for the whole day, and what must be
// bought?
//
// [Compose] sets two lists. The prep list has every formula of the day once,
// however many products use it, in the order in which it is needed: when to
// begin, how much goes in and comes out, and the weights to split it into; then
// what is thawed, and what assortments take from other products. The shopping
// list has what must come into the house, by supplier, as bought and in whole
// packs, with room to write what is there already. What one page has no room
// for goes on the next; nothing is left out.
//
// The lists lie on the bench or hang on its shelf, at 0.5 m: capitals are at
// least 2.5 mm high, a two-hundredth of the distance (the rule of the FAA, read
// November 2026), and larger where the pages have room.
package prep

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is the lists of one day.
type Sheet struct {
	Shop *shop.Shop
	Lang *words.Lang
	Date unit.Date
	Day  *scale.Day
	// Ready is the time of day at which all is to be ready, Opens that at which
	// work begins; what cannot wait until then is made on a day before. With
	// Ready 0 the list says how long before the end each must be begun.
	Ready, Opens unit.Span
	Thaw         []Thaw
	Stock        *stock.Stock // such as card-a4
	Dots         unit.Dots
}

// Thaw is what comes out of the freezer: one of Ingredient and Formula.
type Thaw struct {
	Ingredient *shop.Ingredient
	Formula    *shop.Formula
	Mass       unit.Mass
}

// Least is the least height of capitals on the lists.
const Least = 2500 * unit.UM

// Heights gives the least x-height of the words of the lists, for checking the
// finished pages: in the shipped faces an x is 0.74 of a capital.
func Heights() map[page.Role]unit.Length {
	out := map[page.Role]unit.Length{}
	for _, r := range []page.Role{page.Name, page.Amount, page.Date, page.Note, page.Keep, page.Step} {
		out[r] = Least.Mul(74, 100)
	}
	return out
}

// Compose sets the pages, first those of the prep list. A list without lines
// has no page. What goes wrong is a finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	if !s.Lang.Has("sheet") {
		found.Errorf(s.Shop.Profile.Pos, "words", "begin card-languages with en, fr or de", "there are no words for a prep list in %s", s.Lang.Name())
		return nil
	}
	before := found.Errors()
	t := &teller{Sheet: s, found: found}
	lists := []list{t.prep(), t.shopping()}
	if found.Errors() > before {
		return nil
	}
	var all []*page.Page
	of := 0
	c := &composer{Sheet: s, faces: faces}
	for _, l := range lists {
		of += c.count(l)
	}
	for _, l := range lists {
		all = append(all, c.best(l, len(all), of)...)
	}
	if c.err != nil {
		c.fail(found)
		return nil
	}
	return all
}

// list is one of the two lists, said but not yet set.
type list struct {
	title, lead string
	heads       []string
	shape       shape
	rows        []row
	foot        string
}

// empty reports that there is nothing on the list but headings.
func (l list) empty() bool {
	for _, r := range l.rows {
		if r.head == "" {
			return false
		}
	}
	return true
}

// composer sets the lists.
type composer struct {
	Sheet
	faces *text.Faces
	err   error // the first thing that went wrong
}

func (c *composer) fail(found *diag.List) {
	found.AddError(c.err, diag.Diag{Pos: c.Shop.Profile.Pos, Rule: "words", Hint: "complete the language file", Msg: fmt.Sprintf("the prep list: %v", c.err)})
}

// count is how many pages a list takes in the least letters.
func (c *composer) count(l list) int {
	pages, err := c.pages(l, c.least(), 0, 99)
	if err != nil && c.err == nil {
		c.err = err
	}
	return len(pages)
}

func (c *composer) least() unit.Length { return c.faces.Regular.SizeForCap(Least) }

// best sets a list in the largest letters that need no more pages than the
// least, behind the pages of another list.
func (c *composer) best(l list, behind, of int) []*page.Page {
	if c.err != nil || l.empty() {
		return nil
	}
	least, n := c.least(), c.count(l)
	size, _ := flow.Largest(least, least.Mul(13, 10), 10, func(size unit.Length) bool {
		more, err := c.pages(l, size, behind, of)
		return err == nil && len(more) <= n
	})
	pages, err := c.pages(l, size, behind, of)
	if err != nil {
		c.err = err
	}
	return pages
}

// gap is the white between rows.
const gap = unit.MM

// pages deals the rows of a list out to pages, and heads each.
func (c *composer) pages(l list, size unit.Length, behind, of int) ([]*page.Page, error) {
	if l.empty() {
		return nil, nil
	}
	w, h := c.Stock.Size()
	safe := page.Rect{W: w, H: h}.Inset(c.Stock.Safe.V + c.Dots.At(1))
	s := c.setter(l, size, safe.W)
	top := s.block(safe.W, func(h *hand, r page.Rect) unit.Length { return s.top(h, r, 1, of) })
	blocks := s.blocks(safe.W)
	if s.err != nil {
		return nil, s.err
	}
	room := safe
	room.Y, room.H = safe.Y+top.H+gap, safe.H-top.H-gap
	dealt, err := s.deal(room, blocks)
	if err != nil {
		return nil, err
	}
	var out []*page.Page
	for i, items := range dealt {
		hd := &hand{Pen: s.pen()}
		s.top(hd, safe, behind+i+1, of)
		out = append(out, &page.Page{W: w, H: h, Items: append(hd.Items, items...)})
	}
	return out, nil
}
