// Package list answers: how is a list set that somebody works down?
//
// A [List] is what it says: a title and what to do, columns, rows with boxes to
// tick and boxes to write in, headings, and who signs. [Pages] deals lists out
// to as few pages as the least letters need, in the largest letters that need no
// more, with the heads of the columns and the heading that holds again on each
// page. Nothing is left out, and no name is so long that the list does not come.
//
// A sheet of the kitchen's day (layout/prep, shopping, order, record, cardlist)
// is then what it says, and one call.
package list

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
)

// List is one list, said but not yet set.
type List struct {
	Title, Lead string
	Shop        string // name of the business
	Tick        bool   // each row has a box to tick
	Cols        []Col
	Rows        []Row
	Sign        []string // what is to be written at the end, each on a line
	Foot        string

	page    func(n, of int) string
	again   func(head string) string // a heading, continued
	decimal string
	at      diag.Pos
}

// New begins a list of a day: its title, and what is to be done. Words for them
// are those of the keys title and do.
func New(t *compose.Teller, shop, title, do string, day unit.Date) List {
	return List{Title: compose.Capital(t.Word(title)) + " · " + t.Lang().Date(day, words.Long), Lead: t.Word(do), Shop: shop,
		page: t.Page, decimal: t.Decimal(), at: t.At(),
		again: func(head string) string { return t.Fill("sheet.more", map[string]string{"name": head}) }}
}

// Col is a column, with its share in percent of what the others leave.
type Col struct {
	Head  string
	Kind  Kind
	Share int64
}

// Kind says how wide a column is, and how its cells are set.
type Kind int

// The kinds of columns.
const (
	Words  Kind = iota // by its share
	Figure             // as wide as its amounts, under each other by their decimals
	Right              // as wide as its words, at the right
	Fit                // as wide as its words
	Write              // as wide as a hand needs
)

// Row is one line of a list: cells, a heading over the rows below it, or words
// across all columns with boxes to write in.
type Row struct {
	Head   string
	Cells  []Cell
	Say    string
	Fields []string // each in front of a box to write in, below Say
	Lines  []string // each under a line to write on, beside each other, below Say
	Tied   bool     // stands on the page of the row below it
	Src    diag.Pos
}

// Cell is what stands in a column: strong words with plain ones under them, and
// weights with a box to tick each. A cell with Write is a box to write in, its
// plain words in front.
type Cell struct {
	Strong, Under string
	Role          role.Role
	Parts         []Part
	Write         bool
}

// Part is a weight and what it is of or for.
type Part struct{ Mass, What string }

// Empty reports that there is nothing on the list but headings.
func (l List) Empty() bool {
	return !slices.ContainsFunc(l.Rows, func(r Row) bool { return r.Head == "" })
}

// Least is the least height of capitals on a list: it lies on the bench or hangs
// on its shelf.
func Least() unit.Length {
	capital, _ := compose.Legible(compose.OnBench)
	return capital
}

// Heights gives the least x-height of the words of a list, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	return compose.Heights(Least(), role.Name, role.Amount, role.Date, role.Note, role.Keep, role.Step)
}

// Pages sets each list on as few pages as the least letters need, in the largest
// letters that need no more. Their pages are counted through; a list without
// lines has none. What goes wrong is a finding of t, and then there are no pages.
func Pages(t *compose.Teller, paper *compose.Paper, lists ...List) []*page.Page {
	if !t.Done() {
		return nil
	}
	return t.Pages(pages(slices.DeleteFunc(lists, List.Empty), paper))
}

func pages(lists []List, paper *compose.Paper) ([]*page.Page, error) {
	size := paper.Faces.Regular.SizeForCap(Least())
	of := 0
	for _, l := range lists {
		few, err := l.layout(paper, size, 0, 0)
		if err != nil {
			return nil, err
		}
		of += len(few)
	}
	var all []*page.Page
	for _, l := range lists {
		more, err := compose.Fewest(size, size.Mul(13, 10), func(size unit.Length) ([]*page.Page, error) {
			return l.layout(paper, size, len(all), of)
		})
		if err != nil {
			return nil, err
		}
		all = append(all, more...)
	}
	return all, nil
}

// Step is how fine a mass is shown: grams, and tenths below 100 g.
func Step(m unit.Mass) unit.Mass {
	if m < 100*unit.Gram {
		return unit.Gram / 10
	}
	return unit.Gram
}

// Grams is a mass in grams, as fine as [Step] says.
func Grams(l *words.Lang, m unit.Mass) string { return GramsIn(l, m.Round(Step(m)), Step(m)) }

// GramsIn is a mass in grams with the decimals of a step.
func GramsIn(l *words.Lang, m, step unit.Mass) string {
	decimals := 0
	if step < unit.Gram {
		decimals = 1
	}
	return l.MassIn(m, "g", decimals)
}
