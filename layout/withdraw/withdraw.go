// Package withdraw answers: which cards must come down?
//
// [Compose] sets the sheet that someone walks through the kitchen with: every
// posted copy that is out of date, in the order of the places, with what it
// bears (version and check word), what the card in force bears, a box to tick
// when it is down and one when it is not to be found; at the end, who did it
// and when. What one page has no room for goes on the next.
//
// Letters are read in the hand, at 0.4 m: capitals are at least 2 mm high, a
// two-hundredth of the distance (the rule of the FAA, read November 2026), and
// larger where the page has room.
package withdraw

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is the sheet of one day.
type Sheet struct {
	Shop    string // name of the business
	Lang    *words.Lang
	Day     unit.Date
	Entries []Entry
	Stock   *stock.Stock // such as card-a4
	Dots    unit.Dots
}

// Entry is one copy that must come down.
type Entry struct {
	register.Stale
	Name string // of the formula or product; its id where it has no name any more
}

// Least is the least height of capitals on the sheet.
const Least = 2 * unit.MM

// Heights gives the least x-height of the words of the sheet, for checking the
// finished pages: in the shipped faces an x is 0.74 of a capital.
func Heights() map[page.Role]unit.Length {
	return map[page.Role]unit.Length{page.Note: Least.Mul(74, 100), page.Name: Least.Mul(74, 100)}
}

// Compose sets the pages; without entries there are none. What goes wrong is a
// finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	if !s.Lang.Has("sheet") {
		found.Errorf(diag.Pos{}, "words", "print it in English, French or German", "there are no words for this sheet in %s", s.Lang.Name())
		return nil
	}
	if len(s.Entries) == 0 {
		return nil
	}
	c := &composer{Sheet: s, faces: faces}
	pages, err := c.best()
	if err != nil {
		c.fail(err, found)
		return nil
	}
	return pages
}

// composer is one sheet under way.
type composer struct {
	Sheet
	faces        *text.Faces
	small, large unit.Length // sizes of the face
	widest       unit.Length // of the copies' numbers
	err          error       // the first word that is missing
}

func (c *composer) fail(err error, found *diag.List) {
	found.AddError(err, diag.Diag{Rule: "words", Hint: "complete the language file", Msg: fmt.Sprintf("the sheet of cards to take down: %v", err)})
}

func (c *composer) pen() *flow.Pen { return &flow.Pen{Faces: c.faces, Dots: c.Dots} }

// gap is the white between blocks.
const gap = unit.MM

// best sets the sheet on as few pages as the least letters need, in the
// largest letters that need no more.
func (c *composer) best() ([]*page.Page, error) {
	least := c.faces.Regular.SizeForCap(Least)
	return flow.Fewest(least, least.Mul(7, 5), c.at)
}

// at sets the sheet with words of the given size.
func (c *composer) at(size unit.Length) ([]*page.Page, error) {
	c.small, c.large, c.widest = size, size.Mul(4, 3), 0
	for _, e := range c.Entries {
		c.widest = max(c.widest, c.faces.Bold.Width(number(e), c.large))
	}
	return c.pages()
}

// pages deals the rows out to pages, and heads each.
func (c *composer) pages() ([]*page.Page, error) {
	w, h := c.Stock.Size()
	safe := page.Rect{W: w, H: h}.Inset(c.Stock.Safe.V + c.Dots.At(1))
	top, err := c.pen().Block(safe.W, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.head(p, r, 1, 1) })
	if err != nil {
		return nil, err
	}
	blocks, err := c.blocks(safe.W)
	if err != nil {
		return nil, err
	}
	room := safe
	room.Y, room.H = safe.Y+top.H+gap, safe.H-top.H-gap
	dealt, err := c.pen().Pages(func(int) page.Rect { return room }, gap, blocks)
	if err != nil {
		return nil, err
	}
	var out []*page.Page
	for i, items := range dealt {
		p := c.pen()
		if _, err := c.head(p, safe, i+1, len(dealt)); err != nil {
			return nil, err
		}
		out = append(out, &page.Page{W: w, H: h, Items: append(p.Items, items...)})
	}
	return out, c.err
}

// blocks are the rows in the order of the walk, and the end.
func (c *composer) blocks(w unit.Length) ([]flow.Block, error) {
	entries := slices.Clone(c.Entries)
	slices.SortStableFunc(entries, func(a, b Entry) int { return register.CompareCopies(a.Copy, b.Copy) })
	var out []flow.Block
	for _, e := range entries {
		b, err := c.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.row(p, r, e) })
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	out[len(out)-1].Tied = true // who signs sees what was signed for
	end, err := c.pen().Block(w, c.end)
	return append(out, end), err
}

// word is the words for a key; the first that is missing ends the sheet.
func (c *composer) word(key string) string { return c.fill(key, nil) }

func (c *composer) fill(key string, slots map[string]string) string {
	s, err := c.Lang.Fill(key, slots)
	if err != nil && c.err == nil {
		c.err = err
	}
	return s
}

// version is a version as the sheet says it.
func (c *composer) version(v string) string {
	return c.fill("withdraw.version", map[string]string{"v": v})
}

// about says which of the copies of a card is meant.
func (c *composer) about(e register.Copy) string {
	parts := []string{c.fill("card.copy", map[string]string{"n": c.Lang.Plain(int64(e.N), 0), "m": c.Lang.Plain(int64(e.Of), 0)})}
	if e.Size != "" {
		parts = append([]string{e.Size}, parts...)
	}
	for _, s := range []string{e.Paper, strings.Join(e.Langs, ",\u00a0")} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, " · ")
}
