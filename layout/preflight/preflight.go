// Package preflight answers: may this page be printed?
//
// It reads the finished page alone, without knowing who made it, and asks the
// market by role. Whatever it finds names the place in the shop's files that
// the mark came from. An error means that nothing is printed.
package preflight

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Sheet says what a page is to be checked against. Absent values are not
// checked: a card has no market, a run sheet no net quantity.
type Sheet struct {
	What   string         // for messages: "the label of pear-hazelnut-tartlet"
	Src    diag.Pos       // place of the product, for what has no mark to point at
	Safe   page.Rect      // where marks may lie
	Market *market.Market // whose law asks
	Pack   market.Pack    // how it is sold
	Use    gs1.Use        // where its bar codes are scanned
	Today  unit.Date
	Date   unit.Date // the last day printed on it
	Dots   unit.Dots // of the printer; labels that touch may share one dot
	// Area is the label as it is cut, Thermal whether its printer burns it, Tint the
	// colour of its paper.
	Area    page.Rect
	Thermal bool
	Tint    Tint
	// Heights gives the least x-height of roles where no law does, but reading
	// distance; it is looked up before the market.
	Heights map[role.Role]unit.Length
	// Mark is set where each label must bear a batch mark.
	Mark bool
	// Front is the number of the symbol that a label keeps a place for at the front
	// of the pack; 0 for none.
	Front int
	// Counter is set for a label that is printed at the scale.
	Counter *Counter
	// Months are the words for the months, by number, in the languages of the
	// page; they are asked for where the market wants the month as a word.
	Months map[int][]string
}

// check is one question; all of them are listed in checks.
type check func(s Sheet, items []page.Item, found *diag.List)

func checks() []check {
	return []check{inside, apart, readable, complete, beside, panelDrawn, symbolKept, listSetOff, netFigures, barsInRange, barsOnDots, digitsRight, marksAgree, counterAgrees, notPast, pictures, onTint, wears, overTheCut}
}

// Label checks one finished label or card: all its marks together.
func Label(s Sheet, items []page.Item, found *diag.List) {
	for _, c := range checks() {
		c(s, items, found)
	}
}

// Own checks the marks that differ from label to label against the artwork
// that stands still, which Label has passed once. It is quick, because it runs
// for each of ten thousand labels.
func Own(s Sheet, art, own []page.Item, found *diag.List) {
	inside(s, own, found)
	readable(s, own, found)
	marked := false
	for _, o := range own {
		marked = marked || o.Symbol != nil
		for _, a := range art {
			if clash(o, a) {
				overlap(s, o, a, found)
			}
		}
	}
	if marked || s.Mark && !slices.ContainsFunc(art, isMark) { // a mark with a running number says what its label says
		all := append(slices.Clone(own), art...)
		barsInRange(s, own, found)
		barsOnDots(s, own, found)
		marksAgree(s, all, found)
	}
}

// OnPaper checks that all marks of a page are on the paper once it is moved as
// its printer asks.
func OnPaper(s Sheet, p *page.Page, found *diag.List) {
	for _, it := range p.All() {
		if !p.Area().Inset(-s.dot()).Contains(it.Box) {
			found.Errorf(s.Src, "off-paper", "see what right: and down: say of the printer, or choose a smaller paper", "%s: %s runs off the sheet", s.What, name(it))
			return
		}
	}
}

// Placed checks that every label of a sheet lies on the paper and none on
// another. Each is moved to a whole dot, so that labels that touch on the paper
// may share the dot between them; and all are moved as the printer asks, so
// that it is the safe area, where marks may lie, that must be on the paper, and
// not on another's.
func Placed(s Sheet, p *page.Page, found *diag.List) {
	dot := s.dot()
	for i, a := range p.Placed {
		r := s.safe(page.Rect{X: a.X, Y: a.Y, W: a.Art.W, H: a.Art.H})
		if !p.Area().Inset(-dot).Contains(r) {
			found.Errorf(s.Src, "off-paper", "choose the paper that is in the printer", "%s runs off the sheet", s.What)
		}
		for _, b := range p.Placed[:i] {
			both := r.Common(s.safe(page.Rect{X: b.X, Y: b.Y, W: b.Art.W, H: b.Art.H}))
			if min(both.W, both.H) > dot {
				found.Errorf(s.Src, "off-paper", "look at the paper", "two labels of %s lie on each other", s.What)
			}
		}
	}
}

// dot is what labels that touch may share: a dot of the printer, and the
// nanometre by which places are rounded; nothing when the dots are not known.
func (s Sheet) dot() unit.Length {
	if s.Dots.N == 0 {
		return 0
	}
	return s.Dots.At(1) + 1
}

// safe is the safe area of a label that lies at r, or all of r when none is
// given.
func (s Sheet) safe(r page.Rect) page.Rect {
	if s.Safe == (page.Rect{}) {
		return r
	}
	return s.Safe.Moved(r.X, r.Y)
}
