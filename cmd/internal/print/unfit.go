package print

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
)

// doubt is why paper that goes to a buyer stays a draft, whoever approved it:
// a few words for the mark across it, and the finding.
type doubt struct {
	short string
	diag.Diag
}

// doubts lists what can keep approved paper a draft. A further ground is a line
// here, and no kind of paper can go around it.
func doubts() []func(*Job) []doubt {
	return []func(*Job) []doubt{(*Job).unread, (*Job).example, (*Job).symbolDue, (*Job).unsourced, (*Job).unweighed}
}

// unfit makes paper that was set a draft for every doubt that nobody has signed
// for.
func (j *Job) unfit() {
	if !j.Kind.sold() {
		return
	}
	for _, doubts := range doubts() {
		for _, d := range doubts(j) {
			j.Draft, j.Why = true, append(j.Why, d.short)
			d.Warning = true
			j.Found.Add(d.Diag)
		}
	}
}

// Accepted is a place in the law that nobody here has read, and the signature
// that a paper relies on for it.
type Accepted struct {
	market.Place
	By shop.Accepted
}

// unread are the places in the law that the paper rests on, that were written
// from memory, and that nobody in the shop has signed for.
func (j *Job) unread() []doubt {
	var open []market.Place
	for _, q := range j.Market.UnreadOf(j.asPack()) {
		if by, ok := j.Shop.Profile.Accepts(q, j.Today); ok {
			j.Accepted = append(j.Accepted, Accepted{q, by})
			continue
		}
		open = append(open, q)
	}
	if len(open) == 0 {
		return nil
	}
	var marks, places []string
	for _, q := range open {
		marks, places = append(marks, q.Mark()), append(places, fmt.Sprintf("%s (%s)", q.Role, q.Cite))
	}
	return []doubt{{code(j.Market) + ": " + strings.Join(marks, " "), diag.Diag{
		Pos: j.Pack.Pos, Rule: "draft",
		Hint: fmt.Sprintf("read the law there; then sign in shop.yaml: accept-unread: [{market: %s, rows: [%s], by: NAME, on: %s}]", code(j.Market), strings.Join(marks, ", "), j.Today),
		Msg:  fmt.Sprintf("%s for %s is a draft: nobody here has read what it rests on: %s", j.what(), code(j.Market), strings.Join(places, "; "))}}}
}

// symbolDue is the symbol at the front of the pack, which nobody here can draw:
// a label keeps an empty frame for it.
func (j *Job) symbolDue() []doubt {
	n := j.front()
	if n == 0 {
		return nil
	}
	return []doubt{{fmt.Sprintf("%s: symbol %d due", code(j.Market), n), diag.Diag{
		Pos: j.Pack.Pos, Rule: "draft",
		Hint: "put symbol " + fmt.Sprint(n) + " of Health Canada's compendium into the empty frame at the front of the pack",
		Msg:  fmt.Sprintf("%s for %s is a draft: symbol %d due at the front of the pack, and it is not drawn here (%s)", j.what(), code(j.Market), n, j.Market.Nutrition.Symbol.Cite)}}}
}

// front is the number of the symbol that a sale label must bear; 0 for none.
func (j *Job) front() int {
	if j.Kind.Name != "label" || j.Facts == nil || j.Facts.Nutrition == nil || !j.Facts.Nutrition.Symbol.Due() {
		return 0
	}
	return j.Facts.Nutrition.Symbol.Version
}

// asPack is the paper as the market's rules see it.
func (j *Job) asPack() market.Pack {
	if j.Kind.Judge != nil {
		return j.Kind.Judge(j)
	}
	return marketPack(j)
}
