// Package cardlist answers: which cards are current?
//
// [Compose] sets the list that every card tells the cook to compare with: each
// card with its size, its check word and version, the languages that it speaks,
// the place where it hangs and which copy it is; and each card of the day's plan,
// which may hang nowhere. A copy that hangs with another word is told to come
// down.
package cardlist

import (
	"cmp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/list"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is the list of one day.
type Sheet struct {
	Shop  string // name of the business
	Lang  *words.Lang
	Day   unit.Date
	Cards []Card
	Stock *stock.Stock
	Dots  unit.Dots
}

// Card is one card: what it shows if it is current, and where a copy hangs.
type Card struct {
	Name    string
	Pieces  unit.Count // of the batch; 0 where it is told otherwise
	Size    string     // of the batch, where it is not of pieces
	Word    string     // check word of the current card
	Version string     // such as v4
	Langs   []string   // codes
	Place   string     // "" for a card of the day's plan, which hangs nowhere
	N, Of   int        // which copy of how many hangs there
	Hangs   string     // check word of the copy that hangs, where it is another
	Gone    bool       // there is no such card any more
}

// Heights gives the least x-height of the words of the list, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length { return list.Heights() }

// Compose sets the pages; without cards there are none. What goes wrong is a
// finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("list of current cards", diag.Pos{}, found, s.Lang), s}
	if !t.Speaks("print it in", "sheet", "card") {
		return nil
	}
	return list.Pages(t.Teller, compose.On(s.Stock, s.Dots, faces), t.list())
}

// teller says the list.
type teller struct {
	*compose.Teller
	Sheet
}

// list says the cards in the order of their names and sizes, so that one that is
// looked for is found.
func (t teller) list() list.List {
	l := list.New(t.Teller, t.Shop, "cards.title", "cards.do", t.Day)
	l.Cols = []list.Col{{Head: t.Word("withdraw.card"), Share: 52}, {Head: t.Word("card.check-word"), Kind: list.Fit}, {Head: t.Word("withdraw.place"), Share: 48}}
	cards := slices.Clone(t.Cards)
	slices.SortStableFunc(cards, func(a, b Card) int {
		return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.Pieces, b.Pieces), cmp.Compare(a.Size, b.Size), cmp.Compare(a.Place, b.Place), cmp.Compare(a.N, b.N))
	})
	for _, c := range cards {
		l.Rows = append(l.Rows, list.Row{Cells: []list.Cell{
			{Strong: c.Name, Under: t.about(c), Role: role.Name},
			{Strong: t.word(c), Role: role.Name},
			{Strong: c.Place, Under: t.copy(c), Role: role.Name}}})
	}
	return l
}

// about says size, languages and version.
func (t teller) about(c Card) string {
	size := c.Size
	if c.Pieces > 0 {
		size = t.Count("count.pieces", int64(c.Pieces))
	}
	version := ""
	if c.Version != "" {
		version = t.Fill("withdraw.version", map[string]string{"v": strings.TrimPrefix(c.Version, "v")})
	}
	parts := []string{size, strings.Join(c.Langs, ","+compose.NoBreak), version}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), " · ")
}

// word is the check word of the current card.
func (t teller) word(c Card) string {
	if c.Gone {
		return t.Word("withdraw.gone")
	}
	return c.Word
}

// copy says which copy hangs at the place, and whether it must come down.
func (t teller) copy(c Card) string {
	if c.Place == "" {
		return t.Word("cards.today")
	}
	out := t.Fill("card.copy", map[string]string{"n": t.Plain(int64(c.N)), "m": t.Plain(int64(c.Of))})
	if c.Hangs != "" && (c.Gone || c.Hangs != c.Word) {
		out += " – " + t.Fill("cards.old", map[string]string{"word": c.Hangs})
	}
	return out
}
