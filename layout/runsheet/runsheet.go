// Package runsheet answers: what must be ticked before the paper leaves?
//
// [Compose] sets the run sheet of one day: for each run the product, its
// batch and date, what was printed (labels and cartons with their first and
// last numbers), what to compare, boxes to tick and to fill in; below, the
// cautions of the day, the words that a native reader has to check, and what
// the sheet cannot know. What one page has no room for goes on the next;
// nothing is left out.
//
// Letters are read in the hand, at 0.4 m, and larger where the page has room.
package runsheet

import (
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is the run sheet of one day.
type Sheet struct {
	Shop     *shop.Shop
	Lang     *words.Lang // of the sheet itself; it must have the words of a sheet
	Day      unit.Date
	Left     []Left // what is not printed; it stands first
	Void     []Void // numbers that are no longer in the plan
	Runs     []Run
	Accepted []Accepted
	Cautions []diag.Diag
	Stock    *stock.Stock // such as card-a4
	Dots     unit.Dots
}

// Part is a carton that is not full, or mixed: the packs in it, and its number.
type Part struct {
	Packs unit.Count
	SSCCs []string
}

// Run is one product of the day.
type Run struct {
	Facts   *declare.Facts
	Told    []*words.Label // as the label says it, one for each language
	Batch   string
	Pieces  unit.Count
	Labels  unit.Count // printed, now and before
	Numbers string     // of the labels printed now, such as 0001-0024; "" where labels bear none
	Before  []string   // of those printed before on the same day
	Paper   string     // id of the label stock
	Scan    string     // what a scanner must show of the batch mark of the first label; "" for none
	Cartons int
	Packs   unit.Count // in each carton
	SSCCs   []string   // one for each carton printed now, or none
	// SSCCsBefore are those of the cartons printed before on the same day, as they
	// were given together.
	SSCCsBefore [][]string
	Parts       []Part // cartons that are not full of the run's packs
	// Keys are words from memory that were used beside Told, keys of the
	// language files by language code: those of the carton label.
	Keys map[string][]string
}

// Accepted is a place in the law that nobody here has read, and who signed for
// it.
type Accepted struct {
	market.Place
	By        string
	On, Until unit.Date
}

// Left is a run of which something is left out, because something is wrong.
type Left struct {
	Product string // its id; its name may be what is wrong
	Pieces  unit.Count
	What    string // which paper
	Why     []diag.Diag
}

// Void is numbers of labels or cartons that the plan no longer asks for: nothing
// may bear them.
type Void struct {
	Product, Batch string
	What           string   // which paper
	Numbers        []string // as they stand on it
}

// Heights gives the least x-height of all words of the sheet, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	return compose.Heights(least(), role.Name, role.Batch, role.Date, role.Net, role.Allergens, role.May, role.Serial, role.Amount, role.Note, role.Step)
}

// least is the least height of capitals on the sheet.
func least() unit.Length {
	capital, _ := compose.Legible(compose.InHand)
	return capital
}

// Compose sets the pages. What goes wrong is a finding; the pages are then
// nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := compose.Tell("run sheet", s.Shop.Profile.Pos, found, s.Lang)
	if !t.Speaks("begin card-languages with", "sheet") {
		return nil
	}
	c := content(t, s)
	if !t.Done() {
		return nil
	}
	paper, size := compose.On(s.Stock, s.Dots, faces), faces.Regular.SizeForCap(least())
	return t.Pages(compose.Fewest(size, size.Mul(13, 10), func(size unit.Length) ([]*page.Page, error) {
		return layout(paper, c, size)
	}))
}
