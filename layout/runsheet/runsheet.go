// Package runsheet answers: what must be ticked before the paper leaves?
//
// [Compose] sets the run sheet of one day: for each run the product, its
// batch and date, what was printed (labels and cartons with their first and
// last numbers), what to compare, boxes to tick and to fill in; below, the
// cautions of the day, the words that a native reader has to check, and what
// the sheet cannot know. What one page has no room for goes on the next;
// nothing is left out.
//
// Letters are read in the hand, at 0.4 m: capitals are at least 2 mm high, a
// two-hundredth of the distance (the rule of the FAA, read November 2026), and
// larger where the page has room.
package runsheet

import (
	"fmt"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is the run sheet of one day.
type Sheet struct {
	Shop     *shop.Shop
	Lang     *words.Lang // of the sheet itself; it must have the words of a sheet
	Day      unit.Date
	Runs     []Run
	Cautions []diag.Diag
	Stock    *stock.Stock // such as card-a4
	Dots     unit.Dots
}

// Run is one product of the day.
type Run struct {
	Facts   *declare.Facts
	Told    []*words.Label // as the label says it, one for each language
	Batch   string
	Pieces  unit.Count
	Labels  unit.Count // printed
	First   unit.Count // number of the first label; 0 where labels bear none
	Stock   string     // id of the label stock
	Cartons int
	Packs   unit.Count // in each carton
	SSCCs   []string   // one for each carton, or none
	// Keys are words from memory that were used beside Told, keys of the
	// language files by language code: those of the carton label.
	Keys map[string][]string
}

// Least is the least height of capitals on the sheet.
const Least = 2 * unit.MM

// Heights gives the least x-height of all words of the sheet, for checking the
// finished pages: in the shipped faces an x is 0.74 of a capital.
func Heights() map[page.Role]unit.Length {
	out := map[page.Role]unit.Length{}
	for _, r := range []page.Role{page.Name, page.Batch, page.Date, page.Net, page.Allergens, page.May, page.Serial, page.Amount, page.Note, page.Step} {
		out[r] = Least.Mul(74, 100)
	}
	return out
}

// Compose sets the pages. What goes wrong is a finding; the pages are then
// nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	if !s.Lang.Has("sheet") {
		found.Errorf(s.Shop.Profile.Pos, "words", "begin card-languages with en, fr or de", "there are no words for a run sheet in %s", s.Lang.Name())
		return nil
	}
	before := found.Errors()
	c := &composer{Sheet: s, faces: faces, found: found}
	pages, err := c.best()
	if err != nil {
		c.fail(err)
	}
	if found.Errors() > before {
		return nil
	}
	return pages
}

// best sets the sheet on as few pages as the least letters need, in the
// largest letters that need no more.
func (c *composer) best() ([]*page.Page, error) {
	least := c.faces.Regular.SizeForCap(Least)
	return flow.Fewest(least, least.Mul(13, 10), c.at)
}

// at sets the sheet with words of the given size.
func (c *composer) at(size unit.Length) ([]*page.Page, error) {
	c.small, c.large = size, size.Mul(4, 3)
	return c.pages()
}

// composer is one sheet under way.
type composer struct {
	Sheet
	faces        *text.Faces
	found        *diag.List
	small, large unit.Length // sizes of the face
}

func (c *composer) fail(err error) {
	c.found.AddError(err, diag.Diag{Pos: c.Shop.Profile.Pos, Rule: "words", Hint: "complete the language file", Msg: fmt.Sprintf("the run sheet: %v", err)})
}

// pages deals everything out to pages, and heads each.
func (c *composer) pages() ([]*page.Page, error) {
	w, h := c.Stock.Size()
	safe := page.Rect{W: w, H: h}.Inset(c.Stock.Safe.V + c.Dots.At(1))
	p := c.pen()
	top, err := p.Block(safe.W, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.head(p, r, 1, 1) })
	if err != nil {
		return nil, err
	}
	blocks, err := c.blocks(safe.W)
	if err != nil {
		return nil, err
	}
	room := safe
	room.Y, room.H = safe.Y+top.H+gap, safe.H-top.H-gap
	dealt, err := p.Pages(func(int) page.Rect { return room }, gap, blocks)
	if err != nil {
		return nil, err
	}
	var out []*page.Page
	for i, items := range dealt {
		q := c.pen()
		if _, err := c.head(q, safe, i+1, len(dealt)); err != nil {
			return nil, err
		}
		out = append(out, &page.Page{W: w, H: h, Items: append(q.Items, items...)})
	}
	return out, nil
}

// gap is the white between blocks.
const gap = 1500 * unit.UM

func (c *composer) pen() *flow.Pen { return &flow.Pen{Faces: c.faces, Dots: c.Dots} }

// blocks is all that the sheet says, in order.
func (c *composer) blocks(w unit.Length) ([]flow.Block, error) {
	var out []flow.Block
	for _, r := range c.Runs {
		if len(r.Told) == 0 {
			return nil, fmt.Errorf("the label of %s has no language", r.Facts.Product.ID)
		}
		b, err := c.pen().Block(w, func(p *flow.Pen, room page.Rect) (unit.Length, error) { return c.run(p, room, r) })
		if err != nil {
			return nil, err
		}
		b.Src = r.Facts.Product.Pos
		out = append(out, b)
	}
	for _, more := range []func(unit.Length) ([]flow.Block, error){c.cautions, c.doubts, c.figures, c.close} {
		bs, err := more(w)
		if err != nil {
			return nil, err
		}
		out = append(out, bs...)
	}
	return out, nil
}
